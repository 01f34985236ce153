//! A rule that is not met, as a value: which rule, for which things, by which numbers, at which words, and what would
//! pass in their place.

use std::sync::Arc;

use super::fix::Fix;
use super::loaded::RuleRef;
use super::view::View;
use crate::base::{Severity, Source, Span};
use crate::derive::Datum;
use crate::model::{Design, Id, Kind, PropertyName, Side, Waiver};
use crate::rules::{Decision, Own, Shown};

/// A rule that is not met.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RuleFinding {
    /// The rule, and the set that was asked for.
    pub rule: RuleRef,
    /// As drawn, or as measured.
    pub view: View,
    /// The design's text.
    pub source: Source,
    /// The things drawn, in that view.
    pub design: Arc<Design>,
    /// Every thing that misses at these words.
    pub elements: Vec<Id>,
    /// The one that misses by most.
    pub element: Id,
    /// What decided for that one.
    pub decision: Decision,
    /// The rule's own sentence for it, and for what else misses; nothing where it has none.
    pub said: Vec<Option<Said>>,
    /// The words that it rests on, those to change first.
    pub places: Vec<Place>,
    /// Words of the shop's file that it rests on.
    pub shop_places: Vec<Place>,
    /// What would pass; not sought where it is waived.
    pub fix: Option<Fix>,
    /// The waiver that excuses it: it is told, and fails nothing.
    pub waived: Option<Arc<Waiver>>,
    /// A baseline knows it, for everything that misses: it is told, and fails nothing.
    pub known: bool,
}

impl RuleFinding {
    /// How grave it is, by the rule's verb.
    pub fn severity(&self) -> Severity {
        if self.rule.rule().shall { Severity::Broken } else { Severity::Advised }
    }

    /// The words to change first.
    pub fn place(&self) -> Option<Span> {
        self.places.first().map(|place| place.span)
    }
}

/// A rule's sentence, with the values of its thing put in.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Said {
    /// Its pieces, in order.
    pub pieces: Vec<SaidPiece>,
}

/// A piece of a rule's sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum SaidPiece {
    /// Words.
    Text(String),
    /// Something of the finding.
    Own(Own, Shown),
    /// A value of the thing.
    Value(Datum, Shown),
}

/// Words, and what they are to a finding.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Place {
    /// The words.
    pub span: Span,
    /// What they are.
    pub role: Role,
}

/// What words are to a finding.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Role {
    /// They state a property.
    Stated {
        /// The property.
        property: PropertyName,
        /// Of what.
        element: Id,
        /// In which view.
        view: View,
    },
    /// They draw the thing that misses, of which nothing that decides is stated.
    Drawn(Id),
    /// They draw what has none of a kind, or too few.
    Lacks {
        /// What has none.
        element: Id,
        /// The kind.
        kind: &'static Kind,
        /// Whether any are drawn.
        drawn: HowMany,
        /// The sides at which it lacks one, where that is known.
        sides: Vec<Side>,
        /// Those at which a guard or a wall stands, and does not close them from end to end.
        short: Vec<Side>,
    },
    /// They draw a thing of the kind that is lacking, which does not count as one.
    DoesNotCount(Id),
    /// They call for a section that the shop's file defines.
    StockedSection,
}

/// How many are drawn of what is lacking.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HowMany {
    /// None is.
    None,
    /// Too few are.
    TooFew,
}
