//! Work against size: at each doubling of a text the steps that are counted (`base/work.rs`) no more than double, or the
//! text is past a stated limit and gets one message. Counted, not timed, so that it comes to the same on any machine.

use pitchboard::base::{Source, work};
use pitchboard::report::{self, Look};
use pitchboard::session::{Memory, Session};

/// Steps beside the doubled ones: what is the same whatever the size.
const ROOM: u64 = 20_000;

/// Steps to check a text and tell of it, at a size and three doublings of it.
fn steps(size: usize, text: impl Fn(usize) -> Memory) -> Vec<u64> {
    let at = |size: usize| {
        let session = Session::new(text(size));
        let look = Look { colour: false, unicode: true, width: 100, list_not_checked: false };
        work::of(|| report::report(&session.analyse("a.stair").expect("it is there").report, &look)).1
    };
    (0..4).map(|doublings| at(size << doublings)).collect()
}

fn grows_no_faster_than_the_text(what: &str, size: usize, text: impl Fn(usize) -> Memory) {
    let steps = steps(size, text);
    assert!(steps.iter().any(|steps| *steps > 0), "nothing of {what} is counted");
    for pair in steps.windows(2) {
        assert!(pair[1] <= 2 * pair[0] + ROOM, "{what}: {steps:?}");
    }
}

/// A text of so many lines.
fn lines(many: usize, line: impl Fn(usize) -> String) -> String {
    (0..many).map(line).collect()
}

fn drawing(body: &str) -> Memory {
    Memory::new().with("a.stair", format!("stair {{ rules: residential\nflight {{ risers: 2 of 7\" }}\n{body}\n}}\n"))
}

fn set(text: String) -> Memory {
    Memory::new()
        .with("own.rules", text)
        .with("a.stair", "stair { rules: \"own.rules\"\nflight { risers: 2 of 7\" } }\n")
}

#[test]
fn words_of_a_line() {
    grows_no_faster_than_the_text("words of a line", 2_000, |many| drawing(&"word ".repeat(many)));
    grows_no_faster_than_the_text("words of a head", 2_000, |many| drawing(&format!("{} {{ }}", "word ".repeat(many))));
}

#[test]
fn lines_that_mean_nothing() {
    grows_no_faster_than_the_text("properties of no name", 500, |many| {
        drawing(&lines(many, |at| format!("ryle{at:06}: 1\n")))
    });
    grows_no_faster_than_the_text("blocks of no name", 500, |many| {
        drawing(&lines(many, |at| format!("ryle{at:06} {{ }}\n")))
    });
}

#[test]
fn withdrawals_of_what_is_not_there() {
    let head = "ruleset \"Own\" { amends: residential }\n";
    grows_no_faster_than_the_text("withdrawals", 500, |many| {
        set(format!("{head}{}", lines(many, |at| format!("withdraw \"riser hight {at:06}\" {{ because: \"x\" }}\n"))))
    });
    grows_no_faster_than_the_text("amendments", 500, |many| {
        set(format!("{head}{}", lines(many, |at| format!("amend \"riser hight {at:06}\" {{ limit tallest: 7\" }}\n"))))
    });
    grows_no_faster_than_the_text("amendments of one rule", 500, |many| {
        set(format!("{head}{}", "amend \"riser height\" { limit tallest: 7\" }\n".repeat(many)))
    });
}

#[test]
fn rails_that_are_not_settled() {
    let rails = |many| drawing(&lines(many, |at| format!("handrail \"r{at:06}\" {{ }}\n")));
    grows_no_faster_than_the_text("unsettled rails", 100, rails);
    let rule = |at| format!("rule \"r{at:06}\" {{ each flight shall have width >= 3\"; source: \"x\" }}\n");
    grows_no_faster_than_the_text("unsettled rules", 250, |many| {
        set(format!("ruleset \"Own\" {{ }}\n{}", lines(many, rule)))
    });
}

#[test]
fn names_of_what_is_not_drawn() {
    let posts = |many| lines(many, |at| format!("post \"pale{at:06}\" {{ }}\n"));
    grows_no_faster_than_the_text("joints of unknown members", 100, |many| {
        let joint = |at| format!("joint {{ joins: stale{at:06} to scale{at:06}; bolts: 2 of 3/8\" x 9\" }}\n");
        drawing(&format!("{}{}", posts(many), lines(many, joint)))
    });
    grows_no_faster_than_the_text("rails along unknown flights", 150, |many| {
        drawing(&lines(many, |at| format!("handrail \"r{at:06}\" {{ along: uper{at:06} }}\n")))
    });
    grows_no_faster_than_the_text("measured stairs", 120, |many| {
        let stairs =
            lines(many, |at| format!("stair \"s{at:06}\" {{ rules: workshop; flight {{ risers: 2 of 7\" }} }}\n"));
        let measured = lines(many, |at| format!("measured \"z{at:06}\" {{ }}\n"));
        Memory::new().with("a.stair", stairs + &measured)
    });
}

#[test]
fn flights_that_lack_a_rail() {
    grows_no_faster_than_the_text("flights without rails", 10, |many| {
        let flight = |at| format!("flight \"f{at:06}\" {{ risers: 4 of 7\"; runs: 3 of 10\" }}\n");
        Memory::new().with("a.stair", format!("stair {{ rules: residential\n{}\n}}\n", lines(many, flight)))
    });
}

#[test]
fn words_of_a_name_in_a_clause() {
    let rule = |name: &str, many: usize| {
        let words = "word ".repeat(many);
        set(format!(
            "ruleset \"Own\" {{ }}\nrule \"r\" {{ each flight shall have {name}{words}>= 3\"; source: \"x\" }}\n"
        ))
    };
    grows_no_faster_than_the_text("a name of many words", 1_000, |many| rule("", many));
    grows_no_faster_than_the_text("a count of many words", 1_000, |many| rule("number of ", many));
    grows_no_faster_than_the_text("a name of many names", 1_000, |many| rule("width of ", many));
}

#[test]
fn rules_of_unknown_names() {
    let rule = |at| format!("rule \"r{at:06}\" {{ each flight shall have heigth{at:06} >= 3\"; source: \"x\" }}\n");
    grows_no_faster_than_the_text("unknown quantities", 250, |many| {
        set(format!("ruleset \"Own\" {{ }}\n{}", lines(many, rule)))
    });
}

#[test]
fn limits_of_a_rule() {
    let limits = |many: usize| {
        let limits = lines(many, |at| format!("limit l{}: 3\"\n", letters(at)));
        format!("ruleset \"Own\" {{ }}\nrule \"r\" {{\n{limits}each flight shall have width >= 3\"\nsource: \"x\" }}\n")
    };
    grows_no_faster_than_the_text("limits", 1_000, |many| set(limits(many)));
    let too_many = |many: usize| {
        let loaded = Session::default().read_set(&Source::new("own.rules", limits(many)));
        loaded.diagnostics.iter().filter(|found| found.name() == "too many things").count()
    };
    assert_eq!((too_many(100), too_many(101), too_many(5_000)), (0, 1, 1));
}

/// A number in letters, since a limit's name holds no figure of its own.
fn letters(mut number: usize) -> String {
    let mut out = String::new();
    loop {
        out.push(char::from(b'a' + (number % 26) as u8));
        number /= 26;
        if number == 0 {
            return out;
        }
    }
}

#[test]
fn stock_times_stated_lines() {
    let shop = |many| lines(many, |at| format!("section \"s{at:06}\" {{ width: 2\"; depth: 3\" }}\n"));
    let rails = |many| {
        let rail =
            |at| format!("handrail \"r{at:06}\" {{ height: 36\"; clearance: 2\"; section: s{:06} }}\n", at % 900);
        drawing(&lines(many, rail))
    };
    grows_no_faster_than_the_text("lines over a stock", 100, |many| rails(many).with("shop.pitchboard", shop(900)));
    // Past the limit the stock counts no more, and one message says so.
    let over = |many: usize| rails(50).with("shop.pitchboard", shop(many));
    grows_no_faster_than_the_text("a stock past its limit", 1_001, over);
    let told = |many: usize| {
        let analysis = Session::new(over(many)).analyse("a.stair").expect("it is there");
        analysis.report.findings.iter().filter(|found| found.name() == "too many things").count()
    };
    assert_eq!((told(1_000), told(1_001), told(4_000)), (0, 1, 1));
    // Names that no section has are sought among the stock for the first slips alone.
    let lost = |many| {
        let rail = |at| format!("handrail \"r{at:06}\" {{ section: marsh rial {at:06} }}\n");
        drawing(&lines(many, rail)).with("shop.pitchboard", shop(500))
    };
    grows_no_faster_than_the_text("unknown sections", 150, lost);
    let plain = |many| {
        let rail = |at| format!("handrail \"r{at:06}\" {{ height: 36\"; clearance: 2\" }}\n");
        drawing(&lines(many, rail)).with("shop.pitchboard", shop(900))
    };
    let (few, more) = (steps(50, plain)[0], steps(800, plain)[0]);
    assert!((more - few) / 750 < 450, "lines that name no section look through the stock: {few} {more}");
}
