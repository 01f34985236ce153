//! The sentence by which a rule tells a finding, with named places that the figures of the finding are put into.

use super::node::{Node, What};
use crate::base::{Source, Span};

/// A sentence of a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Saying {
    /// What has to have decided for it to be said; always, if nothing.
    pub of: Option<String>,
    /// Its words and places, in order.
    pub pieces: Vec<Piece>,
    /// The text that it stands in.
    pub source: Source,
    /// Where it stands there.
    pub span: Span,
}

/// A piece of a sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Words.
    Text(String),
    /// A place.
    Put(Puts, Shown),
}

/// What is put into a place.
#[derive(Debug, Clone, PartialEq)]
pub enum Puts {
    /// Something of the finding.
    Own(Own),
    /// A value of the thing that the finding is about.
    Node(Node),
}

/// Something of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Own {
    /// Who it is about.
    Element,
    /// What the design has.
    Value,
    /// What is asked.
    Limit,
    /// What is asked, with how it stands to it: `at most 7-3/4"`.
    Asked,
    /// By how much it misses.
    Miss,
    /// The rule's verb.
    Verb,
    /// The design's own words.
    Words,
}

impl Own {
    /// Every one.
    pub const ALL: [Own; 7] = [Own::Element, Own::Value, Own::Limit, Own::Asked, Own::Miss, Own::Verb, Own::Words];

    /// The word for it in a sentence.
    pub fn word(self) -> &'static str {
        match self {
            Own::Element => "element",
            Own::Value => "value",
            Own::Limit => "limit",
            Own::Asked => "asked",
            Own::Miss => "miss",
            Own::Verb => "verb",
            Own::Words => "words",
        }
    }
}

/// How a value is put in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Shown {
    /// As it is.
    Plain,
    /// In hundredths.
    Percent,
    /// Counted: the words behind one, and those behind several.
    Counted(String, String),
}

/// Whether a condition reads or counts something of this name.
pub fn speaks_of(node: &Node, name: &str) -> bool {
    let mut found = false;
    spoken_of(node, &mut |known| found |= known == name);
    found
}

/// Shows the names of all that a condition reads or counts.
pub(super) fn spoken_of(node: &Node, see: &mut dyn FnMut(&'static str)) {
    node.each(&mut |node| match node {
        Node::Read(what, _) | Node::Over(_, what, _) => see(match what {
            What::Quantity(quantity) | What::At(quantity, _) => quantity.name,
            What::Property(property) => property.name,
        }),
        Node::ReadAt(quantity, ..) => see(quantity.name),
        Node::Count(collected) => see(collected.kind.plural),
        _ => {}
    });
}
