//! What is offered in place of what stands there, with the change of the text, and what a change came to.

use crate::base::Span;
use crate::check::loaded::RuleRef;
use crate::measure::Measure;
use crate::model::{Design, Id, Kind, PropertyName};
use crate::rules::Node;

/// What would pass in place of what stands there.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Fix {
    /// What is offered.
    pub offer: Offer,
    /// The change of the design's text; empty where the words to change are not in it, or are the writer's to choose.
    pub edits: Vec<Edit>,
    /// Every rule that holds now and would not then, those that are required first. Of another value no more than one of them is.
    pub then_breaks: Vec<RuleRef>,
}

impl Fix {
    pub(super) fn new(offer: Offer) -> Self {
        Self { offer, edits: Vec::new(), then_breaks: Vec::new() }
    }

    pub(super) fn with_edit(mut self, span: Span, text: impl Into<String>) -> Self {
        self.edits.push(Edit { span, text: text.into() });
        self
    }

    /// Whether the offered change was made to the design and the rule then held. What is only an example was not.
    pub fn was_tried(&self) -> bool {
        match self.offer {
            Offer::Value { .. }
            | Offer::Item(_)
            | Offer::Steps { .. }
            | Offer::BalusterSpacing { .. }
            | Offer::BalusterCount(_)
            | Offer::FastenerLength { .. } => true,
            Offer::Draw { .. } | Offer::TreatedTimber | Offer::Coating(_) => !self.edits.is_empty(),
            Offer::Both(..) => true,
            Offer::RoundedEdge => false,
        }
    }

    /// How many rules with `shall` it breaks.
    pub(super) fn required(&self) -> usize {
        self.then_breaks.iter().filter(|unmet| unmet.rule().shall).count()
    }

    /// Whether it is worth an offer by itself: what mends a rule and breaks several is no cure, nor is what another
    /// required rule bounds from the other side.
    pub(super) fn serves(&self) -> bool {
        matches!(self.offer, Offer::Draw { .. }) || self.required() <= 1 && !self.is_bounded_otherwise()
    }

    /// Whether a required rule that names the very statement would be unmet then.
    fn is_bounded_otherwise(&self) -> bool {
        let Offer::Value { property, .. } = self.offer else { return false };
        self.then_breaks.iter().map(RuleRef::rule).any(|rule| rule.shall && rule.requirement.names(property))
    }

    /// Whether it was tried and breaks nothing.
    pub(in crate::check) fn is_clean(&self) -> bool {
        self.was_tried() && self.then_breaks.is_empty()
    }
}

/// New words for a place of the design's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The words to take out.
    pub span: Span,
    /// What to write in their place.
    pub text: String,
}

/// What is offered.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Offer {
    /// A value of a property, as a design states it.
    Value {
        /// The property.
        property: PropertyName,
        /// Its value in the words of a design.
        value: String,
    },
    /// One size for every item of a list.
    Item(Measure),
    /// Risers or runs, and the runs that go with another number of risers.
    Steps {
        /// `risers` or `runs`.
        property: PropertyName,
        /// The list in the words of a design.
        list: String,
        /// How many runs go with it, where their number changes.
        runs: Option<usize>,
    },
    /// Balusters of one width at another spacing.
    BalusterSpacing {
        /// The width of one along the guard.
        width: Measure,
        /// Centre to centre, level.
        every: Measure,
    },
    /// Another number of balusters between two posts.
    BalusterCount(f64),
    /// Fasteners of another length.
    FastenerLength {
        /// `bolts`, `lags`, `screws` or `nails`.
        property: PropertyName,
        /// Under the head to the tip.
        length: Measure,
    },
    /// Something to draw.
    Draw {
        /// The kind that is lacking.
        kind: &'static Kind,
        /// How one is drawn.
        how: Drawn,
    },
    /// Two changes that pass together, where neither serves alone.
    Both(Box<Offer>, Box<Offer>),
    /// Treated timber, or one that lasts where it stands.
    TreatedTimber,
    /// A coating of these for the fasteners.
    Coating(Vec<String>),
    /// An edge that is rounded.
    RoundedEdge,
}

impl Offer {
    /// Whether it is a value of the same property as another offer is.
    pub(super) fn is_of_what(&self, other: &Offer) -> bool {
        let property = |offer: &Offer| match offer {
            Offer::Value { property, .. } | Offer::Steps { property, .. } | Offer::FastenerLength { property, .. } => {
                Some(*property)
            }
            _ => None,
        };
        property(self).is_some_and(|own| property(other) == Some(own))
    }
}

/// How a thing that is lacking is drawn.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Drawn {
    /// As this example of its kind, in the design's units.
    Example(String),
    /// As this example at the place that the rule names.
    AtPlace(String),
    /// With this property stated so.
    Stating(PropertyName, String),
    /// In any way in which this holds.
    Where(Box<Node>),
}

/// What a change was tried by.
pub(in crate::check) enum By {
    /// Another stated value, in this design.
    Value(Design),
    /// Another text, read again.
    Text,
}

/// What a change that was tried came to.
pub(in crate::check) struct Tried {
    /// The change of the text.
    pub edits: Vec<Edit>,
    /// What it was tried by.
    pub by: By,
    /// Every rule that held and does not then.
    pub then_breaks: Vec<RuleRef>,
    /// What the rules that did not hold come to then for each thing for which they do not pass.
    pub then: Vec<Then>,
}

/// What a rule that did not hold comes to after a change, for a thing for which it does not pass.
#[derive(Clone)]
pub(in crate::check) struct Then {
    pub rule: RuleRef,
    /// The thing as it was before the change; nothing for one that only the change draws.
    pub thing: Option<Id>,
    /// It fails. If not, it does not apply any more or is not known: it was evaded, not met.
    pub fails: bool,
}
