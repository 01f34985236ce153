//! A value that would pass: found by changing one stated value and holding the rule again.
//!
//! No value is suggested that was not tried; a thing that is lacking is told with an example of its kind. Facts of the place (the total rise, the ground) and measured
//! figures are never changed; of several changes the one that leaves the fewest rules unmet is told.

use super::View;
use crate::derive::{StatedRead, Working, unguarded_sides};
use crate::measure::{Dimension, INCH, MILLIMETRE, Marks, Measure, Style, equal, mark, print, round_down, round_up};
use crate::model::{
    Balusters, Design, Fasteners, Id, ListItem, PropertyName, Section, Shape, Side, Stated, Takes, Value, kinds,
    properties,
};
use crate::rules::{Compared, Decider, Rule, RuleSet, Standing, hold};

/// Most stated values that are tried.
const MOST: usize = 8;

/// From this length on a suggestion is first sought at coarse marks: 4 in.
const ROOM_FOR_ROUND: f64 = 4.0 * INCH;

/// How far a suggested board may lie from the stated one, as a share of it: farther is another stair.
const FARTHEST: f64 = 0.6;

/// How many times a suggested size may be the stated one, or the stated one it.
const FARTHEST_SIZE: f64 = 4.0;

/// The same for a run or riser, which stands for the whole flight.
const FARTHEST_STEP: f64 = 0.2;

/// A design of more elements than this is no one stair; in it a remedy costs as many as ten.
const LARGE: usize = 300;
const LARGE_COSTS: usize = 10;

/// Nominal widths and what they measure dressed and dry, PS 20. Inches.
const NOMINAL: &[(f64, f64)] =
    &[(2.0, 1.5), (4.0, 3.5), (6.0, 5.5), (8.0, 7.25), (10.0, 9.25), (12.0, 11.25), (14.0, 13.25)];

/// The steps in which fasteners are sold by length: common practice, no source.
fn sold_every(kind: &str, metric: bool) -> f64 {
    match (kind, metric) {
        ("wood screw" | "nail", false) => INCH / 4.0,
        (_, false) => INCH / 2.0,
        ("wood screw" | "nail", true) => 5.0 * MILLIMETRE,
        (_, true) => 10.0 * MILLIMETRE,
    }
}

/// A help line, if a value that passes is found.
pub fn remedy(view: &View<'_>, rule: &Rule, element: Id, decider: &Decider) -> Option<String> {
    if let Some(kind) = decider.lacking {
        // Of a sum of counts the first is the plain cure.
        let asked = rule.source.slice(decider.asked).split(" + ").next().unwrap_or_default();
        if decider.counted && view.design.belonging(kind, element).next().is_some() {
            // One is drawn and is not as asked; drawing another is no cure.
            return None;
        }
        if let Some((_, condition)) = asked.split_once(" where ") {
            let condition = condition.trim_end().trim_end_matches(')').split_whitespace().collect::<Vec<_>>().join(" ");
            return Some(match condition.strip_prefix("place is ") {
                Some(place) => {
                    let example = in_its_units(view.design, &kind.example.replacen("top", place, 1));
                    format!("Draw one, for example `{example}`.")
                }
                None => match condition.split_once(" is ").filter(|(_, word)| !word.starts_with("not ")) {
                    Some((name, word)) if kind.property(name).is_some() && !word.contains(" and ") => {
                        format!("Draw a {}, for example `{} {{ {name}: {word} }}`.", kind.name, kind.opens)
                    }
                    _ => format!("Draw a {} where {condition}.", kind.name),
                },
            });
        }
        let example =
            if kind.example.is_empty() { kind.opens.to_owned() } else { in_its_units(view.design, kind.example) };
        let sides =
            if kind == kinds::GUARD { unguarded_sides(&Working::new(view.design), element) } else { Vec::new() };
        let sides: Vec<&str> = sides.into_iter().map(Side::word).collect();
        let example = if sides.is_empty() { example } else { example.replacen("left", &sides.join(", "), 1) };
        return Some(format!("Draw a {}, for example `{example}`.", kind.name));
    }
    let large = view.design.elements.len() > LARGE;
    match view.remedies.get().checked_sub(if large { LARGE_COSTS } else { 1 }) {
        Some(left) => view.remedies.set(left),
        None => return None,
    }
    let working = Working::new(view.design);
    // What the shop states is not this design's to change.
    let of_shop = |stated: &StatedRead| {
        let stated = view.design.stated(stated.element, stated.property);
        stated.and_then(|stated| stated.shop).is_some_and(|shop| !shop.called)
    };
    let mut stated = working.stated_behind(&decider.reads);
    // Posts are set before the balusters between them are.
    stated.sort_by_key(|stated| stated.property == properties::BETWEEN_POSTS);
    let asks_the_shop = stated.iter().any(of_shop);
    stated.retain(|stated| !stated.measured && !of_shop(stated));
    if let Compared::Words(_, not, words) = &decider.compared {
        if asks_the_shop {
            return None;
        }
        return word(view, rule, &stated, *not, words);
    }
    if view.measured && stated.is_empty() {
        return None;
    }
    let seek = Seek { view, rule, element, counted: decider.counted };
    let before = view.unmet.get_or_init(|| unmet(view, view.design));
    let mut best: Option<(usize, usize, String)> = None;
    for stated in stated.iter().take(MOST) {
        let Some((design, told)) = seek.change(stated.element, stated.property) else { continue };
        let after = unmet(view, &design);
        let new: Vec<&&Rule> =
            after.iter().filter(|rule| !before.iter().any(|held| std::ptr::eq(*held, **rule))).collect();
        let required: Vec<&&&Rule> = new.iter().filter(|rule| rule.shall).collect();
        let told = match required.as_slice() {
            [] => told,
            [other] => format!("{told} Then \"{}\" asks for more.", other.name),
            // It would mend one rule and break several.
            _ => continue,
        };
        let rank = (required.len(), new.len());
        if best.as_ref().is_none_or(|(breaks, more, _)| rank < (*breaks, *more)) {
            best = Some((rank.0, rank.1, told));
        }
        if rank == (0, 0) {
            break;
        }
    }
    best.map(|(.., told)| told)
}

/// An example in the units that the design is written in: whole inches become millimetres of the next five.
fn in_its_units(design: &Design, example: &str) -> String {
    let measures =
        design.elements.iter().flat_map(|element| &element.stated).filter_map(|stated| match &stated.value {
            Some(Value::Measure(measure)) => Some(*measure),
            Some(Value::List(items)) => items.first().map(|item| item.measure),
            _ => None,
        });
    let lengths: Vec<bool> = measures
        .filter(|measure| measure.dimension == Dimension::LENGTH)
        .map(|measure| measure.style.is_metric())
        .collect();
    if lengths.iter().filter(|metric| **metric).count() * 2 <= lengths.len() {
        return example.to_owned();
    }
    let mut out = String::new();
    for (at, piece) in example.split('"').enumerate() {
        if at > 0 {
            let digits = out.chars().rev().take_while(char::is_ascii_digit).count();
            let inches: f64 = out.split_off(out.len() - digits).parse().unwrap_or(0.0);
            out += &format!("{} mm", (inches * 25.4 / 5.0).ceil() * 5.0);
        }
        out += piece;
    }
    out
}

fn word(view: &View<'_>, rule: &Rule, stated: &[StatedRead], not: bool, words: &[String]) -> Option<String> {
    let stated = stated.first()?;
    let property = view.design.get(stated.element)?.kind.has(stated.property)?;
    let choices: Vec<String> = match property.takes {
        Takes::OneOf(known) if not => {
            known.iter().filter(|word| !words.iter().any(|w| w == *word)).map(|w| (*w).to_owned()).collect()
        }
        Takes::OneOf(known) => words.iter().filter(|word| known.contains(&word.as_str())).cloned().collect(),
        Takes::Edge if not => return Some("For example `edge: radius 3/8\"`.".to_owned()),
        Takes::Timber => {
            return Some("End it with `, treated`, or take a timber that lasts where it stands.".to_owned());
        }
        Takes::Fasteners => return Some(format!("End it with a coating: {}.", words.join(" or "))),
        _ => Vec::new(),
    };
    let choice = choices.first()?;
    let changed = view.design.with(stated.element, stated.property, Value::Word(choice.clone()));
    let passes = !fails(rule, &changed);
    passes.then(|| format!("`{}: {choice}` would pass.", stated.property))
}

/// The rules of all the sets that do not hold somewhere.
fn unmet<'a>(view: &View<'a>, design: &Design) -> Vec<&'a Rule> {
    let working = Working::new(design);
    let sets: &'a [&'a RuleSet] = view.sets;
    let rules = sets.iter().flat_map(|set| &set.rules);
    rules
        .filter(|rule| hold(rule, &working).iter().any(|outcome| matches!(outcome.standing, Standing::Fail(_))))
        .collect()
}

fn fails(rule: &Rule, design: &Design) -> bool {
    let working = Working::new(design);
    hold(rule, &working).iter().any(|outcome| matches!(outcome.standing, Standing::Fail(_)))
}

struct Seek<'a, 'v> {
    view: &'a View<'v>,
    rule: &'a Rule,
    element: Id,
    /// The rule counts steps, so another number of them may be the cure.
    counted: bool,
}

impl Seek<'_, '_> {
    fn change(&self, element: Id, name: PropertyName) -> Option<(Design, String)> {
        let owner = match self.view.design.get(element)? {
            step if step.step.is_some() => step.base.or(step.parent)?,
            _ => element,
        };
        let stated = self.view.design.stated(owner, name)?;
        if stated.property.fact || stated.measured {
            return None;
        }
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
                let width = print(balusters.width);
                Some((design, format!("Balusters of {width} every `{}` would pass.", print(found))))
            }
            Value::Section(section) => self.section(owner, stated, *section),
            Value::Fasteners(fasteners) => {
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
                Some((design, format!("{} `{}` long would pass.", capital(name.text()), print(found))))
            }
            _ => None,
        }
    }

    /// A few more between the same two posts.
    fn more_balusters(&self, owner: Id, stated: &Stated, balusters: Balusters) -> Option<(Design, String)> {
        let count = balusters.count?;
        [1.0, 2.0, 3.0, 4.0].into_iter().map(|more| count + more).find_map(|count| {
            let more = Value::Balusters(Balusters { count: Some(count), ..balusters });
            let design = self.view.design.with(owner, stated.property.handle(), more);
            (!self.fails_for(&design)).then(|| (design, format!("`{count}` of these balusters would pass.")))
        })
    }

    /// The nearest other board of the same thickness that passes, by its nominal size.
    fn section(&self, owner: Id, stated: &Stated, section: Section) -> Option<(Design, String)> {
        if section.shape == Shape::Round {
            let with =
                |size: Measure| Value::Section(Section { edge_radius: section.edge_radius, ..Section::round(size) });
            let (design, _) = self.one(owner, stated, section.measure, with)?;
            let Some(Value::Section(found)) =
                design.stated(owner, stated.property.handle()).and_then(|s| s.value.clone())
            else {
                return None;
            };
            let told = format!("`{}: round {}` would pass.", stated.property.name, print(found.measure));
            return Some((design, told));
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
        sizes.sort_by(|a, b| far(a.1).total_cmp(&far(b.1)));
        sizes.into_iter().find_map(|(named, depth)| {
            let measure = Measure { value: depth, ..section.measure };
            let thin = Measure { value: section.thickness, ..section.measure };
            let wider = Section { edge_radius: section.edge_radius, ..Section::rectangle(thin, measure) };
            let design = self.view.design.with(owner, stated.property.handle(), Value::Section(wider));
            let told = format!("`{}: {thickness}x{named}` would pass.", stated.property.name);
            (!self.fails_for(&design)).then_some((design, told))
        })
    }

    /// One number: a straight line through two tries lands near; the marks of a rule beside it are tried.
    fn one(
        &self,
        owner: Id,
        stated: &Stated,
        from: Measure,
        with: impl Fn(Measure) -> Value,
    ) -> Option<(Design, String)> {
        let name = stated.property.handle();
        let design_of = |value: f64| self.view.design.with(owner, name, with(Measure { value, ..from }));
        let value = self.solve(from, &design_of)?;
        let design = design_of(value);
        Some((design, format!("`{name}: {}` would pass.", print(Measure { value, ..from }))))
    }

    /// The signed distance of the failing element's value from its limit, if it still fails.
    fn distance(&self, design: &Design) -> Option<Measure> {
        let working = Working::new(design);
        let outcomes = hold(self.rule, &working);
        outcomes.iter().filter(|outcome| outcome.element == self.element).find_map(|outcome| match &outcome.standing {
            Standing::Fail(decider) => match decider.compared {
                Compared::Numbers(value, _, limit) => Some(Measure { value: value.value - limit.value, ..value }),
                _ => None,
            },
            _ => None,
        })
    }

    fn solve(&self, from: Measure, design_of: &dyn Fn(f64) -> Design) -> Option<f64> {
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
            let Some(left) = self.distance(&design_of(guess)).filter(far) else { break };
            guess -= left.value / slope;
        }
        let up = guess > from.value;
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
        tries.extend(marks(Marks::Fine));
        tries.push(guess);
        tries.into_iter().find(|value| {
            let near = from.value == 0.0 || (1.0 / FARTHEST_SIZE..=FARTHEST_SIZE).contains(&(value / from.value));
            let sound = value.is_finite() && *value >= 0.0 && near && (!count || value.fract() == 0.0);
            sound && !self.fails_for(&design_of(*value))
        })
    }

    fn fails_for(&self, design: &Design) -> bool {
        let working = Working::new(design);
        hold(self.rule, &working)
            .iter()
            .any(|outcome| outcome.element == self.element && !matches!(outcome.standing, Standing::Pass))
    }

    /// A list: all alike with the same sum, all alike at another size, or, for risers, more of them.
    fn list(&self, owner: Id, stated: &Stated, items: &[ListItem]) -> Option<(Design, String)> {
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
        let tell = |count: usize, value: f64| {
            let size = print(Measure { value, ..first.measure });
            let list = if count == 1 { size } else { format!("{count} of {size}") };
            // One riser more is one run more.
            let runs = if count == items.len() || name != properties::RISERS {
                String::new()
            } else {
                format!(", with {} runs", count - 1)
            };
            format!("`{name}: {list}`{runs} would pass.")
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
                && let Some(found) = self.in_marks(owner, first, sum, count, items.len())
            {
                return Some(found);
            }
            let design = design_of(count, share);
            if !self.still_fails(owner, &design) {
                return Some((design, tell(count, share)));
            }
        }
        if name == properties::RISERS && self.view.design.stated(0, properties::TOTAL_RISE).is_some() {
            // Another size would no longer add up to the rise, which the place gives.
            return None;
        }
        let mean = Measure { value: self.failing_item(items), ..first.measure };
        let value = self.solve(mean, &|value| design_of(items.len(), value))?;
        if of_steps && (value / mean.value - 1.0).abs() > FARTHEST_STEP {
            return None;
        }
        let design = design_of(items.len(), value);
        let passes = !self.still_fails(owner, &design);
        let told = if items.len() > 1 && !of_steps {
            format!("`{}` there would pass.", print(Measure { value, ..first.measure }))
        } else {
            tell(items.len(), value)
        };
        passes.then_some((design, told))
    }

    /// Risers of two sizes one mark of a rule apart that add up to the same rise: `3 of 6-3/8", 2 of 6-7/16"`.
    fn in_marks(&self, owner: Id, first: &ListItem, sum: f64, count: usize, before: usize) -> Option<(Design, String)> {
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
            let item = |value: f64| ListItem { measure: Measure { value, ..first.measure }, span: first.span };
            let mut items = vec![item(low); count.saturating_sub(raised)];
            items.extend(vec![item(low + step); raised.min(count)]);
            let design = self.with_list(owner, properties::RISERS, items, before);
            let of = |many: usize, value: f64| {
                (many > 0).then(|| format!("{many} of {}", print(Measure { value, ..first.measure })))
            };
            let list: Vec<String> =
                [of(count - raised.min(count), low), of(raised, low + step)].into_iter().flatten().collect();
            let runs = if count == before { String::new() } else { format!(", with {} runs", count - 1) };
            let told = format!("`risers: {}`{runs} would pass.", list.join(", "));
            (!self.still_fails(owner, &design)).then_some((design, told))
        })
    }

    /// The design with another list; another number of risers takes as many runs, of the same size.
    fn with_list(&self, owner: Id, name: PropertyName, items: Vec<ListItem>, before: usize) -> Design {
        let count = items.len();
        let design = self.view.design.with(owner, name, Value::List(items));
        let runs = match self.view.design.stated(owner, properties::RUNS).and_then(|stated| stated.value.as_ref()) {
            Some(Value::List(runs)) if name == properties::RISERS && count != before => runs,
            _ => return design,
        };
        let Some(first) = runs.first() else { return design };
        #[allow(clippy::cast_precision_loss)]
        let value = runs.iter().map(|run| run.measure.value).sum::<f64>() / runs.len() as f64;
        let run = ListItem { measure: Measure { value, ..first.measure }, span: first.span };
        design.with(owner, properties::RUNS, Value::List(vec![run; count.saturating_sub(1)]))
    }

    /// A flight's list moves all its steps, so there every step is asked; elsewhere the element alone, since
    /// copies (`left, right`) share their words and change together.
    fn still_fails(&self, owner: Id, design: &Design) -> bool {
        if !self.view.design.is(owner, kinds::FLIGHT) {
            return self.fails_for(design);
        }
        let working = Working::new(design);
        let within = |id: Id| design.related(id, kinds::FLIGHT).is_none_or(|flight| flight == owner);
        hold(self.rule, &working)
            .iter()
            .any(|outcome| within(outcome.element) && matches!(outcome.standing, Standing::Fail(_)))
    }

    /// The item of a list that the failing step reads, else the first.
    fn failing_item(&self, items: &[ListItem]) -> f64 {
        let step = self.view.design.get(self.element).and_then(|element| element.step).unwrap_or(0);
        items.get(step).or(items.first()).map_or(0.0, |item| item.measure.value)
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
