//! Clauses that cannot do what they are there for.

use crate::base::{HasNotice, Notice, Passage};
use crate::measure::Measure;

/// What a clause that cannot do what it is there for comes to.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// A condition that can never be so.
    Never {
        /// Its words.
        words: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
    },
    /// Two conditions that cannot both be so.
    NeverBoth {
        /// The words of the first.
        first: Passage,
        /// The words of the second.
        second: Passage,
        /// The limits that they read.
        limits: Vec<LimitValue>,
    },
    /// Two bounds with nothing between.
    Crossed {
        /// The lower one.
        least: BoundValue,
        /// The upper one.
        most: BoundValue,
    },
    /// A requirement that is never met where the rule applies.
    NeverPasses {
        /// The words of the requirement.
        words: Passage,
        /// The words of the `where` that keep it from being met.
        narrowed_by: Option<Passage>,
        /// The limits that both read.
        limits: Vec<LimitValue>,
    },
    /// A requirement that is met whatever is built.
    AlwaysHolds {
        /// The words of the requirement.
        words: Passage,
        /// The words of the `where` that settle it.
        narrowed_by: Option<Passage>,
        /// The limits that both read.
        limits: Vec<LimitValue>,
    },
    /// Two rules of which whatever both speak of breaks one.
    NeverBothRules {
        /// What the one asks.
        words: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
        /// The other's name, and its set's title.
        other: (String, String),
        /// What the other asks.
        other_words: Passage,
        /// The limits that that reads.
        other_limits: Vec<LimitValue>,
    },
    /// One of several ways to meet a requirement that another of them leaves nothing to do.
    Idle {
        /// Its words.
        words: Passage,
        /// Those of the other.
        beside: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
    },
    /// A value that is undefined whatever is built.
    Undefined {
        /// Its words.
        words: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
    },
    /// A value compared with a multiple of itself.
    OfItself {
        /// The words of the comparison.
        words: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
    },
    /// A `where` that narrows nothing.
    NarrowsNothing {
        /// Its words.
        words: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
    },
}

/// What a comparison does to its rule that comes out the same for whatever is in proportion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Settles {
    /// Always so: it asks for nothing.
    Met,
    /// Never so: nothing meets it.
    Unmet,
    /// Never so, and a condition: the rule applies to nothing.
    Idle,
}

/// A limit with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitValue {
    /// Its name.
    pub name: String,
    /// Its value.
    pub value: Measure,
    /// The metric figure beside it.
    pub metric: Option<Measure>,
}

/// A bound, with the name of the limit that sets it where one does.
#[derive(Debug, Clone, PartialEq)]
pub struct BoundValue {
    /// The limit's name.
    pub limit: Option<String>,
    /// Its value.
    pub value: Measure,
    /// The metric figure beside it.
    pub metric: Option<Measure>,
}

impl HasNotice for Fault {
    fn notice(&self) -> Notice {
        match self {
            Fault::Never { .. } | Fault::NeverBoth { .. } => Notice::NeverHolds,
            Fault::NeverBothRules { .. } => Notice::NeverBothRules,
            Fault::Crossed { .. } => Notice::CrossedBounds,
            Fault::NeverPasses { .. } => Notice::NeverPasses,
            Fault::Undefined { .. } => Notice::ImpossibleNumber,
            Fault::AlwaysHolds { .. } | Fault::NarrowsNothing { .. } | Fault::OfItself { .. } => Notice::AlwaysHolds,
            Fault::Idle { .. } => Notice::AddsNothing,
        }
    }
}

impl Fault {
    /// Whether the rule would do harm, or nothing at all. One that always holds is only idle; of two that quarrel nobody
    /// knows which was meant.
    pub fn spoils(&self) -> bool {
        !matches!(self.notice(), Notice::AlwaysHolds | Notice::NeverBothRules | Notice::AddsNothing)
    }
}
