//! A reading to a tree: statements, their terms, and what is reported of a slip.

pub mod lines;

use smol_str::{SmolStr, SmolStrBuilder};

use super::events::Events;
use super::figure::{figure, number_sign, slope};
use super::grammar::Rule;
use super::problem::Problem;
use super::tree::{Fragment, FragmentKind, Item, Term, TermKind, Tree};
use super::trivia::{Keep, TriviaList};
use crate::base::{Diagnostic, Source, Span};
use crate::measure::{Dimension, Style};

/// Lowers the reading of the piece of `source` at `span`.
///
/// # Errors
/// A diagnostic at the brace that opens one level too many; nothing of such a text is kept.
pub fn tree(
    events: Events<'_>,
    source: &Source,
    span: Span,
    keep: Keep,
    found: &mut Vec<Diagnostic<Problem>>,
) -> Result<Tree, Box<Diagnostic<Problem>>> {
    let kept = events.are_kept();
    let mut lower = Lower::new(events, source, span, keep, found);
    // The start rule itself.
    lower.events.begin();
    while let Some((rule, start)) = lower.events.begin() {
        lower.item(rule, start);
    }
    match lower.too_deep {
        Some(refused) => Err(refused),
        None => {
            let trivia = lower.trivia.finish(span.end);
            Ok(Tree { source: source.clone(), span, items: lower.items, trivia, kept })
        }
    }
}

/// Shared state of one lowering. Places in `events` are bytes after `offset`.
struct Lower<'a> {
    source: &'a Source,
    offset: usize,
    events: Events<'a>,
    trivia: TriviaList<'a>,
    /// The terms read last; given away at the size they came to.
    terms: Vec<Term>,
    /// The terms of the head of the statement at hand.
    head: Vec<Term>,
    /// The statements read so far of each block that is open, those of the innermost last.
    items: Vec<Item>,
    found: &'a mut Vec<Diagnostic<Problem>>,
    too_deep: Option<Box<Diagnostic<Problem>>>,
}

/// The braces of a block, and what stands between.
struct Body {
    open: Span,
    items: Vec<Item>,
    close: Option<Span>,
}

/// A colon of a statement, and what stands after it.
#[derive(Clone, Copy)]
struct Stated {
    colon: Span,
    /// Empty, after the colon, where nothing stands.
    value: Span,
}

impl<'a> Lower<'a> {
    /// At the beginning of the piece of a text at `span`.
    fn new(
        events: Events<'a>,
        source: &'a Source,
        span: Span,
        keep: Keep,
        found: &'a mut Vec<Diagnostic<Problem>>,
    ) -> Self {
        Lower {
            source,
            offset: span.start as usize,
            events,
            trivia: TriviaList::new(source, span, keep),
            terms: Vec::new(),
            head: Vec::new(),
            items: Vec::new(),
            found,
            too_deep: None,
        }
    }
}

impl Lower<'_> {
    /// The place from `start` to the last event.
    fn since(&self, start: usize) -> Span {
        Span::new(self.offset + start, self.offset + start + self.events.since(start).len())
    }

    /// Closes the rule that is open and began at `start`: it is one token.
    fn token(&mut self, start: usize) -> Span {
        self.events.end();
        let span = self.since(start);
        self.trivia.token(span);
        span
    }

    /// Closes the rule that is open and began at `start`: one token up to the blanks at its end, which may hold comments.
    fn trimmed(&mut self, start: usize) -> Span {
        self.events.end();
        let length = self.events.since(start).trim_end().len();
        Span::new(self.offset + start, self.offset + start + length)
    }

    fn report(&mut self, span: Span, problem: Problem) {
        self.found.push(Diagnostic::new(self.source, span, problem));
    }

    /// Lowers what is open and began at `start` onto the statements read so far, and closes it.
    fn item(&mut self, rule: Rule, start: usize) {
        let depth = self.events.depth();
        let item = match rule {
            Rule::statement | Rule::rule_statement => self.statement(start),
            Rule::raw_clause => {
                let span = self.trimmed(start);
                self.trivia.within(span);
                Some(Item::Clause(span))
            }
            Rule::raw_condition => self.condition(),
            Rule::fragment => self.fragment(),
            Rule::stray_close => {
                let span = self.token(start);
                self.report(span, Problem::StrayBrace);
                Some(Item::Damaged { terms: Vec::new(), span })
            }
            _ => None,
        };
        self.events.end_at(depth);
        self.items.extend(item);
    }

    /// `where: ...`
    fn condition(&mut self) -> Option<Item> {
        let (word, colon, text) = self.labelled()?;
        let span = self.trimmed(text);
        self.trivia.within(span);
        Some(Item::Condition { word, colon, span })
    }

    /// `passes: ...`
    fn fragment(&mut self) -> Option<Item> {
        let (word, colon, text) = self.labelled()?;
        let kind = match self.source.slice(word) {
            "passes" => FragmentKind::Passes,
            "fails" => FragmentKind::Fails,
            _ => FragmentKind::Spares,
        };
        let span = self.trimmed(text);
        self.trivia.token(span);
        Some(Item::Fragment(Fragment { kind, word, colon, span }))
    }

    /// The word and the colon of the rule that is open, and where the text after them begins, which is open then.
    fn labelled(&mut self) -> Option<(Span, Span, usize)> {
        let (_, word) = self.events.begin()?;
        let word = self.token(word);
        let (_, colon) = self.events.begin()?;
        let colon = self.token(colon);
        let (_, text) = self.events.begin()?;
        Some((word, colon, text))
    }

    fn statement(&mut self, start: usize) -> Option<Item> {
        let (mut head, mut stated) = (None, None);
        let before = self.found.len();
        let mut after_head = before;
        self.head.clear();
        self.terms.clear();
        while let Some((rule, at)) = self.events.begin() {
            match rule {
                Rule::head => {
                    head = Some(self.terms(at));
                    std::mem::swap(&mut self.head, &mut self.terms);
                    after_head = self.found.len();
                }
                Rule::colon => {
                    let colon = self.token(at);
                    stated = Some(Stated { colon, value: Span { start: colon.end, end: colon.end } });
                }
                Rule::value => {
                    let value = self.terms(at);
                    stated = stated.map(|stated| Stated { value, ..stated });
                }
                Rule::body | Rule::rule_body => {
                    // What stands between the colon and the brace is reported by its colon alone.
                    self.found.truncate(after_head);
                    let first = Span::new(self.offset + start, self.offset + start + 1);
                    return Some(self.block(head.unwrap_or(first), stated));
                }
                Rule::too_deep => {
                    let brace = Span::new(self.offset + start, self.offset + start + 1);
                    let refused = Diagnostic::new(self.source, brace, Problem::NestedTooDeep);
                    self.too_deep.get_or_insert(Box::new(refused));
                    self.events.end();
                }
                _ => {
                    self.events.end();
                }
            }
        }
        self.leaf(head, stated, before)
    }

    /// A statement without a block, whose head is in `head` and what stands after its colon in `terms`; `before` it, so
    /// much was found.
    fn leaf(&mut self, head: Option<Span>, stated: Option<Stated>, before: usize) -> Option<Item> {
        match (head, stated) {
            (head, Some(stated)) => Some(self.property(head, stated, before)),
            (Some(span), None) => {
                let terms = self.head.drain(..).collect();
                let damaged = self.found.len() > before;
                Some(if damaged { Item::Damaged { terms, span } } else { Item::Malformed { terms, span } })
            }
            (None, None) => None,
        }
    }

    /// A property whose name is in `head` and its value in `terms`; `before` it, so much was found.
    fn property(&mut self, head: Option<Span>, stated: Stated, before: usize) -> Item {
        let Stated { colon, value: value_span } = stated;
        self.subtraction();
        self.tight_list();
        let name_span = head.unwrap_or(colon);
        if self.head.is_empty() || !self.head.iter().all(|term| term.word().is_some()) {
            if self.found.len() == before {
                self.report(name_span, Problem::NoName);
            }
            let span = name_span.to(colon).to(value_span);
            let mut terms: Vec<Term> = self.head.drain(..).collect();
            terms.push(Term { kind: TermKind::Colon, span: colon });
            terms.append(&mut self.terms);
            return Item::Damaged { terms, span };
        }
        let name = words(&self.head);
        let damaged = self.found.len() > before;
        Item::Property { name, name_span, colon, value: self.terms.drain(..).collect(), value_span, damaged }
    }

    /// A block whose head is in `head`, and what stands between its colon and its brace, if it has one, in `terms`.
    fn block(&mut self, head_span: Span, stated: Option<Stated>) -> Item {
        let head = self.head.drain(..).collect();
        let misplaced = self.misplaced(stated);
        let Body { open, items: body, close } = self.body();
        Item::Block { head, head_span, misplaced, open, body, close }
    }

    /// Reports the colon between the head of a block and its brace, and gives what stands there.
    fn misplaced(&mut self, stated: Option<Stated>) -> Vec<Term> {
        let mut misplaced = Vec::new();
        if let Some(Stated { colon, .. }) = stated {
            self.report(colon, Problem::ColonBeforeBrace);
            misplaced.push(Term { kind: TermKind::Colon, span: colon });
            misplaced.append(&mut self.terms);
        }
        misplaced
    }

    /// The statements of the innermost block that is open, which begin at `from`.
    fn take_items(&mut self, from: usize) -> Vec<Item> {
        #[allow(clippy::disallowed_methods)] // `from` was their number, and a body takes none away.
        self.items.split_off(from.min(self.items.len()))
    }

    fn body(&mut self) -> Body {
        let from = self.items.len();
        let (mut open, mut close) = (Span::default(), None);
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::open => open = self.token(start),
                Rule::close => close = Some(self.token(start)),
                Rule::unclosed => {
                    self.events.end();
                    self.unclosed(open, from);
                }
                _ => self.item(rule, start),
            }
        }
        let items = self.take_items(from);
        Body { open, items, close }
    }

    /// Reports a block that the text leaves open, whose statements begin at `from`.
    fn unclosed(&mut self, open: Span, from: usize) {
        let taken_by = self.items.get(from..).into_iter().flatten().rev().find_map(|item| self.left_open(item));
        self.report(open, Problem::UnclosedBrace { taken_by, missed: None });
    }

    /// The brace that a fragment leaves open on its first line, where it runs on over further lines.
    fn left_open(&self, item: &Item) -> Option<Span> {
        let Item::Fragment(fragment) = item else { return None };
        let (line, _) = self.source.slice(fragment.span).split_once('\n')?;
        let mut open = Vec::new();
        for (at, sign) in line.char_indices() {
            match sign {
                '{' => open.push(at),
                '}' => drop(open.pop()),
                _ => {}
            }
        }
        let at = fragment.span.start as usize + open.pop()?;
        Some(Span::new(at, at + 1))
    }

    /// Lowers the terms of the rule that is open and began at `start`, and closes it; gives its place.
    fn terms(&mut self, start: usize) -> Span {
        self.terms.clear();
        while let Some((rule, at)) = self.events.begin() {
            // A list that runs on over a line end may carry a comment.
            if rule == Rule::comment {
                self.events.end();
                continue;
            }
            let kind = self.term(rule, at);
            let span = self.since(at);
            self.trivia.token(span);
            if kind == TermKind::Odd && rule == Rule::open_text {
                self.open_quote(span);
            }
            self.push(Term { kind, span });
        }
        self.since(start)
    }

    /// The term that is open and began at `start`; closes it.
    fn term(&mut self, rule: Rule, start: usize) -> TermKind {
        match rule {
            Rule::figure => return figure(&mut self.events, start),
            Rule::number_sign => return number_sign(&mut self.events),
            Rule::text => return self.text(),
            _ => self.events.end(),
        };
        match rule {
            Rule::word => TermKind::Word(self.events.since(start).into()),
            Rule::by => TermKind::By,
            Rule::comma => TermKind::Comma,
            Rule::dash => TermKind::Dash,
            Rule::stray_colon => TermKind::Colon,
            _ => TermKind::Odd,
        }
    }

    /// The text in quotes that is open; closes it.
    fn text(&mut self) -> TermKind {
        let Some((_, start)) = self.events.begin() else { return TermKind::Text(SmolStr::default()) };
        self.events.end();
        let inside = self.events.since(start);
        let text = if inside.contains('\\') { inside.replace("\\\"", "\"").into() } else { inside.into() };
        self.events.end();
        TermKind::Text(text)
    }

    fn open_quote(&mut self, text: Span) {
        let quote = self.source.slice(text).chars().next().map_or(1, char::len_utf8);
        let span = Span::new(text.start as usize, text.start as usize + quote);
        self.report(span, Problem::UnclosedQuote);
    }

    /// Adds a term to those read; `1/4" per 12"` is one slope.
    fn push(&mut self, term: Term) {
        if let TermKind::Figure(run) = &term.kind
            && let [.., Term { kind: TermKind::Figure(rise), span }, Term { kind: TermKind::Word(word), .. }] =
                self.terms.as_slice()
            && word == "per"
            && rise.dimension == Dimension::LENGTH
            && run.dimension == Dimension::LENGTH
        {
            let joined = Term { kind: slope(rise, run), span: span.to(term.span) };
            self.terms.truncate(self.terms.len() - 2);
            self.terms.push(joined);
            return;
        }
        self.terms.push(term);
    }

    /// `3' - 6"` and `7 - 3/8"`: one dimension or a sum? The writer has to say.
    fn subtraction(&mut self) {
        for window in self.terms.windows(3) {
            let [a, dash, b] = window else { continue };
            let (TermKind::Figure(_), TermKind::Dash, TermKind::Figure(_)) = (&a.kind, &dash.kind, &b.kind) else {
                continue;
            };
            let problem = Problem::UnclearSubtraction { left: a.span, right: b.span };
            self.found.push(Diagnostic::new(self.source, a.span.to(b.span), problem));
        }
    }

    /// `190,194,190 mm`: a list, or a decimal comma?
    fn tight_list(&mut self) {
        let unclear = self.terms.windows(3).find(|window| match window {
            [a, comma, b] => {
                matches!(&a.kind, TermKind::Figure(m) if m.dimension == Dimension::NUMBER && m.style == Style::NUMBER)
                    && comma.kind == TermKind::Comma
                    && matches!(b.kind, TermKind::Figure(_))
                    && a.span.end == comma.span.start
                    && comma.span.end == b.span.start
            }
            _ => false,
        });
        if let Some([a, _, b]) = unclear {
            let span = a.span.to(b.span);
            self.report(span, Problem::UnclearList);
        }
    }
}

/// The words of a head in lower case with single blanks.
fn words(terms: &[Term]) -> SmolStr {
    let mut name = SmolStrBuilder::new();
    for (at, word) in terms.iter().filter_map(Term::word).enumerate() {
        if at > 0 {
            name.push(' ');
        }
        if word.bytes().all(|byte| byte.is_ascii() && !byte.is_ascii_uppercase()) {
            name.push_str(word);
        } else {
            name.push_str(&word.to_lowercase());
        }
    }
    name.finish()
}
