//! What fails a run: as the shops' files say, folder by folder, and as the command line says in their place.

use crate::yard::Yard;

/// A yard with one drawing of each level, each in a folder of its name.
fn yard() -> Yard {
    let yard = Yard::with_house();
    yard.stair("broken/a.stair", "8\"", "10\"");
    yard.stair("advised/a.stair", "7\"", "9\"");
    yard.put("open/a.stair", "stair \"a\" { flight { risers: 2 of 7\"; runs: 10\" } }");
    yard.put(
        "unread/a.stair",
        "stair \"a\" { flight { risers: 2 of 7\"; runs: 10\"; width: 36\" } well { colour: red } }",
    );
    yard
}

fn codes(yard: &Yard, more: &[&str]) -> Vec<i32> {
    let code = |folder: &str| yard.run(&[&["check"], more, &[folder]].concat()).0;
    ["broken", "advised", "open", "unread"].map(code).to_vec()
}

fn shop(yard: &Yard, at: &str, says: &str) {
    yard.put(&format!("{at}shop.pitchboard"), format!("shop \"Marsh joinery\" {{ rules: \"{says}"));
}

#[test]
fn the_command_line_chooses_level_by_level() {
    let yard = yard();
    assert_eq!(codes(&yard, &[]), [1, 0, 0, 1]);
    assert_eq!(codes(&yard, &["--strict"]), [1, 0, 1, 1]);
    assert_eq!(codes(&yard, &["--fail-on", "advised"]), [0, 1, 0, 0]);
    // What was not understood of a well leaves a rule on wells open.
    assert_eq!(codes(&yard, &["--fail-on", "not-checked, broken"]), [1, 0, 1, 1]);
    assert_eq!(codes(&yard, &["--fail-on", "not understood"]), [0, 0, 0, 1]);
    assert_eq!(codes(&yard, &["--fail-on", "none"]), [0, 0, 0, 0]);
    assert_eq!(codes(&yard, &["--fail-on", "none", "--strict"]), [0, 0, 1, 1]);
    for wrong in ["brokn", "none,broken", ""] {
        let (code, text) = yard.run(&["check", "--fail-on", wrong, "."]);
        assert_eq!(code, 2, "{wrong}: {text}");
        assert!(text.contains("`none`, or some of: broken, advised, not-checked, not-understood"), "{text}");
    }
    let (code, text) = yard.run(&["check", "--fail-on", "none", "broken/a.stair", "gone.stair"]);
    assert_eq!(code, 2, "what cannot be checked at all always fails: {text}");
}

#[test]
fn the_shops_file_chooses_for_all_and_for_single_folders() {
    let yard = yard();
    shop(
        &yard,
        "",
        "house.rules\"; fail on: advised }\nfolder open { fail on: not checked }\nfolder broken { fail on: none }\n",
    );
    assert_eq!(codes(&yard, &[]), [0, 1, 1, 0]);
    assert_eq!(codes(&yard, &["--fail-on", "broken"]), [1, 0, 0, 0], "the command line wins");
    let (_, text) = yard.run(&["check", "advised"]);
    assert!(text.contains("fails the run: advised"), "{text}");
    let (_, text) = yard.run(&["check", "open"]);
    assert!(text.contains("1 required rule not checked fails the run"), "{text}");
}

#[test]
fn a_file_nearer_the_design_only_tightens_and_the_outermost_loosens() {
    let yard = yard();
    for folder in ["broken/", "advised/", "open/", "unread/"] {
        shop(&yard, folder, "../house.rules\"; fail on: none }\n");
        yard.put(&format!("{folder}shop.pitchboard"), "shop \"Own\" { fail on: none }\n");
    }
    assert_eq!(codes(&yard, &[]), [1, 0, 0, 1], "the nearer file cannot loosen");
    for folder in ["broken/", "advised/", "open/", "unread/"] {
        yard.put(&format!("{folder}shop.pitchboard"), "shop \"Own\" { fail on: advised }\n");
    }
    assert_eq!(codes(&yard, &[]), [1, 1, 0, 1], "and it can tighten");
    shop(&yard, "", "house.rules\"; fail on: not checked }\n");
    assert_eq!(codes(&yard, &[]), [0, 1, 1, 1], "the outermost loosens, and the nearer adds to that");
    // What lies further up than the repository has no say.
    yard.put("broken/.git/HEAD", "");
    yard.put("broken/own.rules", crate::yard::HOUSE);
    yard.put("broken/shop.pitchboard", "shop \"Own\" { rules: \"own.rules\"; fail on: none }\n");
    assert_eq!(codes(&yard, &[]), [0, 1, 1, 1]);
    yard.put("broken/shop.pitchboard", "shop \"Own\" { rules: \"own.rules\" }\n");
    assert_eq!(codes(&yard, &[]), [1, 1, 1, 1]);
}

#[test]
fn a_level_that_is_none_is_a_slip_of_the_shops_file() {
    let yard = yard();
    shop(&yard, "", "house.rules\"; fail on: brokn }\n");
    let (code, text) = yard.run(&["check", "advised"]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("not understood: unknown word"), "{text}");
    shop(&yard, "", "house.rules\" }\nfolder advised { }\n");
    let (code, text) = yard.run(&["check", "advised"]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("this folder states nothing"), "{text}");
}
