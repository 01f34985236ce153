//! The sentences of a rule as they are written, each place looked up.

use super::node::Node;
use super::problem::{BlockProblem, ClauseProblem, Problem};
use super::resolve::{self, Names};
use super::saying::{Own, Piece, Puts, Saying, Shown, speaks_of, spoken_of};
use crate::base::names::nearest;
use crate::base::{Reporter, Source, Span};
use crate::model::Kind;
use crate::syntax::{self, Expr};

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
