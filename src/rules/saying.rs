//! The sentence by which a rule tells a finding, with named places that the figures of the finding are put into.

use super::node::Node;
use super::problem::{BlockProblem, ClauseProblem, Problem};
use super::resolve::{self, Names};
use crate::base::names::nearest;
use crate::base::{Reporter, Source, Span};
use crate::model::Kind;
use crate::syntax::{self, Expr};

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
    pub const ALL: [Own; 7] =
        [Own::Element, Own::Value, Own::Limit, Own::Asked, Own::Miss, Own::Verb, Own::Words];

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

/// A sentence as a block states it, not read yet.
pub(super) struct StatedSaying {
    /// The name behind `says`, and where it stands.
    pub of: Option<(String, Span)>,
    /// The text between its quotes.
    pub span: Span,
}

/// Reads the sentences of a rule: each place names something of the finding, or of what the rule speaks of.
pub(super) fn sayings(
    stated: &[StatedSaying],
    kind: &'static Kind,
    names: Names<'_>,
    requirement: &Node,
    report: &mut Reporter<'_, Problem>,
) -> Vec<Saying> {
    let mut found = Vec::new();
    for saying in stated {
        if let Some((of, span)) = &saying.of
            && !speaks_of(requirement, of)
        {
            let mut known = Vec::new();
            spoken_of(requirement, &mut |name| known.push(name));
            let near = nearest(of, known.iter().copied());
            report.push(*span, BlockProblem::SaysOfNothing { name: of.clone(), near, known });
            continue;
        }
        let source = report.source.clone();
        if let Some(pieces) = pieces(&source, saying.span, kind, names, report) {
            let of = saying.of.as_ref().map(|(of, _)| of.clone());
            found.push(Saying { of, pieces, source, span: saying.span });
        }
    }
    found
}

/// Whether a condition reads or counts something of this name.
pub fn speaks_of(node: &Node, name: &str) -> bool {
    let mut found = false;
    spoken_of(node, &mut |known| found |= known == name);
    found
}

fn spoken_of(node: &Node, see: &mut dyn FnMut(&'static str)) {
    use super::node::What;
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

fn pieces(
    source: &Source,
    span: Span,
    kind: &'static Kind,
    names: Names<'_>,
    report: &mut Reporter<'_, Problem>,
) -> Option<Vec<Piece>> {
    let text = source.slice(span);
    let (mut found, mut at, mut sound) = (Vec::new(), 0, true);
    while let Some(open) = text.get(at..).and_then(|rest| rest.find('{')).map(|open| at + open) {
        let from = span.start as usize + open;
        let Some(close) = text.get(open..).and_then(|rest| rest.find('}')).map(|close| open + close) else {
            report.push(Span::new(from, from + 1), BlockProblem::PlaceLeftOpen);
            return None;
        };
        found.push(Piece::Text(plain(text.get(at..open).unwrap_or_default())));
        let inside = Span::new(from + 1, span.start as usize + close);
        match put(source, inside, kind, names, report) {
            Some(put) => found.push(put),
            None => sound = false,
        }
        at = close + 1;
    }
    found.push(Piece::Text(plain(text.get(at..).unwrap_or_default())));
    found.retain(|piece| !matches!(piece, Piece::Text(text) if text.is_empty()));
    sound.then_some(found)
}

fn plain(text: &str) -> String {
    text.replace("\\\"", "\"")
}

fn put(
    source: &Source,
    inside: Span,
    kind: &'static Kind,
    names: Names<'_>,
    report: &mut Reporter<'_, Problem>,
) -> Option<Piece> {
    let text = source.slice(inside);
    let (place, shown) = match text.split_once(':') {
        Some((place, counted)) => match counted.split_once('|') {
            Some((one, several)) => (place, Shown::Counted(one.trim().to_owned(), several.trim().to_owned())),
            None => {
                report.push(inside, BlockProblem::CountedOneWay { said: counted.trim().to_owned() });
                return None;
            }
        },
        None => match text.trim_end().strip_suffix("in %") {
            Some(place) => (place, Shown::Percent),
            None => (text, Shown::Plain),
        },
    };
    let lead = place.len() - place.trim_start().len();
    let start = inside.start as usize + lead;
    let place = place.trim();
    let span = Span::new(start, start + place.len());
    if place.is_empty() {
        report.push(inside, BlockProblem::UnnamedPlace);
        return None;
    }
    if let Some(own) = Own::ALL.into_iter().find(|own| own.word() == place) {
        return Some(Piece::Put(Puts::Own(own), shown));
    }
    let tree = match syntax::parse_value(source, span) {
        Ok(tree) => tree,
        Err(diagnostic) => {
            report.found.push(diagnostic.lift());
            return None;
        }
    };
    let known = |name: &str| resolve::known(name, kind) || names.limits.iter().any(|limit| limit.name == name);
    if let Expr::Reference(asked, of) = &tree
        && of.is_empty()
        && !known(&asked.name.words)
        && let Some(near) = nearest(&asked.name.words, Own::ALL.map(Own::word))
    {
        report.push(span, ClauseProblem::NoSuchPlace { name: asked.name.words.clone(), near });
        return None;
    }
    let node = resolve::value(&tree, kind, names, report)?;
    Some(Piece::Put(Puts::Node(node), shown))
}
