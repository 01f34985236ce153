//! One stated value changed until its rule holds, rounded to a mark of a rule, a board that is sold, a length that is
//! sold.

use super::offer::{Fix, Offer};
use crate::base::Span;
use crate::check::view::CheckedView;
use crate::derive::Evaluation;
use crate::measure::{Dimension, INCH, MILLIMETRE, Marks, Measure, Style, equal, mark, print, round_down, round_up};
use crate::model::sizes::diameters_sold;
use crate::model::{
    Balusters, Basis, Design, Edge, Fasteners, Id, Kind, ListItem, PropertyName, Section, Shape, Stated, Takes, Value,
    kinds, properties,
};
use crate::rules::{self, Rule, Verdict};

/// From this length on a suggestion is first sought at coarse marks: 4 in.
const ROOM_FOR_ROUND: f64 = 4.0 * INCH;

/// How far a suggested board may lie from the stated one, as a share of it: farther is another stair.
const FARTHEST: f64 = 0.6;

/// How many times a suggested size may be the stated one, or the stated one it.
const FARTHEST_SIZE: f64 = 4.0;

/// The same for what is larger than a part: a landing, a door, a flight.
const FARTHEST_ROOM: f64 = 2.0;

/// The same for the height of a post, which is cut to it: common practice, no source.
const FARTHEST_POST: f64 = 1.5;

/// From this length on it is: 2 ft.
const ROOM: f64 = 24.0 * INCH;

/// The same for a run or riser, which stands for the whole flight.
const FARTHEST_STEP: f64 = 0.2;

/// How near to its height a floor is laid, and risers may add up to: as `rise adds up` asks. Common practice, no source.
const LAID_TO: f64 = INCH / 16.0;

/// Nominal widths and what they measure dressed and dry, PS 20. Inches.
const NOMINAL: &[(f64, f64)] =
    &[(2.0, 1.5), (4.0, 3.5), (6.0, 5.5), (8.0, 7.25), (10.0, 9.25), (12.0, 11.25), (14.0, 13.25)];

/// The widest of boards that measure 3/4" dressed, by its nominal width: PS 20.
const WIDEST_BOARD: f64 = 12.0;

/// The steps in which fasteners are sold by length: common practice, no source.
fn sold_every(kind: &str, metric: bool) -> f64 {
    match (kind, metric) {
        ("wood screw" | "nail", false) => INCH / 4.0,
        (_, false) => INCH / 2.0,
        ("wood screw" | "nail", true) => 5.0 * MILLIMETRE,
        (_, true) => 10.0 * MILLIMETRE,
    }
}

/// One rule that fails for one element, and the design to be changed for it.
pub(super) struct Trial<'a, 'v> {
    pub view: &'a CheckedView<'v>,
    pub rule: &'a Rule,
    pub element: Id,
    /// The rule counts steps, so another number of them may be the cure.
    pub counted: bool,
    /// The rule is on what a part is asked: it may be thicker, where it is not to be wider.
    pub strength: bool,
    /// What the rule lets a value be off by, where one is sought that is not.
    pub exact: Option<f64>,
}

impl Trial<'_, '_> {
    /// A changed design in which the rule holds, and the change; nothing where that is the weaker choice for what the rule
    /// does not name.
    pub(super) fn change(&self, element: Id, name: PropertyName) -> Option<(Design, Fix)> {
        if self.view.is_given_up() {
            return None;
        }
        let owner = match self.view.design.get(element)? {
            step if step.step.is_some() => step.base.or(step.parent)?,
            _ => element,
        };
        let stated = self.view.design.stated(owner, name)?;
        let (design, fix) = self.changed(owner, stated)?;
        let named = self.view.design.is(owner, self.rule.kind) && self.rule.requirement.names(name);
        let weaker = !named && self.is_weaker(owner, stated, &design);
        (!weaker && !self.is_another_post(owner, stated, &design)).then_some((design, fix))
    }

    /// Whether a post would be so much longer that it is another one: whoever states the first meant it.
    fn is_another_post(&self, owner: Id, stated: &Stated, design: &Design) -> bool {
        let now = design.stated(owner, stated.property.handle()).and_then(|stated| stated.value.as_ref());
        match (&stated.value, now) {
            (Some(Value::Measure(was)), Some(Value::Measure(now))) => {
                let height = stated.property.handle() == properties::HEIGHT && self.view.design.is(owner, kinds::POST);
                height && now.value > FARTHEST_POST * was.value
            }
            _ => false,
        }
    }

    /// Whether a value in a changed design is one that guards less, or leaves less wood, than what is stated.
    fn is_weaker(&self, owner: Id, stated: &Stated, design: &Design) -> bool {
        let name = stated.property.handle();
        let is = |kind| self.view.design.is(owner, kind);
        let now = design.stated(owner, name).and_then(|stated| stated.value.as_ref());
        let (was, now) = match (&stated.value, now) {
            (Some(Value::Measure(was)), Some(Value::Measure(now))) => (was.value, now.value),
            (Some(Value::List(was)), Some(Value::List(now))) => {
                let lowest =
                    |items: &[ListItem]| items.iter().map(|item| item.measure.value).fold(f64::INFINITY, f64::min);
                (lowest(was), lowest(now))
            }
            // The own section of a thing may be too stout for the hand or for its place.
            (Some(Value::Section(was)), Some(Value::Section(now))) => {
                return !is(self.rule.kind) && now.thickness * now.depth < was.thickness * was.depth;
            }
            _ => return false,
        };
        let less = [
            (kinds::GUARD, properties::HEIGHT),
            (kinds::POST, properties::HEIGHT),
            (kinds::STRINGER, properties::COUNT),
            (kinds::JOIST, properties::COUNT),
            (kinds::TREAD, properties::BOARDS),
        ];
        let more = [
            (kinds::TREAD, properties::GAP),
            (kinds::STRINGER, properties::SPACING),
            (kinds::JOIST, properties::SPACING),
            (kinds::GUARD, properties::BOTTOM_GAP),
            (kinds::GUARD, properties::END_GAP),
            (kinds::GUARD, properties::PANEL_GAP),
            (kinds::GUARD, properties::BETWEEN_POSTS),
        ];
        let of = |table: &[(&'static Kind, PropertyName)]| {
            table.iter().any(|(kind, property)| is(kind) && *property == name)
        };
        now < was && of(&less) || now > was && of(&more)
    }

    fn changed(&self, owner: Id, stated: &Stated) -> Option<(Design, Fix)> {
        let name = stated.property.handle();
        match stated.value.as_ref()? {
            Value::Measure(measure) => self.one(owner, stated, *measure, Value::Measure),
            Value::List(items) => self.list(owner, stated, items),
            Value::Balusters(balusters) => {
                let Some(every) = balusters.every else { return self.more_balusters(owner, stated, *balusters) };
                let with = |every| Value::Balusters(Balusters { every: Some(every), ..*balusters });
                let (design, _) = self.one(owner, stated, every, with)?;
                let Some(Value::Balusters(Balusters { every: Some(found), .. })) =
                    design.stated(owner, name).and_then(|stated| stated.value.clone())
                else {
                    return None;
                };
                let offer = Offer::BalusterSpacing { width: balusters.width, every: found };
                Some((design, Fix::new(offer).with_edit(balusters.varies, print(found))))
            }
            Value::Section(section) => {
                let wants_thickness =
                    self.view.design.is(owner, kinds::TREAD) || self.view.design.is(owner, kinds::POST);
                if self.strength && wants_thickness {
                    return self.stouter(owner, stated, *section);
                }
                // A string of a board's thickness wants that of a plank before it wants more depth.
                let slender = self.view.design.is(owner, kinds::STRINGER) && section.thickness < 1.5 * INCH - 1.0;
                if self.strength && slender {
                    return self.plank(owner, stated, *section);
                }
                self.section(owner, stated, *section).or_else(|| self.ripped(owner, stated, *section))
            }
            Value::Edge(Edge::Radius(size)) => {
                let (design, size) = self.sized(owner, stated, *size, |size| Value::Edge(Edge::Radius(size)))?;
                Some((design, value(stated, format!("radius {}", print(size)))))
            }
            Value::Edge(Edge::Bevel(size)) => {
                let (design, size) = self.sized(owner, stated, *size, |size| Value::Edge(Edge::Bevel(size)))?;
                Some((design, value(stated, format!("bevel {}", print(size)))))
            }
            Value::Fasteners(fasteners) => {
                // A post that more bolts would hold wants a hold-down all the same.
                if self.strength
                    && self.rule.kind == kinds::JOINT
                    && let Some(found) = self.more_fasteners(owner, stated, fasteners)
                {
                    return Some(found);
                }
                let length = fasteners.length?;
                let with = |length| Value::Fasteners(Fasteners { length: Some(length), ..fasteners.clone() });
                let (design, _) = self.one(owner, stated, length, with)?;
                let Some(Value::Fasteners(Fasteners { length: Some(found), .. })) =
                    design.stated(owner, name).and_then(|stated| stated.value.clone())
                else {
                    return None;
                };
                let (sold, found) = {
                    let steps = found.value / sold_every(fasteners.kind, found.style.is_metric());
                    let steps = if found.value > length.value { steps.ceil() } else { steps.floor() };
                    let value = steps * sold_every(fasteners.kind, found.style.is_metric());
                    let sold = self.view.design.with(owner, name, with(Measure { value, ..found }));
                    let passes = value > 0.0 && !self.fails_for(&sold);
                    if passes { (Some(sold), Measure { value, ..found }) } else { (None, found) }
                };
                let design = sold.unwrap_or(design);
                let offer = Offer::FastenerLength { property: stated.property.handle(), length: found };
                let fix = Fix::new(offer);
                // A nail's size says its length; there is no figure to change.
                Some((
                    design,
                    fasteners.length_words.into_iter().fold(fix, |fix, words| fix.with_edit(words, print(found))),
                ))
            }
            // Where a riser board stands says how high it is to be.
            Value::Word(word) if name == properties::STANDS && self.view.design.is(owner, kinds::RISER_BOARD) => {
                let Takes::OneOf(words) = stated.property.takes else { return None };
                words.iter().filter(|other| **other != &**word).find_map(|other| {
                    let design = self.view.design.with(owner, name, Value::Word((*other).into()));
                    (!self.fails_for(&design)).then(|| (design, value(stated, (*other).to_owned())))
                })
            }
            _ => None,
        }
    }

    /// One or a few fasteners more, or the next thicker ones that are sold, with which a joint takes what it is asked.
    fn more_fasteners(&self, owner: Id, stated: &Stated, fasteners: &Fasteners) -> Option<(Design, Fix)> {
        let try_with = |other: Fasteners, words: Span, figure: String| {
            let said = self.spliced(stated, words, &figure)?;
            let design = self.view.design.with(owner, stated.property.handle(), Value::Fasteners(other));
            (!self.fails_for(&design)).then(|| (design, value(stated, said)))
        };
        let more = || {
            let counts = [1.0, 2.0, 3.0, 4.0].map(|more| fasteners.count + more);
            let with = |count: f64| Fasteners { count, ..fasteners.clone() };
            counts.into_iter().find_map(|count| try_with(with(count), fasteners.count_words, count.to_string()))
        };
        let thicker = || {
            // A size by its number or its thread has no figure to change, and the next ones are sold in inches.
            let words = fasteners.diameter_words.filter(|_| !fasteners.diameter.style.is_metric())?;
            let sold = diameters_sold(fasteners.kind).into_iter();
            sold.filter(|sold| *sold * INCH > fasteners.diameter.value + 1.0).take(3).find_map(|sold| {
                let diameter = Measure { value: sold * INCH, ..fasteners.diameter };
                try_with(Fasteners { diameter, ..fasteners.clone() }, words, print(diameter))
            })
        };
        more().or_else(thicker)
    }

    /// The words of a value with another figure in the place of one.
    fn spliced(&self, stated: &Stated, words: Span, figure: &str) -> Option<String> {
        let text = &self.view.source.text;
        let before = text.get(stated.span.start as usize..words.start as usize)?;
        let after = text.get(words.end as usize..stated.span.end as usize)?;
        Some(format!("{before}{figure}{after}"))
    }

    /// One stringer more across the same width, closer together: then each carries less, and treads are shorter spans.
    pub(super) fn one_stringer_more(&self, stringer: Id) -> Option<(Design, Fix)> {
        let number = |name: PropertyName| {
            let stated = self.view.design.stated(stringer, name)?;
            let Some(Value::Measure(measure)) = &stated.value else { return None };
            (stated.property.basis == Basis::Choice && stated.shop.is_none()).then_some((stated, *measure))
        };
        let ((counted, count), (spaced, spacing)) = (number(properties::COUNT)?, number(properties::SPACING)?);
        (1..=2).map(|more| count.value + f64::from(more)).find_map(|many| {
            let apart = round_down((count.value - 1.0) * spacing.value / (many - 1.0), spacing.style, Marks::Plain);
            let closer = Measure { value: apart, ..spacing };
            let design =
                self.view.design.with(stringer, properties::COUNT, Value::Measure(Measure { value: many, ..count }));
            let design = design.with(stringer, properties::SPACING, Value::Measure(closer));
            if self.fails_for(&design) {
                return None;
            }
            let offer = |stated: &Stated, value: String| Offer::Value { property: stated.property.handle(), value };
            let (many, apart) = (many.to_string(), print(closer));
            let both = Offer::Both(Box::new(offer(counted, many.clone())), Box::new(offer(spaced, apart.clone())));
            Some((design, Fix::new(both).with_edit(counted.span, many).with_edit(spaced.span, apart)))
        })
    }

    /// A few more between the same two posts.
    fn more_balusters(&self, owner: Id, stated: &Stated, balusters: Balusters) -> Option<(Design, Fix)> {
        let count = balusters.count?;
        [1.0, 2.0, 3.0, 4.0].into_iter().map(|more| count + more).find_map(|count| {
            let more = Value::Balusters(Balusters { count: Some(count), ..balusters });
            let design = self.view.design.with(owner, stated.property.handle(), more);
            let fix = Fix::new(Offer::BalusterCount(count)).with_edit(balusters.varies, count.to_string());
            (!self.fails_for(&design)).then_some((design, fix))
        })
    }

    /// The nearest other board of the same thickness that passes, by its nominal size.
    fn section(&self, owner: Id, stated: &Stated, section: Section) -> Option<(Design, Fix)> {
        if section.shape == Shape::Round {
            let with =
                |size: Measure| Value::Section(Section { edge_radius: section.edge_radius, ..Section::round(size) });
            let (design, _) = self.one(owner, stated, section.measure, with)?;
            let Some(Value::Section(found)) =
                design.stated(owner, stated.property.handle()).and_then(|s| s.value.clone())
            else {
                return None;
            };
            return Some((design, value(stated, format!("round {}", print(found.measure)))));
        }
        if section.shape != Shape::Rectangular {
            return None;
        }
        let thick = |inches: f64| equal(inches * INCH, section.thickness, Dimension::LENGTH);
        let nominal = NOMINAL.iter().find(|(_, dressed)| thick(*dressed)).map(|(named, _)| *named);
        let thickness = nominal.or(thick(0.75).then_some(1.0))?;
        let mut sizes: Vec<(f64, f64)> = NOMINAL.iter().map(|(named, dressed)| (*named, dressed * INCH)).collect();
        let far = |depth: f64| (depth / section.depth - 1.0).abs();
        sizes.retain(|(_, depth)| *depth != section.depth && *depth >= section.thickness && far(*depth) <= FARTHEST);
        // Boards of 3/4" are sold up to 1x12.
        sizes.retain(|(named, _)| nominal.is_some() || *named <= WIDEST_BOARD);
        sizes.sort_by(|a, b| far(a.1).total_cmp(&far(b.1)));
        sizes.into_iter().find_map(|(named, depth)| {
            let measure = Measure { value: depth, ..section.measure };
            let thin = Measure { value: section.thickness, ..section.measure };
            let wider = Section { edge_radius: section.edge_radius, ..Section::rectangle(thin, measure) };
            let design = self.view.design.with(owner, stated.property.handle(), Value::Section(wider));
            let fix = value(stated, format!("{thickness}x{named}"));
            (!self.fails_for(&design)).then_some((design, fix))
        })
    }

    /// The next thicker board of the same width, or the next stouter square post, that passes; by its nominal size where it
    /// has one.
    fn stouter(&self, owner: Id, stated: &Stated, section: Section) -> Option<(Design, Fix)> {
        if section.shape != Shape::Rectangular || section.recess.is_some() {
            return None;
        }
        let square = self.view.design.is(owner, kinds::POST);
        let nominal = |deep: f64| NOMINAL.iter().find(|row| equal(row.1 * INCH, deep, Dimension::LENGTH));
        NOMINAL.iter().take(3).find_map(|(named, dressed)| {
            let thick = dressed * INCH;
            let depth = if square { thick } else { section.depth };
            if thick <= section.thickness || depth < section.depth || depth < thick {
                return None;
            }
            let measure = |value: f64| Measure { value, ..section.measure };
            let stouter =
                Section { edge_radius: section.edge_radius, ..Section::rectangle(measure(thick), measure(depth)) };
            let words = match nominal(depth) {
                Some((deep, _)) => format!("{named}x{deep}"),
                None => format!("{} x {}", print(measure(thick)), print(measure(depth))),
            };
            let design = self.view.design.with(owner, stated.property.handle(), Value::Section(stouter));
            (!self.fails_for(&design)).then(|| (design, value(stated, words)))
        })
    }

    /// The least plank of 2x in place of a board that is thinner and no deeper, which passes.
    fn plank(&self, owner: Id, stated: &Stated, section: Section) -> Option<(Design, Fix)> {
        if section.shape != Shape::Rectangular || section.recess.is_some() {
            return None;
        }
        let deep = NOMINAL.iter().filter(|(_, dressed)| dressed * INCH >= section.depth - 1.0);
        deep.into_iter().find_map(|(named, dressed)| {
            let measure = |inches: f64| Measure { value: inches * INCH, ..section.measure };
            let plank =
                Section { edge_radius: section.edge_radius, ..Section::rectangle(measure(1.5), measure(*dressed)) };
            let design = self.view.design.with(owner, stated.property.handle(), Value::Section(plank));
            (!self.fails_for(&design)).then(|| (design, value(stated, format!("2x{named}"))))
        })
    }

    /// The same board ripped to the depth that passes, in figures.
    fn ripped(&self, owner: Id, stated: &Stated, section: Section) -> Option<(Design, Fix)> {
        if section.shape != Shape::Rectangular || section.recess.is_some() {
            return None;
        }
        let thin = Measure { value: section.thickness, ..section.measure };
        let with = |deep: Measure| {
            Value::Section(Section { edge_radius: section.edge_radius, ..Section::rectangle(thin, deep) })
        };
        let (design, deep) = self.sized(owner, stated, Measure { value: section.depth, ..section.measure }, with)?;
        let rips = deep.value < section.depth && deep.value >= section.thickness;
        let near = 1.0 - deep.value / section.depth <= FARTHEST;
        (rips && near).then(|| (design, value(stated, format!("{} x {}", print(thin), print(deep)))))
    }

    /// One size that a value is made with, which makes the rule hold.
    fn sized(
        &self,
        owner: Id,
        stated: &Stated,
        from: Measure,
        with: impl Fn(Measure) -> Value,
    ) -> Option<(Design, Measure)> {
        let name = stated.property.handle();
        let design_of = |value: f64| self.view.design.with(owner, name, with(Measure { value, ..from }));
        let value = self.solve(stated, from, &design_of)?;
        Some((design_of(value), Measure { value, ..from }))
    }

    /// One number: a straight line through two tries lands near; the marks of a rule beside it are tried.
    fn one(&self, owner: Id, stated: &Stated, from: Measure, with: impl Fn(Measure) -> Value) -> Option<(Design, Fix)> {
        let (design, size) = self.sized(owner, stated, from, with)?;
        Some((design, value(stated, print(size))))
    }

    /// The signed distance of the failing element's value from its limit, if it still fails.
    fn distance(&self, design: &Design) -> Option<Measure> {
        let evaluation = Evaluation::after(design, &self.view.plain);
        self.speaks_in(design).then(|| rules::outcome(self.rule, &evaluation, self.element))?.decision?.distance()
    }

    fn solve(&self, stated: &Stated, from: Measure, design_of: &dyn Fn(f64) -> Design) -> Option<f64> {
        let start = self.distance(self.view.design)?.value;
        let nudge = if from.value == 0.0 { mark(from.style, Marks::Plain) } else { from.value.abs() * 1e-3 };
        // The side on which the rule still fails gives the slope.
        let slope = [nudge, -nudge].into_iter().find_map(|nudge| {
            let moved = self.distance(&design_of(from.value + nudge))?;
            let slope = (moved.value - start) / nudge;
            (slope != 0.0 && slope.is_finite()).then_some(slope)
        })?;
        let mut guess = from.value - start / slope;
        // As near as a tenth of what would count as equal: the marks beside it are tried then.
        let far = |left: &Measure| left.value.abs() > left.dimension.tolerance() / 10.0;
        for _ in 0..8 {
            if self.view.is_given_up() {
                return None;
            }
            let Some(left) = self.distance(&design_of(guess)).filter(far) else { break };
            guess -= left.value / slope;
        }
        let up = guess > from.value;
        if let Some(slack) = self.exact {
            let off = slack / slope.abs();
            guess += if up { off } else { -off };
        }
        let marks = |marks: Marks| {
            let mark = if up { round_up(guess, from.style, marks) } else { round_down(guess, from.style, marks) };
            let next = round_up(guess + 1e-3 * guess.abs(), from.style, marks);
            let step = (next - round_down(guess, from.style, marks)).abs();
            [mark, if up { mark + step } else { mark - step }]
        };
        let count = from.dimension == Dimension::NUMBER && from.style == Style::NUMBER;
        // The limit of a slope is a round one; a mark of a rule means nothing to it.
        let mut tries: Vec<f64> = if from.style.is_slope() { vec![guess] } else { Vec::new() };
        // A round figure is easier to set out; a small part has no room for it.
        if from.dimension == Dimension::LENGTH && guess > ROOM_FOR_ROUND {
            tries.extend(marks(Marks::Coarse).first());
        }
        tries.extend(marks(Marks::Plain));
        // What leaves no slack at all is drawn to a plain mark, or not for that.
        if self.exact.is_none() {
            tries.extend(marks(Marks::Fine));
            tries.push(guess);
        }
        let farthest =
            if from.dimension == Dimension::LENGTH && from.value >= ROOM { FARTHEST_ROOM } else { FARTHEST_SIZE };
        tries.into_iter().find(|value| {
            let near = from.value == 0.0 || (1.0 / farthest..=farthest).contains(&(value / from.value));
            // What parts two boards may come to next to nothing.
            let near = near || stated.property.handle() == properties::GAP && *value < from.value;
            let near = near && stated.property.range.is_none_or(|range| range.holds(*value));
            let sound = value.is_finite() && *value >= 0.0 && near && (!count || value.fract() == 0.0);
            sound && !self.fails_for(&design_of(*value))
        })
    }

    fn fails_for(&self, design: &Design) -> bool {
        let evaluation = Evaluation::after(design, &self.view.plain);
        self.speaks_in(design) && rules::verdict(self.rule, &evaluation, self.element) != Verdict::Pass
    }

    /// Whether the element is still one that the rule speaks of: with fewer steps it may be gone.
    fn speaks_in(&self, design: &Design) -> bool {
        design.of_kind(self.rule.kind).any(|element| element == self.element)
    }

    /// A list: all alike with the same sum, all alike at another size, or, for risers, more of them.
    fn list(&self, owner: Id, stated: &Stated, items: &[ListItem]) -> Option<(Design, Fix)> {
        let name = stated.property.handle();
        if name == properties::RUNS && self.view.design.belonging(kinds::WINDERS, owner).next().is_some() {
            // Winders are wider than the straight treads on purpose.
            return None;
        }
        let first = items.first()?;
        // The place gives the rise: risers that share anything else would miss the floor.
        let rise = match self.view.design.stated(0, properties::TOTAL_RISE).map(|stated| &stated.value) {
            Some(Some(Value::Measure(rise)))
                if name == properties::RISERS && self.view.design.of_kind(kinds::FLIGHT).len() == 1 =>
            {
                Some(rise.value)
            }
            _ => None,
        };
        let sum: f64 = rise.unwrap_or_else(|| items.iter().map(|item| item.measure.value).sum());
        let alike = |count: usize, value: f64| {
            let measure = Measure { value, ..first.measure };
            vec![ListItem { measure, span: first.span }; count]
        };
        let offer = |count: usize, value: f64| {
            let list = list(count, Measure { value, ..first.measure });
            self.steps(owner, stated, list, count, items.len())
        };
        let design_of = |count: usize, value: f64| self.with_list(owner, name, alike(count, value), items.len());
        // Risers share their sum, which the place gives; runs keep their size.
        let of_steps = name == properties::RISERS || name == properties::RUNS;
        let counts: Vec<usize> = if name == properties::RISERS {
            (items.len()..items.len() + 4).collect()
        } else if name == properties::RUNS && self.counted {
            vec![items.len() + 1, items.len() - 1]
        } else {
            vec![items.len()]
        };
        for count in counts.into_iter().filter(|count| *count > 0 && of_steps) {
            #[allow(clippy::cast_precision_loss)]
            let share = sum / if name == properties::RUNS { items.len() } else { count } as f64;
            let mean = sum / items.len() as f64;
            if (share / mean - 1.0).abs() > FARTHEST {
                continue;
            }
            if name == properties::RISERS
                && let Some(found) = self
                    .even_in_marks(owner, stated, first, sum, count, items.len())
                    .or_else(|| self.in_marks(owner, stated, first, sum, count, items.len()))
            {
                return Some(found);
            }
            let design = design_of(count, share);
            if !self.still_fails(owner, &design) {
                return Some((design, offer(count, share)));
            }
        }
        if name == properties::RISERS && self.view.design.stated(0, properties::TOTAL_RISE).is_some() {
            // Another size would no longer add up to the rise, which the place gives.
            return None;
        }
        if !of_steps && let Some(usual) = usual(items) {
            let design = design_of(items.len(), usual.value);
            if !self.still_fails(owner, &design) {
                let fix = Fix::new(Offer::Item(usual)).with_edit(stated.span, list(items.len(), usual));
                return Some((design, fix));
            }
        }
        let mean = Measure { value: self.failing_item(items), ..first.measure };
        let value = self.solve(stated, mean, &|value| design_of(items.len(), value))?;
        if of_steps && (value / mean.value - 1.0).abs() > FARTHEST_STEP {
            return None;
        }
        let design = design_of(items.len(), value);
        let passes = !self.still_fails(owner, &design);
        let fix = if items.len() > 1 && !of_steps {
            let size = Measure { value, ..first.measure };
            Fix::new(Offer::Item(size)).with_edit(stated.span, list(items.len(), size))
        } else {
            offer(items.len(), value)
        };
        passes.then_some((design, fix))
    }

    /// Risers of one size on a mark of a rule that add up to the rise as near as a floor is laid: `5 of 7-3/16"`.
    fn even_in_marks(
        &self,
        owner: Id,
        stated: &Stated,
        first: &ListItem,
        sum: f64,
        count: usize,
        before: usize,
    ) -> Option<(Design, Fix)> {
        let style = first.measure.style;
        #[allow(clippy::cast_precision_loss)]
        let of = count as f64;
        let rounded = [round_down, round_up].into_iter();
        let marks =
            rounded.flat_map(|round| [Marks::Plain, Marks::Fine].map(|marks| (marks, round(sum / of, style, marks))));
        let mut near: Vec<(Marks, f64)> =
            marks.filter(|(_, size)| *size > 0.0 && (size * of - sum).abs() <= LAID_TO + 1.0).collect();
        // A plain mark before a fine one, and of two the nearer.
        let off = |size: f64| (size * of - sum).abs();
        near.sort_by(|a, b| (a.0 == Marks::Fine).cmp(&(b.0 == Marks::Fine)).then(off(a.1).total_cmp(&off(b.1))));
        near.into_iter().find_map(|(_, value)| {
            let size = Measure { value, ..first.measure };
            let items = vec![ListItem { measure: size, span: first.span }; count];
            let design = self.with_list(owner, properties::RISERS, items, before);
            let fix = self.steps(owner, stated, list(count, size), count, before);
            (!self.still_fails(owner, &design)).then_some((design, fix))
        })
    }

    /// Risers of two sizes one mark of a rule apart that add up to the same rise: `3 of 6-3/8", 2 of 6-7/16"`.
    fn in_marks(
        &self,
        owner: Id,
        stated: &Stated,
        first: &ListItem,
        sum: f64,
        count: usize,
        before: usize,
    ) -> Option<(Design, Fix)> {
        let style = first.measure.style;
        [Marks::Plain, Marks::Fine].into_iter().find_map(|fine| {
            #[allow(clippy::cast_precision_loss)]
            let low = round_down(sum / count as f64, style, fine);
            let step = round_up(low * (1.0 + 1e-6), style, fine) - low;
            #[allow(clippy::cast_precision_loss)]
            let left = (sum - low * count as f64) / step;
            if (left - left.round()).abs() > 1e-6 || low <= 0.0 {
                return None;
            }
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let raised = left.round() as usize;
            let size = |value: f64| Measure { value, ..first.measure };
            let item = |value: f64| ListItem { measure: size(value), span: first.span };
            let mut items = vec![item(low); count.saturating_sub(raised)];
            items.extend(vec![item(low + step); raised.min(count)]);
            let design = self.with_list(owner, properties::RISERS, items, before);
            let of = |many: usize, value: f64| (many > 0).then(|| format!("{many} of {}", print(size(value))));
            let list: Vec<String> =
                [of(count - raised.min(count), low), of(raised, low + step)].into_iter().flatten().collect();
            let fix = self.steps(owner, stated, list.join(", "), count, before);
            (!self.still_fails(owner, &design)).then_some((design, fix))
        })
    }

    /// A list of steps; another number of risers takes one run less than there are risers, of the mean size.
    fn steps(&self, owner: Id, stated: &Stated, list: String, count: usize, before: usize) -> Fix {
        let changed = count != before && stated.property.handle() == properties::RISERS;
        let runs = changed.then(|| count - 1);
        let offer = Offer::Steps { property: stated.property.handle(), list: list.clone(), runs };
        let fix = Fix::new(offer).with_edit(stated.span, list);
        match (runs, self.view.design.stated(owner, properties::RUNS)) {
            (Some(runs), Some(stated)) => match &stated.value {
                Some(Value::List(items)) => match mean(items) {
                    Some(size) => fix.with_edit(stated.span, self::list(runs, size)),
                    None => fix,
                },
                _ => fix,
            },
            _ => fix,
        }
    }

    /// The design with another list; another number of risers takes as many runs, of the same size.
    fn with_list(&self, owner: Id, name: PropertyName, items: Vec<ListItem>, before: usize) -> Design {
        let count = items.len();
        let design = self.view.design.with(owner, name, Value::List(items.into()));
        let runs = match self.view.design.stated(owner, properties::RUNS).and_then(|stated| stated.value.as_ref()) {
            Some(Value::List(runs)) if name == properties::RISERS && count != before => runs,
            _ => return design,
        };
        let (Some(first), Some(measure)) = (runs.first(), mean(runs)) else { return design };
        let run = ListItem { measure, span: first.span };
        design.with(owner, properties::RUNS, Value::List(vec![run; count.saturating_sub(1)].into()))
    }

    /// A flight's list moves all its steps, so there every step is asked; elsewhere the element alone, since
    /// copies (`left, right`) share their words and change together.
    fn still_fails(&self, owner: Id, design: &Design) -> bool {
        if !self.view.design.is(owner, kinds::FLIGHT) {
            return self.fails_for(design);
        }
        let evaluation = Evaluation::after(design, &self.view.plain);
        let within = |id: Id| design.related(id, kinds::FLIGHT).is_none_or(|flight| flight == owner);
        rules::verdicts(self.rule, &evaluation).any(|(element, verdict)| verdict == Verdict::Fail && within(element))
    }

    /// The item of a list that the failing step reads, else the first.
    fn failing_item(&self, items: &[ListItem]) -> f64 {
        let step = self.view.design.get(self.element).and_then(|element| element.step).unwrap_or(0);
        items.get(step).or(items.first()).map_or(0.0, |item| item.measure.value)
    }
}

/// Another value for a property, in place of its stated words.
fn value(stated: &Stated, value: String) -> Fix {
    let offer = Offer::Value { property: stated.property.handle(), value: value.clone() };
    Fix::new(offer).with_edit(stated.span, value)
}

/// `4 of 7"`, or the one item alone.
fn list(count: usize, size: Measure) -> String {
    if count == 1 { print(size) } else { format!("{count} of {}", print(size)) }
}

/// What more than half of a list are, where others stand out from them.
fn usual(items: &[ListItem]) -> Option<Measure> {
    let like = |one: &ListItem| {
        let same = |item: &&ListItem| equal(item.measure.value, one.measure.value, Dimension::LENGTH);
        items.iter().filter(same).count()
    };
    let usual = items.iter().find(|item| 2 * like(item) > items.len())?;
    (like(usual) < items.len()).then_some(usual.measure)
}

/// The mean of a list, in the style of its first item.
fn mean(items: &[ListItem]) -> Option<Measure> {
    let first = items.first()?;
    #[allow(clippy::cast_precision_loss)]
    let value = items.iter().map(|item| item.measure.value).sum::<f64>() / items.len() as f64;
    Some(Measure { value, ..first.measure })
}
