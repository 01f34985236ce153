//! What a clerk likely meant, as edits: the word near to one that is not known, a sign for plain English. Each was
//! tried: the set is read again with it, the slip is gone, and what is left is less.

use gen_lsp_types::{CodeAction, CodeActionKind};

use crate::base::{Diagnostic, Severity, Source, Span};
use crate::check::Edit;
use crate::measure::print;
use crate::rules::problem::{
    AmendmentProblem, BlockProblem, ClauseProblem, Counting, LineMeant, PropertyMeant, QuantityMeant, SetProblem,
    StatementMeant,
};
use crate::rules::{Problem, SetRefusal, kind_called};
use crate::server::documents::{Document, Holds};
use crate::server::workspace::Workspace;
use crate::syntax::problem::{ClauseProblem as Unread, Meant, Problem as SyntaxProblem};
use crate::wording;

/// The edits that mend slips of a set at a stretch of it.
pub(in crate::server) fn at(workspace: &Workspace, document: &Document, stretch: Span) -> Vec<CodeAction> {
    let Some(loaded) = workspace.set(document).filter(|_| document.holds == Holds::Rules) else { return Vec::new() };
    let before = slips(&loaded.diagnostics);
    let touches = |slip: &&Diagnostic<Problem>| {
        let span = slip.span.unwrap_or_default();
        slip.source.path() == document.source.path() && span.start <= stretch.end && stretch.start <= span.end
    };
    let mends = |slip: &Diagnostic<Problem>| {
        let mend = candidates(slip).into_iter().find(|edit| {
            let Some(text) = written(&document.source.text, edit) else { return false };
            let after = workspace.session.read_set(&document.source.with_text(&text)).diagnostics;
            let is_gone = |other: &Diagnostic<Problem>| other.span != slip.span || other.problem != slip.problem;
            // In place of a slip there may be advice.
            let fewer = match slip.severity() {
                Severity::Advised => slips(&after) <= before && after.len() < loaded.diagnostics.len(),
                _ => slips(&after) < before,
            };
            fewer && after.iter().all(is_gone)
        })?;
        Some(CodeAction {
            title: wording::in_place(document.source.slice(mend.span), &mend.text),
            kind: Some(CodeActionKind::QuickFix),
            edit: Some(workspace.edit(document, vec![workspace.text_edit(document, mend.span, &mend.text)])),
            ..CodeAction::default()
        })
    };
    loaded.diagnostics.iter().filter(touches).filter_map(mends).collect()
}

/// How many are more than advice.
fn slips(found: &[Diagnostic<Problem>]) -> usize {
    found.iter().filter(|slip| slip.severity() != Severity::Advised).count()
}

fn written(text: &str, edit: &Edit) -> Option<String> {
    let (before, after) = (text.get(..edit.span.start as usize)?, text.get(edit.span.end as usize..)?);
    Some([before, &edit.text, after].concat())
}

/// What may have been meant, the likeliest first.
fn candidates(slip: &Diagnostic<Problem>) -> Vec<Edit> {
    let Some(span) = slip.span else { return Vec::new() };
    let place = Place { source: &slip.source, span };
    match &slip.problem {
        Problem::Syntax(SyntaxProblem::Clause(problem)) => unread(&place, problem),
        Problem::Set(problem) => of_set(&place, problem).into_iter().collect(),
        Problem::Block(problem) => of_block(&place, problem).into_iter().collect(),
        Problem::Amendment(problem) => of_amendment(&place, problem).into_iter().collect(),
        Problem::Clause(problem) => of_clause(&place, problem).into_iter().collect(),
        _ => Vec::new(),
    }
}

/// Where a slip stands.
struct Place<'a> {
    source: &'a Source,
    span: Span,
}

impl<'a> Place<'a> {
    fn words(&self) -> &'a str {
        self.source.slice(self.span)
    }

    /// Other words in place of the ones at fault.
    fn instead(&self, text: impl Into<String>) -> Option<Edit> {
        Some(Edit { span: self.span, text: text.into() })
    }

    /// A name in place of another, in quotes where that one was.
    fn named(&self, name: &str) -> Option<Edit> {
        let quoted = self.words().starts_with(['"', '“']);
        self.instead(if quoted { format!("\"{name}\"") } else { name.to_owned() })
    }

    /// Other words in place of the first of these in the words at fault.
    fn part(&self, words: &str, text: impl Into<String>) -> Option<Edit> {
        let at = self.span.start as usize + self.words().find(words)?;
        Some(Edit { span: Span::new(at, at + words.len()), text: text.into() })
    }

    /// What follows the words at fault on their line.
    fn rest(&self) -> &'a str {
        let rest = self.source.text.get(self.span.end as usize..).unwrap_or_default();
        rest.split(['\n', '\r', '#']).next().unwrap_or_default()
    }

    /// What stands before the words at fault on their line.
    fn before(&self) -> &'a str {
        let before = self.source.text.get(..self.span.start as usize).unwrap_or_default();
        before.rsplit(['\n', '\r']).next().unwrap_or_default()
    }
}

fn of_set(place: &Place<'_>, problem: &SetProblem) -> Option<Edit> {
    match problem {
        SetProblem::UnknownBlock { near: Some(near), word, .. } => place.part(word, *near),
        SetProblem::HeadingProperty { near: Some(near), .. } | SetProblem::Purpose { near: Some(near), .. } => {
            place.instead(*near)
        }
        SetProblem::NotAStatement(LineMeant::Near(near)) => place.part(place.words().split_whitespace().next()?, *near),
        SetProblem::Refused(SetRefusal::NotBuiltIn { near: Some(near), .. }) => place.instead(*near),
        SetProblem::Refused(SetRefusal::File { near: Some(near), .. }) => place.instead(*near),
        _ => None,
    }
}

fn of_block(place: &Place<'_>, problem: &BlockProblem) -> Option<Edit> {
    match problem {
        BlockProblem::Verb { near: Some(near), .. }
        | BlockProblem::Sure { near: Some(near), .. }
        | BlockProblem::Waive { near: Some(near), .. }
        | BlockProblem::UnknownProperty { meant: PropertyMeant::Near(near), .. } => place.instead(*near),
        BlockProblem::UnknownProperty { name, meant: PropertyMeant::Limit(_), .. } => {
            place.instead(format!("limit {name}"))
        }
        BlockProblem::MissingColon { .. } => place.instead(format!("{}:", place.words())),
        BlockProblem::NotAStatement(StatementMeant::Each) => place.instead("each"),
        BlockProblem::NotAStatement(StatementMeant::Remark) => {
            let sign = ["//", "--"].into_iter().find(|sign| place.words().starts_with(sign))?;
            place.part(sign, "#")
        }
        BlockProblem::NotAStatement(StatementMeant::ClauseOfAll) => {
            let (first, rest) = place.words().split_once(' ')?;
            let kind = rest.split(" shall ").next()?.split(" should ").next()?.split(" where ").next()?.trim();
            let all = format!("{first} {kind}");
            place.words().starts_with(&all).then_some(())?;
            place.part(&all, format!("each {}", kind_called(kind)?.name))
        }
        _ => None,
    }
}

fn of_amendment(place: &Place<'_>, problem: &AmendmentProblem) -> Option<Edit> {
    match problem {
        AmendmentProblem::NoSuchRule { near: Some(near), .. } => place.named(near),
        AmendmentProblem::FormerRule { now, .. } => place.named(now),
        AmendmentProblem::FormerLimit { was, now } => place.part(was, now.clone()),
        AmendmentProblem::NoSuchLimit { near: Some(near), limit, .. } => place.part(limit, near.clone()),
        AmendmentProblem::LimitWithoutUnit { .. } => place.instead(format!("{}\"", place.words())),
        AmendmentProblem::AnotherUnit { now, .. } => place.instead(print(*now)),
        _ => None,
    }
}

fn of_clause(place: &Place<'_>, problem: &ClauseProblem) -> Option<Edit> {
    match problem {
        ClauseProblem::UnknownKind { near: Some(near), .. } | ClauseProblem::NeverThisWord { near: Some(near), .. } => {
            place.instead(*near)
        }
        ClauseProblem::PlaceIsNoLimit { near: Some(near), place: said, .. } => place.part(said, near.clone()),
        ClauseProblem::FigureOrMore { figure, counted, sign, .. } => {
            place.instead(format!("number of {counted} {} {}", sign.sign(), place.source.slice(*figure)))
        }
        ClauseProblem::WordAfterOr { subject, choice, .. } => {
            let text = format!("{} is one of {}", place.source.slice(*subject), choice.join(", "));
            Some(Edit { span: subject.to(place.span), text })
        }
        ClauseProblem::PickAsQuantity { pick, .. } => {
            // `the lesser of A or B`: the two are joined by `and`.
            match place.rest().split_once(" or ") {
                Some((first, _)) if first.trim_start().starts_with("of ") => {
                    let end = place.span.end as usize + first.len() + " or ".len();
                    let span = Span::new(place.span.start as usize, end);
                    Some(Edit { span, text: format!("{pick}{first} and ") })
                }
                _ => place.instead(*pick),
            }
        }
        ClauseProblem::PhraseBeforeFigure { phrase, sign, .. } => place.part(phrase, sign.sign()),
        ClauseProblem::Between { subject, figure } => {
            let rest = place.rest();
            let upper = rest.trim_start().strip_prefix("and ")?;
            let end = place.span.end as usize + (rest.len() - upper.len());
            let lower = place.source.slice(*figure);
            let span = Span::new(place.span.start as usize, end);
            Some(Edit { span, text: format!("{lower} <= {subject} <= ") })
        }
        ClauseProblem::MixedDimensions { left, counting: Some(Counting::Uncounted(things)), .. } => {
            let sides = [left.0, place.span];
            let side = sides.into_iter().find(|side| place.source.slice(*side) == things)?;
            Some(Edit { span: side, text: format!("number of {things}") })
        }
        ClauseProblem::PlaceIsNoLength { bare: true, .. } => place.instead(format!("{}\"", place.words())),
        ClauseProblem::UnknownQuantity { name, meant, .. } => match meant {
            QuantityMeant::Sign(left, sign, right) if !left.is_empty() && !right.is_empty() => {
                place.instead(format!("{left} {} {right}", sign.sign()))
            }
            QuantityMeant::Article(_, bare) => place.instead(bare.clone()),
            QuantityMeant::Near(near) => place.instead(near.clone()),
            QuantityMeant::Of(owner) => place.instead(format!("{name} of {owner}")),
            _ => None,
        },
        _ => None,
    }
}

/// Of a clause that could not be read.
fn unread(place: &Place<'_>, problem: &Unread) -> Vec<Edit> {
    let edits = match problem {
        Unread::NoVerb { near, word } => {
            let meant = near.or_else(|| ["must", "will", "needs"].contains(&word.as_str()).then_some("shall"));
            vec![meant.and_then(|meant| place.instead(meant))]
        }
        Unread::NotHave { near: true, .. } => vec![place.instead("have")],
        Unread::Stopped { meant: Some(Meant::Sign(sign)), .. } => {
            // What was read ends in the `=` of `=<`.
            let rest = place.words().get(1..).unwrap_or_default();
            let span = Span { start: place.span.start.saturating_sub(1), end: place.span.end };
            vec![Some(Edit { span, text: format!("{}{rest}", sign.sign()) })]
        }
        Unread::Stopped { meant: Some(Meant::Phrase(phrase, sign)), .. } => {
            vec![counted(place, phrase, sign.sign()), on_the_line(place, phrase, sign.sign())]
        }
        Unread::Stopped { meant: Some(Meant::WithoutQuotes), .. } => vec![without_quotes(place)],
        Unread::Stopped { meant: Some(Meant::Pick(pick)), .. } => vec![picked(place, pick)],
        _ => Vec::new(),
    };
    edits.into_iter().flatten().collect()
}

/// A sign in place of a phrase before the words at fault, or behind them.
fn on_the_line(place: &Place<'_>, phrase: &str, sign: &str) -> Option<Edit> {
    let before = place.before();
    let line = place.span.start as usize - before.len();
    let at = match before.rfind(phrase) {
        Some(at) => line + at,
        None => place.span.start as usize + format!("{}{}", place.words(), place.rest()).find(phrase)?,
    };
    Some(Edit { span: Span::new(at, at + phrase.len()), text: sign.to_owned() })
}

/// `no more than 16 risers` as `number of risers <= 16`.
fn counted(place: &Place<'_>, phrase: &str, sign: &str) -> Option<Edit> {
    let before = place.before();
    let line = place.span.start as usize - before.len();
    let whole = format!("{before}{}{}", place.words(), place.rest());
    let at = whole.find(phrase)?;
    let said = whole.get(at + phrase.len()..)?;
    let mut words = said.split_whitespace();
    let (figure, things) = (words.next()?, words.next()?);
    figure.parse::<u32>().ok()?;
    kind_called(things)?;
    let end = at + phrase.len() + said.find(things)? + things.len();
    let span = Span::new(line + at, line + end);
    Some(Edit { span, text: format!("number of {things} {sign} {figure}") })
}

/// A word that stands in quotes, without them.
fn without_quotes(place: &Place<'_>) -> Option<Edit> {
    let line = format!("{}{}", place.words(), place.rest());
    let inner = line.trim_start_matches(['"', '“', '”']);
    let word = inner.get(..inner.find(['"', '“', '”'])?)?;
    let quotes = (line.len() - inner.len()) + word.len();
    let close = inner.get(word.len()..)?.chars().next()?.len_utf8();
    let start = place.span.start as usize;
    Some(Edit { span: Span::new(start, start + quotes + close), text: word.to_owned() })
}

/// `min(width, 44")` as `lesser of width and 44"`.
fn picked(place: &Place<'_>, pick: &str) -> Option<Edit> {
    let before = place.before();
    let line = format!("{before}{}{}", place.words(), place.rest());
    // What follows the parenthesis may read as a place; reading stops then at the comma.
    let stopped = before.len();
    let open = if line.get(stopped..)?.starts_with('(') { stopped } else { before.rfind('(')? };
    let called = line.get(..open)?.trim_end();
    let start = called.len() - called.split_whitespace().next_back()?.len();
    let inner = line.get(open + 1..)?;
    let inner = inner.get(..inner.find(')')?)?;
    let (first, second) = inner.split_once(',')?;
    let line = place.span.start as usize - stopped;
    let span = Span::new(line + start, line + open + inner.len() + 2);
    Some(Edit { span, text: format!("{pick} of {} and {}", first.trim(), second.trim()) })
}
