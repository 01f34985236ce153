//! What can be wrong with a ruleset, as values. Their English is made in `wording`.

mod amendment;
mod block;
mod clause;
mod fault;
mod proof;
mod set;

pub use amendment::{AmendmentProblem, RowMeant, Withdrawer};
pub use block::{BesideFault, BlockProblem, Holder, PropertyMeant, StatementMeant, TableFault};
pub use clause::{ClauseProblem, Counting, QuantityMeant, Without};
pub use fault::{BoundValue, Fault, LimitValue, Settles};
pub use proof::{Altered, Decided, DecidedTerm, Lacks, Otherwise};
pub use set::{BlockKind, LineMeant, MoreNames, SetProblem};

use crate::base::{HasNotice, Notice, Passage, Severity, Span};
use crate::syntax::{self, FragmentKind};

/// A problem of a ruleset.
#[derive(Debug, Clone, PartialEq)]
pub enum Problem {
    /// The text could not be read so far as to its clauses, or a clause could not.
    Syntax(syntax::Problem),
    /// The file, its heading, or what it takes in.
    Set(SetProblem),
    /// What stands in the block of a rule, an amendment or a withdrawal.
    Block(BlockProblem),
    /// A change to a rule of the set below.
    Amendment(AmendmentProblem),
    /// A name or a dimension of a clause.
    Clause(ClauseProblem),
    /// A clause that cannot do what it is there for.
    Unsound {
        /// What it comes to.
        fault: Fault,
        /// An amendment made it so.
        amended: bool,
        /// The words in the same text that those at fault quarrel with.
        against: Option<Span>,
    },
    /// A comparison that nothing in proportion decides.
    OutOfProportion {
        /// What that does to the rule.
        settles: Settles,
        /// Its words.
        words: Passage,
        /// The limits that it reads.
        limits: Vec<LimitValue>,
    },
    /// A fragment that does not show what it is there for.
    Unproven {
        /// The rule's name.
        rule: String,
        /// What the fragment should show.
        kind: FragmentKind,
        /// What came of it.
        otherwise: Otherwise,
    },
    /// A change of a rule that none of its fragments notices.
    NotNoticed {
        /// The rule's name.
        rule: String,
        /// What was changed.
        altered: Altered,
    },
    /// A rule that the set amends, without fragments of its own that show it.
    UnprovenAmendment {
        /// The rule's name.
        rule: String,
        /// What it lacks.
        lacks: Lacks,
    },
}

impl From<syntax::Problem> for Problem {
    fn from(problem: syntax::Problem) -> Self {
        Problem::Syntax(problem)
    }
}

impl From<SetProblem> for Problem {
    fn from(problem: SetProblem) -> Self {
        Problem::Set(problem)
    }
}

impl From<BlockProblem> for Problem {
    fn from(problem: BlockProblem) -> Self {
        Problem::Block(problem)
    }
}

impl From<AmendmentProblem> for Problem {
    fn from(problem: AmendmentProblem) -> Self {
        Problem::Amendment(problem)
    }
}

impl From<ClauseProblem> for Problem {
    fn from(problem: ClauseProblem) -> Self {
        Problem::Clause(problem)
    }
}

impl Problem {
    /// Whether it concerns whoever is checked against the set, and not only who writes it.
    pub fn concerns_designs(&self) -> bool {
        let told = [Notice::TitleOfShipped, Notice::OutOfProportion];
        self.notice().severity() != Severity::Advised || told.contains(&self.notice())
    }
}

impl HasNotice for Problem {
    fn notice(&self) -> Notice {
        match self {
            Problem::Syntax(problem) => problem.notice(),
            Problem::Set(problem) => problem.notice(),
            Problem::Block(problem) => problem.notice(),
            Problem::Amendment(problem) => problem.notice(),
            Problem::Clause(problem) => problem.notice(),
            Problem::Unsound { fault, .. } => fault.notice(),
            Problem::OutOfProportion { .. } => Notice::OutOfProportion,
            Problem::Unproven { .. } => Notice::Unproven,
            Problem::NotNoticed { .. } => Notice::NotNoticed,
            Problem::UnprovenAmendment { .. } => Notice::UnprovenAmendment,
        }
    }
}
