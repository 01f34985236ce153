//! What stands in the block of a rule, an amendment or a withdrawal; each slip told at its word.

use super::load::{Reader, text_of};
use super::rule::Limit;
use crate::base::names::did_you_mean;
use crate::base::{Finding, Span, notices};
use crate::measure::{Dimension, Measure, Style, print};
use crate::syntax::{self, ClauseTree, Expr, Fragment, Item, Term, TermKind};

/// What a block of a set does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holder {
    Rule,
    Amendment,
    Withdrawal,
}

impl Holder {
    /// What it is called.
    fn called(self) -> &'static str {
        match self {
            Holder::Rule => "a rule",
            Holder::Amendment => "an amendment",
            Holder::Withdrawal => "a withdrawal",
        }
    }

    /// The properties it takes.
    fn takes(self) -> &'static [&'static str] {
        match self {
            Holder::Rule => &["limit", "source", "because", "sure", "passes", "fails", "spares"],
            Holder::Amendment => &["limit", "verb", "where", "source", "because", "sure", "passes", "fails", "spares"],
            Holder::Withdrawal => &["because", "source"],
        }
    }
}

/// What an amendment puts in place of a condition.
pub(super) enum Narrows {
    /// `where: always`.
    Always(Span),
    /// A condition, with its words.
    Where(Expr, Span),
}

/// A text with its place.
pub(super) type Said = (String, Span);

/// What stands in a block.
#[derive(Default)]
pub(super) struct Parts {
    pub clause: Option<ClauseTree>,
    pub verb: Option<(bool, Span)>,
    pub narrows: Option<Narrows>,
    pub limits: Vec<Limit>,
    pub cites: Option<Said>,
    pub because: Option<Said>,
    pub sure: Option<Said>,
    pub fragments: Vec<Fragment>,
    /// Something in it could not be read, and was told.
    pub damaged: bool,
}

impl Parts {
    /// Whether nothing at all is stated.
    pub fn is_empty(&self) -> bool {
        self.clause.is_none()
            && self.verb.is_none()
            && self.narrows.is_none()
            && self.limits.is_empty()
            && self.cites.is_none()
            && self.because.is_none()
            && self.sure.is_none()
            && self.fragments.is_empty()
    }
}

impl Reader<'_> {
    /// Reads a block's parts. Blocks inside it are read where the file's other blocks are.
    pub(super) fn parts(&mut self, body: &[Item], holder: Holder) -> Parts {
        let mut parts = Parts::default();
        let mut told: Vec<(String, Span)> = Vec::new();
        for item in body {
            let before = self.findings.len();
            match item {
                Item::Clause(span) => self.clause(*span, holder, &mut parts),
                Item::Condition { word, span, .. } => {
                    if self.once(&mut told, "where", *word) {
                        self.narrows(*word, *span, holder, &mut parts);
                    }
                }
                Item::Fragment(fragment) if holder != Holder::Withdrawal => parts.fragments.push(*fragment),
                Item::Fragment(fragment) => {
                    let message = "a withdrawal proves nothing".to_owned();
                    self.say(&notices::WRONG_PLACE, fragment.span, message, Some(TAKE_IT_OUT.to_owned()));
                }
                Item::Property { name, name_span, value, value_span, damaged, .. } => {
                    if !self.once(&mut told, name, *name_span) {
                        continue;
                    }
                    if *damaged {
                        parts.damaged = true;
                        continue;
                    }
                    self.stated(name, *name_span, value, *value_span, holder, &mut parts);
                }
                Item::Malformed { terms, span } => self.malformed(terms, *span, holder),
                Item::Block { .. } | Item::Damaged { .. } => {}
            }
            parts.damaged |= self.findings.len() > before;
        }
        parts
    }

    /// Whether a property is stated for the first time; if it is not, that is told.
    fn once(&mut self, told: &mut Vec<(String, Span)>, name: &str, span: Span) -> bool {
        match told.iter().find(|(earlier, _)| earlier == name) {
            Some((_, first)) => {
                let message = format!("`{name}` is stated twice");
                let finding = Finding::notice(&notices::STATED_TWICE, self.source, span, message);
                self.findings.push(finding.with_label(*first, "stated here first"));
                false
            }
            None => {
                told.push((name.to_owned(), span));
                true
            }
        }
    }

    fn clause(&mut self, span: Span, holder: Holder, parts: &mut Parts) {
        if holder == Holder::Withdrawal {
            let message = "a withdrawal asks for nothing".to_owned();
            return self.say(&notices::WRONG_PLACE, span, message, Some(TAKE_IT_OUT.to_owned()));
        }
        match syntax::parse_clause(self.source, span) {
            Ok(clause) => match &parts.clause {
                None => parts.clause = Some(clause),
                Some(first) => {
                    let message = "a rule has one clause; this is a second".to_owned();
                    let finding = Finding::notice(&notices::STATED_TWICE, self.source, span, message);
                    let finding = finding.with_help("Give it a rule of its own.");
                    self.findings.push(finding.with_label(first.span, "the first"));
                }
            },
            Err(finding) => self.findings.push(*finding),
        }
    }

    fn narrows(&mut self, word: Span, span: Span, holder: Holder, parts: &mut Parts) {
        if holder != Holder::Amendment {
            let message = format!("{} has no property `where`", holder.called());
            let help = "A rule's own condition stands in its clause: `each KIND where CONDITION shall have ...`.";
            return self.say(&notices::UNKNOWN_PROPERTY, word, message, Some(help.to_owned()));
        }
        if super::rule::one_line(self.source.slice(span)) == "always" {
            parts.narrows = Some(Narrows::Always(span));
            return;
        }
        match syntax::parse_condition(self.source, span) {
            Ok(tree) => parts.narrows = Some(Narrows::Where(tree, span)),
            Err(finding) => self.findings.push(*finding),
        }
    }

    fn stated(
        &mut self,
        name: &str,
        name_span: Span,
        value: &[Term],
        value_span: Span,
        holder: Holder,
        parts: &mut Parts,
    ) {
        let takes = holder.takes();
        let is_limit = name == "limit" || name.starts_with("limit ");
        let known = takes.contains(&if is_limit { "limit" } else { name });
        if !known {
            return self.unknown_property(name, name_span, value, value_span, holder);
        }
        if value.is_empty() {
            let message = format!("`{name}` states nothing");
            return self.say(&notices::MISSING_VALUE, name_span, message, None);
        }
        if is_limit {
            return self.limit(name, name_span, value, value_span, parts);
        }
        let text = text_of(self.source, value, value_span);
        match name {
            "verb" => self.verb(&text, value_span, parts),
            "source" => parts.cites = Some((text, value_span)),
            "because" => parts.because = Some((text, value_span)),
            "sure" => self.sure(text, value, value_span, parts),
            // `passes` and the like are read as fragments, `where` as a condition.
            _ => {}
        }
    }

    fn unknown_property(&mut self, name: &str, span: Span, value: &[Term], value_span: Span, holder: Holder) {
        let takes = holder.takes();
        let figure = matches!(value, [Term { kind: TermKind::Figure(_), .. }]) && holder != Holder::Withdrawal;
        let message = format!("{} has no property `{name}`", holder.called());
        let help = did_you_mean(name, takes.iter().copied()).unwrap_or_else(|| match (holder, name) {
            (Holder::Rule, "verb") => {
                "A rule's own verb stands in its clause: `each KIND shall have ...` or `should have ...`.".to_owned()
            }
            _ if figure && syntax::is_name(name) => {
                format!("For a figure write `limit {name}: {}`.", self.source.slice(value_span))
            }
            (Holder::Withdrawal, _) => format!("A withdrawal takes {}.", takes.join(", ")),
            _ => format!("It takes each ..., {}.", takes.join(", ")),
        });
        self.say(&notices::UNKNOWN_PROPERTY, span, message, Some(help));
    }

    fn limit(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span, parts: &mut Parts) {
        let (limit, named) = match name.strip_prefix("limit ") {
            Some(limit) => (limit.to_owned(), last_of(self.source.slice(name_span), name_span)),
            None => {
                let message = "this limit goes by no name".to_owned();
                let help = "Write `limit tallest: 7-3/4\"`, and let the clause read `<= tallest`.".to_owned();
                return self.say(&notices::MISSING_NAME, name_span, message, Some(help));
            }
        };
        if !syntax::is_name(&limit) {
            let message = format!("no clause could name a limit `{limit}`");
            let help = "Words like `of`, `and` and `where` cannot stand in a name.".to_owned();
            return self.say(&notices::WRONG_VALUE, named, message, Some(help));
        }
        let measure = match value {
            [Term { kind: TermKind::Figure(measure), .. }] => *measure,
            [Term { kind: TermKind::Impossible(why), .. }] => {
                return self.say(&notices::IMPOSSIBLE_NUMBER, value_span, format!("`{limit}`: {why}"), None);
            }
            _ => {
                let message = format!("limit `{limit}` takes one number with its unit");
                let help = format!(
                    "Write `limit {limit}: 7-1/2\"`, or for a count `limit {limit}: 3`; words stand in the clause itself."
                );
                return self.say(&notices::WRONG_VALUE, value_span, message, Some(help));
            }
        };
        let (source, set) = (self.source.clone(), self.set.title.clone());
        parts.limits.push(Limit { name: limit, measure, source, span: value_span, named, set, replaced: None });
    }

    fn verb(&mut self, said: &str, span: Span, parts: &mut Parts) {
        match said {
            "shall" | "should" => parts.verb = Some((said == "shall", span)),
            _ => {
                let message = format!("`{said}` is no verb of a rule");
                let help = did_you_mean(said, ["shall", "should"])
                    .unwrap_or_else(|| "It is `shall` for what is required, `should` for advice.".to_owned());
                self.say(&notices::UNKNOWN_WORD, span, message, Some(help));
            }
        }
    }

    /// `memory`, `seen`, or a text in quotes.
    fn sure(&mut self, said: String, value: &[Term], span: Span, parts: &mut Parts) {
        let quoted = matches!(value, [Term { kind: TermKind::Text(_), .. }]);
        if quoted || matches!(said.as_str(), "memory" | "seen") {
            // What was seen on a page needs no remark.
            let sure = if said == "seen" { String::new() } else { said };
            parts.sure = Some((sure, span));
            return;
        }
        let message = format!("`{said}` does not say how sure the figure is");
        let help = did_you_mean(&said, ["memory", "seen"])
            .unwrap_or_else(|| "Write `memory`, `seen`, or a text in quotes.".to_owned());
        self.say(&notices::UNKNOWN_WORD, span, message, Some(help));
    }

    /// A line of a block that is no statement.
    fn malformed(&mut self, terms: &[Term], span: Span, holder: Holder) {
        let words: Vec<String> = terms.iter().map_while(Term::word).map(str::to_lowercase).collect();
        let first = words.first().map_or("", String::as_str);
        let place = terms.first().map_or(span, |term| term.span);
        if holder.takes().contains(&first) {
            let upto = if first == "limit" { words.len().min(terms.len().saturating_sub(1)).max(1) } else { 1 };
            let said = words.get(..upto).map(|words| words.join(" ")).unwrap_or_default();
            let place = terms.get(upto - 1).map_or(place, |last| place.to(last.span));
            let help = format!("Write `{said}: ...`.");
            return self.say(&notices::MISSING_COLON, place, format!("a colon is missing after `{said}`"), Some(help));
        }
        let near = if holder == Holder::Withdrawal { None } else { did_you_mean(first, ["each"]) };
        let (place, help) = match near {
            Some(near) => (place, near),
            None => (span, self.instead(&words, span, holder)),
        };
        self.say(&notices::NOT_A_STATEMENT, place, "this line is no statement".to_owned(), Some(help));
    }

    /// How that which such a line means to say is written.
    fn instead(&self, words: &[String], span: Span, holder: Holder) -> String {
        let line = self.source.slice(span);
        if line.starts_with("//") || line.starts_with("--") {
            return "A remark begins with `#`.".to_owned();
        }
        if holder == Holder::Withdrawal {
            return "A withdrawal says why: `because: \"struck by section 3\"`.".to_owned();
        }
        let clause = "`each KIND shall have CONDITION`, such as `each riser shall have height <= 7\"`";
        match (holder, words.first().map(String::as_str)) {
            (_, Some("all" | "every" | "any")) => format!("A clause begins with `each`: {clause}."),
            (Holder::Amendment, _) => format!(
                "A figure is changed by `limit NAME: 7\"`, `pitchboard rules` shows its name; what the rule asks, by a \
                 clause: {clause}."
            ),
            _ => format!("What a rule asks is a clause: {clause}."),
        }
    }

    /// What is said of a figure that takes the place of one of another sort.
    pub(super) fn other_sort(&mut self, limit: &Limit, old: &Limit) {
        let words = self.source.slice(limit.span).to_owned();
        let bare = limit.measure.dimension == Dimension::NUMBER && limit.measure.style == Style::NUMBER;
        if bare && old.measure.dimension == Dimension::LENGTH {
            let message = format!("`{}` is a length; `{words}` has no unit", limit.name);
            let help = format!("Write `{words}\"` for inches, or `{words} mm`.");
            return self.say(&notices::MISSING_UNIT, limit.span, message, Some(help));
        }
        let sort = |measure: Measure| match measure.style.is_slope() {
            true => "a slope".to_owned(),
            false => measure.dimension.to_string(),
        };
        let (is, was) = (sort(limit.measure), sort(old.measure));
        let message = format!("`{words}` is {is}, in place of {was}: `{}` of {}", print(old.measure), old.set);
        let finding = Finding::notice(&notices::MIXED_DIMENSIONS, self.source, limit.span, message);
        let finding = finding.with_main_label(is);
        self.findings.push(match as_sort(limit.measure, old.measure) {
            Some(help) => finding.with_help(help),
            None => finding,
        });
    }
}

/// How a figure is written that is to take the place of another: an angle for an angle, a slope for a slope.
fn as_sort(new: Measure, old: Measure) -> Option<String> {
    let exact = |measure: Measure| Measure { value: (measure.value * 1e3).round() / 1e3, ..measure };
    if old.dimension == Dimension::ANGLE && new.style.is_slope() {
        let angle = Measure { value: new.value.atan().to_degrees(), ..old };
        return Some(format!("Write an angle; that slope is {}.", print(exact(angle))));
    }
    if old.style.is_slope() && new.dimension == Dimension::ANGLE {
        let slope = Measure { value: new.value.to_radians().tan(), style: Style::PERCENT, ..old };
        return Some(format!("Write a slope, as `1 in 48` or `2%`; that angle is {}.", print(exact(slope))));
    }
    match old.dimension {
        Dimension::LENGTH => Some("Write a length, such as `7-1/2\"` or `190 mm`.".to_owned()),
        Dimension::ANGLE => Some("Write an angle, such as `30°`.".to_owned()),
        Dimension::NUMBER if !old.style.is_slope() => Some("Write a bare number, without a unit.".to_owned()),
        _ => None,
    }
}

const TAKE_IT_OUT: &str = "A withdrawal says only why, with `because:`.";

/// The place of what stands after the first word.
fn last_of(words: &str, span: Span) -> Span {
    let rest = words.find(char::is_whitespace).and_then(|blank| words.get(blank..)).unwrap_or("");
    let length = rest.trim_start().len();
    Span::new((span.end as usize).saturating_sub(length), span.end as usize)
}
