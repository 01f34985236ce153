//! Tree to design. Keeps going: what cannot be read is unknown, never gone.

mod agree;
mod claims;
mod head;
mod measured;
mod own;
mod settle;
mod shop;
mod twice;
mod waive;

use std::sync::Arc;

use self::agree::agree;
use self::head::{
    HeadName, begun, belongs_inside, drawn_within, far_side, is_no_side, kinds_in, likely_kinds, meant, possible_kinds,
    said, same_head, sides,
};
pub use self::shop::build_shop;
use super::design::{Design, Element, Id, MOST_OF_A_STAIR, ShopWords, Side, Stated};
use super::kind::{FILE, Kind, Property, PropertyName, Takes, Trait};
use super::problem::{DrawingProblem, Limit, Problem, PropertyMeant, ValueProblem};
use super::proportion::{Disproportion, disproportions};
use super::read::{self, Own, OwnSections};
use super::shop::Shop;
use super::trade;
use super::value::{Edge, Value};
use super::vocabulary::{KINDS, kinds, properties};
use crate::base::names::{nearest, single_blanks};
use crate::base::{Diagnostic, HasNotice, Notice, Source, Span, limits, work};
use crate::syntax::{Item, Term, Tree};

/// Most elements of one file, steps among them.
const MOST: usize = 20_000;

/// Most stairs of one file: each may take in what is shared, and each measured block looks for its own.
const MOST_STAIRS: usize = 500;

/// Properties of things that must have a size.
const SIZED: [PropertyName; 7] = [
    properties::RISERS,
    properties::RUNS,
    properties::WIDTH,
    properties::TOTAL_RISE,
    properties::TOTAL_RUN,
    properties::SECTION,
    properties::HOLE,
];

/// One stair of a file.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Stair {
    /// Its name, or `stair`.
    pub title: String,
    /// The words that open it.
    pub span: Span,
    /// The rulesets it asks for, with their places.
    pub rules: Vec<(String, Span)>,
    /// As drawn.
    pub drawn: Arc<Design>,
    /// As measured: the drawing with the measured values in place of the drawn.
    pub measured: Option<Arc<Design>>,
}

/// Builds every stair of a file, with no shop above it.
#[cfg(feature = "internals")]
pub fn build(tree: &Tree, source: &Source, found: &mut Vec<Diagnostic<Problem>>) -> Vec<Stair> {
    build_below(tree, source, None, found)
}

/// Builds every stair of a file that lies below a shop's file.
pub fn build_below(
    tree: &Tree,
    source: &Source,
    shop: Option<&Shop>,
    found: &mut Vec<Diagnostic<Problem>>,
) -> Vec<Stair> {
    let mut builder = Builder::new(source, shop, found);
    builder.own_sections(&tree.items);
    let (mut drawn, mut measured) = (Vec::new(), Vec::new());
    for item in &tree.items {
        match item {
            Item::Block { head, head_span, body, .. } => match builder.head(head, *head_span, FILE) {
                Some((kind, _)) if kind == kinds::STAIR && drawn.len() == MOST_STAIRS => {
                    builder.too_many(*head_span, Limit::Stairs);
                }
                Some((kind, names)) if kind == kinds::STAIR => drawn.push((kind, names, *head_span, body)),
                Some((kind, names)) if kind == kinds::MEASURED => measured.push((names, *head_span, body)),
                Some(_) => builder.shared.push(item.clone()),
                None => {
                    let may_be = possible_kinds(head, Some(FILE), body);
                    builder.unread_shared.extend(may_be.into_iter().filter(|kind| kind.is(Trait::Stocked)));
                }
            },
            other => builder.stray(other, None),
        }
    }
    let mut stairs: Vec<Stair> =
        drawn.iter().map(|(kind, names, span, body)| builder.stair(kind, names, *span, body)).collect();
    builder.stairs_of_one_name(&stairs, !measured.is_empty());
    let mut seen = vec![Vec::new(); stairs.len()];
    for (names, span, body) in measured {
        let name = names.first().map(|name| name.text.as_str());
        // That it is no name was reported.
        if name == Some("") {
            continue;
        }
        let at = match name {
            Some(name) => stairs.iter().position(|stair| stair.title.eq_ignore_ascii_case(name)),
            None => (stairs.len() == 1).then_some(0),
        };
        match at.and_then(|at| stairs.get_mut(at).zip(seen.get_mut(at))) {
            Some((stair, seen)) => builder.measure(stair, seen, body),
            None => {
                let Some(named) = names.first() else {
                    builder.push(span, DrawingProblem::WhichStairMeasured);
                    continue;
                };
                let titles = stairs.iter().filter(|_| builder.seeks_near()).map(|stair| stair.title.as_str());
                let near = nearest(&named.text, titles).map(str::to_owned);
                builder.push(named.span, DrawingProblem::NoSuchStair { name: named.text.clone(), near });
            }
        }
    }
    stairs
}

/// Builds the one stair that a rule's fragment implies.
#[cfg(feature = "cli")]
pub fn build_fragment(tree: &Tree, source: &Source, found: &mut Vec<Diagnostic<Problem>>) -> Option<Stair> {
    let mut builder = Builder::new(source, None, found);
    builder.own_sections(&tree.items);
    builder.extent = Extent::Fragment;
    Some(builder.stair(kinds::STAIR, &[], Span::default(), &tree.items))
}

/// A thing to which what a block says belongs.
struct Draft {
    id: Id,
    /// An earlier block drew it.
    again: bool,
}

impl Draft {
    fn new(id: Id) -> Self {
        Self { id, again: false }
    }
}

/// Marks an element of which something was said that was not understood.
fn not_understood(design: &mut Design, id: Id, span: Option<Span>) {
    if let (Some(span), Some(element)) = (span, design.get_mut(id)) {
        element.not_understood = element.not_understood.or(Some(span));
    }
}

/// How much of a stair a text draws.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Extent {
    /// All of it.
    Design,
    /// As much as a rule's example needs; what it names need not be drawn.
    #[cfg_attr(not(feature = "cli"), expect(dead_code, reason = "only the command proves rules"))]
    Fragment,
}

struct Builder<'a> {
    source: &'a Source,
    extent: Extent,
    /// The shop that the design lies under.
    shop: Option<&'a Shop>,
    found: &'a mut Vec<Diagnostic<Problem>>,
    sections: OwnSections,
    /// Names of timbers of the user's own.
    timbers: Vec<String>,
    /// Sections of the user's own that could not be read: what names them is unknown, and no second slip.
    unread_sections: Vec<String>,
    /// Heads that could not be read, in lower case: what names them is unknown, and no second slip.
    unread_heads: Vec<String>,
    count: usize,
    /// That there are too many things was reported.
    full: bool,
    /// Timbers and sections at the top of the file, drawn into each of its stairs.
    shared: Vec<Item>,
    /// What blocks at the top of the file that could not be read may have defined.
    unread_shared: Vec<&'static Kind>,
    /// How many of the blocks that are being read draw a thing for the second time.
    merging: usize,
    /// What was reported, and where: copies (`left, right`) share their words, and a slip in them is reported once.
    reported: std::collections::BTreeSet<(Notice, Span)>,
}

impl<'a> Builder<'a> {
    fn new(source: &'a Source, shop: Option<&'a Shop>, found: &'a mut Vec<Diagnostic<Problem>>) -> Self {
        Self {
            source,
            extent: Extent::Design,
            shop,
            found,
            sections: Vec::new(),
            timbers: Vec::new(),
            unread_sections: Vec::new(),
            unread_heads: Vec::new(),
            count: 0,
            full: false,
            shared: Vec::new(),
            unread_shared: Vec::new(),
            merging: 0,
            reported: std::collections::BTreeSet::new(),
        }
    }
}

impl Builder<'_> {
    /// Reports a problem at a place.
    fn push(&mut self, span: Span, problem: impl Into<Problem>) {
        self.push_diagnostic(Diagnostic::new(self.source, span, problem));
    }

    fn push_diagnostic(&mut self, diagnostic: Diagnostic<Problem>) {
        if self.reported.insert((diagnostic.problem.notice(), diagnostic.span.unwrap_or_default())) {
            self.found.push(diagnostic);
        }
    }

    /// Whether a near name is still sought for a slip: for the first ones of a file.
    fn seeks_near(&self) -> bool {
        self.found.len() < limits::NEAR_NAMES
    }

    /// Of two stairs of one name nobody knows which was measured.
    fn stairs_of_one_name(&mut self, stairs: &[Stair], measured: bool) {
        let mut first: std::collections::BTreeMap<String, Span> = std::collections::BTreeMap::new();
        for stair in stairs.iter().filter(|_| measured) {
            let (name, span) = (stair.title.clone(), stair.span);
            match first.get(&name.to_lowercase()) {
                Some(first) => self.push(span, DrawingProblem::StairTwice { name, first: *first }),
                None => drop(first.insert(name.to_lowercase(), span)),
            }
        }
    }

    fn too_many(&mut self, span: Span, limit: Limit) {
        if !self.full {
            self.full = true;
            self.push(span, DrawingProblem::TooMany(limit));
        }
    }

    fn stair(&mut self, kind: &'static Kind, names: &[HeadName], span: Span, body: &[Item]) -> Stair {
        let named = names.first().filter(|name| !name.text.is_empty());
        let title = named.map_or_else(|| "stair".to_owned(), |name| name.text.clone());
        let mut design = Design::default();
        self.element(&mut design, kind, None, None, span, None);
        // What one stair defines is nothing to the next.
        let of_file = (self.sections.len(), self.unread_sections.len(), self.unread_heads.len());
        let timbers_of_file = self.timbers.len();
        self.own_sections(body);
        let mut measured = Vec::new();
        // One of the stair's own name wins over the file's.
        let own = |item: &Item| body.iter().any(|inner| same_head(inner, item));
        let shared: Vec<Item> = self.shared.iter().filter(|item| !own(item)).cloned().collect();
        design.unread.extend(self.unread_shared.iter().copied());
        self.body(&mut design, 0, &shared, &mut Vec::new());
        self.body(&mut design, 0, body, &mut measured);
        self.lay_under(&mut design, span);
        self.settle(&mut design);
        if !design.expand_steps() {
            self.too_many(span, Limit::Steps);
        }
        self.twice(&mut design);
        self.redefined(&design);
        if self.extent == Extent::Design {
            self.rails_that_continue(&mut design);
            self.rails_at_posts(&mut design);
            self.rails_that_return(&mut design);
            self.spirals_that_turn(&mut design);
            self.words_that_need(&mut design);
            self.flights_in_order(&design);
            self.read_past(&design);
            self.no_steps_there(&design);
        }
        self.count += design.elements.len() - design.drawn;
        let rules = match design.stated(0, properties::RULES).and_then(|stated| stated.value.clone()) {
            Some(Value::Names(names)) => names,
            _ => Vec::new(),
        };
        let mut stair = Stair { title, span, rules, drawn: Arc::new(design), measured: None };
        let mut seen = Vec::new();
        for body in measured {
            self.measure(&mut stair, &mut seen, body);
        }
        self.timbers.truncate(timbers_of_file);
        self.sections.truncate(of_file.0);
        self.unread_sections.truncate(of_file.1);
        self.unread_heads.truncate(of_file.2);
        stair
    }

    fn element(
        &mut self,
        design: &mut Design,
        kind: &'static Kind,
        name: Option<String>,
        side: Option<Side>,
        span: Span,
        parent: Option<Id>,
    ) -> Id {
        design.elements.push(Arc::new(Element { name, side, span, parent, ..Element::bare(kind) }));
        self.count += 1;
        design.elements.len() - 1
    }

    fn body<'i>(&mut self, design: &mut Design, id: Id, items: &'i [Item], measured: &mut Vec<&'i [Item]>) {
        let kind = design.kind(id);
        let here = kind.map_or(FILE, |kind| kind.name);
        // Properties that were meant by a slip: no custom stands in for what was stated and not read.
        let mut lost: Vec<(&'static Property, Span)> = Vec::new();
        // Words that may have stated any of them.
        let mut any = None;
        for item in items {
            match item {
                Item::Block { head, head_span, body, .. } => {
                    let Some((kind, names)) = self.head(head, *head_span, here) else {
                        self.unread_block(design, id, head, *head_span, body);
                        continue;
                    };
                    if kind == kinds::MEASURED {
                        measured.push(body);
                        continue;
                    }
                    if kind == kinds::WAIVER {
                        self.waive(design, id, names, *head_span, body);
                        continue;
                    }
                    let drawn = self.draw(design, kind, &names, *head_span, (id, body));
                    if drawn.len() < names.len() {
                        // What stands inside of one that stands nobody knows where is not drawn either.
                        design.unread.extend(drawn_within(body));
                    }
                    for drawn in drawn {
                        self.merging += usize::from(drawn.again);
                        self.body(design, drawn.id, body, measured);
                        self.merging -= usize::from(drawn.again);
                    }
                }
                Item::Property { name, name_span, value, value_span, damaged, .. } => {
                    let stated = self.property(kind, name, *name_span, value, *value_span, *damaged);
                    if stated.is_none() {
                        let meant = kind.and_then(|kind| meant(kind, name));
                        not_understood(design, id, meant.is_none().then_some(*name_span));
                        let elsewhere = kind.is_some_and(|kind| belongs_inside(kind, name));
                        any = any.or((meant.is_none() && !elsewhere).then_some(*name_span));
                        lost.extend(meant.map(|property| (property, *name_span)));
                    }
                    // A quote opened by a slip takes in the statements that follow on its line, and what they draw.
                    let taken_in = self.source.slice(*value_span);
                    if stated.as_ref().is_none_or(|stated| stated.value.is_none()) && taken_in.contains([';', '{', '}'])
                    {
                        not_understood(design, id, Some(*value_span));
                        any = any.or(Some(*value_span));
                        design.unread.extend(kinds_in(taken_in));
                    }
                    if let (Some(stated), Some(element)) = (stated, design.get_mut(id)) {
                        self.state(element, stated);
                    }
                }
                other => {
                    // A thing that was named and not opened cannot be counted as missing.
                    if let Item::Malformed { terms, span } = other {
                        let property = kind.and_then(|kind| begun(kind, terms));
                        not_understood(design, id, property.is_none().then_some(*span));
                        lost.extend(property.map(|property| (property, *span)));
                        design.unread.extend(likely_kinds(terms));
                        self.unread_heads.push(said(terms));
                    }
                    if let Item::Damaged { terms, span } = other {
                        let property = kind.and_then(|kind| begun(kind, terms));
                        not_understood(design, id, property.is_none().then_some(*span));
                        any = any.or(property.is_none().then_some(*span).filter(|_| !terms.is_empty()));
                        lost.extend(property.map(|property| (property, *span)));
                    }
                    self.stray(other, kind);
                }
            }
        }
        let Some(element) = design.get_mut(id) else { return };
        let stated = |property: &Property| element.stated.iter().any(|stated| stated.property == property);
        let unstated = kind.into_iter().flat_map(|kind| kind.properties).filter(|property| !stated(property));
        lost.extend(any.into_iter().flat_map(|span| unstated.clone().map(move |property| (property, span))));
        for (property, span) in lost.into_iter().filter(|(property, _)| property.takes != Takes::Sets) {
            if !element.stated.iter().any(|stated| stated.property == property) {
                element.stated.push(Stated { property, value: None, span, measured: false, shop: None, section: None });
            }
        }
    }

    /// A block whose head was not understood: what it may have been, and what it may have held, cannot be counted as
    /// missing, and what it stands in may be other than it seems.
    fn unread_block(&mut self, design: &mut Design, within: Id, head: &[Term], span: Span, body: &[Item]) {
        let here = design.kind(within).map_or(FILE, |kind| kind.name);
        let may_be = possible_kinds(head, Some(here), body);
        let has_steps = may_be.contains(&kinds::FLIGHT);
        let may_be_landing = may_be.contains(&kinds::LANDING);
        let may_be_riser = may_be.contains(&kinds::RISER);
        design.unread.extend(may_be);
        design.unread.extend(KINDS.iter().filter(|kind| has_steps && kind.made_from.is_some()));
        // No riser is drawn: its boards are.
        design.unread.extend(may_be_riser.then_some(kinds::RISER_BOARD));
        // A landing has a ceiling above it, drawn or not.
        design.unread.extend(may_be_landing.then_some(kinds::CEILING));
        not_understood(design, within, Some(span));
        self.unread_heads.push(said(head));
        for item in body {
            if let Item::Block { head, body: inner, .. } = item {
                design.unread.extend(possible_kinds(head, None, inner));
                design.unread.extend(drawn_within(inner));
                self.unread_heads.push(said(head));
            }
        }
    }

    /// States a property of an element. A second statement of it is reported; where the two differ, which of them
    /// holds is not known.
    fn state(&mut self, element: &mut Element, stated: Stated) {
        let Some(earlier) = element.stated.iter_mut().find(|earlier| earlier.property == stated.property) else {
            return element.stated.push(stated);
        };
        let agree = agree(earlier.value.as_ref(), stated.value.as_ref());
        // What was not understood of either was told where it stands.
        let told = earlier.value.is_none() || stated.value.is_none();
        if !agree {
            earlier.value = None;
        }
        if told || agree && self.merging > 0 {
            return;
        }
        let problem = DrawingProblem::StatedTwice { property: stated.property, first: earlier.span };
        self.push(stated.span, problem);
    }

    fn property(
        &mut self,
        kind: Option<&'static Kind>,
        name: &str,
        name_span: Span,
        value: &[Term],
        value_span: Span,
        damaged: bool,
    ) -> Option<Stated> {
        let kind = kind?;
        let Some(property) = kind.property(name) else {
            self.unknown_property(kind, name, name_span);
            return None;
        };
        let span = if value.is_empty() { name_span } else { value_span };
        let is_section = property.takes == Takes::Section;
        // Only a section goes by a name that a design or a shop gives it.
        let said = if is_section { single_blanks(self.source.slice(span)) } else { std::borrow::Cow::Borrowed("") };
        let said = said.trim_matches(['"', '“', '”', ' ']);
        let own = is_section && self.sections.iter().any(|(name, _)| name.eq_ignore_ascii_case(said));
        let stocked =
            self.shop.and_then(|shop| shop.section(said)).filter(|stocked| is_section && !own && !stocked.nominal);
        let shop = stocked.map(|stocked| ShopWords { words: stocked.span, called: true });
        let lost = |name: &String| name.eq_ignore_ascii_case(said);
        let unread = is_section
            && (self.unread_sections.iter().any(lost)
                || !own && self.shop.is_some_and(|shop| shop.unread.iter().any(lost)));
        if damaged || unread {
            return Some(Stated { property, value: None, span, measured: false, shop: None, section: None });
        }
        let none = OwnSections::new();
        // A nearer name is sought among all of them.
        let seek = own || stocked.is_some() || self.seeks_near();
        let known = if is_section && seek { self.known_sections() } else { std::borrow::Cow::Borrowed(&none) };
        let own = Own { sections: &known, timbers: &self.known_timbers(property) };
        let read = read::value(property, value, span, self.source, own);
        // Only a shop asks by which names sections are called for.
        let section = self.shop.and_then(|_| read::section_name(property, value, self.source));
        let value = match read {
            Ok(value) => self.sound(kind, property, value, span),
            Err(refused) => {
                self.push_diagnostic(*refused);
                None
            }
        };
        Some(Stated { property, value, span, measured: false, shop, section })
    }

    /// Advises of figures that are out of all proportion.
    fn proportion(&mut self, kind: &'static Kind, property: &'static Property, value: &Value, span: Span) {
        for found in disproportions(property, value, span, self.source) {
            let Disproportion { is, range, likely, .. } = found;
            let slip = ValueProblem::OutOfProportion { of: kind, is, range, likely };
            self.push(found.span.unwrap_or(span), Problem::Value { property, slip });
        }
    }

    /// A length of nothing is a slip wherever a thing must have a size.
    fn sound(&mut self, kind: &'static Kind, property: &'static Property, value: Value, span: Span) -> Option<Value> {
        let none = |value: f64| value <= 0.0;
        let sized = SIZED.contains(&property.handle());
        let empty = match &value {
            Value::Measure(measure) => none(measure.value),
            Value::List(items) => items.iter().any(|item| none(item.measure.value)),
            Value::Section(section) => none(section.thickness),
            // An edge that is rounded or bevelled by nothing is square: `edge: square` says so.
            Value::Edge(Edge::Radius(by) | Edge::Bevel(by)) => none(by.value),
            Value::Balusters(balusters) => balusters.count.is_some_and(none),
            Value::Fasteners(fasteners) => none(fasteners.count),
            _ => false,
        };
        // What is counted from one, or is drawn to be there, cannot be none.
        let counted = property.takes == Takes::Count && property.range.is_some_and(|range| range.least >= 1.0);
        let figures = matches!(value, Value::Edge(_) | Value::Balusters(_) | Value::Fasteners(_));
        let sized = sized || counted || figures;
        if sized && empty {
            self.push(span, DrawingProblem::SizeOfNothing { property });
            return None;
        }
        self.proportion(kind, property, &value, span);
        Some(value)
    }

    fn unknown_property(&mut self, kind: &'static Kind, name: &str, span: Span) {
        let here = nearest(name, kind.properties.iter().map(|property| property.name));
        let inside = || KINDS.iter().filter(|other| other.within.contains(&kind.name));
        let elsewhere = inside().find(|other| other.property(name).is_some());
        let meant = match (trade::ours(kind, name), here, elsewhere) {
            _ if kind == kinds::WALL && name == "height" => PropertyMeant::LowWall,
            (Some(ours), ..) => PropertyMeant::Trade(ours),
            (None, Some(near), _) => PropertyMeant::Near(near),
            _ if inside().any(|other| other.opens == name) => PropertyMeant::Thing,
            (None, None, Some(other)) => PropertyMeant::Of(other),
            (None, None, None) => PropertyMeant::Unknown,
        };
        self.push(span, DrawingProblem::UnknownProperty { kind, name: name.to_owned(), meant });
    }

    /// Draws one element in a parent for each name or side, or finds the one that is drawn already; its block holds `body`.
    fn draw(
        &mut self,
        design: &mut Design,
        kind: &'static Kind,
        names: &[HeadName],
        span: Span,
        (parent, body): (Id, &[Item]),
    ) -> Vec<Draft> {
        let more = names.len().max(1);
        if self.count + more > MOST || design.elements.len() + more > MOST_OF_A_STAIR {
            self.too_many(span, Limit::Things);
            return Vec::new();
        }
        if names.is_empty() {
            if let Some(other) = self.only_one(design, kind, None, parent) {
                return vec![self.again(design, kind, other, span, "")];
            }
            return vec![Draft::new(self.element(design, kind, None, None, span, Some(parent)))];
        }
        let mut drawn = Vec::new();
        for name in names {
            if name.text.is_empty() {
                design.unread.push(kind);
                continue;
            }
            let far = matches!(&*name.text, "far" | "near") && far_side(kind, design.kind(parent));
            let sides = sides(kind, design.kind(parent));
            if matches!(name.side, Some(Side::Far | Side::Near)) && !far_side(kind, design.kind(parent))
                || name.side.is_none() && !far && is_no_side(kind, &name.text, names, sides)
            {
                let near = nearest(&name.text, sides.iter().copied());
                self.push(name.span, DrawingProblem::NoSide { kind, name: name.text.clone(), near });
                // It closes or guards something; which side is not known.
                design.unread.push(kind);
                continue;
            }
            let side = match name.text.as_str() {
                _ if name.side.is_some() => name.side,
                "left" => Some(Side::Left),
                "right" => Some(Side::Right),
                "far" if far => Some(Side::Far),
                "near" if far => Some(Side::Near),
                _ => None,
            };
            let named = (side.is_none() || name.side.is_some()).then(|| name.text.clone());
            let place = if names.len() > 1 { span } else { span.to(name.span) };
            let taken = design.elements.iter().position(|other| {
                let alike = match (&other.name, &named) {
                    // A name is asked for in any case.
                    (Some(name), Some(named)) => name.eq_ignore_ascii_case(named),
                    (name, named) => name == named,
                };
                let same = other.kind == kind && other.parent == Some(parent) && alike && other.side == side;
                same && !self.serves_another(other, body)
            });
            if let Some(other) = taken.or_else(|| self.only_one(design, kind, side, parent)) {
                drawn.push(self.again(design, kind, other, name.span, &name.text));
                continue;
            }
            drawn.push(Draft::new(self.element(design, kind, named, side, place, Some(parent))));
        }
        drawn
    }

    /// Whether a block says that its thing serves another place than one that is drawn: two rails at the left, each along
    /// a flight of its own.
    fn serves_another(&self, drawn: &Element, body: &[Item]) -> bool {
        let Some(Value::Names(along)) = drawn.stated(properties::ALONG).and_then(|stated| stated.value.as_ref()) else {
            return false;
        };
        let property = |item: &Item| match item {
            Item::Property { name, value_span, damaged: false, .. } if name == "along" => Some(*value_span),
            _ => None,
        };
        let said = body.iter().find_map(property).map(|span| self.source.slice(span).trim().trim_matches('"'));
        said.zip(along.first()).is_some_and(|(said, (name, _))| !said.is_empty() && !name.eq_ignore_ascii_case(said))
    }

    /// The block that a second one says the same things as, of a kind of which only the first is ever asked.
    fn only_one(&self, design: &Design, kind: &'static Kind, side: Option<Side>, parent: Id) -> Option<Id> {
        let meets = |other: &Element| match kind {
            kind if kind == kinds::TREAD || kind == kinds::RISER_BOARD => true,
            kind if kind == kinds::GROUND => side.is_none() || other.side.is_none() || other.side == side,
            _ => false,
        };
        design.elements.iter().position(|other| other.kind == kind && other.parent == Some(parent) && meets(other))
    }

    /// A thing that is drawn for the second time: what the second block says is held against what the first does.
    fn again(&mut self, design: &mut Design, kind: &'static Kind, other: Id, span: Span, name: &str) -> Draft {
        if self.merging == 0 {
            let first = design.get(other).map(|other| other.span).unwrap_or_default();
            self.push(span, DrawingProblem::DrawnTwice { kind, name: name.to_owned(), first });
        }
        // Two things may have been meant, and how many there are would count.
        if kind == kinds::FLIGHT || kind == kinds::BRACE {
            design.unread.push(kind);
        }
        Draft { id: other, again: true }
    }

    /// A line that is no statement: a property without its colon, a kind without its brace, or neither.
    fn stray(&mut self, item: &Item, kind: Option<&'static Kind>) {
        let (terms, span) = match item {
            Item::Malformed { terms, span } => (terms.as_slice(), *span),
            Item::Property { name_span, .. } => {
                return self.push(*name_span, DrawingProblem::OutsideStair);
            }
            _ => return,
        };
        let words = head::leading_words(terms);
        let prefix = |known: &dyn Fn(&str) -> bool| {
            (1..=words.len()).rev().find(|used| {
                work::done(*used);
                words.get(..*used).is_some_and(|words| known(&words.join(" ")))
            })
        };
        if let Some(used) = kind.and_then(|kind| prefix(&|said| kind.property(said).is_some()))
            && let Some(last) = terms.get(used - 1)
        {
            let said = words.get(..used).map(|words| words.join(" ")).unwrap_or_default();
            let value = terms.get(used).map(|next| Span { start: next.span.start, end: span.end });
            let value = value.and_then(|rest| self.after_equals(rest));
            let place = terms.first().map_or(last.span, |first| first.span.to(last.span));
            return self.push(place, DrawingProblem::MissingColon { said, value });
        }
        if prefix(&|said| KINDS.iter().any(|kind| kind.opens == said)).is_some() {
            return self.push(span, DrawingProblem::NotOpened);
        }
        let elsewhere = KINDS.iter().find(|other| {
            let within = kind.is_some_and(|kind| other.within.contains(&kind.name));
            within && prefix(&|said| other.property(said).is_some()).is_some()
        });
        let problem = elsewhere.map_or(DrawingProblem::NotAStatement, |kind| DrawingProblem::MissingColonIn { kind });
        self.push(span, problem);
    }

    /// The words of a value without the equals signs that stand before it, if any are left.
    fn after_equals(&self, value: Span) -> Option<Span> {
        let words = self.source.slice(value);
        let left = words.trim_start_matches('=').trim_start();
        (!left.is_empty()).then(|| Span::new(value.end as usize - left.len(), value.end as usize))
    }
}
