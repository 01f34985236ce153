//! What a stair is usually held to, a thing at a time, against each shipped set that restates a document: a rule asks for
//! it, or the head of the set names it among what is left out. So what a document asks for goes missing in no set unseen.

use std::collections::BTreeSet;

use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::rules::{Node, Rule, What};
use pitchboard::session::Session;

/// Sets that restate no document, or are laid over one that does.
const RESTATE_NONE: &[&str] = &["drawing", "workshop", "strength", "marsh-county"];

/// One thing that a stair is usually held to.
struct Held {
    /// What it is.
    name: &'static str,
    /// A rule asks for it whose requirement reads one of these: a kind, and a quantity or a property of it. `count`
    /// stands for how many there are of the kind.
    by: &'static [(&'static str, &'static str)],
    /// Or what is left out says one of these words.
    said: &'static [&'static str],
}

const fn held(name: &'static str, by: &'static [(&'static str, &'static str)], said: &'static [&'static str]) -> Held {
    Held { name, by, said }
}

/// The list. Words are looked for in small letters.
const HELD: &[Held] = &[
    held("rise", &[("riser", "height"), ("flight", "unit rise")], &["of a rise"]),
    held("run", &[("tread", "run"), ("tread", "narrow going"), ("flight", "unit run")], &["of a rise or a run"]),
    held("alike risers", &[("flight", "riser spread"), ("riser", "height")], &["how even the risers"]),
    held("alike runs", &[("flight", "run spread"), ("tread", "run")], &["how even the runs", "how far treads differ"]),
    held(
        "how many risers, or how far a flight rises",
        &[("riser", "count"), ("flight", "rise")],
        &["a flight rises", "flight has or how far it rises"],
    ),
    held("width", &[("flight", "width"), ("flight", "width at the rails")], &["width"]),
    held("width of landings", &[("landing", "width")], &["landings", "how wide any is", "a landing is"]),
    held("length of landings", &[("landing", "depth")], &["landings", "how long"]),
    held("slope of treads", &[("tread", "slope")], &["how level", "how far treads and"]),
    held("slope of landings", &[("landing", "slope")], &["how level", "landings"]),
    held("doors", &[("door", "room left"), ("door", "swing"), ("door", "landing drawn")], &["door"]),
    held("headroom", &[("ceiling", "headroom")], &["headroom"]),
    held("headroom under the next flight", &[("flight", "room under the turn above")], &["headroom"]),
    held("headroom at a well", &[("well", "room under its edge")], &["headroom"]),
    held("open risers", &[("riser", "opening")], &["open risers", "between steps"]),
    held("nosings", &[("tread", "nosing")], &["nosing"]),
    held("winders", &[("tread", "narrow depth"), ("tread", "depth at"), ("tread", "narrow going")], &["winders"]),
    held("spirals", &[("tread", "depth at"), ("tread", "narrow depth"), ("flight", "spiral")], &["spiral"]),
    held("a handrail", &[("flight", "railed sides"), ("flight", "handrail sides"), ("handrail", "count")], &[]),
    held("height of a handrail", &[("handrail", "height")], &[]),
    held("grip of a handrail", &[("handrail", "diameter")], &["grip", "their section"]),
    held("clearance of a handrail", &[("handrail", "clearance")], &["clearance"]),
    held("ends of a handrail", &[("handrail", "ends")], &["ends"]),
    held(
        "a handrail without a break",
        &[("handrail", "interrupted")],
        &["interrupts", "run on", "runs on", "in the way", "for one without a break", "gaps in it at posts"],
    ),
    held("extension of a handrail", &[("handrail", "top extension")], &["extension", "runs on"]),
    held("a guard beside the steps", &[("tread", "unguarded drop within"), ("flight", "bare sides")], &["guards"]),
    held("a guard at a landing", &[("landing", "unguarded drop within")], &["guards"]),
    held("a guard at a well", &[("well", "unguarded drop")], &["guards"]),
    held("height of a guard", &[("guard", "height")], &["guards"]),
    held("openings of a guard", &[("guard", "opening"), ("guard", "opening below")], &["guards"]),
    held(
        "what is open below a guard",
        &[("guard", "bottom gap"), ("guard", "toe board gap")],
        &["open below", "guards"],
    ),
    held("loads", &[], &["load", "strength", "how hard"]),
    held("stairs as steep as ladders", &[("flight", "ship")], &["ladder", "alternating"]),
    held("slip", &[("tread", "grip")], &["slip"]),
    held("light", &[("stair", "switch floors")], &["light"]),
];

/// What the requirement of a rule reads, each with its kind.
fn reads(rule: &Rule) -> BTreeSet<(&'static str, &'static str)> {
    let name = |what: &What| match what {
        What::Quantity(quantity) | What::At(quantity, _) => quantity.name,
        What::Property(property) => property.name,
    };
    let mut found = BTreeSet::new();
    let nodes = rule.condition.iter().map(|node| (node, false)).chain([(&rule.requirement, true)]);
    for (node, required) in nodes {
        node.each(&mut |node| match node {
            Node::Count(things) if required => {
                found.insert((things.kind.name, "count"));
                // What is counted has to be so.
                things.condition.iter().for_each(|condition| {
                    condition.each(&mut |node| {
                        if let Node::Read(what, path) = node {
                            found.insert((path.last().map_or(things.kind, |of| of.kind).name, name(what)));
                        }
                    });
                });
            }
            Node::Over(_, what, things) if required => _ = found.insert((things.kind.name, name(what))),
            // Which stairs are spirals or ladders, a condition says.
            Node::Read(what, path) if required || ["spiral", "ship"].contains(&name(what)) => {
                _ = found.insert((path.last().map_or(rule.kind, |of| of.kind).name, name(what)));
            }
            Node::ReadAt(quantity, _, path) if required => {
                _ = found.insert((path.last().map_or(rule.kind, |of| of.kind).name, quantity.name));
            }
            _ => {}
        });
    }
    found
}

/// What the head of a set says that it leaves out, in small letters and on one line.
fn left_out(text: &str) -> String {
    let head: Vec<&str> = text.lines().take_while(|line| line.starts_with('#')).collect();
    let from = head.iter().position(|line| line.contains("Left out")).unwrap_or(head.len());
    head[from..].iter().map(|line| line.trim_start_matches(['#', ' '])).collect::<Vec<_>>().join(" ").to_lowercase()
}

#[test]
fn each_set_asks_for_it_or_says_that_it_leaves_it_out() {
    let mut silent = String::new();
    for (set, text) in BUILT_IN.iter().filter(|(set, _)| !RESTATE_NONE.contains(set)) {
        let rules = Session::default().read_set(&Source::new(*set, *text)).set.rules;
        let read: BTreeSet<_> = rules.iter().flat_map(|rule| reads(rule)).collect();
        let said = left_out(text);
        assert!(!said.is_empty(), "{set} has no head that says what it leaves out");
        for held in HELD {
            let asked = held.by.iter().any(|by| read.contains(by));
            if !asked && !held.said.iter().any(|word| said.contains(word)) {
                silent += &format!("{set}: neither asks for {} nor says that it is left out\n", held.name);
            }
        }
    }
    assert!(silent.is_empty(), "\n{silent}");
}

/// A thing by a name that nothing has would be asked for by no rule, and found in no set.
#[test]
fn what_is_looked_for_is_asked_for_by_some_set() {
    let sets = BUILT_IN.iter().map(|(set, text)| Session::default().read_set(&Source::new(*set, *text)).set);
    let read: BTreeSet<_> =
        sets.flat_map(|set| set.rules.iter().flat_map(|rule| reads(rule)).collect::<Vec<_>>()).collect();
    for held in HELD {
        for by in held.by {
            assert!(read.contains(by), "{}: no set asks for {} of a {}", held.name, by.1, by.0);
        }
    }
}

/// A set that asks for nothing and says nothing is told of every thing.
#[test]
fn what_is_neither_asked_nor_said_is_told() {
    let bare =
        "ruleset \"s\" { }\nchapter \"c\" {\nrule \"r\" {\neach riser shall have height <= 7\"\nsource: \"x\"\n} }";
    let rules = Session::default().read_set(&Source::new("s", bare)).set.rules;
    let read: BTreeSet<_> = rules.iter().flat_map(|rule| reads(rule)).collect();
    assert_eq!(read, BTreeSet::from([("riser", "height")]));
    assert_eq!(left_out(bare), "");
    assert_eq!(
        left_out("# Stairs.\n#\n# Left out:\n#   Light,\n#     and slip.\n\nruleset"),
        "left out: light, and slip."
    );
}
