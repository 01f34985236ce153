//! The search for what would pass: stated values are changed one by one, and each change is tried before it is offered.
//!
//! Facts of the place (the total rise, the ground), finished work that was measured and what the shop states are never
//! changed. Of several changes the one is offered that leaves the fewest rules unmet.

use super::offer::{Fix, Offer};
use super::seek::Trial;
use super::tried::{newly_unmet, rewritten};
use crate::check::view::{CheckedView, View};
use crate::derive::{Evaluation, Input, Read, StatedRead};
use crate::measure::{Dimension, INCH, equal};
use crate::model::fastenings::COATINGS;
use crate::model::{Basis, Id, Kind, Shape, Takes, Value, kinds, properties};
use crate::rules::{self, Applies, Compared, Decision, Node, Rule, What};
use crate::syntax::Relation;

/// Most stated values that are tried.
const MOST: usize = 8;

/// How an edge is rounded so that it is sharp no more.
const ROUNDED: &str = "radius 3/8\"";

/// A design of more elements than this is no one stair; in it a search costs as many as ten.
const LARGE: usize = 300;
const LARGE_COSTS: usize = 10;

/// Another stated value with which a rule would pass, if one is found. One that mends a rule and breaks several is none.
pub(super) fn search(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Option<Fix> {
    changes(view, rule, element, decision).into_iter().find(Fix::serves)
}

/// Other stated values with which a rule would pass, the one first that leaves the fewest rules unmet; those after one
/// that leaves none are not sought.
pub(super) fn changes(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Vec<Fix> {
    // What is measured is built: another figure on the drawing mends nothing.
    if view.view == View::Measured {
        return Vec::new();
    }
    let cost = if view.design.elements.len() > LARGE { LARGE_COSTS } else { 1 };
    let Some(left) = view.searches.get().checked_sub(cost) else { return Vec::new() };
    view.searches.set(left);
    let (mut stated, asks_the_shop) = changeable(view, decision);
    if contradicts_the_site(view, rule, element, decision) {
        return Vec::new();
    }
    stated.retain(|read| !is_a_room_for_a_part(view, rule, read) && !is_past_its_piece(view, rule, decision, read));
    stated.sort_by_key(|read| likelihood(view, rule, read));
    let strength = is_of_strength(decision);
    let spaced =
        |read: &&StatedRead| read.property == properties::SPACING && view.design.is(read.element, kinds::STRINGER);
    let spaced = stated.iter().find(spaced).map(|read| read.element).filter(|_| strength);
    if strength {
        stated.retain(|read| makes_stronger(view, rule, read));
    }
    if let Compared::Words(_, not, words) = &decision.compared {
        if asks_the_shop {
            return Vec::new();
        }
        return word(view, rule, element, &stated, *not, words).into_iter().collect();
    }
    let trial = Trial { view, rule, element, counted: decision.counted, strength, exact: slack(rule) };
    values(view, &trial, &stated, spaced)
}

/// What the rule lets a value be off by: nobody draws it so. By how such a limit is called.
fn slack(rule: &Rule) -> Option<f64> {
    let mut slack = rule.limits.iter().filter(|limit| matches!(limit.name.as_str(), "slack" | "short"));
    slack.next().map(|limit| limit.measure.value).filter(|slack| *slack > 0.0)
}

/// Whether a drawing contradicts a fact of the site by the words that state it: nobody but the writer knows which of the
/// two is the slip, and what is drawn is not to be built otherwise for one of the pen.
fn contradicts_the_site(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> bool {
    let of_site = |node: &Node| match node {
        Node::Read(What::Property(property), of) => of.is_empty() && property.basis == Basis::Site,
        Node::Read(What::Quantity(entry), of) => {
            let named = entry.kind.property(entry.name);
            of.is_empty() && named.is_some_and(|property| property.basis == Basis::Site)
        }
        _ => false,
    };
    rule.applies == Applies::WhereStated && of_site(&decision.subject) && view.design.is(element, rule.kind)
}

/// Whether a value is the size of a room or of the steps, and the rule is on a part of them: no stair is built larger for
/// a slip of a part.
fn is_a_room_for_a_part(view: &CheckedView<'_>, rule: &Rule, read: &StatedRead) -> bool {
    const PARTS: [&Kind; 11] = [
        kinds::GUARD,
        kinds::GATE,
        kinds::HANDRAIL,
        kinds::BRACKET,
        kinds::POST,
        kinds::JOINT,
        kinds::MEMBER,
        kinds::TREAD,
        kinds::RISER_BOARD,
        kinds::STRINGER,
        kinds::JOIST,
    ];
    let Some(kind) = view.design.kind(read.element).filter(|_| PARTS.contains(&rule.kind)) else { return false };
    match kind {
        kind if kind == kinds::LANDING => [properties::WIDTH, properties::DEPTH].contains(&read.property),
        // Treads and riser boards are as their steps are; of nothing else are these the slip.
        kind if kind == kinds::FLIGHT => {
            let steps = [properties::RISERS, properties::RUNS].contains(&read.property);
            let of_steps = [kinds::TREAD, kinds::RISER_BOARD].contains(&rule.kind);
            read.property == properties::WIDTH || steps && !of_steps
        }
        kind if kind == kinds::WELL => [properties::WIDTH, properties::LENGTH].contains(&read.property),
        _ => false,
    }
}

/// Whether a fastener is drawn past the end of its piece, and a value would bring it back by a hair: no fastener is set
/// there, and no piece is made longer for one.
fn is_past_its_piece(view: &CheckedView<'_>, rule: &Rule, decision: &Decision, read: &StatedRead) -> bool {
    let touches = matches!(decision.compared, Compared::Numbers(_, Relation::Less | Relation::More, _));
    let of_another = ![kinds::MEMBER, kinds::JOINT].iter().any(|kind| view.design.is(read.element, kind));
    rule.applies == Applies::WhereStated && rule.kind == kinds::MEMBER && (touches || of_another)
}

/// How likely a value is the slip, the likeliest first: what the rule names of its own thing; what the thing states beside;
/// where a fastener or a bar stands, which is soonest moved; what another states.
fn likelihood(view: &CheckedView<'_>, rule: &Rule, read: &StatedRead) -> usize {
    let kind = view.design.kind(read.element);
    let own = kind == Some(rule.kind);
    match () {
        () if own && rule.requirement.names(read.property) => 0,
        // Posts are set before the balusters between them are.
        () if read.property == properties::BETWEEN_POSTS => 4,
        () if own => 1,
        () if kind == Some(kinds::MEMBER) || kind == Some(kinds::RISER_BAR) => 2,
        () => 3,
    }
}

/// A post of 6x6 in place of one of 4x4 behind a decision: the next that is sold, common practice, no source. It was
/// not tried.
pub(super) fn stouter(view: &CheckedView<'_>, decision: &Decision) -> Option<Fix> {
    let (read, asks_the_shop) = changeable(view, decision);
    let slim = read.iter().filter_map(|read| view.design.stated(read.element, read.property)).find(|stated| {
        matches!(&stated.value, Some(Value::Section(section)) if section.shape == Shape::Rectangular
            && equal(section.thickness, 3.5 * INCH, Dimension::LENGTH)
            && equal(section.depth, 3.5 * INCH, Dimension::LENGTH))
    })?;
    let offer = Offer::Value { property: slim.property.handle(), value: "6x6".to_owned() };
    (!asks_the_shop && view.view == View::Drawn).then(|| Fix::new(offer).with_edit(slim.span, "6x6"))
}

/// Whether a decision is on what a part is asked, or how far it gives way.
pub(super) fn is_of_strength(decision: &Decision) -> bool {
    let mechanics = |read: &Read| matches!(read.input, Input::Derived(entry, _) if entry.is_of_mechanics());
    decision.reads.iter().any(mechanics)
}

/// Whether a part that cannot take what is asked of it is mended by another such value: of the part itself, or of its joint.
fn makes_stronger(view: &CheckedView<'_>, rule: &Rule, read: &StatedRead) -> bool {
    let is = |kind| view.design.is(read.element, kind);
    // Where bolts stand in a post is no way to a stouter post.
    let its_own = is(rule.kind) || is(kinds::JOINT) || rule.kind == kinds::JOINT && is(kinds::MEMBER);
    let stated = view.design.stated(read.element, read.property);
    its_own && stated.is_some_and(|stated| stated.property.strengthens)
}

/// The stated values behind a decision that a design's writer may change, and whether the shop stated another.
fn changeable(view: &CheckedView<'_>, decision: &Decision) -> (Vec<StatedRead>, bool) {
    let of_shop = |stated: &StatedRead| {
        let stated = view.design.stated(stated.element, stated.property);
        stated.and_then(|stated| stated.shop).is_some_and(|shop| !shop.called)
    };
    let mut stated = view.traced().stated_behind(&decision.reads);
    let asks_the_shop = stated.iter().any(of_shop);
    // Only what the designer chose is ever mended.
    let chosen = |read: &StatedRead| {
        let stated = view.design.stated(read.element, read.property);
        stated.is_some_and(|stated| stated.property.basis == Basis::Choice && !stated.measured)
    };
    stated.retain(|stated| !stated.measured && chosen(stated) && !of_shop(stated));
    (stated, asks_the_shop)
}

fn values(view: &CheckedView<'_>, trial: &Trial<'_, '_>, stated: &[StatedRead], spaced: Option<Id>) -> Vec<Fix> {
    let mut found: Vec<Fix> = Vec::new();
    for stated in stated.iter().take(MOST) {
        // What leaves all of the slack that a rule allows is offered only where what leaves none of it will not do.
        let loose = Trial { exact: None, ..*trial };
        let both = [trial.exact.map(|_| trial), Some(&loose)];
        let mut clean = false;
        for trial in both.into_iter().flatten() {
            let Some((design, fix)) = trial.change(stated.element, stated.property) else { continue };
            let mut then_breaks = newly_unmet(view, design, &fix.edits);
            then_breaks.sort_by_key(|unmet| !unmet.rule().shall);
            clean = then_breaks.is_empty();
            found.push(Fix { then_breaks, ..fix });
            if clean {
                break;
            }
        }
        if clean {
            break;
        }
    }
    // One stringer more, where what fails is a stringer, or a tread between two of them that no board mends.
    let mended = |fix: &Fix| trial.rule.kind != kinds::STRINGER && fix.is_clean();
    if let Some(stringer) = spaced.filter(|_| !found.iter().any(mended))
        && let Some((_, fix)) = trial.one_stringer_more(stringer)
    {
        found = rewritten(view, trial.rule, trial.element, fix).into_iter().chain(found).collect();
    }
    found.sort_by_key(|fix| (fix.required(), fix.then_breaks.len()));
    found
}

fn word(
    view: &CheckedView<'_>,
    rule: &Rule,
    element: Id,
    stated: &[StatedRead],
    not: bool,
    words: &[String],
) -> Option<Fix> {
    let read = stated.first()?;
    let stated = view.design.stated(read.element, read.property)?;
    // A step says what the block says that it is made after.
    let owner = match view.design.get(read.element)? {
        step if step.step.is_some() => step.base.or(step.parent)?,
        _ => read.element,
    };
    let asked = |word: &str| words.iter().any(|asked| asked == word) != not;
    let choices: Vec<&str> = match (stated.property.takes, &stated.value) {
        // In the order of the rule where it names what it wants, else in that of the vocabulary.
        (Takes::OneOf(known), _) if not => known.iter().copied().filter(|word| asked(word)).collect(),
        (Takes::OneOf(known), _) => words.iter().map(String::as_str).filter(|word| known.contains(word)).collect(),
        (Takes::Edge, _) if asked("radius") => {
            let offer = Offer::Value { property: read.property, value: ROUNDED.to_owned() };
            let rounded = Fix::new(offer).with_edit(stated.span, ROUNDED);
            return Some(rewritten(view, rule, element, rounded).unwrap_or_else(|| Fix::new(Offer::RoundedEdge)));
        }
        // Treating it makes it last, and nothing else of it other.
        (Takes::Timber, _) if asked("yes") => {
            let treated = format!("{}, treated", view.source.slice(stated.span));
            let fix = Fix::new(Offer::TreatedTimber).with_edit(stated.span, treated);
            return Some(rewritten(view, rule, element, fix).unwrap_or_else(|| Fix::new(Offer::TreatedTimber)));
        }
        (Takes::Fasteners, value) => {
            let coating = |words: &[String]| Fix::new(Offer::Coating(words.to_vec()));
            // A rule names the coatings that it wants, or asks whether the coating serves: then the first that does.
            let names = words.iter().all(|word| COATINGS.contains(&word.as_str()));
            let all: Vec<Vec<String>> = COATINGS.iter().map(|word| vec![(*word).to_owned()]).collect();
            let tried = if names { vec![words.to_vec()] } else { all };
            let said = view.source.slice(stated.span);
            let fix = tried.iter().find_map(|words| {
                let other = other_coating(said, value.as_ref(), words.first().filter(|_| !not || !names))?;
                rewritten(view, rule, element, coating(words).with_edit(stated.span, other))
            });
            return fix.or_else(|| names.then(|| coating(words)));
        }
        _ => Vec::new(),
    };
    let choice = (*choices.first()?).to_owned();
    let changed = view.design.with(owner, read.property, Value::Word(choice.clone().into()));
    let offer = Offer::Value { property: read.property, value: choice.clone() };
    if rules::fails(rule, &Evaluation::after(&changed, &view.plain)) {
        return None;
    }
    let fix = Fix::new(offer).with_edit(stated.span, choice);
    let then_breaks = newly_unmet(view, changed, &fix.edits);
    Some(Fix { then_breaks, ..fix })
}

/// The words of fasteners with another coating, where they name the one that they have once.
fn other_coating(stated: &str, value: Option<&Value>, wanted: Option<&String>) -> Option<String> {
    let Some(Value::Fasteners(fasteners)) = value else { return None };
    let has = fasteners.coating?;
    let [at] = stated.match_indices(has).map(|(at, _)| at).collect::<Vec<_>>().try_into().ok()?;
    Some(format!("{}{}{}", stated.get(..at)?, wanted?, stated.get(at + has.len()..)?))
}
