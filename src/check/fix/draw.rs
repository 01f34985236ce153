//! A thing to draw where one is lacking.

use super::offer::{Drawn, Edit, Fix, Offer};
use super::redraw::{Redraw, Redrawn};
use super::tried::tried;
use crate::check::loaded::RuleRef;
use crate::check::view::CheckedView;
use crate::derive::unguarded_sides;
use crate::model::{Id, Kind, Side, Trait, in_units, kinds, properties};
use crate::rules::{self, Collected, Compared, Decision, Node, Rule, Verdict, What};
use crate::syntax::Relation;

/// How often the example of a thing is put right by what its own rules ask of it.
const MOST_MENDS: usize = 6;

/// What a thing to draw costs of the searches of a stair: its text is read again each time.
pub(super) const COSTS: usize = 4;

/// The search for another stated value.
pub(super) type Search = fn(&CheckedView<'_>, &Rule, Id, &Decision) -> Option<Fix>;

/// The thing that is lacking, or nothing where one is drawn that is not as asked and another would be no cure.
pub(super) fn draw(
    view: &CheckedView<'_>,
    rule: &Rule,
    kind: &'static Kind,
    element: Id,
    decision: &Decision,
    search: Search,
) -> Option<Fix> {
    let others = decision.counted && view.design.belonging(kind, element).next().is_some();
    let how = match condition(&decision.subject) {
        Some(condition) => narrowed(view, kind, condition),
        None if others => return None,
        None => Drawn::Example(example(view, kind, element, decision)?),
    };
    let block = match &how {
        Drawn::Example(example) | Drawn::AtPlace(example) => example.clone(),
        Drawn::Stating(property, word) => format!("{} {{ {property}: {word} }}", kind.opens),
        Drawn::Where(_) if others => return None,
        Drawn::Where(_) => return Some(Fix::new(Offer::Draw { kind, how })),
    };
    let drawn = drawn(view, rule, (kind, element), &block, search);
    // Beside another of its kind it is a cure only if it was tried.
    drawn.or_else(|| (!others).then(|| Fix::new(Offer::Draw { kind, how })))
}

/// The thing drawn into the text, its figures moved to what the rules in force ask of it; nothing where the rule does
/// not hold then.
fn drawn(
    view: &CheckedView<'_>,
    rule: &Rule,
    (kind, element): (&'static Kind, Id),
    block: &str,
    search: Search,
) -> Option<Fix> {
    let redraw = view.redraw?;
    view.searches.set(view.searches.get().checked_sub(COSTS)?);
    let flight = view.design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    let place = Some(flight.unwrap_or(element));
    let stands_in = |id: &Id| view.design.kind(*id).is_some_and(|place| kind.within.contains(&place.name));
    let opener = view.design.get(place.filter(stands_in).unwrap_or(0))?.span;
    let edit = redraw.edit(opener, block)?;
    let drawing = Drawing { view, redraw, rule, kind, path: view.path(element), search };
    drawing.put_right(view, edit, MOST_MENDS)
}

/// A thing that is drawn into a text for a rule.
struct Drawing<'a, 'v> {
    view: &'a CheckedView<'v>,
    redraw: Redraw<'v>,
    rule: &'a Rule,
    kind: &'static Kind,
    /// The path of what lacks it.
    path: &'a str,
    search: Search,
}

impl Drawing<'_, '_> {
    /// The block as it is after so many mends at most; `before` is the stair without it, or before its last mend.
    fn put_right(&self, before: &CheckedView<'_>, edit: Edit, most: usize) -> Option<Fix> {
        let most = most.checked_sub(1)?;
        let view = self.view;
        if view.is_given_up() {
            return None;
        }
        let Redrawn { source, stair, .. } = self.redraw.with(std::slice::from_ref(&edit))?;
        let changed = CheckedView::changed(&stair.drawn, source, before);
        let unmet = changed.evaluate_after(before);
        let then_breaks: Vec<RuleRef> = unmet.into_iter().filter(|rule| !view.unmet.borrow().contains(rule)).collect();
        if let Some(mended) = then_breaks.iter().find_map(|rule| mended(&changed, rule.rule(), &edit, self.search)) {
            return self.put_right(&changed, mended, most);
        }
        // All paths at once: each by itself is sought through the whole stair.
        let paths = stair.drawn.paths();
        let still = rules::verdicts(self.rule, &changed.plain)
            .any(|(id, verdict)| !met(&verdict) && paths.get(id).is_some_and(|is| is == self.path));
        view.tried.borrow_mut().push(tried(view, &stair.drawn, std::slice::from_ref(&edit)));
        let how = Drawn::Example(edit.text.trim().trim_start_matches(';').trim().to_owned());
        let fix = Fix { edits: vec![edit], then_breaks, ..Fix::new(Offer::Draw { kind: self.kind, how }) };
        (!still).then_some(fix)
    }
}

/// Whether a rule is met or no longer asks. One that is not known then was evaded.
fn met(verdict: &Verdict) -> bool {
    matches!(verdict, Verdict::Pass | Verdict::NotApplicable)
}

/// The block with another figure in it, where a rule that it breaks is met with one.
fn mended(changed: &CheckedView<'_>, rule: &Rule, block: &Edit, search: Search) -> Option<Edit> {
    let start = block.span.start as usize;
    let within = start..start + block.text.len();
    let outcomes = rules::evaluate(rule, changed.traced());
    let failed = outcomes.iter().filter_map(|outcome| Some((outcome.element, outcome.decision.as_deref()?)));
    failed.filter(|(_, decision)| decision.lacking.is_none()).find_map(|(element, decision)| {
        let [edit] = search(changed, rule, element, decision)?.edits.try_into().ok()?;
        let Edit { span, text } = edit;
        let (from, to) = (span.start as usize, span.end as usize);
        if !within.contains(&from) || to > within.end {
            return None;
        }
        let (before, after) = (block.text.get(..from - start)?, block.text.get(to - start..)?);
        Some(Edit { span: block.span, text: format!("{before}{text}{after}") })
    })
}

/// What narrows the count that decided; of a sum of counts the first is the plain cure.
fn condition(subject: &Node) -> Option<&Node> {
    match subject {
        Node::Count(Collected { condition, .. }) => condition.as_deref(),
        Node::Sum(first, ..) => condition(first),
        _ => None,
    }
}

fn narrowed(view: &CheckedView<'_>, kind: &'static Kind, condition: &Node) -> Drawn {
    if let Node::Is(subject, false, words, _) = condition
        && let (Node::Read(what, path), [word]) = (&**subject, words.as_slice())
        && path.is_empty()
    {
        match what {
            What::Quantity(quantity) if quantity.name == "place" => {
                return Drawn::AtPlace(in_units(&kind.example.replacen("top", word, 1), view.design.is_metric()));
            }
            What::Quantity(quantity) => {
                if let Some(property) = kind.property(quantity.name) {
                    return Drawn::Stating(property.handle(), word.clone());
                }
            }
            What::Property(property) => return Drawn::Stating(property.handle(), word.clone()),
            What::At(..) => {}
        }
    }
    Drawn::Where(Box::new(condition.clone()))
}

/// How one is drawn at a side that has none yet; nothing where it stands at every side.
fn example(view: &CheckedView<'_>, kind: &'static Kind, element: Id, decision: &Decision) -> Option<String> {
    if kind.example.is_empty() {
        return Some(kind.opens.to_owned());
    }
    let example = in_units(kind.example, view.design.is_metric());
    let sides = if kind == kinds::GUARD { unguarded_sides(&view.plain, element) } else { Vec::new() };
    if !sides.is_empty() {
        let sides: Vec<&str> = sides.into_iter().map(Side::word).collect();
        return Some(example.replacen("left", &sides.join(", "), 1));
    }
    if !kind.is(Trait::Sided) || !example.contains(" left ") {
        return Some(example);
    }
    let place = view.design.related(element, kinds::FLIGHT).filter(|_| kind != kinds::GUARD).unwrap_or(element);
    let drawn: Vec<Option<Side>> =
        view.design.belonging(kind, place).filter_map(|id| view.design.get(id).map(|element| element.side)).collect();
    // Nobody goes up a spiral on the side of its pole, where its treads are narrow.
    let poles = view.design.belonging(kinds::WINDERS, place).filter_map(|id| view.design.get(id)?.side);
    let spiral = view.design.stated(place, properties::SPIRAL).is_some();
    let poles: Vec<Side> = poles.filter(|_| spiral).collect();
    let free = [Side::Left, Side::Right].into_iter();
    let free = free.filter(|side| !drawn.contains(&Some(*side)) && !poles.contains(side));
    let sides: Vec<&str> = free.take(needed(decision)).map(Side::word).collect();
    (!sides.is_empty()).then(|| example.replacen("left", &sides.join(", "), 1))
}

/// How many more are asked for, where they are counted.
fn needed(decision: &Decision) -> usize {
    match &decision.compared {
        Compared::Numbers(value, Relation::AtLeast | Relation::Equal, limit) if limit.value - value.value > 1.0 => 2,
        _ => 1,
    }
}
