//! What is said to one who writes a set: that it is true, that it stands at the slip, and that nothing follows on from it.

use pitchboard::base::Source;
use pitchboard::rules::{self, RuleSet};
use pitchboard::session::Session;
use pitchboard::wording::message;

/// A set over `below`, and all that is said of it: the words at which each stands, what it says, and its help.
fn over(below: &str, text: &str) -> (RuleSet, Vec<[String; 3]>) {
    let session = Session::default().with_set("below", Source::new("below.rules", below));
    let loaded = session.read_set(&Source::new("over.rules", text));
    let said = loaded.diagnostics.iter().map(|slip| {
        let told = message(slip);
        let place = told.labels.first().map_or(String::new(), |label| told.source.slice(label.span).to_owned());
        [place, told.message.clone(), told.help.clone().unwrap_or_default()]
    });
    (loaded.set.clone(), said.collect())
}

fn said(text: &str) -> Vec<[String; 3]> {
    over("", text).1
}

const BELOW: &str = "ruleset \"Below\" { basis: \"code\"; classes: keeper, visitor, store }
figure \"free\" { is: 24\"; source: \"code 9\" }
rule \"riser by class\" { limit tallest by class of stair: 7\" for visitor, 8\" for keeper or store
each riser shall have height <= tallest; source: \"code 1\" }
rule \"clear width\" { limit least: 36\"\neach flight shall have width >= least; source: \"code 2\" }
rule \"door\" { limit room: 12\"
each door where place is top shall have room left >= room unless swing is away from the stair; source: \"code 3\" }
rule \"guard at a tread\" { each tread shall have unguarded drop within 36\" <= free; source: \"code 4\" }";

fn amended(text: &str) -> (RuleSet, Vec<[String; 3]>) {
    over(BELOW, &format!("ruleset \"Over\" {{ amends: below }}\n{text}"))
}

#[test]
fn a_row_that_is_not_restated_stays() {
    let new = "amend \"riser by class\" { limit tallest by class of stair: 8-1/4\" for keeper
        each riser shall have height <= tallest; source: \"order 1\" }";
    let (set, said) = amended(new);
    assert!(said.is_empty(), "{said:?}");
    let rule = set.rules.iter().find(|rule| rule.name == "riser by class").expect("the rule");
    let rows: Vec<String> = rule.tables[0].rows.iter().map(|row| row.limit.clone()).collect();
    assert_eq!(rows, ["tallest for keeper", "tallest for visitor", "tallest for keeper or store"]);
    let mut limits: Vec<&str> = rule.limits.iter().map(|limit| limit.name.as_str()).collect();
    limits.sort_unstable();
    assert_eq!(limits, ["tallest for keeper", "tallest for keeper or store", "tallest for visitor"]);
}

#[test]
fn a_row_that_no_value_reaches_any_more_leaves_the_rule() {
    let new = "amend \"riser by class\" { limit tallest by class of stair: 8-1/4\" for keeper, 8\" for store; source: \"order 1\" }";
    let (set, said) = amended(new);
    assert!(said.is_empty(), "{said:?}");
    let rule = set.rules.iter().find(|rule| rule.name == "riser by class").expect("the rule");
    assert!(rule.limits.iter().all(|limit| limit.name != "tallest for keeper or store"), "{:?}", rule.limits);
    assert_eq!(rule.limits.len(), 3);
}

#[test]
fn a_table_that_goes_by_something_else_says_which_rows_it_leaves_out() {
    let new = "amend \"riser by class\" { limit tallest by use of stair: 7\" for dwelling, 8\" otherwise
        each riser shall have height <= tallest; source: \"order 1\" }";
    let (set, said) = amended(new);
    let [[place, told, _]] = said.as_slice() else { panic!("{said:?}") };
    assert_eq!(place, "use of stair");
    for part in ["`use of stair`", "`class of stair`", "`tallest for visitor`", "`tallest for keeper or store`"] {
        assert!(told.contains(part), "{told}");
    }
    let rule = set.rules.iter().find(|rule| rule.name == "riser by class").expect("the rule");
    assert_eq!(rule.limits.len(), 2, "{:?}", rule.limits);
}

#[test]
fn one_row_is_moved_by_its_name() {
    let (set, said) =
        amended("amend \"riser by class\" { limit tallest for keeper or store: 8-1/4\"; source: \"order 1\" }");
    assert!(said.is_empty(), "{said:?}");
    let rule = set.rules.iter().find(|rule| rule.name == "riser by class").expect("the rule");
    let row = rule.limits.iter().find(|limit| limit.name == "tallest for keeper or store").expect("the row");
    assert_eq!(row.figures(), "8-1/4\"");
    let said = amended("amend \"riser by class\" { limit tallest for keeper: 8-1/4\"; source: \"order 1\" }").1;
    let [[place, _, help]] = said.as_slice() else { panic!("{said:?}") };
    assert_eq!(place, "tallest for keeper");
    assert!(help.contains("`limit tallest by class of stair: 8-1/4\" for keeper`"), "{help}");
}

#[test]
fn a_condition_in_other_words_is_not_said_to_be_dropped() {
    let dropped = |condition: &str| {
        let said = amended(&format!("amend \"door\" {{ where: {condition}; source: \"order 1\" }}")).1;
        said.into_iter().map(|[_, told, _]| told).collect::<Vec<_>>()
    };
    assert_eq!(dropped("swing is not away from the stair"), ["this drops `place is top` of Below"]);
    assert_eq!(dropped("place is top and swing is one of over the stair, slides"), [""; 0]);
    assert_eq!(dropped("place is top and not swing is away from the stair"), [""; 0]);
    let all = dropped("width > 30\"");
    assert!(all.len() == 1 && all[0].contains("`place is top`") && all[0].contains("swing"), "{all:?}");
}

#[test]
fn that_no_design_may_waive_a_rule_changes_nothing_that_passes() {
    let (set, said) = amended("amend \"clear width\" { waive: never }");
    assert!(said.is_empty(), "{said:?}");
    assert_eq!(set.departures(), rules::Departures::default());
    let rule = set.rules.iter().find(|rule| rule.name == "clear width").expect("the rule");
    assert!(!rule.waivable);
}

#[test]
fn a_figure_proves_nothing_and_says_so() {
    let said = amended("amend figure \"free\" { is: 20\"; passes: flight { risers: 2 of 7\" } }").1;
    let [[_, told, help]] = said.as_slice() else { panic!("{said:?}") };
    assert!(!told.contains("withdrawal"), "{told}");
    assert!(help.contains("`free`") && help.contains("amend"), "{help}");
}

#[test]
fn always_stands_alone() {
    let said = amended("amend \"door\" { where: always unless swing is away from the stair; source: \"order 1\" }").1;
    let [[_, told, help]] = said.as_slice() else { panic!("{said:?}") };
    assert!(told.contains("`always` stands alone"), "{told}");
    assert!(help.contains("not (swing is away from the stair)"), "{help}");
}

#[test]
fn a_limit_that_is_refused_is_the_only_slip() {
    let rule = |limit: &str| format!("rule \"r\" {{ {limit}\neach flight shall have width >= least; source: \"x\" }}");
    for limit in
        ["limit least: 36\" (9140 mm)", "limit least by width: 44\" otherwise, 36\" up to 40\"", "limit least: wide"]
    {
        let said = said(&rule(limit));
        assert_eq!(said.len(), 1, "{limit}: {said:?}");
    }
    let said = said(
        "figure \"tall\" { is: 7\" for keeper }\nrule \"r\" { each riser shall have height <= tall; source: \"x\" }",
    );
    assert_eq!(said.len(), 1, "{said:?}");
}

#[test]
fn a_figure_in_what_a_table_goes_by_is_offered_a_name() {
    let said = said(
        "rule \"r\" { limit least by drop within 36\": 36\" up to 20\", 48\" otherwise\neach guard shall have height >= least; source: \"x\" }",
    );
    let [[_, _, help]] = said.as_slice() else { panic!("{said:?}") };
    assert!(help.contains("`limit reach: 36\"`") && help.contains("`limit least by drop within reach: ...`"), "{help}");
}

#[test]
fn what_is_not_declared_is_offered_to_be_declared() {
    let said = said("rule \"r\" { each tread shall have unguarded drop within 36\" <= free; source: \"x\" }");
    let [[place, told, help]] = said.as_slice() else { panic!("{said:?}") };
    assert_eq!(place, "free");
    assert!(told.contains("no quantity of a tread") && told.contains("no limit or figure"), "{told}");
    assert!(help.contains("`limit free: 24\"`") && help.contains("figure \"free\""), "{help}");
}

#[test]
fn a_limit_without_its_unit_is_told_at_its_figure() {
    let said = said("rule \"r\" { limit most: 7\neach riser shall have height <= most; source: \"x\" }");
    let [[place, _, help]] = said.as_slice() else { panic!("{said:?}") };
    assert_eq!(place, "7");
    assert!(help.contains("7\""), "{help}");
}

#[test]
fn a_figure_and_a_rule_of_no_such_name_offer_those_that_there_are() {
    let figure = |name: &str, own: &str| amended(&format!("{own}amend figure \"{name}\" {{ is: 20\" }}")).1;
    let said = figure("fre", "");
    assert!(
        matches!(said.as_slice(), [[_, told, help]] if told.contains("no set below") && help.contains("`free`")),
        "{said:?}"
    );
    let said = figure("headway", "");
    assert!(matches!(said.as_slice(), [[_, _, help]] if help.contains("`free`")), "{said:?}");
    let own = "figure \"low\" { is: 3\" }\nrule \"low\" { each riser shall have height >= low; source: \"x\" }\n";
    let said = figure("low", own);
    assert!(matches!(said.as_slice(), [[_, told, _]] if told.contains("this set's own")), "{said:?}");
    let said = amended("amend \"stair width\" { limit least: 40\" }").1;
    assert!(matches!(said.as_slice(), [[_, _, help]] if help.contains("\"clear width\"")), "{said:?}");
}

#[test]
fn a_withdrawn_rule_names_its_heir() {
    let renamed = String::from(
        "ruleset \"Over\" { amends: below }
        withdraw \"clear width\" { because: \"Renamed.\" }
        rule \"width of a flight\" { limit least: 38\"\neach flight shall have width >= least; source: \"code 2\" }",
    );
    let session = Session::default().with_set("below", Source::new("below.rules", BELOW));
    let session = session.with_set("over", Source::new("over.rules", renamed));
    let top = "ruleset \"Top\" { amends: over }\namend \"clear width\" { limit least: 40\"; source: \"order 9\" }";
    let loaded = session.read_set(&Source::new("top.rules", top));
    let told: Vec<_> = loaded.diagnostics.iter().map(|slip| message(slip).help.clone().unwrap_or_default()).collect();
    assert!(matches!(told.as_slice(), [help] if help.contains("\"width of a flight\"")), "{told:?}");
}

#[test]
fn a_figure_out_of_proportion_is_advised_of_in_a_new_rule_too() {
    let said = said("rule \"r\" { limit most: 7'\neach riser shall have height <= most; source: \"x\" }");
    let [[place, told, _]] = said.as_slice() else { panic!("{said:?}") };
    assert_eq!(place, "7'");
    assert!(!told.is_empty());
}

#[test]
fn what_the_examples_of_a_set_below_leave_open_is_not_said_again() {
    let below = "rule \"r\" { limit least: 36\"\neach flight shall have width >= least; source: \"x\"
        passes: flight { width: 40\" }\nfails: flight { width: 30\" } }\nrule \"other\" { limit least: 36\"
        each landing shall have width >= least; source: \"x\"\npasses: landing top { width: 40\" }\nfails: landing top { width: 30\" } }";
    let text = "ruleset \"Over\" { amends: below }\namend \"other\" { limit least: 38\"; source: \"y\" }";
    let (set, _) = over(below, text);
    let own = rules::own_gaps(&set).found;
    let told: Vec<String> = own.iter().map(|gap| message(gap).message).collect();
    assert!(!told.is_empty() && told.iter().all(|told| told.contains("\"other\"")), "{told:?}");
    let mut once = told.clone();
    once.dedup();
    assert_eq!(once, told);
    assert!(rules::gaps(&set).found.len() > own.len());
}

/// A row of words alone is `read between` and no misspelling of it: else a table would be read otherwise than it is written.
#[test]
fn a_misspelt_row_is_no_row_that_reads_between() {
    let of = |row: &str| {
        said(&format!(
            "ruleset \"S\" {{ basis: \"Our own habit\" }}\nrule \"r\" {{\n    limit most by height of riser before: 11\" at 6\", \
             10\" at 7\", {row}\n    each riser shall have height <= most\n    source: \"common practice\"\n}}"
        ))
    };
    assert!(of("read between").is_empty(), "{:?}", of("read between"));
    for row in ["read betwen", "between", "in proportion", "read between them"] {
        let said = of(row);
        assert!(said.iter().any(|[place, says, _]| place == row && says.contains(row)), "{row}: {said:?}");
    }
}

/// A sentence for what the clause does not ask for: the nearest word of what it asks for is offered.
#[test]
fn a_sentence_of_what_is_not_asked_offers_what_is() {
    let of = |word: &str| {
        said(&format!(
            "ruleset \"S\" {{ basis: \"Our own habit\" }}\nrule \"r\" {{\n    limit most: 7\"\n    each riser shall have height <= \
             most\n    says {word}: \"it is {{height}}\"\n    source: \"common practice\"\n}}"
        ))
    };
    assert_eq!(of("heigth").iter().map(|[.., help]| help.as_str()).collect::<Vec<_>>(), ["did you mean `height`?"]);
    assert!(of("width").iter().any(|[.., help]| help == "It asks for height."), "{:?}", of("width"));
}

/// A property that a rule has not: one with a figure was meant as a limit, and one with words was not.
#[test]
fn only_a_figure_is_offered_as_a_limit() {
    let of = |value: &str| {
        said(&format!(
            "ruleset \"S\" {{ basis: \"Our own habit\" }}\nrule \"r\" {{\n    lowest: {value}\n    each riser shall have height <= 7\"\n    \
             source: \"common practice\"\n}}"
        ))
    };
    assert_eq!(
        of("6\"").iter().map(|[.., help]| help.as_str()).collect::<Vec<_>>(),
        ["For a figure write `limit lowest: 6\"`."]
    );
    assert!(of("often").iter().all(|[.., help]| help.starts_with("It takes each ")), "{:?}", of("often"));
}

/// An amendment of which nothing was understood leaves the rule as it was, and does not stand among what changed it.
#[test]
fn an_amendment_that_is_one_slip_amends_nothing() {
    let (set, said) = amended("amend \"clear width\" { limit leest: 30\" }");
    assert_eq!(said.iter().map(|[place, ..]| place.as_str()).collect::<Vec<_>>(), ["leest"]);
    let rule = set.rules.iter().find(|rule| rule.name == "clear width").expect("the rule");
    assert!(rule.amendments.is_empty());
}

/// The sentence of an amendment takes the place of the one below in what is found.
#[test]
fn an_amended_sentence_is_the_one_that_is_said() {
    let over = "ruleset \"Over\" { amends: residential }\namend \"riser height\" { says height: \"{element} climbs {height}\" }";
    let session = Session::default().with_set("over", Source::new("over.rules", over));
    let design = Source::new("a.stair", "stair { rules: over; flight { risers: 2 of 9\" } }");
    let report = session.check(&design, None).report;
    let of_rule = report.findings.iter().filter(|finding| finding.name() == "riser height");
    let said: Vec<String> = of_rule.map(|finding| message(finding).message).collect();
    assert!(said.len() == 1 && said[0].contains("climbs 9\""), "{said:?}");
}

const FORMERLY: &str = "ruleset \"Below\" { basis: \"code\" }
figure \"ball\" { is: 4\"; source: \"code 9\"; formerly: \"sphere\"; formerly limit: \"gap\" }
figure \"way\" { is by use of stair and width: 84\" for dwelling and up to 40\", 88\" for dwelling, 90\" otherwise; source: \"code 8\" }
rule \"way up\" { limit least formerly narrowest: 36\"\neach flight shall have width >= least; source: \"code 2\"
    formerly: \"clear width\" }
rule \"openings\" { each guard shall have opening < ball; source: \"code 3\" }
rule \"run of a flight\" { each flight shall have run <= way; source: \"code 4\" }
rule \"rise of a flight\" { each flight shall have rise <= way; source: \"code 5\" }";

fn over_formerly(text: &str) -> (RuleSet, Vec<[String; 3]>) {
    over(FORMERLY, &format!("ruleset \"Over\" {{ amends: below }}\n{text}"))
}

fn limit_of(set: &RuleSet, rule: &str, limit: &str) -> String {
    let rule = set.rules.iter().find(|known| known.name == rule).expect("the rule");
    let found = rule.limits.iter().find(|known| known.name == limit).map(|limit| limit.figures());
    found.unwrap_or_else(|| panic!("no `{limit}` among {:?}", rule.limits.iter().map(|l| &l.name).collect::<Vec<_>>()))
}

/// What was written for a former name is read, and told the name of now, at the former one.
#[test]
fn what_is_called_as_it_was_before_is_read_and_told_the_name_of_now() {
    for (text, place, now, (rule, limit, is)) in [
        (
            "amend \"clear width\" { limit least: 40\"; source: \"order 1\" }",
            "\"clear width\"",
            "\"way up\"",
            ("way up", "least", "40\""),
        ),
        (
            "amend \"way up\" { limit narrowest: 41\"; source: \"order 1\" }",
            "narrowest",
            "`least`",
            ("way up", "least", "41\""),
        ),
        ("amend \"openings\" { limit gap: 5\"; source: \"order 1\" }", "gap", "`ball`", ("openings", "ball", "5\"")),
        (
            "amend figure \"sphere\" { is: 4-3/8\"; source: \"order 1\" }",
            "\"sphere\"",
            "\"ball\"",
            ("openings", "ball", "4-3/8\""),
        ),
    ] {
        let (set, said) = over_formerly(text);
        let [[at, told, help]] = said.as_slice() else { panic!("{text}: {said:?}") };
        assert_eq!(at, place, "{text}");
        assert!(told.contains(now) && help.contains(now), "{told} {help}");
        assert_eq!(limit_of(&set, rule, limit), is, "{text}");
    }
    let (set, said) = over_formerly("withdraw \"clear width\" { because: \"struck\" }");
    assert!(matches!(said.as_slice(), [[_, told, _]] if told.contains("\"way up\"")), "{said:?}");
    assert!(set.rules.iter().all(|rule| rule.name != "way up"));
    // What was only a limit of a rule before names no figure.
    let (_, said) = over_formerly("amend figure \"gap\" { is: 5\"; source: \"order 1\" }");
    assert!(matches!(said.as_slice(), [[_, told, _]] if told.contains("no set below")), "{said:?}");
}

/// A figure that is a table is moved a row at a time, in every rule that reads it, and told of once.
#[test]
fn a_row_of_a_figure_is_moved_in_every_rule_that_reads_it() {
    let row = "way for dwelling and up to 40\"";
    for text in [
        "amend figure \"way\" { is by use of stair and width: 80\" for dwelling and up to 40\"; source: \"order 1\" }",
        "amend figure \"way for dwelling and up to 40 in\" { is: 80\"; source: \"order 1\" }",
    ] {
        let (set, said) = over_formerly(text);
        if text.contains("40 in") {
            // A row goes by its words as they are written.
            assert!(matches!(said.as_slice(), [[_, told, _]] if told.contains("no set below")), "{said:?}");
            continue;
        }
        assert!(said.is_empty(), "{said:?}");
        for rule in ["run of a flight", "rise of a flight"] {
            assert_eq!(limit_of(&set, rule, row), "80\"");
            assert_eq!(limit_of(&set, rule, "way for dwelling"), "88\"");
            assert_eq!(limit_of(&set, rule, "way otherwise"), "90\"");
            let rule = set.rules.iter().find(|known| known.name == rule).expect("the rule");
            assert_eq!(rule.amendments.len(), 1);
        }
    }
    let (set, said) = over_formerly("amend figure \"way\" { is: 85\"; source: \"order 1\" }");
    assert!(matches!(said.as_slice(), [[_, told, _]] if told.contains("left out")), "{said:?}");
    assert_eq!(limit_of(&set, "run of a flight", "way"), "85\"");
    let (_, said) = over_formerly("amend figure \"way\" { is: 30°; source: \"order 1\" }");
    assert!(matches!(said.as_slice(), [[place, ..]] if place == "30°"), "{said:?}");
    let text = "rule \"own\" { each landing shall have depth >= way; source: \"x\" }
        rule \"other\" { each riser shall have height <= way; source: \"x\" }";
    let (set, said) = over_formerly(text);
    assert!(set.rules.iter().any(|rule| rule.name == "own"));
    assert!(matches!(said.as_slice(), [[place, told, _]] if place == "way" && told.contains("of a riser")), "{said:?}");
}
