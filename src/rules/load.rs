//! A ruleset from its text, and from the sets that it amends.

use std::sync::Arc;

use super::amend;
use super::bounds;
use super::parts::Holder;
use super::resolve;
use super::rule::{Below, Rule, RuleSet};
use crate::base::names::did_you_mean;
use crate::base::{Finding, Notice, Source, Span, notices};
use crate::syntax::{self, Item, Term, TermKind};

/// Finds the text of a set that another one amends: by its name or file as the other writes it, and the other's text.
/// The error is one sentence that says why there is none.
pub type FindBase<'a> = dyn Fn(&str, &Source) -> Result<Source, String> + 'a;

/// Longest chain of sets that take one another in.
const DEEPEST: usize = 16;

/// Reads a set and those it amends. What could not be read is in the findings; the rest of the set stands.
pub fn load(source: &Source, find_base: &FindBase<'_>, findings: &mut Vec<Finding>) -> RuleSet {
    load_within(source, find_base, findings, &mut vec![source.clone()])
}

fn load_within(
    source: &Source,
    find_base: &FindBase<'_>,
    findings: &mut Vec<Finding>,
    chain: &mut Vec<Source>,
) -> RuleSet {
    let (tree, mut found) = syntax::parse_rules(source);
    let mut below = Vec::new();
    let mut reader = Reader {
        source,
        findings: &mut found,
        below: &mut below,
        find_base,
        set: RuleSet::default(),
        chain,
        base_is_lost: false,
        headed: None,
        own: Vec::new(),
    };
    reader.set.title = source.name.to_string();
    reader.read(&tree.items);
    let set = reader.set;
    found.sort_by_key(|finding| finding.labels.first().map(|label| label.span));
    findings.extend(below);
    findings.extend(found);
    set
}

/// One text being read.
pub(super) struct Reader<'a> {
    pub source: &'a Source,
    /// What is found in this text.
    pub findings: &'a mut Vec<Finding>,
    /// What is found in the texts of the sets below.
    below: &'a mut Vec<Finding>,
    find_base: &'a FindBase<'a>,
    pub set: RuleSet,
    chain: &'a mut Vec<Source>,
    /// The set that it amends could not be had, which was told; what it would amend is not known.
    pub base_is_lost: bool,
    /// Where the heading stands.
    headed: Option<Span>,
    /// The rules that this text writes itself, with the places of their names.
    pub own: Vec<(String, Span)>,
}

/// A block of the file: a rule, an amendment, a withdrawal.
pub(super) struct Block<'t> {
    word: String,
    head: Span,
    pub name: String,
    pub name_span: Span,
    pub body: &'t [Item],
    chapter: String,
}

const HEADS: [&str; 5] = ["ruleset", "chapter", "rule", "amend", "withdraw"];

impl Reader<'_> {
    pub(super) fn say(&mut self, notice: &Notice, span: Span, message: String, help: Option<String>) {
        let finding = Finding::notice(notice, self.source, span, message);
        self.findings.push(match help {
            Some(help) => finding.with_help(help),
            None => finding,
        });
    }

    /// The heading first, whatever its place; then what is taken out, changed and added to the set below.
    fn read(&mut self, items: &[Item]) {
        let mut blocks = Vec::new();
        self.collect(items, "", &mut blocks);
        let (heads, blocks): (Vec<_>, Vec<_>) = blocks.into_iter().partition(|block| block.word == "ruleset");
        for head in heads {
            self.header(&head);
        }
        let own = blocks.iter().filter(|block| block.word == "rule");
        self.own = own.map(|block| (block.name.clone(), block.name_span)).collect();
        for block in blocks.iter().filter(|block| block.word == "withdraw") {
            self.withdraw(block);
        }
        for block in blocks.iter().filter(|block| block.word == "amend") {
            self.amend(block);
        }
        for block in blocks.iter().filter(|block| block.word == "rule") {
            self.rule(block);
        }
    }

    /// The blocks of the file in order. One that stands inside another, because a brace is missing, still counts.
    fn collect<'t>(&mut self, items: &'t [Item], chapter: &str, blocks: &mut Vec<Block<'t>>) {
        for item in items {
            match item {
                Item::Block { head, head_span, body, .. } => self.block(head, *head_span, body, chapter, blocks),
                Item::Property { name, name_span, .. } if chapter.is_empty() => {
                    let message = format!("`{name}` stands outside of any rule");
                    self.say(&notices::WRONG_PLACE, *name_span, message, Some(belongs(name).to_owned()));
                }
                Item::Property { name, name_span, .. } => {
                    let message = format!("a chapter has no property `{name}`");
                    let help = "A chapter holds rules; what is said of a rule stands in it.".to_owned();
                    self.say(&notices::UNKNOWN_PROPERTY, *name_span, message, Some(help));
                }
                Item::Malformed { terms, span } => {
                    let first = terms.first().and_then(Term::word).unwrap_or("").to_lowercase();
                    let help = match first.as_str() {
                        "withdraw" => Some(opens(&first, terms, self.source, "{ because: \"struck by section 3\" }")),
                        "amend" | "rule" | "chapter" | "ruleset" => Some(opens(&first, terms, self.source, "{")),
                        _ => did_you_mean(&first, HEADS),
                    };
                    let message = "this line is no statement".to_owned();
                    self.say(
                        &notices::NOT_A_STATEMENT,
                        *span,
                        message,
                        Some(help.unwrap_or_else(|| MADE_OF.to_owned())),
                    );
                }
                Item::Clause(span) => {
                    self.say(
                        &notices::WRONG_PLACE,
                        *span,
                        "a clause stands outside of any rule".to_owned(),
                        within(IN_A_RULE),
                    );
                }
                Item::Condition { word, .. } => {
                    self.say(
                        &notices::WRONG_PLACE,
                        *word,
                        "`where` stands outside of any rule".to_owned(),
                        within("It stands in an amendment: `amend \"riser height\" { where: ... }`."),
                    );
                }
                Item::Fragment(fragment) => {
                    let message = "a fragment stands outside of any rule".to_owned();
                    self.say(&notices::WRONG_PLACE, fragment.span, message, within(IN_A_RULE));
                }
                Item::Damaged { .. } => {}
            }
        }
    }

    fn block<'t>(&mut self, head: &[Term], span: Span, body: &'t [Item], chapter: &str, blocks: &mut Vec<Block<'t>>) {
        let word = head.first().and_then(Term::word).unwrap_or("").to_lowercase();
        let rest = head.get(1..).unwrap_or_default();
        let name = match rest.first().map(|term| &term.kind) {
            Some(TermKind::Text(text)) => text.trim().to_owned(),
            _ => rest.iter().filter_map(Term::word).collect::<Vec<_>>().join(" "),
        };
        let name_span = match rest {
            [first, .., last] if !matches!(first.kind, TermKind::Text(_)) => first.span.to(last.span),
            [first, ..] => first.span,
            [] => span,
        };
        if !HEADS.contains(&word.as_str()) {
            let help = did_you_mean(&word, HEADS).unwrap_or_else(|| MADE_OF.to_owned());
            let message = format!("`{word}` is no part of a ruleset");
            return self.say(&notices::UNKNOWN_KIND, span, message, Some(help));
        }
        if let [text, more, ..] = rest
            && matches!(text.kind, TermKind::Text(_))
        {
            let article = if word == "amend" { "an" } else { "a" };
            let message = format!("{article} {word} has one name");
            let help = match more.kind {
                TermKind::Comma => format!("Write {article} `{word}` of its own for each name."),
                _ => "Put all of it in one pair of quotes.".to_owned(),
            };
            self.say(&notices::WRONG_VALUE, more.span, message, Some(help));
        }
        if name.is_empty() && word != "ruleset" {
            let message = format!("this {word} goes by no name");
            self.say(&notices::MISSING_NAME, span, message, Some(format!("Write `{word} \"riser height\" {{`.")));
        }
        if word == "chapter" {
            return self.collect(body, if name.is_empty() { "chapter" } else { &name }, blocks);
        }
        blocks.push(Block { word, head: span, name, name_span, body, chapter: chapter.to_owned() });
        let inner = body.iter().filter(|item| matches!(item, Item::Block { .. }));
        for item in inner {
            self.collect(std::slice::from_ref(item), chapter, blocks);
        }
    }

    fn header(&mut self, block: &Block<'_>) {
        if let Some(first) = self.headed {
            let finding = Finding::notice(
                &notices::STATED_TWICE,
                self.source,
                block.head,
                "a set has one heading; this is a second",
            );
            self.findings.push(finding.with_label(first, "the first"));
            return;
        }
        self.headed = Some(block.head);
        if !block.name.is_empty() {
            self.set.title.clone_from(&block.name);
        }
        let mut told: Vec<(String, Span)> = Vec::new();
        for item in block.body {
            let Item::Property { name, name_span, value, value_span, damaged, .. } = item else {
                if !matches!(item, Item::Block { .. }) {
                    self.collect(std::slice::from_ref(item), "", &mut Vec::new());
                }
                continue;
            };
            if let Some((_, first)) = told.iter().find(|(earlier, _)| earlier == name) {
                let message = format!("`{name}` is stated twice");
                let finding = Finding::notice(&notices::STATED_TWICE, self.source, *name_span, message);
                self.findings.push(finding.with_label(*first, "stated here first"));
                continue;
            }
            told.push((name.to_string(), *name_span));
            if !HEADING.contains(&name.as_str()) {
                let help = did_you_mean(name, HEADING);
                let message = format!("a ruleset has no property `{name}`");
                let help = help.unwrap_or_else(|| "A ruleset takes basis, edition, caution, amends.".to_owned());
                self.say(&notices::UNKNOWN_PROPERTY, *name_span, message, Some(help));
                continue;
            }
            self.base_is_lost |= name == "amends" && (*damaged || value.is_empty());
            if *damaged {
                continue;
            }
            if value.is_empty() {
                self.say(&notices::MISSING_VALUE, *name_span, format!("`{name}` states nothing"), None);
                continue;
            }
            let text = text_of(self.source, value, *value_span);
            match name.as_str() {
                "basis" => self.set.basis = text,
                "edition" => self.set.edition = text,
                "caution" => self.set.caution = text,
                _ => self.take_in(&text, value, *value_span),
            }
        }
        if let Some(below) = self.set.takes_in.iter().find(|below| below.title == self.set.title) {
            let message = format!("the set that this one takes in is called \"{}\" too", below.title);
            let help = "Give it a name of its own, so that a report can tell the two apart.".to_owned();
            self.say(&notices::NAMED_TWICE, block.name_span, message, Some(help));
        }
    }

    fn take_in(&mut self, name: &str, value: &[Term], span: Span) {
        self.base_is_lost = true;
        if value.iter().any(|term| term.kind == TermKind::Comma) {
            let message = "a set amends one other".to_owned();
            let help = "Amend one that amends the other, or let a design ask for both.".to_owned();
            return self.say(&notices::WRONG_VALUE, span, message, Some(help));
        }
        let base = match (self.find_base)(name, self.source) {
            Ok(base) => base,
            Err(why) => return self.say(&notices::UNKNOWN_SET, span, why, None),
        };
        // The same text by another path is the same set.
        if let Some(at) = self.chain.iter().position(|set| set.name == base.name || set.text == base.text) {
            let circle = self.chain.iter().skip(at).map(|set| &*set.name);
            let names: Vec<String> = circle.map(|name| format!("`{name}`")).collect();
            let message = match names.as_slice() {
                [only] => format!("{only} amends itself"),
                [first, rest @ ..] => format!(
                    "these sets amend one another in a circle: {first} amends {}, which amends {first}",
                    rest.join(", which amends ")
                ),
                [] => String::new(),
            };
            return self.say(&notices::CIRCULAR_SETS, span, message, None);
        }
        if self.chain.len() >= DEEPEST {
            let message = format!("`{name}` is the seventeenth set of a chain of sets that amend one another");
            return self.say(&notices::AMENDED_TOO_DEEP, span, message, None);
        }
        self.chain.push(base.clone());
        let taken = load_within(&base, self.find_base, self.below, self.chain);
        self.chain.pop();
        self.base_is_lost = false;
        self.set.takes_in = vec![Below { title: taken.title, edition: taken.edition }];
        self.set.takes_in.extend(taken.takes_in);
        self.set.rules = taken.rules;
        self.set.withdrawn = taken.withdrawn;
        self.set.unread = taken.unread;
        if self.set.caution.is_empty() {
            self.set.caution = taken.caution;
        }
    }

    fn rule(&mut self, block: &Block<'_>) {
        let Block { name, name_span, .. } = block;
        let parts = self.parts(block.body, Holder::Rule);
        if name.is_empty() {
            return;
        }
        if let Some(earlier) = self.set.rules.iter().find(|rule| rule.name == *name) {
            let message = format!("a rule \"{name}\" is in the set already");
            let finding = Finding::notice(&notices::NAMED_TWICE, self.source, *name_span, message);
            let finding = if earlier.source == *self.source && earlier.amendments.is_empty() {
                finding.with_label(earlier.span, "named here first")
            } else {
                let help = format!(
                    "It came with {}. `amend \"{name}\" {{ }}` changes it; to put this one in its place, `withdraw` it first.",
                    earlier.set
                );
                finding.with_help(help)
            };
            self.findings.push(finding);
            return;
        }
        let Some(clause) = parts.clause else {
            if !parts.damaged {
                self.say(&notices::MISSING_CLAUSE, block.head, format!("rule \"{name}\" asks for nothing"), None);
            }
            self.set.unread.push(name.clone());
            return;
        };
        let cites = parts.cites.map(|(cites, _)| cites).unwrap_or_default();
        if cites.is_empty() && !parts.damaged {
            self.say(&notices::MISSING_SOURCE, block.head, format!("rule \"{name}\" names no source"), None);
        }
        let limits = parts.limits;
        let Some(read) = resolve::clause(&clause, &limits, self.source, self.findings) else {
            self.set.unread.push(name.clone());
            return;
        };
        for (limit, used) in limits.iter().zip(&read.used) {
            if resolve::known(&limit.name, read.kind) {
                let message = format!("a {} has a `{}` of its own; the limit hides it", read.kind.name, limit.name);
                let help = "Give the limit another name, such as `least` or `most`.".to_owned();
                self.say(&notices::NAMED_TWICE, limit.named, message, Some(help));
                self.set.unread.push(name.clone());
                return;
            }
            if !used {
                self.say(&notices::UNUSED_LIMIT, limit.span, format!("limit `{}` is never read", limit.name), None);
            }
        }
        let rule = Rule {
            name: name.clone(),
            chapter: block.chapter.clone(),
            set: self.set.title.clone(),
            source: self.source.clone(),
            span: block.head,
            clause: clause.span,
            kind: read.kind,
            condition: read.condition,
            narrows: clause.narrows.map(|span| (self.source.clone(), span)),
            shall: clause.shall,
            requirement: read.requirement,
            asks: clause.asks,
            limits,
            cites,
            because: parts.because.map(|(because, _)| because).unwrap_or_default(),
            sure: parts.sure.map(|(sure, _)| sure).unwrap_or_default(),
            fragments: parts.fragments.into_iter().map(|fragment| (self.source.clone(), fragment)).collect(),
            amendments: Vec::new(),
        };
        if let Some(trouble) = bounds::trouble(&amend::held(&rule, &|narrows, span| amend::words(&rule, narrows, span)))
        {
            let finding = Finding::notice(trouble.notice, self.source, trouble.place.1, trouble.message.clone());
            self.findings.push(match trouble.beside {
                Some((_, span, text)) => finding.with_label(span, text),
                None => finding,
            });
            if trouble.spoils() {
                self.set.unread.push(name.clone());
                return;
            }
        }
        self.set.rules.push(Arc::new(rule));
    }
}

/// The heading's properties.
const HEADING: [&str; 4] = ["basis", "edition", "caution", "amends"];

const IN_A_RULE: &str = "It stands between the braces of the rule: `rule \"low risers\" { ... }`.";

fn within(help: &str) -> Option<String> {
    Some(help.to_owned())
}

/// Where a property belongs that stands by itself.
fn belongs(name: &str) -> &'static str {
    if HEADING.contains(&name) { "It stands in the heading: `ruleset \"Our county\" { ... }`." } else { IN_A_RULE }
}

/// How a block is opened whose brace is missing: its word, its name in quotes, and what follows.
fn opens(word: &str, terms: &[Term], source: &Source, follows: &str) -> String {
    let name = match terms.get(1..) {
        Some([first, .., last]) => text_of(source, terms.get(1..).unwrap_or_default(), first.span.to(last.span)),
        Some([only]) => text_of(source, std::slice::from_ref(only), only.span),
        _ => "...".to_owned(),
    };
    format!("A block has braces: `{word} \"{name}\" {follows}`.")
}

const MADE_OF: &str = "A ruleset is made of `ruleset \"name\" { }`, `chapter`, `rule`, `amend` and `withdraw`.";

/// A text as it was meant: without its quotes, or as it stands.
pub(super) fn text_of(source: &Source, value: &[Term], span: Span) -> String {
    match value {
        [Term { kind: TermKind::Text(text), .. }] => text.to_string(),
        _ => source.slice(span).split_whitespace().collect::<Vec<_>>().join(" "),
    }
}
