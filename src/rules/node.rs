//! A clause whose names are looked up: what the evaluator walks.

use crate::base::Span;
use crate::derive::Quantity;
use crate::measure::Measure;
use crate::model::{Kind, Property, PropertyName, Takes};
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
    /// The row of a table that holds.
    ByRow(Vec<Row>),
    /// A value read between the rows of a table, in proportion.
    Between(Box<Node>, Vec<(Measure, usize)>),
    /// A quantity or property, of the element or of something it belongs to.
    Read(What, Vec<Of>),
    /// A quantity asked at a place that is worked out for the element.
    ReadAt(&'static Quantity, Box<Node>, Vec<Of>),
    /// A value as it is drawn, whatever was measured.
    Drawn(Box<Node>),
    /// A value as it was measured.
    Measured(Box<Node>),
}

/// A row of a table: the limit that counts where its condition holds, by its place in the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// When it counts; always, if nothing.
    pub when: Option<Node>,
    /// The limit.
    pub limit: usize,
}

/// A step from a thing to another that it belongs to, or stands beside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Of {
    /// The kind of the other.
    pub kind: &'static Kind,
    /// Which one of that kind.
    pub which: Which,
}

/// Which one of a kind is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// The one that the thing belongs to or serves.
    TheOne,
    /// The one before it, going up.
    Before,
    /// The one after it, going up.
    After,
    /// The first, going up.
    First,
    /// The last, going up.
    Last,
}

impl Of {
    /// As a clause names it.
    pub fn words(&self) -> String {
        let kind = self.kind.name;
        match self.which {
            Which::TheOne => kind.to_owned(),
            Which::Before => [kind, "before"].join(" "),
            Which::After => [kind, "after"].join(" "),
            Which::First => ["first", kind].join(" "),
            Which::Last => ["last", kind].join(" "),
        }
    }
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

/// Quantities of which no value lies between two whole numbers; a test holds each to the catalogue.
const COUNTS: [&str; 22] = [
    "baluster count",
    "balusters for",
    "bare sides",
    "board count",
    "fastener count",
    "foot fasteners",
    "handrail sides",
    "head fasteners",
    "index",
    "legs",
    "most fasteners",
    "open sides",
    "props",
    "rail fasteners",
    "rail posts",
    "railed sides",
    "riser count",
    "risers missed",
    "spans",
    "switch floors",
    "tread fasteners",
    "winder count",
];

impl Node {
    /// Whether no value of it lies between two whole numbers.
    pub fn is_count(&self) -> bool {
        match self {
            Node::Count(_) => true,
            Node::Sum(a, _, b) => a.is_count() && b.is_count() || a.is_count() && b.is_constant(),
            Node::Read(what, _) | Node::Over(Aggregate::Total | Aggregate::Largest | Aggregate::Smallest, what, _) => {
                match what {
                    What::Property(property) => property.takes == Takes::Count,
                    What::Quantity(entry) => COUNTS.contains(&entry.name) || entry.name.starts_with("unrailed "),
                    What::At(..) => false,
                }
            }
            _ => false,
        }
    }

    /// Whether the value is read as it stands, not reckoned from others.
    pub fn is_plain(&self) -> bool {
        match self {
            Node::Read(..) | Node::ReadAt(..) | Node::Count(_) | Node::Over(..) => true,
            Node::Drawn(inner) | Node::Measured(inner) => inner.is_plain(),
            _ => false,
        }
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

    /// Whether the value is what a rule asks: one that depends on the rule alone, or is chosen from its table.
    pub fn is_asked(&self) -> bool {
        match self {
            Node::Figure(_) | Node::Limit(_) | Node::ByRow(_) | Node::Between(..) => true,
            Node::Negative(inner) => inner.is_asked(),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => a.is_asked() && b.is_asked(),
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
            Node::ByRow(rows) => rows.iter().filter_map(|row| row.when.as_ref()).for_each(|when| when.each(see)),
            Node::Between(inner, _) | Node::ReadAt(_, inner, _) | Node::Drawn(inner) | Node::Measured(inner) => {
                inner.each(see);
            }
            Node::Figure(_) | Node::Limit(_) | Node::Read(..) => {}
        }
    }

    /// Shows everything that is read in it, in the conditions of what it counts too.
    pub(super) fn reads(&self, see: &mut dyn FnMut(What)) {
        self.each(&mut |node| match node {
            Node::Over(_, what, _) | Node::Read(what, _) => see(*what),
            Node::ReadAt(quantity, ..) => see(What::Quantity(quantity)),
            _ => {}
        });
    }

    /// Whether it reads this property, or the quantity that stands for it by the same name, plainly or worked on: `hole play`.
    pub fn names(&self, property: PropertyName) -> bool {
        let mut names = false;
        self.reads(&mut |what| {
            let of_quantity = |entry: &Quantity| {
                let own = entry.kind.properties.iter().find(|own| own.handle() == property);
                let rest = own.and_then(|own| entry.name.strip_prefix(own.name));
                rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
            };
            names |= match what {
                What::Quantity(entry) | What::At(entry, _) => of_quantity(entry),
                What::Property(own) => own.handle() == property,
            };
        });
        names
    }

    /// The limits that it is, or may be: itself, or the rows of its table.
    pub fn limits(&self) -> Vec<usize> {
        match self {
            Node::Limit(at) => vec![*at],
            Node::ByRow(rows) => rows.iter().map(|row| row.limit).collect(),
            Node::Between(_, rows) => rows.iter().map(|(_, limit)| *limit).collect(),
            _ => Vec::new(),
        }
    }

    /// Shows every limit that is read in it, by its place in the list.
    pub(super) fn reads_limits(&self, see: &mut dyn FnMut(usize)) {
        self.each(&mut |node| match node {
            Node::Read(What::At(_, Place::Limit(at)), _) | Node::Over(_, What::At(_, Place::Limit(at)), _) => see(*at),
            node => node.limits().into_iter().for_each(&mut *see),
        });
    }

    /// Has it read its limits at other places of the list.
    pub(super) fn relimit(&mut self, moved: &dyn Fn(usize) -> usize) {
        let asked = |what: &mut What| {
            if let What::At(_, Place::Limit(at)) = what {
                *at = moved(*at);
            }
        };
        match self {
            Node::Any(terms) | Node::All(terms) => terms.iter_mut().for_each(|term| term.relimit(moved)),
            Node::Not(inner)
            | Node::Negative(inner)
            | Node::Is(inner, ..)
            | Node::Drawn(inner)
            | Node::Measured(inner) => {
                inner.relimit(moved);
            }
            Node::Chain(terms, _) => terms.iter_mut().for_each(|(term, _)| term.relimit(moved)),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                a.relimit(moved);
                b.relimit(moved);
            }
            Node::Count(collected) => collected.condition.iter_mut().for_each(|condition| condition.relimit(moved)),
            Node::Over(_, what, collected) => {
                asked(what);
                collected.condition.iter_mut().for_each(|condition| condition.relimit(moved));
            }
            Node::Limit(at) => *at = moved(*at),
            Node::ByRow(rows) => {
                for row in rows {
                    row.limit = moved(row.limit);
                    row.when.iter_mut().for_each(|when| when.relimit(moved));
                }
            }
            Node::Between(by, rows) => {
                by.relimit(moved);
                rows.iter_mut().for_each(|(_, limit)| *limit = moved(*limit));
            }
            Node::Read(what, _) => asked(what),
            Node::ReadAt(_, place, _) => place.relimit(moved),
            Node::Figure(_) => {}
        }
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
            Node::ByRow(rows) => rows.iter().filter_map(|row| row.when.as_ref()).for_each(|when| when.pairs(see)),
            Node::Between(inner, _) | Node::ReadAt(_, inner, _) | Node::Drawn(inner) | Node::Measured(inner) => {
                inner.pairs(see);
            }
            Node::Figure(_) | Node::Limit(_) | Node::Read(..) => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::derive::{Gives, quantities};

    #[test]
    fn what_is_counted_is_in_the_catalogue() {
        for name in COUNTS {
            let found = quantities().find(|entry| entry.name == name);
            assert_eq!(
                found.map(|entry| entry.gives),
                Some(Gives::Measure(crate::measure::Dimension::NUMBER)),
                "{name}"
            );
        }
    }
}
