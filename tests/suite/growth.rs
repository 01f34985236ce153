//! Work against size: at each doubling of a text the steps that are counted (`base/work.rs`) no more than double, or the
//! text is past a stated limit and gets one message. Counted, not timed, so that it comes to the same on any machine.

use pitchboard::base::{Source, work};
use pitchboard::session::{Memory, Session};

/// Steps beside the doubled ones: what is the same whatever the size.
const ROOM: u64 = 20_000;

/// Steps to check a text at a size and three doublings of it.
fn steps(size: usize, text: impl Fn(usize) -> Memory) -> Vec<u64> {
    let at = |size: usize| {
        let session = Session::new(text(size));
        work::of(|| session.analyse("a.stair").expect("it is there")).1
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
        drawing(&lines(many, |at| format!("ryle{at}: 1\n")))
    });
    grows_no_faster_than_the_text("blocks of no name", 500, |many| {
        drawing(&lines(many, |at| format!("ryle{at} {{ }}\n")))
    });
}

#[test]
fn withdrawals_of_what_is_not_there() {
    let head = "ruleset \"Own\" { amends: residential }\n";
    grows_no_faster_than_the_text("withdrawals", 500, |many| {
        set(format!("{head}{}", lines(many, |at| format!("withdraw \"riser hight {at}\" {{ because: \"x\" }}\n"))))
    });
    grows_no_faster_than_the_text("amendments", 500, |many| {
        set(format!("{head}{}", lines(many, |at| format!("amend \"riser hight {at}\" {{ limit tallest: 7\" }}\n"))))
    });
    grows_no_faster_than_the_text("amendments of one rule", 500, |many| {
        set(format!("{head}{}", "amend \"riser height\" { limit tallest: 7\" }\n".repeat(many)))
    });
}

#[test]
fn rules_of_unknown_names() {
    let rule = |at| format!("rule \"r{at}\" {{ each flight shall have heigth{at} >= 3\"; source: \"x\" }}\n");
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
    let shop = |many| lines(many, |at| format!("section \"s{at}\" {{ width: 2\"; depth: 3\" }}\n"));
    let walls =
        |many| lines(many, |at| format!("handrail \"r{at}\" {{ height: 36\"; clearance: 2\"; section: s{at} }}\n"));
    // From half the limit on, the stock grows no more.
    grows_no_faster_than_the_text("a shop's sections", 1_000, |many| {
        drawing(&walls(many.min(1_500))).with("shop.pitchboard", shop(many))
    });
    let plain = |many| lines(many, |at| format!("handrail \"r{at}\" {{ height: 36\"; clearance: 2\" }}\n"));
    let at = |many: usize| drawing(&plain(many)).with("shop.pitchboard", shop(900));
    let (small, great) = (steps(50, at)[0], steps(800, at)[0]);
    assert!(great <= small + ROOM, "lines that name no section look through the stock: {small} {great}");
}
