//! What may be written at a place: kinds that may stand there, properties that are not stated yet, and values; first
//! what rules wait for. All from the tables that the reader reads by.

use std::collections::BTreeMap;
use std::path::Path;

use gen_lsp_types::{CompletionItem, CompletionItemKind, Documentation, InsertTextFormat};

use super::documents::{Document, Holds};
use super::names;
use super::nodes;
use super::workspace::Workspace;
use crate::base::Span;
use crate::check::{Analysis, BUILT_IN, Finding, shipped};
use crate::derive::{Drawing, Reason, Statement};
use crate::measure::{Dimension, INCH, Measure, Style, print};
use crate::model::sizes::{dressed, dressed_width};
use crate::model::timbers::SPECIES;
use crate::model::{
    FILE, KINDS, Kind, Property, PropertyName, SHOP_KINDS, Takes, Trait, example, in_units, kinds, properties,
};
use crate::rules::DRAWING;
use crate::syntax::{Item, Tree};
use crate::wording::takes;

/// What is said of what the shop stocks.
const IN_STOCK: &str = "in stock";

/// What may stand at a byte.
pub(super) fn at(workspace: &Workspace, document: &Document, byte: u32) -> Vec<CompletionItem> {
    let before = document.source.slice(Span { start: 0, end: byte });
    let line = before.rsplit(['\n', '\r']).next().unwrap_or_default();
    match document.holds {
        _ if in_a_comment(line) => Vec::new(),
        Holds::Rules | Holds::BuiltIn => Vec::new(),
        Holds::Design | Holds::Shop => {
            let metric = workspace.analysis(document).is_some_and(|analysis| {
                let stairs = &analysis.stairs;
                stairs.iter().filter(|stair| stair.drawn.is_metric()).count() * 2 > stairs.len()
            });
            Place { workspace, document, tree: &workspace.tree(document), top: FILE, metric }.at(byte)
        }
    }
}

/// What may stand at a byte of an example in a set: it is a piece of a stair.
pub(super) fn fragment(workspace: &Workspace, document: &Document, tree: &Tree, byte: u32) -> Vec<CompletionItem> {
    let limits = workspace.set(document).map_or((0, 0), |loaded| {
        let own = loaded.set.rules.iter().flat_map(|rule| &rule.limits);
        let own = own.filter(|limit| limit.source.text == document.source.text);
        own.fold((0, 0), |(all, metric), limit| (all + 1, metric + usize::from(limit.measure.style.is_metric())))
    });
    Place { workspace, document, tree, top: kinds::STAIR.name, metric: limits.1 * 2 > limits.0 }.at(byte)
}

/// A text of statements of a design.
struct Place<'p> {
    workspace: &'p Workspace,
    document: &'p Document,
    tree: &'p Tree,
    /// In what the outermost statements stand.
    top: &'static str,
    /// Its lengths are written in metric units.
    metric: bool,
}

impl Place<'_> {
    fn at(&self, byte: u32) -> Vec<CompletionItem> {
        let before = self.document.source.slice(Span { start: self.tree.span.start, end: byte });
        let statement = before.rsplit(['\n', '\r', '{', '}', ';']).next().unwrap_or_default();
        let block = around(self.tree, byte);
        let typed = statement.trim_start();
        if let Some(typed) =
            typed.strip_prefix(kinds::WAIVER.opens).filter(|rest| rest.starts_with(char::is_whitespace))
        {
            return self.over(typed.trim_start(), byte, self.waivable());
        }
        match statement.split_once(':') {
            Some((name, value)) => {
                let name = name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
                let kind = match &block {
                    Some(block) => block.kind,
                    None => KINDS.iter().find(|kind| kind.name == self.top),
                };
                let Some(property) = kind.and_then(|kind| kind.property(&name)) else { return Vec::new() };
                self.over(part(property.takes, value), byte, self.values(property))
            }
            None => self.over(typed, byte, self.statements(block.as_ref())),
        }
    }

    /// The same items, each in the place of what is typed of it so far: an editor takes but the last word for that, and
    /// names and values have blanks and quotes in them.
    fn over(&self, typed: &str, byte: u32, items: Vec<CompletionItem>) -> Vec<CompletionItem> {
        let after = self.document.source.text.get(byte as usize..).unwrap_or_default();
        let line = after.split(['\n', '\r', ';', '{', '}', ',']).next().unwrap_or_default();
        // A quote that an editor has closed of itself.
        let closes = typed.starts_with('"') && !typed.get(1..).is_some_and(|rest| rest.contains('"'));
        let rest = line.find('"').filter(|_| closes).map_or(0, |at| at + 1);
        let span = Span::new(byte as usize - typed.len(), byte as usize + rest);
        let over = |item: CompletionItem| {
            let text = item.insert_text.as_deref().unwrap_or(&item.label);
            let edit = self.workspace.text_edit(self.document, span, text);
            CompletionItem { text_edit: Some(edit.into()), ..item }
        };
        items.into_iter().map(over).collect()
    }

    /// The rules that a waiver may name: of the sets that the design asks for, those that are not met first.
    fn waivable(&self) -> Vec<CompletionItem> {
        let Some(analysis) = self.workspace.analysis(self.document) else { return Vec::new() };
        let unmet: Vec<&str> = analysis.report.findings.iter().map(Finding::name).collect();
        let mut items: Vec<CompletionItem> = Vec::new();
        for rule in analysis.sets.iter().filter(|loaded| !loaded.set.is_drawing()).flat_map(|loaded| &loaded.set.rules)
        {
            let label = format!("\"{}\"", rule.name);
            if !rule.waivable || items.iter().any(|item| item.label == label) {
                continue;
            }
            let order = if unmet.contains(&rule.name.as_str()) { '1' } else { '2' };
            items.push(CompletionItem {
                sort_text: Some(format!("{order}{label}")),
                label,
                kind: Some(CompletionItemKind::Value),
                detail: Some(rule.set.clone()),
                ..CompletionItem::default()
            });
        }
        items
    }
}

/// What is typed of the value that is under way: of a list the part behind its last comma, of members joined that behind
/// `to`.
fn part(takes: Takes, value: &str) -> &str {
    let last = match takes {
        Takes::SomeOf(_) | Takes::Sets | Takes::Members | Takes::Name => value.rsplit(',').next().unwrap_or_default(),
        _ => value,
    };
    let last = match takes {
        Takes::Members => last.rsplit(" to ").next().unwrap_or_default(),
        _ => last,
    };
    last.trim_start()
}

/// Whether a line so far opens a comment: `#` but for a screw's number, outside of quotes.
pub(super) fn in_a_comment(line: &str) -> bool {
    let mut quoted = false;
    let mut signs = line.chars().peekable();
    let mut before = ' ';
    while let Some(sign) = signs.next() {
        // After a figure `"` is an inch.
        if sign == '"' && (quoted || !before.is_ascii_digit()) {
            quoted = !quoted;
        }
        if sign == '#' && !quoted && !signs.peek().is_some_and(char::is_ascii_digit) {
            return true;
        }
        before = sign;
    }
    false
}

/// The block round a place.
struct Around<'t> {
    kind: Option<&'static Kind>,
    head: Span,
    /// All of it, its braces too.
    extent: Span,
    body: &'t [Item],
}

fn around(tree: &Tree, byte: u32) -> Option<Around<'_>> {
    nodes::holding(&tree.items, byte).into_iter().rev().find_map(|item| match item {
        Item::Block { head, head_span, open, body, close, .. }
            if open.end <= byte && close.is_none_or(|close| byte <= close.start) =>
        {
            Some(Around { kind: nodes::kind(head), head: *head_span, extent: nodes::extent(item), body })
        }
        _ => None,
    })
}

impl Place<'_> {
    /// Properties and blocks that may stand in a block, or at the top.
    fn statements(&self, block: Option<&Around<'_>>) -> Vec<CompletionItem> {
        let (within, body) = match block {
            None => (self.top, self.tree.items.as_slice()),
            Some(Around { kind: Some(kind), body, .. }) => (kind.name, *body),
            Some(_) => return Vec::new(),
        };
        let table = if self.document.holds == Holds::Shop { SHOP_KINDS } else { KINDS };
        let kind = block.map_or_else(|| KINDS.iter().find(|kind| kind.name == within), |block| block.kind);
        let stated =
            |name: &str| body.iter().any(|item| matches!(item, Item::Property { name: known, .. } if known == name));
        let analysis = self.workspace.analysis(self.document);
        let awaited = analysis.zip(block).map(|(analysis, block)| awaited(&analysis, block)).unwrap_or_default();
        let mut items = Vec::new();
        for property in kind.into_iter().flat_map(|kind| kind.properties).filter(|property| !stated(property.name)) {
            let rules = awaited.stated.get(&key(property.handle())).map_or(&[][..], Vec::as_slice);
            items.push(self.property(property, rules));
        }
        for kind in table.iter().filter(|kind| kind.within.contains(&within)) {
            let rules = awaited.drawn.iter().find(|(awaited, _)| *awaited == kind).map_or(&[][..], |(_, rules)| rules);
            items.push(self.kind(kind, rules));
        }
        items
    }

    fn property(&self, property: &Property, awaited: &[String]) -> CompletionItem {
        let order = if awaited.is_empty() { "2" } else { "1" };
        let typical = in_units(example(property), self.metric);
        let (text, format) = match self.workspace.client.snippets && !typical.is_empty() {
            true => (format!("{}: ${{1:{}}}", property.name, in_a_place(&typical)), InsertTextFormat::Snippet),
            false => (format!("{}: ", property.name), InsertTextFormat::PlainText),
        };
        CompletionItem {
            label: property.name.to_owned(),
            kind: Some(CompletionItemKind::Property),
            detail: Some(takes(property.takes)),
            documentation: Some(Documentation::String(format!("{}{}", property.help, settles(awaited)))),
            sort_text: Some(format!("{order}{}", property.name)),
            insert_text: Some(text),
            insert_text_format: Some(format),
            ..CompletionItem::default()
        }
    }

    /// A whole block, with places for its names and values.
    fn kind(&self, kind: &Kind, awaited: &[String]) -> CompletionItem {
        // A reason and a name are for a person to write: until they are, a waiver excuses nothing.
        let example = match kind == kinds::WAIVER {
            true => unsigned_waiver(),
            false => in_units(kind.example, self.metric),
        };
        let order = if awaited.is_empty() { "3" } else { "1" };
        let (text, format) = match (self.workspace.client.snippets, example.ends_with('}')) {
            (true, _) => (snippet(kind, &example), InsertTextFormat::Snippet),
            (false, true) => (example.clone(), InsertTextFormat::PlainText),
            (false, false) => (format!("{} {{", kind.opens), InsertTextFormat::PlainText),
        };
        CompletionItem {
            label: kind.opens.to_owned(),
            kind: Some(CompletionItemKind::Struct),
            detail: Some(example).filter(|example| !example.is_empty()),
            documentation: Some(Documentation::String(format!("{}{}", kind.help, settles(awaited)))),
            sort_text: Some(format!("{order}{}", kind.opens)),
            insert_text: Some(text),
            insert_text_format: Some(format),
            ..CompletionItem::default()
        }
    }
}

/// A waiver of no rule yet.
fn unsigned_waiver() -> String {
    let [why, by] = [properties::WHY, properties::BY].map(PropertyName::text);
    format!("{} \"\" {{ {why}: \"\"; {by}: \"\" }}", kinds::WAIVER.opens)
}

fn settles(awaited: &[String]) -> String {
    if awaited.is_empty() { String::new() } else { format!(". It would settle {}", awaited.join(", ")) }
}

/// A text as the words of a place to fill in.
fn in_a_place(text: &str) -> String {
    text.replace('\\', "\\\\").replace('$', "\\$").replace('}', "\\}")
}

/// The example of a kind as a block over several lines: a place for its name or side, and one for each value.
fn snippet(kind: &Kind, example: &str) -> String {
    let (head, body) = example.split_once('{').unwrap_or((kind.opens, ""));
    let name = head.trim().strip_prefix(kind.opens).unwrap_or_default().trim();
    let mut places = 0;
    let mut place = |text: &str| {
        places += 1;
        format!("${{{places}:{}}}", in_a_place(text))
    };
    let name = match name.strip_prefix('"').and_then(|name| name.strip_suffix('"')) {
        _ if name.is_empty() => String::new(),
        Some(inner) => format!(" \"{}\"", place(inner)),
        None => format!(" {}", place(name)),
    };
    let stated = body.trim_end_matches('}').split(';').filter_map(|stated| stated.split_once(':'));
    let lines: String = stated.map(|(name, value)| format!("\n\t{}: {}", name.trim(), place(value.trim()))).collect();
    format!("{}{name} {{{lines}\n\t$0\n}}", kind.opens)
}

/// A property by what a map can be ordered by.
fn key(property: PropertyName) -> &'static str {
    property.text()
}

/// What would settle rules that are not checked of one thing, and these rules.
#[derive(Default)]
struct Awaited {
    stated: BTreeMap<&'static str, Vec<String>>,
    /// What is to be drawn in it.
    drawn: Vec<(&'static Kind, Vec<String>)>,
}

/// What would settle rules that are not checked: stated of the thing that a block draws, drawn in it for that thing or one
/// within.
fn awaited(analysis: &Analysis, block: &Around<'_>) -> Awaited {
    let mut found = Awaited::default();
    let called = |within: Span| -> Vec<String> {
        let drawn = analysis.stairs.iter().map(|stair| &stair.drawn);
        let of_stair = drawn.flat_map(|design| {
            let here = design.elements.iter().enumerate();
            let here =
                here.filter(|(_, element)| within.start <= element.span.start && element.span.start < within.end);
            here.map(|(id, _)| design.called(id)).collect::<Vec<_>>()
        });
        of_stair.collect()
    };
    let (own, inside) = (called(block.head), called(block.extent));
    let add = |rules: &mut Vec<String>, rule: &String| {
        if !rules.contains(rule) {
            rules.push(rule.clone());
        }
    };
    for item in analysis.report.not_checked.iter().filter(|item| inside.contains(&item.needs.of)) {
        let stated = item.needs.reason.statement().filter(|_| own.contains(&item.needs.of));
        let properties = match stated {
            Some(Statement::Property(property)) => vec![property],
            Some(Statement::OneOf(properties)) => properties.to_vec(),
            _ => Vec::new(),
        };
        properties.into_iter().for_each(|property| add(found.stated.entry(key(property)).or_default(), &item.rule));
        let kind = match item.needs.reason {
            Reason::NotDrawn(Drawing::A(kind) | Drawing::TheOne(kind)) => kind,
            Reason::NotStated(Statement::OfBlock(_, kind)) => kind,
            Reason::NotDrawn(Drawing::JointThatHolds) => kinds::JOINT,
            Reason::NotDrawn(Drawing::WellOfFloor) => kinds::WELL,
            Reason::NotDrawn(Drawing::UndersideOfFloor) => kinds::CEILING,
            Reason::NotDrawn(Drawing::LandingAbove | Drawing::LandingBelow | Drawing::LandingAtDoor) => kinds::LANDING,
            _ => continue,
        };
        let at = found.drawn.iter().position(|(known, _)| *known == kind).unwrap_or_else(|| {
            found.drawn.push((kind, Vec::new()));
            found.drawn.len() - 1
        });
        found.drawn.get_mut(at).into_iter().for_each(|(_, rules)| add(rules, &item.rule));
    }
    found
}

/// The sets that a text may name: those that come with the tool, and those of the folders that it may rest on.
pub(super) fn sets(workspace: &Workspace, document: &Document) -> Vec<CompletionItem> {
    let source = &document.source;
    let item = |name: String, title: String, order: char| CompletionItem {
        sort_text: Some(format!("{order}{name}")),
        label: name,
        kind: Some(CompletionItemKind::Module),
        detail: Some(title),
        ..CompletionItem::default()
    };
    let title = |name: &str| workspace.session.set(name, Some(source)).ok().map(|loaded| loaded.set.title.clone());
    let shipped = BUILT_IN.iter().filter(|(name, _)| shipped(name).is_some() && *name != DRAWING);
    let shipped = shipped.filter_map(|(name, _)| Some(item((*name).to_owned(), title(name)?, '2')));
    let files = workspace
        .texts()
        .into_iter()
        .filter(|path| path.extension().is_some_and(|ending| ending == "rules") && path != source.path());
    let files = files.filter_map(|path| {
        let name = beside(source.path(), &path)?;
        // One that may not be named from here, or cannot be read, is none.
        let title = title(&name)?;
        Some(item(format!("\"{name}\""), title, '1'))
    });
    files.chain(shipped).collect()
}

/// The path to a file as a text beside it, or further down or up, names it.
fn beside(from: &Path, to: &Path) -> Option<String> {
    let folder = from.parent()?;
    let common = folder.ancestors().find(|above| to.starts_with(above))?;
    let up = folder.strip_prefix(common).ok()?.components().map(|_| "..".to_owned());
    let down = to.strip_prefix(common).ok()?.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
    Some(up.chain(down).collect::<Vec<_>>().join("/"))
}

/// Nominal sizes that are sold, as they are written and as they measure dressed. Inches.
fn nominal_sizes() -> impl Iterator<Item = (String, [f64; 2])> {
    let thicknesses = [("1", 1.0), ("5/4", 1.25), ("2", 2.0), ("4", 4.0), ("6", 6.0)];
    let widths = [2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 12.0];
    thicknesses.into_iter().flat_map(move |(written, thickness)| {
        let wide = widths.into_iter().filter(move |width| *width >= thickness);
        wide.filter_map(move |width| {
            let size = [dressed(thickness, width)?, dressed_width(width, thickness)?];
            Some((format!("{written}x{width}"), size))
        })
    })
}

impl Place<'_> {
    /// What a property may be given.
    fn values(&self, property: &Property) -> Vec<CompletionItem> {
        let analysis = self.workspace.analysis(self.document);
        let shop = analysis.and_then(|analysis| analysis.shop.clone());
        let own = |opens: &str| {
            let mut names: Vec<String> = Vec::new();
            for item in &self.tree.items {
                nodes::walk(item, &mut |item| {
                    if let Item::Block { head, .. } = item
                        && nodes::kind(head).is_some_and(|kind| kind.opens == opens)
                        && let Some((name, _)) = nodes::quoted(head)
                    {
                        names.push(format!("\"{name}\""));
                    }
                });
            }
            names
        };
        let plain = |words: Vec<String>| words.into_iter().map(|word| (word, String::new())).collect();
        let stocked =
            |words: Vec<String>| words.into_iter().map(|word| (word, IN_STOCK.to_owned())).collect::<Vec<_>>();
        let mut words: Vec<(String, String)> = match property.takes {
            Takes::OneOf(words) | Takes::SomeOf(words) => plain(words.iter().map(|word| (*word).to_owned()).collect()),
            Takes::Sets => return sets(self.workspace, self.document),
            Takes::Timber => {
                let of_shop = shop.iter().flat_map(|shop| &shop.shop().timbers).map(|timber| timber.name.clone());
                let species = SPECIES.iter().map(|species| species.name.to_owned()).collect();
                let mut words: Vec<(String, String)> = plain(own(kinds::TIMBER.opens));
                words.extend(stocked(of_shop.collect()));
                words.extend::<Vec<_>>(plain(species));
                words
            }
            Takes::Section => {
                let of_shop = shop.iter().flat_map(|shop| &shop.shop().sections);
                let of_shop = of_shop.map(|section| match section.nominal {
                    true => section.name.clone(),
                    false => format!("\"{}\"", section.name),
                });
                let mut words: Vec<(String, String)> = plain(own(kinds::SECTION.opens));
                words.extend(stocked(of_shop.collect()));
                let style = if self.metric { Style::MILLIMETRES } else { Style::INCHES };
                let length = |inches: f64| Measure { value: inches * INCH, dimension: Dimension::LENGTH, style };
                let measures = |[thick, wide]: [f64; 2]| format!("{} x {}", print(length(thick)), print(length(wide)));
                words.extend(nominal_sizes().map(|(name, size)| (name, measures(size))));
                words
            }
            Takes::Name | Takes::Members => {
                let fits = |kind: &Kind| match property.handle() {
                    properties::ALONG => kind.is(Trait::Place),
                    properties::AT => kind == kinds::LANDING,
                    properties::JOINS => kind.is(Trait::Joinable),
                    _ => true,
                };
                let drawn = names::all(&self.tree.items).into_iter().filter(|named| named.draws.is_some_and(fits));
                plain(drawn.map(|named| self.document.source.slice(named.span).to_owned()).collect())
            }
            _ => Vec::new(),
        };
        let typical = in_units(example(property), self.metric);
        if !typical.is_empty() && !matches!(property.takes, Takes::OneOf(_) | Takes::SomeOf(_) | Takes::Name) {
            words.push((typical, String::new()));
        }
        let mut items: Vec<CompletionItem> = Vec::new();
        for (at, (word, detail)) in words.into_iter().enumerate() {
            if !items.iter().any(|item| item.label == word) {
                items.push(CompletionItem {
                    label: word,
                    kind: Some(CompletionItemKind::Value),
                    detail: Some(detail).filter(|detail| !detail.is_empty()),
                    sort_text: Some(format!("{at:04}")),
                    ..CompletionItem::default()
                });
            }
        }
        items
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_example_becomes_a_block_with_places() {
        let rail = snippet(kinds::HANDRAIL, kinds::HANDRAIL.example);
        assert_eq!(rail, "handrail ${1:left} {\n\theight: ${2:36\"}\n\t$0\n}");
        assert_eq!(snippet(kinds::STAIR, kinds::STAIR.example), "stair \"${1:name}\" {\n\t$0\n}");
        assert_eq!(in_a_place("a}$\\"), "a\\}\\$\\\\");
    }

    #[test]
    fn a_file_is_named_from_where_it_is_asked_for() {
        let named = |from: &str, to: &str| beside(Path::new(from), Path::new(to)).unwrap();
        assert_eq!(named("/marsh/a.stair", "/marsh/house.rules"), "house.rules");
        assert_eq!(named("/marsh/a.stair", "/marsh/sets/house.rules"), "sets/house.rules");
        assert_eq!(named("/marsh/hides/a.stair", "/marsh/house.rules"), "../house.rules");
    }

    #[test]
    fn sizes_that_are_sold_measure_as_the_table_says() {
        let sizes: Vec<_> = nominal_sizes().collect();
        assert!(sizes.contains(&("2x12".to_owned(), [1.5, 11.25])) && sizes.contains(&("4x4".to_owned(), [3.5, 3.5])));
    }

    #[test]
    fn a_comment_is_told_from_a_number_and_a_quote() {
        assert!(in_a_comment("  width: 36\" # the boards"));
        assert!(in_a_comment("# all"));
        assert!(!in_a_comment("screws: 3 of #10"));
        assert!(!in_a_comment("landing \"# one\" { "));
    }
}
