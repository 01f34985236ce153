//! A clause whose names are looked up: what the evaluator walks.

use crate::base::Span;
use crate::derive::Quantity;
use crate::measure::Measure;
use crate::model::{Kind, Property};
use crate::syntax::{Aggregate, Relation};

/// A resolved expression.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// Any holds.
    Any(Vec<Node>),
    /// All hold.
    All(Vec<Node>),
    /// It does not hold.
    Not(Box<Node>),
    /// Neighbours compared: terms with their places, one relation fewer.
    Chain(Vec<(Node, Span)>, Vec<Relation>),
    /// A word is among these, or, if the flag is set, is not.
    Is(Box<Node>, bool, Vec<String>, Span),
    /// Sum, or difference if the flag is set.
    Sum(Box<Node>, bool, Box<Node>),
    /// Product, or quotient if the flag is set.
    Product(Box<Node>, bool, Box<Node>),
    /// The other sign.
    Negative(Box<Node>),
    /// How many there are.
    Count(Collected),
    /// A quantity summed up over a collection.
    Over(Aggregate, What, Collected),
    /// The lesser of two, or the greater if the flag is set.
    Pick(bool, Box<Node>, Box<Node>),
    /// A figure.
    Figure(Measure),
    /// A limit of the rule, by its place in the list.
    Limit(usize),
    /// A quantity or property, of the element or of something it belongs to.
    Read(What, Vec<&'static Kind>),
}

/// Things of a kind, perhaps narrowed.
#[derive(Debug, Clone, PartialEq)]
pub struct Collected {
    /// The kind.
    pub kind: &'static Kind,
    /// What narrows it.
    pub condition: Option<Box<Node>>,
}

/// Something a rule reads of an element.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum What {
    /// A quantity.
    Quantity(&'static Quantity),
    /// A quantity asked at a place.
    At(&'static Quantity, Place),
    /// A stated property.
    Property(&'static Property),
}

/// Where a quantity is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Place {
    /// At this length.
    Figure(Measure),
    /// At a limit of the rule, by its place in the list.
    Limit(usize),
}

impl Node {
    /// Whether the value is read as it stands, not reckoned from others.
    pub fn is_plain(&self) -> bool {
        matches!(self, Node::Read(..) | Node::Count(_) | Node::Over(..))
    }

    /// Whether the value is a number of things, or a sum of such.
    pub fn counts(&self) -> bool {
        match self {
            Node::Count(_) => true,
            Node::Sum(a, _, b) => a.counts() && b.counts(),
            _ => false,
        }
    }

    /// Whether the value depends on the rule alone, not on a design.
    pub fn is_constant(&self) -> bool {
        match self {
            Node::Figure(_) | Node::Limit(_) => true,
            Node::Negative(inner) => inner.is_constant(),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => a.is_constant() && b.is_constant(),
            _ => false,
        }
    }

    /// Shows it and every node in it, those in the conditions of what it counts too.
    pub fn each(&self, see: &mut dyn FnMut(&Node)) {
        see(self);
        match self {
            Node::Any(terms) | Node::All(terms) => terms.iter().for_each(|term| term.each(see)),
            Node::Not(inner) | Node::Negative(inner) | Node::Is(inner, ..) => inner.each(see),
            Node::Chain(terms, _) => terms.iter().for_each(|(term, _)| term.each(see)),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                a.each(see);
                b.each(see);
            }
            Node::Count(collected) | Node::Over(_, _, collected) => {
                collected.condition.iter().for_each(|condition| condition.each(see));
            }
            Node::Figure(_) | Node::Limit(_) | Node::Read(..) => {}
        }
    }

    /// Shows everything that is read in it, in the conditions of what it counts too.
    pub(super) fn reads(&self, see: &mut dyn FnMut(What)) {
        self.each(&mut |node| match node {
            Node::Over(_, what, _) | Node::Read(what, _) => see(*what),
            _ => {}
        });
    }

    /// Shows every two neighbours that are compared in it, those in the conditions of what it counts too.
    pub(super) fn pairs(&self, see: &mut dyn FnMut(&Node, &Node)) {
        match self {
            Node::Any(terms) | Node::All(terms) => terms.iter().for_each(|term| term.pairs(see)),
            Node::Not(inner) | Node::Negative(inner) | Node::Is(inner, ..) => inner.pairs(see),
            Node::Chain(terms, _) => {
                for pair in terms.windows(2) {
                    if let [(a, _), (b, _)] = pair {
                        see(a, b);
                    }
                }
                terms.iter().for_each(|(term, _)| term.pairs(see));
            }
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                a.pairs(see);
                b.pairs(see);
            }
            Node::Count(collected) | Node::Over(_, _, collected) => {
                collected.condition.iter().for_each(|condition| condition.pairs(see));
            }
            Node::Figure(_) | Node::Limit(_) | Node::Read(..) => {}
        }
    }
}
