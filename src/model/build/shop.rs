//! A shop's file: read in the words of a design, and what it states laid under a design's own.

use std::sync::Arc;

use super::Builder;
use crate::base::names::nearest;
use crate::base::{Diagnostic, Levels, Severity, Source, Span, limits, work};
use crate::model::design::{Design, Element, ShopWords, Stated};
use crate::model::kind::{Kind, Trait};
use crate::model::problem::{DrawingProblem, Limit, Problem, ShopProblem};
use crate::model::read::{self, Own};
use crate::model::redefined::departures;
use crate::model::shop::{Folder, Shop, StockedSection, StockedTimber, nominal};
use crate::model::timbers::names_no_timber;
use crate::model::value::Value;
use crate::model::vocabulary::{KINDS, SHOP_KINDS, kinds, properties};
use crate::syntax::{Item, Term, TermKind, Tree};

/// The kinds of a shop's file.
fn kinds_of_shop() -> impl Iterator<Item = &'static Kind> {
    SHOP_KINDS.iter().chain(KINDS.iter().filter(|kind| kind.is(Trait::Stocked)))
}

/// Reads a shop's file. What could not be read is in `found`; the rest of it stands.
pub fn build_shop(tree: &Tree, source: &Source, found: &mut Vec<Diagnostic<Problem>>) -> Shop {
    let mut builder = Builder::new(source, None, found);
    let mut shop = Shop {
        title: source.name.to_string(),
        source: source.clone(),
        rules: Vec::new(),
        folders: Vec::new(),
        fail_on: None,
        longest_bit: None,
        sections: Vec::new(),
        timbers: Vec::new(),
        unread: Vec::new(),
    };
    let mut headed = None;
    for item in &tree.items {
        let Item::Block { head, head_span, body, .. } = item else {
            builder.outside(item);
            continue;
        };
        let word = head.first().and_then(Term::word).unwrap_or("").to_lowercase();
        let rest = head.get(1..).unwrap_or_default();
        match kinds_of_shop().find(|kind| kind.opens == word) {
            Some(kind) if kind == kinds::SHOP => match headed {
                None => {
                    headed = Some(*head_span);
                    if let Some((name, _)) = builder.names(rest).into_iter().next() {
                        shop.title = name;
                    }
                    builder.shop_block(&mut shop, body);
                }
                Some(first) => builder.push(*head_span, ShopProblem::SecondShop { first }),
            },
            Some(kind) if kind == kinds::FOLDER => builder.folder(&mut shop, rest, *head_span, body),
            Some(kind) if kind == kinds::SECTION => builder.stock_sections(&mut shop, item, rest, *head_span, body),
            Some(_) => builder.stock_timbers(&mut shop, rest, *head_span, body),
            None => {
                let place = head.first().map_or(*head_span, |first| first.span);
                let near = nearest(&word, kinds_of_shop().map(|kind| kind.opens));
                builder.push(place, ShopProblem::UnknownBlock { word, near });
            }
        }
    }
    shop
}

impl Builder<'_> {
    /// A line outside of any block.
    fn outside(&mut self, item: &Item) {
        match item {
            Item::Property { name, name_span, .. } => {
                self.push(*name_span, ShopProblem::OutsideBlock { name: name.to_string() });
            }
            Item::Malformed { span, .. } => self.push(*span, ShopProblem::NotAStatement),
            _ => {}
        }
    }

    /// The names in a block's head, each with its place.
    fn names(&mut self, head: &[Term]) -> Vec<(String, Span)> {
        let mut names = Vec::new();
        for part in head.split(|term| term.kind == TermKind::Comma) {
            let Some((first, last)) = part.first().zip(part.last()) else { continue };
            let name = match part {
                [Term { kind: TermKind::Text(text), .. }] => text.trim().to_owned(),
                _ => self.source.slice(first.span.to(last.span)).split_whitespace().collect::<Vec<_>>().join(" "),
            };
            if !name.is_empty() {
                names.push((name, first.span.to(last.span)));
            }
        }
        names
    }

    /// The properties of a block, of those that a stair has too.
    fn settings(&mut self, kind: &'static Kind, body: &[Item]) -> Vec<Stated> {
        let mut element = Element::bare(kind);
        for item in body {
            match item {
                Item::Property { name, name_span, value, value_span, damaged, .. } => {
                    if kind.property(name).is_none() {
                        let near = nearest(name, kind.properties.iter().map(|property| property.name));
                        let name = name.to_string();
                        self.push(*name_span, ShopProblem::UnknownProperty { kind, name, near });
                        continue;
                    }
                    let stated = self.property(Some(kind), name, *name_span, value, *value_span, *damaged);
                    if let Some(stated) = stated {
                        self.state(&mut element, stated);
                    }
                }
                Item::Block { head_span, .. } => self.push(*head_span, ShopProblem::BlockIn(kind)),
                other => self.stray(other, None),
            }
        }
        element.stated
    }

    fn shop_block(&mut self, shop: &mut Shop, body: &[Item]) {
        for stated in self.settings(kinds::SHOP, body) {
            match &stated.value {
                Some(Value::Names(names)) => shop.rules.clone_from(names),
                Some(Value::Words(words)) => shop.fail_on = Levels::of(words.iter().copied()),
                Some(_) => shop.longest_bit = Some(stated),
                None => {}
            }
        }
    }

    fn folder(&mut self, shop: &mut Shop, head: &[Term], span: Span, body: &[Item]) {
        let paths = self.names(head);
        let stated = self.settings(kinds::FOLDER, body);
        if paths.is_empty() {
            return self.push(span, ShopProblem::Unnamed(kinds::FOLDER));
        }
        let of = |property| stated.iter().find(|stated| stated.property.handle() == property);
        if stated.is_empty() {
            return self.push(span, ShopProblem::FolderWithoutRules);
        }
        // What could not be read was reported, and counts as not stated.
        let rules = match of(properties::RULES).and_then(|rules| rules.value.as_ref()) {
            Some(Value::Names(rules)) => rules.clone(),
            _ => Vec::new(),
        };
        let fail_on = match of(properties::FAIL_ON).and_then(|levels| levels.value.as_ref()) {
            Some(Value::Words(words)) => Levels::of(words.iter().copied()),
            _ => None,
        };
        for (path, span) in paths {
            let parts: Vec<&str> = path.split(['/', '\\']).filter(|part| !part.is_empty() && *part != ".").collect();
            if path.starts_with('/') || path.contains(':') || parts.is_empty() || parts.contains(&"..") {
                self.push(span, ShopProblem::NotBelow { path });
                continue;
            }
            let path = parts.join("/");
            if let Some(first) = shop.folders.iter_mut().find(|folder| folder.path == path) {
                // Which of the two is meant nobody knows: both hold, so that no slip lets anything through.
                first.rules.extend(
                    rules
                        .iter()
                        .filter(|(name, _)| first.rules.iter().all(|(known, _)| known != name))
                        .cloned()
                        .collect::<Vec<_>>(),
                );
                first.fail_on = match (first.fail_on, fail_on) {
                    (None, None) => None,
                    (one, other) => Some(one.unwrap_or_default().and(other.unwrap_or_default())),
                };
                let first = first.span;
                self.push(span, ShopProblem::FolderTwice { path, first });
                continue;
            }
            shop.folders.push(Folder { path, span, rules: rules.clone(), fail_on });
        }
    }

    /// What is stated in the block of a stocked thing; whether a slip was reported in it.
    fn stock(&mut self, of: &'static Kind, body: &[Item]) -> (Vec<Stated>, bool) {
        let before = self.found.len();
        let mut design = Design { elements: vec![Arc::new(Element::bare(of))], ..Design::default() };
        self.body(&mut design, 0, body, &mut Vec::new());
        let stated = design.get(0).map(|element| element.stated.clone()).unwrap_or_default();
        let slips = self.found.get(before..).unwrap_or_default();
        (stated, slips.iter().any(|slip| slip.severity() != Severity::Advised))
    }

    fn stock_sections(&mut self, shop: &mut Shop, item: &Item, head: &[Term], span: Span, body: &[Item]) {
        let names = self.names(head);
        if names.is_empty() {
            return self.push(span, ShopProblem::Unnamed(kinds::SECTION));
        }
        let (stated, slipped) = self.stock(kinds::SECTION, body);
        self.own_sections(std::slice::from_ref(item));
        let measured = self.sections.pop().map(|(_, section)| section);
        self.sections.clear();
        self.unread_sections.clear();
        for ((name, span), terms) in names.into_iter().zip(head.split(|term| term.kind == TermKind::Comma)) {
            if shop.sections.len() >= limits::STOCK {
                return self.too_many(span, Limit::Stock);
            }
            work::done(shop.sections.len());
            if let Some(first) = shop.section(&nominal(&name).unwrap_or_else(|| name.clone())) {
                self.push(span, ShopProblem::StockedTwice { kind: kinds::SECTION, name, first: first.span });
                continue;
            }
            if let Some(sold) = nominal(&name) {
                if !stated.is_empty() || slipped {
                    self.push(span, ShopProblem::NominalWithFigures { name });
                    continue;
                }
                let Some(property) = kinds::TREAD.has(properties::SECTION) else { continue };
                let own = Own { sections: &Vec::new(), timbers: &[] };
                match read::value(property, terms, span, self.source, own) {
                    Ok(Value::Section(section)) => {
                        shop.sections.push(StockedSection { name: sold, nominal: true, section, span });
                    }
                    Ok(_) => {}
                    Err(refused) => self.push_diagnostic(*refused),
                }
                continue;
            }
            match measured {
                Some(section) if !slipped => {
                    shop.sections.push(StockedSection { name, nominal: false, section, span });
                }
                _ => {
                    if !slipped {
                        self.push(span, ShopProblem::WithoutFigures { name: name.clone() });
                    }
                    shop.unread.push(name);
                }
            }
        }
    }

    fn stock_timbers(&mut self, shop: &mut Shop, head: &[Term], span: Span, body: &[Item]) {
        let names = self.names(head);
        if names.is_empty() {
            return self.push(span, ShopProblem::Unnamed(kinds::TIMBER));
        }
        let (stated, _) = self.stock(kinds::TIMBER, body);
        for (name, span) in names {
            if shop.timbers.len() >= limits::STOCK {
                return self.too_many(span, Limit::Stock);
            }
            work::done(shop.timbers.len());
            if names_no_timber(&name) {
                self.push(span, DrawingProblem::NamesNoTimber { name });
                continue;
            }
            let departures = departures(kinds::TIMBER, &name, &stated);
            if !departures.is_empty() {
                self.push(span, DrawingProblem::Redefined { kind: kinds::TIMBER, name: name.clone(), departures });
            }
            if let Some(first) = shop.timber(&name) {
                self.push(span, ShopProblem::StockedTwice { kind: kinds::TIMBER, name, first: first.span });
                continue;
            }
            shop.timbers.push(StockedTimber { name: name.to_lowercase(), stated: stated.clone(), span });
        }
    }

    /// Lays what the shop states under what the stair does: its own words win.
    pub(super) fn lay_under(&mut self, design: &mut Design, stair: Span) {
        let Some(shop) = self.shop else { return };
        design.shop = Some(shop.source.clone());
        let of_shop = |stated: &Stated| {
            let shop = Some(ShopWords { words: stated.span, called: false });
            Stated { span: stair, shop, ..stated.clone() }
        };
        if design.stated(0, properties::LONGEST_BIT).is_none()
            && let (Some(stated), Some(element)) = (&shop.longest_bit, design.get_mut(0))
        {
            element.stated.push(of_shop(stated));
        }
        let used: Vec<String> = design
            .elements
            .iter()
            .flat_map(|element| &element.stated)
            .filter_map(|stated| match &stated.value {
                Some(Value::Timber(timber)) => Some(timber.species.clone()),
                _ => None,
            })
            .collect();
        for timber in shop.timbers.iter().filter(|timber| used.contains(&timber.name)) {
            let own = design.elements.iter().any(|element| {
                element.kind == kinds::TIMBER
                    && element.name.as_deref().is_some_and(|name| name.eq_ignore_ascii_case(&timber.name))
            });
            if !own && !timber.stated.is_empty() {
                let stated = timber.stated.iter().map(of_shop).collect();
                let (name, bare) = (Some(timber.name.clone()), Element::bare(kinds::TIMBER));
                design.elements.push(Arc::new(Element { name, span: stair, parent: Some(0), stated, ..bare }));
            }
        }
    }
}
