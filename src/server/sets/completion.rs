//! What may be written at a place of a ruleset: the words of the language by their table, kinds, quantities and
//! properties by theirs, the limits of the rule, the rules and sets below.

use gen_lsp_types::{
    CompletionItem, CompletionItemKind, CompletionItemTextEdit, Documentation, InsertTextFormat, TextEdit,
};

use super::read::{Block, Opened};
use crate::base::Span;
use crate::derive::{Gives, quantities, quantity};
use crate::model::{KINDS, Kind, Takes, kinds};
use crate::report::limit_history;
use crate::rules::problem::BlockKind;
use crate::rules::{Purpose, Stands, Sure, WORDS, Word, kind_called};
use crate::server::completion::{fragment, in_a_comment, sets};
use crate::server::documents::{Document, Holds};
use crate::server::nodes;
use crate::server::workspace::Workspace;
use crate::syntax::{Item, parse_fragment};
use crate::wording::takes;

/// What may stand at a byte.
pub(in crate::server) fn at(workspace: &Workspace, document: &Document, byte: u32) -> Vec<CompletionItem> {
    let before = document.source.slice(Span { start: 0, end: byte });
    if document.holds == Holds::BuiltIn || in_a_comment(before.rsplit(['\n', '\r']).next().unwrap_or_default()) {
        return Vec::new();
    }
    let opened = Opened::of(workspace, document);
    let chain = nodes::holding(&opened.tree.items, byte);
    // Of a block whose head holds the byte the one around it counts.
    let block = opened.block(byte).filter(|block| block.open.end <= byte);
    if let Some(Item::Fragment(piece)) = chain.last().filter(|_| block.is_some())
        && piece.colon.end <= byte
    {
        let (tree, _) = parse_fragment(&opened.source, piece.span);
        return fragment(workspace, document, &tree, byte);
    }
    let line = before.rsplit(['\n', '\r', ';', '{', '}']).next().unwrap_or_default();
    let place = Place { workspace, document, opened: &opened, byte };
    let said = clause_before(&opened, &block, before, byte);
    if let (Some(block), Some(said)) = (&block, said) {
        return place.clause(block, said);
    }
    if let Some((name, _)) = line.split_once(':') {
        let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
        return place.value(block.as_ref(), &name, line);
    }
    let head = line.split_whitespace().next().and_then(BlockKind::of);
    match (head, block) {
        (Some(kind), _) if line.trim_start().contains(char::is_whitespace) => place.names(kind, line),
        (_, None) => place.words(Stands::Set, &[]),
        (_, Some(block)) => place.statements(&block),
    }
}

/// The clause so far that a byte stands in, or the condition of an amendment.
fn clause_before<'t>(opened: &'t Opened, block: &Option<Block<'_>>, before: &'t str, byte: u32) -> Option<&'t str> {
    let block = block.as_ref().filter(|block| matches!(block.kind, BlockKind::Rule | BlockKind::Amend))?;
    let inside = opened.source.slice(Span { start: block.open.end, end: byte });
    // A clause may go on over lines; it ends where a property, or another statement, begins.
    let start = inside.rmatch_indices("each ").map(|(at, _)| at).find(|at| {
        let ahead = inside.get(..*at).unwrap_or_default().trim_end_matches([' ', '\t']);
        ahead.is_empty() || ahead.ends_with(['\n', '\r', ';'])
    });
    if let Some(clause) = start.and_then(|start| inside.get(start..))
        && !clause.contains([':', ';', '{', '}'])
    {
        return Some(clause);
    }
    let line = before.rsplit(['\n', '\r', ';', '{', '}']).next()?;
    let (word, condition) = line.split_once(':')?;
    (word.trim() == "where").then_some(condition)
}

struct Place<'p> {
    workspace: &'p Workspace,
    document: &'p Document,
    opened: &'p Opened,
    byte: u32,
}

impl Place<'_> {
    /// Words of the language that stand somewhere, but for those that are stated already.
    fn words(&self, stands: Stands, stated: &[&str]) -> Vec<CompletionItem> {
        let plain = |row: &&Word| {
            let one = row.word.chars().all(|c| c.is_alphabetic() || c == ' ');
            row.stands == stands && one && !stated.contains(&row.word)
        };
        WORDS.iter().filter(plain).map(|row| self.word(row)).collect()
    }

    fn word(&self, row: &Word) -> CompletionItem {
        let (plain, snippet) = match row.stands {
            Stands::Set => (format!("{} \"", row.word), format!("{} \"$1\" {{\n\t$0\n}}", row.word)),
            Stands::Clause => (format!("{} ", row.word), format!("{} $0", row.word)),
            _ if row.word == "limit" => ("limit ".to_owned(), "limit ${1:most}: $0".to_owned()),
            _ if ["basis", "edition", "caution", "source", "because"].contains(&row.word) => {
                (format!("{}: \"", row.word), format!("{}: \"$1\"$0", row.word))
            }
            Stands::Rule if ["passes", "fails", "spares"].contains(&row.word) => {
                (format!("{}: ", row.word), format!("{}: $0", row.word))
            }
            _ => (format!("{}: ", row.word), format!("{}: $0", row.word)),
        };
        let snippets = self.workspace.client.snippets;
        CompletionItem {
            label: row.word.to_owned(),
            kind: Some(CompletionItemKind::Keyword),
            detail: Some(row.example.to_owned()),
            documentation: Some(Documentation::String(row.help.to_owned())),
            sort_text: Some(format!("5{}", row.word)),
            insert_text: Some(if snippets { snippet } else { plain }),
            insert_text_format: Some(if snippets { InsertTextFormat::Snippet } else { InsertTextFormat::PlainText }),
            ..CompletionItem::default()
        }
    }

    /// Statements of a block that are not there yet.
    fn statements(&self, block: &Block<'_>) -> Vec<CompletionItem> {
        let stated: Vec<&str> = block
            .body
            .iter()
            .filter_map(|item| match item {
                Item::Property { name, name_span, .. } if name_span.end != self.byte => Some(name.as_str()),
                Item::Condition { .. } => Some("where"),
                _ => None,
            })
            .collect();
        let mut items = match block.kind {
            BlockKind::Ruleset => self.words(Stands::Heading, &stated),
            BlockKind::Chapter => {
                let mut items = self.words(Stands::Set, &[BlockKind::Ruleset.word(), BlockKind::Chapter.word()]);
                items.retain(|item| BlockKind::of(&item.label).is_some());
                items
            }
            BlockKind::Rule => self.words(Stands::Rule, &stated),
            BlockKind::Amend => {
                let mut items = self.words(Stands::Rule, &stated);
                items.extend(self.words(Stands::Amendment, &stated));
                items
            }
            BlockKind::Withdraw => {
                let mut items = self.words(Stands::Rule, &stated);
                items.retain(|item| ["because", "source"].contains(&item.label.as_str()));
                items
            }
            BlockKind::Figure => {
                let mut items = self.words(Stands::Rule, &stated);
                items.retain(|item| ["because", "source", "sure"].contains(&item.label.as_str()));
                items
            }
        };
        let has_clause = block.body.iter().any(|item| matches!(item, Item::Clause(_)));
        if matches!(block.kind, BlockKind::Rule | BlockKind::Amend) && !has_clause {
            items.extend(WORDS.iter().filter(|row| row.word == "each").map(|row| self.word(row)));
        }
        if block.kind == BlockKind::Amend {
            items.extend(self.limits_to_amend(block, &stated));
        }
        items
    }

    /// The limits of the rule that is amended, each as it is now.
    fn limits_to_amend(&self, block: &Block<'_>, stated: &[&str]) -> Vec<CompletionItem> {
        let limits = self.opened.rule(block).into_iter().flat_map(|rule| &rule.limits);
        let item = |limit: &crate::rules::Limit| {
            let name = format!("limit {}", limit.name);
            (!stated.contains(&name.as_str())).then(|| CompletionItem {
                kind: Some(CompletionItemKind::Constant),
                detail: Some(limit.figures()),
                documentation: Some(Documentation::String(limit_history(limit).join("\n"))),
                sort_text: Some(format!("1{name}")),
                insert_text: Some(format!("{name}: {}", limit.figures())),
                label: name,
                ..CompletionItem::default()
            })
        };
        limits.filter_map(item).collect()
    }

    /// Names after a word that opens a block: those of the rules that can be amended or withdrawn.
    fn names(&self, kind: BlockKind, line: &str) -> Vec<CompletionItem> {
        let Some(set) = self.opened.set().filter(|_| matches!(kind, BlockKind::Amend | BlockKind::Withdraw)) else {
            return Vec::new();
        };
        let own = &self.opened.source.text;
        let below = set.rules.iter().filter(|rule| rule.source.text != *own);
        // What this set amends already is amended once.
        let free = below.filter(|rule| rule.amendments.iter().all(|by| by.source.text != *own));
        let quoted = line.contains('"');
        let closed = self.opened.source.text.get(self.byte as usize..).is_some_and(|rest| rest.starts_with('"'));
        let item = |rule: &std::sync::Arc<crate::rules::Rule>| CompletionItem {
            label: rule.name.clone(),
            kind: Some(CompletionItemKind::Function),
            detail: Some(rule.wording()),
            documentation: Some(Documentation::String(format!("{}. {}", rule.set, rule.because))),
            text_edit: Some(self.in_place(
                line.rsplit('"').next().filter(|_| quoted).unwrap_or(""),
                &match (quoted, closed) {
                    (true, true) => rule.name.clone(),
                    (true, false) => format!("{}\"", rule.name),
                    (false, _) => format!("\"{}\"", rule.name),
                },
            )),
            ..CompletionItem::default()
        };
        free.map(item).collect()
    }

    /// A text in place of the words that were begun.
    fn in_place(&self, begun: &str, text: &str) -> CompletionItemTextEdit {
        let length = u32::try_from(begun.len()).unwrap_or_default();
        let span = Span { start: self.byte.saturating_sub(length), end: self.byte };
        let range = self.workspace.range(self.document, span);
        CompletionItemTextEdit::TextEdit(TextEdit { range, new_text: text.to_owned() })
    }

    /// What a property takes.
    fn value(&self, block: Option<&Block<'_>>, name: &str, line: &str) -> Vec<CompletionItem> {
        let words = |words: &[&str]| -> Vec<CompletionItem> {
            let item = |word: &&str| CompletionItem {
                label: (*word).to_owned(),
                kind: Some(CompletionItemKind::Value),
                ..CompletionItem::default()
            };
            words.iter().map(item).collect()
        };
        match (block.map(|block| block.kind), name) {
            (Some(BlockKind::Ruleset), "for") => words(&Purpose::ALL.map(Purpose::word)),
            (Some(BlockKind::Ruleset), "amends") => sets(self.workspace, self.document),
            (Some(BlockKind::Rule | BlockKind::Amend), "sure") => words(&Sure::ALL.map(Sure::word)),
            (Some(BlockKind::Rule | BlockKind::Amend), "waive") => words(&["never", "allowed"]),
            (Some(BlockKind::Amend), "verb") => words(&["shall", "should"]),
            (Some(block @ (BlockKind::Rule | BlockKind::Amend)), "passes" | "fails" | "spares") => {
                // An example that is begun is not read as one yet.
                let begun = line.split_once(':').map_or("", |(_, begun)| begun);
                let empty = block == BlockKind::Amend || begun.trim().chars().all(char::is_alphabetic);
                let tree = parse_fragment(&self.opened.source, Span { start: self.byte, end: self.byte }).0;
                if empty { fragment(self.workspace, self.document, &tree, self.byte) } else { Vec::new() }
            }
            _ => Vec::new(),
        }
    }

    /// What may follow in a clause.
    fn clause(&self, block: &Block<'_>, said: &str) -> Vec<CompletionItem> {
        let told = Said::of(said);
        // In the condition of an amendment the rule's own kind is spoken of.
        let rule_kind = self.opened.rule(block).map(|rule| rule.kind);
        let kind = told.kind.or(rule_kind.filter(|_| !said.starts_with("each")));
        let mut items = Vec::new();
        let (begun, wants) = (told.begun.as_str(), told.wants);
        match wants {
            Wants::Kind => {
                items.extend(KINDS.iter().filter(|kind| speaks_of(kind)).map(|of| self.kind(of, of.name, begun)))
            }
            Wants::Kinds => {
                items.extend(KINDS.iter().filter(|kind| speaks_of(kind)).map(|of| self.kind(of, of.plural, begun)));
            }
            Wants::Word(subject) => {
                let known = kind.map(|kind| words_of(&subject, kind)).unwrap_or_default();
                items.extend(
                    known.iter().map(|word| self.item(word, CompletionItemKind::EnumMember, "", "", begun, '1')),
                );
            }
            Wants::Value => {
                if let Some(kind) = kind {
                    items.extend(self.values(block, kind, (told.summed, begun)));
                }
                let opening = [
                    "number of",
                    "largest",
                    "smallest",
                    "total",
                    "largest change of",
                    "lesser of",
                    "greater of",
                    "not",
                ];
                items.extend(opening.iter().map(|word| self.opens(word, begun)));
            }
            Wants::Sign => {
                let signs: &[&str] = match told.verb {
                    true => &["<=", ">=", "<", ">", "=", "!=", "is", "is not", "is one of", "of", "per", "and", "or"],
                    false => &[
                        "<=",
                        ">=",
                        "<",
                        ">",
                        "=",
                        "!=",
                        "is",
                        "is not",
                        "is one of",
                        "of",
                        "and",
                        "or",
                        "shall have",
                        "should have",
                    ],
                };
                items.extend(signs.iter().map(|sign| self.opens(sign, begun)));
            }
            Wants::Verb => {
                items.extend(["where", "shall have", "should have"].iter().map(|word| self.opens(word, begun)));
            }
        }
        items
    }

    /// Quantities and properties of a kind, and the limits of the rule.
    fn values(
        &self,
        block: &Block<'_>,
        kind: &'static Kind,
        (summed, begun): (Option<&str>, &str),
    ) -> Vec<CompletionItem> {
        let mut items = Vec::new();
        for name in self.opened.limits(block) {
            let limit = self.opened.rule(block).and_then(|rule| rule.limits.iter().find(|limit| limit.name == name));
            let figures = limit.map(crate::rules::Limit::figures).unwrap_or_default();
            items.push(self.item(&name, CompletionItemKind::Constant, &figures, "", begun, '1'));
        }
        // `total` may be the word of a sum, or begin a name.
        let so_far = |name: &str| match summed.filter(|word| name.split(' ').next() == Some(word)) {
            Some(word) => format!("{word} {begun}"),
            None => begun.to_owned(),
        };
        for entry in quantities().filter(|entry| entry.kind == kind) {
            let gives = entry.gives.words();
            items.push(self.item(entry.name, CompletionItemKind::Field, &gives, entry.help, &so_far(entry.name), '2'));
        }
        let comparable = |takes: Takes| {
            matches!(
                takes,
                Takes::Length
                    | Takes::Lengths
                    | Takes::Angle
                    | Takes::Area
                    | Takes::Slope
                    | Takes::Number
                    | Takes::Count
                    | Takes::OneOf(_)
                    | Takes::Edge
                    | Takes::Words
                    | Takes::Finish
                    | Takes::Date
            )
        };
        let own = kind.properties.iter().filter(|property| comparable(property.takes));
        for property in own.filter(|property| quantity(kind, property.name).is_none()) {
            items.push(self.item(
                property.name,
                CompletionItemKind::Property,
                &takes(property.takes),
                property.help,
                &so_far(property.name),
                '3',
            ));
        }
        items
    }

    fn kind(&self, kind: &Kind, name: &str, begun: &str) -> CompletionItem {
        self.item(name, CompletionItemKind::Class, "", kind.help, begun, '1')
    }

    /// A word of the clause, with what the table says of it.
    fn opens(&self, word: &str, begun: &str) -> CompletionItem {
        let says = |row: &&Word| {
            row.stands == Stands::Clause
                && row.word.split(',').any(|said| word.starts_with(said.trim()) || said.trim() == word)
        };
        let help = WORDS.iter().find(says).map_or("", |row| row.help);
        self.item(word, CompletionItemKind::Operator, "", help, begun, '5')
    }

    fn item(
        &self,
        label: &str,
        kind: CompletionItemKind,
        detail: &str,
        help: &str,
        begun: &str,
        order: char,
    ) -> CompletionItem {
        let some = |text: &str| (!text.is_empty()).then(|| text.to_owned());
        CompletionItem {
            label: label.to_owned(),
            kind: Some(kind),
            detail: some(detail),
            documentation: some(help).map(Documentation::String),
            sort_text: Some(format!("{order}{label}")),
            text_edit: Some(self.in_place(begun, label)),
            ..CompletionItem::default()
        }
    }
}

/// Whether a rule can be of a kind: of some no design holds one.
fn speaks_of(kind: &Kind) -> bool {
    kind != kinds::MEASURED && kind != kinds::WAIVER
}

/// The words that a quantity or property of a kind, or of another that is named behind `of`, can be.
fn words_of(subject: &str, kind: &'static Kind) -> Vec<&'static str> {
    let (name, kind) = match subject.split_once(" of ") {
        Some((name, of)) => (name, kind_called(of.split(" of ").next().unwrap_or(of)).unwrap_or(kind)),
        None => (subject, kind),
    };
    if let Some(Gives::Word(words)) = quantity(kind, name).map(|entry| entry.gives) {
        return words.to_vec();
    }
    match kind.property(name).map(|property| property.takes) {
        Some(Takes::OneOf(words)) => words.to_vec(),
        Some(Takes::Edge) => vec!["square", "radius", "bevel"],
        _ => Vec::new(),
    }
}

/// What a clause that is begun wants next.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Wants {
    /// A kind, of one thing.
    Kind,
    /// A kind, of several things.
    Kinds,
    /// `where`, or the verb.
    Verb,
    /// A quantity, a limit, a figure.
    Value,
    /// A sign, or what joins two conditions.
    Sign,
    /// A word that this may be.
    Word(String),
}

/// What was said of a clause so far.
#[derive(Debug, PartialEq, Eq)]
struct Said {
    /// Of what the words at the end speak.
    kind: Option<&'static Kind>,
    /// The words of a name that are begun.
    begun: String,
    wants: Wants,
    /// The word right before that sums up.
    summed: Option<&'static str>,
    /// `shall have` or `should have` stands before.
    verb: bool,
}

/// Words after which a value is wanted.
const BEFORE_A_VALUE: [&str; 7] = ["where", "have", "and", "or", "not", "per", "than"];

/// Words that sum up, and that the name of a quantity may begin with.
const SUMS_UP: [&str; 3] = ["largest", "smallest", "total"];

impl Said {
    fn of(said: &str) -> Self {
        let spaced = said.replace('(', " ( ").replace(')', " ) ").replace(',', " , ");
        let mut words: Vec<&str> = spaced.split_whitespace().collect();
        let open = said.ends_with(char::is_alphanumeric);
        let is_sign = |word: &str| !word.is_empty() && word.chars().all(|c| "<>=!+-*/(),".contains(c));
        // The name that is begun: the words back to a sign or a word of the language.
        let is_name = |word: &str| {
            !is_sign(word)
                && !BEFORE_A_VALUE.contains(&word)
                && !["each", "shall", "should", "is", "of", "one", "along", "number", "largest", "smallest", "total"]
                    .contains(&word)
                && !word.starts_with(|c: char| c.is_ascii_digit())
        };
        let from = words.iter().rposition(|word| !is_name(word)).map_or(0, |at| at + 1);
        let name = words.get(from..).unwrap_or_default().join(" ");
        let before: Vec<&str> = words.drain(..from).collect();
        let last = before.last().copied().unwrap_or("where");
        let verb = before.contains(&"have");
        let kind = innermost(&before, &name);
        let done = !name.is_empty() && !open;
        let wants = match last {
            "each" if done => Wants::Verb,
            "each" => Wants::Kind,
            "shall" | "should" => Wants::Verb,
            "of" => match before.len().checked_sub(2).and_then(|at| before.get(at)) {
                Some(&"number") if done => Wants::Sign,
                Some(&"number") => Wants::Kinds,
                // `is one of`
                Some(&"one") => Wants::Word(subject(&before)),
                Some(&"lesser" | &"greater") => Wants::Value,
                _ if done => Wants::Sign,
                _ if collects(&before) => Wants::Kinds,
                _ => Wants::Kind,
            },
            "along" if !done => Wants::Kinds,
            "is" | "one" => Wants::Word(subject(&before)),
            "not" if before.len() > 1 && before.get(before.len() - 2) == Some(&"is") => Wants::Word(subject(&before)),
            "," if before.contains(&"is") => Wants::Word(subject(&before)),
            "(" if !done => match before.len().checked_sub(2).and_then(|at| before.get(at)) {
                Some(&"of" | &"along") => Wants::Kinds,
                _ => Wants::Value,
            },
            ")" => Wants::Sign,
            figure if figure.starts_with(|c: char| c.is_ascii_digit()) => Wants::Sign,
            _ if done => Wants::Sign,
            _ => Wants::Value,
        };
        // A word of several may have its first ones said: `is not`.
        let begun = if open { name } else { String::new() };
        let summed = SUMS_UP.into_iter().find(|word| *word == last);
        Self { kind, begun, wants, summed, verb }
    }
}

/// Whether `of` at the end follows a word that sums several things up.
fn collects(before: &[&str]) -> bool {
    let since =
        before.iter().rposition(|word| ["where", "have", "and", "or", "("].contains(word)).map_or(0, |at| at + 1);
    let words = before.get(since..).unwrap_or_default();
    words.iter().any(|word| SUMS_UP.contains(word)) && words.iter().filter(|word| **word == "of").count() == 1
}

/// What stands before the last `is`.
fn subject(before: &[&str]) -> String {
    let is = before.iter().rposition(|word| *word == "is").unwrap_or(before.len());
    let words = before.get(..is).unwrap_or_default();
    let from =
        words.iter().rposition(|word| BEFORE_A_VALUE.contains(word) || ["(", "<=", ">=", "<", ">", "="].contains(word));
    words.get(from.map_or(0, |at| at + 1)..).unwrap_or_default().join(" ")
}

/// The kind that the end of a clause speaks of: that of a collection that is open, else that of the clause.
fn innermost(before: &[&str], name: &str) -> Option<&'static Kind> {
    let mut open: Vec<usize> = Vec::new();
    for (at, word) in before.iter().enumerate() {
        match *word {
            "(" => open.push(at),
            ")" => drop(open.pop()),
            _ => {}
        }
    }
    let of = |words: &[&str]| (1..=2).rev().find_map(|count| kind_called(&words.get(..count)?.join(" ")));
    let collected = open.iter().rev().find_map(|at| {
        let words = before.get(at + 1..)?;
        words.contains(&"where").then(|| of(words)).flatten()
    });
    let first = || match before.iter().position(|word| *word == "each") {
        Some(at) if at + 1 < before.len() => of(before.get(at + 1..)?),
        Some(_) => kind_called(name),
        None => None,
    };
    collected.or_else(first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clause_that_is_begun_tells_what_it_wants() {
        let word = |subject: &str| Wants::Word(subject.to_owned());
        for (said, kind, begun, wants) in [
            ("each ", None, "", Wants::Kind),
            ("each fli", None, "fli", Wants::Kind),
            ("each flight ", Some("flight"), "", Wants::Verb),
            ("each riser board ", Some("riser board"), "", Wants::Verb),
            ("each flight where ", Some("flight"), "", Wants::Value),
            ("each flight shall ", Some("flight"), "", Wants::Verb),
            ("each flight shall have unit ri", Some("flight"), "unit ri", Wants::Value),
            ("each flight shall have rise ", Some("flight"), "", Wants::Sign),
            ("each flight shall have rise <= ", Some("flight"), "", Wants::Value),
            ("each flight shall have rise <= 12\" ", Some("flight"), "", Wants::Sign),
            ("each flight where number of ", Some("flight"), "", Wants::Kinds),
            ("each flight where number of handrails ", Some("flight"), "", Wants::Sign),
            ("each tread shall have length >= width of ", Some("tread"), "", Wants::Kind),
            ("each flight shall have largest height of ", Some("flight"), "", Wants::Kinds),
            ("each flight shall have number of (", Some("flight"), "", Wants::Kinds),
            ("each flight shall have number of (handrails where ", Some("handrail"), "", Wants::Value),
            ("each handrail shall have ends is ", Some("handrail"), "", word("ends")),
            ("each handrail shall have ends is one of returned, ", Some("handrail"), "", word("ends")),
            ("each tread where setting of stair is ", Some("tread"), "", word("setting of stair")),
            ("each tread where edge is not sq", Some("tread"), "sq", word("edge")),
            ("number of ris", None, "ris", Wants::Kinds),
        ] {
            let told = Said::of(said);
            assert_eq!(told.wants, wants, "{said}");
            assert_eq!(told.kind.map(|kind| kind.name), kind, "{said}");
            assert_eq!(told.begun, begun, "{said}");
        }
    }
}
