//! What drops a rule, loosens one or takes its name is told in the report of each design that it touches: the sets of a
//! shop beside a design's own, a title that is a shipped set's, amendments, folders that are not there.

use pitchboard::report::{self, Look, Totals};
use pitchboard::session::{Memory, Session};

const LOOK: Look = Look { colour: false, unicode: true, width: 400, list_not_checked: false };

/// The report of the design `yard/a.stair` among these files, to the end of the run; its lines are not cut.
fn told(files: &[(&str, &str)]) -> String {
    let files = files.iter().fold(Memory::new(), |files, (name, text)| files.with(*name, *text));
    let analysis = Session::new(files).analyse("yard/a.stair").expect("a design");
    let mut totals = Totals::default();
    totals.add(&analysis.report);
    report::report(&analysis.report, &LOOK) + &report::closing(&totals, &LOOK)
}

fn riser(title: &str, most: &str) -> String {
    format!(
        "ruleset \"{title}\" {{ }}\nrule \"low riser\" {{ limit most: {most}; each riser shall have height <= most; \
         source: \"common practice\" }}\n"
    )
}

fn stair(rules: &str) -> String {
    format!("stair \"hide\" {{ {rules}; flight {{ risers: 3 of 8\"; runs: 2 of 10\" }} }}\n")
}

fn holds(text: &str, said: &[&str]) {
    for said in said {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
}

/// A design's own sets are added to those of its shop, and to those of every shop further up.
#[test]
fn a_designs_own_sets_drop_none_of_its_shops() {
    let (low, lax, own) = (riser("Low", "6\""), riser("Lax", "20\""), riser("Own", "19\""));
    let text = told(&[
        ("shop.pitchboard", "shop \"outer\" { rules: \"low.rules\" }\n"),
        ("low.rules", &low),
        ("yard/shop.pitchboard", "shop \"inner\" { rules: \"lax.rules\" }\n"),
        ("yard/lax.rules", &lax),
        ("yard/own.rules", &own),
        ("yard/a.stair", &stair("rules: \"own.rules\"")),
    ]);
    holds(
        &text,
        &[
            "broken: low riser",
            "checked against Low (low.rules)",
            "checked against Lax (yard/lax.rules)",
            "checked against Own (yard/own.rules)",
            "from shop.pitchboard: rules low.rules\n",
            "from yard/shop.pitchboard: rules lax.rules\n",
        ],
    );
    // What the shop asks for is held even where the design's own words about rules are not understood.
    let text = told(&[
        ("yard/shop.pitchboard", "shop \"inner\" { rules: \"low.rules\" }\n"),
        ("yard/low.rules", &low),
        ("yard/a.stair", &stair("rules: 7\"")),
    ]);
    holds(&text, &["broken: low riser", "checked against Low (yard/low.rules)"]);
}

/// Of several stairs of a text those are named that a set was held to, where others were not.
#[test]
fn stairs_of_other_sets_are_told_apart() {
    let (low, lax) = (riser("Low", "6\""), riser("Lax", "20\""));
    let two = |second: &str| {
        let text = format!("{}{}", stair("rules: \"low.rules\""), second);
        told(&[("yard/a.stair", &text), ("yard/low.rules", &low), ("yard/lax.rules", &lax)])
    };
    let text = two("stair \"jetty\" { rules: \"lax.rules\"; flight { risers: 3 of 8\" } }\n");
    holds(
        &text,
        &[
            "checked against Low; of the stairs here only hide\n",
            "checked against Lax; of the stairs here only jetty\n",
            "checked against Low (yard/low.rules)\n",
            "checked against Lax (yard/lax.rules)\n",
        ],
    );
    let text = two("stair \"jetty\" { rules: \"low.rules\"; flight { risers: 3 of 8\" } }\n");
    holds(&text, &["checked against Low (yard/low.rules)\n"]);
}

/// A set that goes by a shipped set's title is told, and every set that is not shipped shows its file.
#[test]
fn a_shipped_sets_title_is_no_cover() {
    for title in ["Residential stairs", "residential  STAIRS "] {
        let text = told(&[("yard/a.stair", &stair("rules: \"r.rules\"")), ("yard/r.rules", &riser(title, "20\""))]);
        holds(&text, &["advised: title of a shipped set", "as the shipped set `residential` is", "(yard/r.rules)"]);
    }
    // So does one that another takes in.
    let over = "ruleset \"Over\" { amends: \"r.rules\" }\n";
    let text = told(&[
        ("yard/a.stair", &stair("rules: \"over.rules\"")),
        ("yard/over.rules", over),
        ("yard/r.rules", &riser("Residential stairs", "20\"")),
    ]);
    holds(
        &text,
        &[
            "title of a shipped set",
            "checked against Over (yard/over.rules), which takes in Residential stairs (yard/r.rules)",
        ],
    );
    let text = told(&[("yard/a.stair", &stair("rules: residential"))]);
    holds(&text, &["checked against Residential stairs, edition"]);
    assert!(!text.contains("title of a shipped set"), "{text}");
}

/// A loosened rule, a withdrawn one, one that asks something else: a line of the report names them.
#[test]
fn what_a_set_loosens_is_told() {
    let base = "ruleset \"Base\" { }\n\
        rule \"low\" { limit most: 7\"; each riser shall have height <= most; source: \"x\" }\n\
        rule \"deep\" { limit least: 10\"; each tread shall have run >= least; source: \"x\" }\n\
        rule \"wide\" { each flight where number of risers > 2 shall have width >= 36\"; source: \"x\" }\n\
        rule \"steep\" { each flight shall have pitch < 42 deg; source: \"x\" }\n\
        rule \"even\" { each flight shall have riser spread < 3/8\"; source: \"x\" }\n";
    let over = |changes: &str| format!("ruleset \"Over\" {{ amends: \"base.rules\" }}\n{changes}\n");
    let ask = |changes: &str| {
        let over = over(changes);
        let rules = stair("rules: \"over.rules\"");
        told(&[("yard/a.stair", &rules), ("yard/over.rules", &over), ("yard/base.rules", base)])
    };
    for (changes, line) in [
        ("amend \"low\" { limit most: 8-1/4\"; because: \"b\" }", "1 rule lets more pass (low)"),
        ("amend \"deep\" { limit least: 9\"; because: \"b\" }", "1 rule lets more pass (deep)"),
        ("amend \"even\" { verb: should; because: \"b\" }", "1 rule lets more pass (even)"),
        (
            "amend \"wide\" { where: number of risers > 2 and number of risers < 4; because: \"b\" }",
            "1 rule lets more pass (wide)",
        ),
        ("withdraw \"even\" { because: \"b\" }", "1 rule is withdrawn (even)"),
        (
            "amend \"steep\" { each flight shall have pitch <= 50 deg; because: \"b\" }",
            "1 rule asks something else (steep)",
        ),
        (
            "amend \"low\" { limit most: 8\"; because: \"b\" }\namend \"deep\" { limit least: 9\"; because: \"b\" }\n\
             withdraw \"even\" { because: \"b\" }",
            "2 rules let more pass (low and deep), 1 rule is withdrawn (even)",
        ),
    ] {
        holds(&ask(changes), &[&format!("Over departs from what it amends: {line}\n")]);
    }
    for tighter in ["amend \"low\" { limit most: 6\"; because: \"b\" }", "amend \"low\" { because: \"b\" }"] {
        assert!(!ask(tighter).contains("departs"), "{}", ask(tighter));
    }
}

/// A property of which nothing is derived rests on the rules alone that name it: no derivation reads one of those.
#[test]
fn what_is_asked_by_name_alone_is_read_by_no_derivation() {
    let derive = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/derive");
    for entry in walkdir::WalkDir::new(derive).into_iter().filter_map(Result::ok).filter(|entry| entry.path().is_file())
    {
        let text = std::fs::read_to_string(entry.path()).expect("a text");
        for name in ["STANDING", "EGRESS"] {
            assert!(!text.contains(&format!("properties::{name}")), "{name} in {}", entry.path().display());
        }
    }
    let anchored =
        "stair \"a\" { rules: workshop; standing: anchored; flight { risers: 8 of 7\"; runs: 7 of 11\" } }\n";
    holds(
        &told(&[("yard/a.stair", anchored)]),
        &[
            "taken at its word: `standing: anchored` of stair, which takes out overturning of a freestanding stair, brace",
        ],
    );
}

/// Rules that a shop's file states for a folder which is not there hold of nothing.
#[test]
fn a_folder_that_is_not_there_is_told() {
    let files = |named: &str| {
        let shop = format!("shop \"s\" {{ rules: \"low.rules\" }}\nfolder {named} {{ rules: residential }}\n");
        told(&[
            ("yard/shop.pitchboard", &shop),
            ("yard/low.rules", &riser("Low", "20\"")),
            ("yard/a.stair", &stair("width: 36\"")),
            ("yard/cabins/b.stair", &stair("width: 36\"")),
        ])
    };
    for gone in ["cabin", "\"cabins/north\"", "Cabins", "\"b.stair\""] {
        holds(&files(gone), &["not understood: unknown name", "lies here, so what this states holds of no design"]);
    }
    assert!(!files("cabins").contains("unknown name"), "{}", files("cabins"));
}

/// What a shop's file states and a nearer one, or the design, states otherwise, is not taken; that is told. What is not
/// stocked is told by each of them.
#[test]
fn what_a_nearer_file_takes_the_place_of_is_told() {
    let low = riser("Low", "9\"");
    let outer =
        "shop \"outer\" { longest bit: 6\" }\nsection 2x12 { }\nsection \"rail\" { shape: round; diameter: 2\" }\n";
    let files = |inner: &str, own: &str| {
        let design = format!(
            "stair \"hide\" {{ rules: \"low.rules\"; {own} flight {{ risers: 3 of 8\"; runs: 2 of 10\" }} \
             tread {{ section: 2x14 }} handrail left {{ section: rail }} }}\n"
        );
        told(&[
            ("shop.pitchboard", outer),
            ("yard/shop.pitchboard", inner),
            ("yard/low.rules", &low),
            ("yard/a.stair", &design),
        ])
    };
    let inner =
        "shop \"inner\" { longest bit: 30\" }\nsection 2x14 { }\nsection \"rail\" { shape: round; diameter: 3\" }\n";
    let text = files(inner, "");
    let not_taken = "not its longest bit, for what is nearer the design governs";
    holds(
        &text,
        &[
            "outer does not stock `2x14`",
            "from shop.pitchboard: not its section \"rail\", for what is nearer the design governs",
            not_taken,
            "from yard/shop.pitchboard: longest bit, section \"rail\"\n",
        ],
    );
    assert!(!text.contains("inner does not stock"), "{text}");
    // One that says nothing of it does not pass the outer one on.
    holds(&files("shop \"inner\" { }\nsection \"rail\" { shape: round; diameter: 3\" }\n", ""), &[not_taken]);
    // The design's own words win over both.
    let own = files(inner, "longest bit: 40\";");
    assert_eq!(own.matches(not_taken).count(), 2, "{own}");
}

/// A set that takes another one in warns of what that warns of too.
#[test]
fn what_the_authors_of_both_sets_warn_of_is_told() {
    let below = riser("Below", "9\"").replace("{ }", "{ caution: \"Bog ground moves.\" }");
    let over = |heading: &str| {
        let text = format!("ruleset \"Over\" {{ {heading} }}\n");
        told(&[
            ("yard/below.rules", &below),
            ("yard/over.rules", &text),
            ("yard/a.stair", &stair("rules: \"over.rules\"")),
        ])
    };
    holds(&over("amends: \"below.rules\""), &["Over: Bog ground moves.\n"]);
    for heading in
        ["amends: \"below.rules\"; caution: \"Ask the yard.\"", "caution: \"Ask the yard.\"; amends: \"below.rules\""]
    {
        holds(&over(heading), &["Over: Ask the yard. Bog ground moves.\n"]);
    }
}
