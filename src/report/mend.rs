//! What was written into a design, and what is left; or the same as a patch.

use similar::TextDiff;

use super::look::{Look, Paint};
use super::words::visible;
use crate::base::Source;
use crate::check::{Mend, Report};
use crate::wording;

/// The changes of one design, a paragraph each, and its counts as they are now.
pub fn mended(mends: &[Mend], before: &Report, after: &Report, look: &Look) -> String {
    // What is waived, or known to a baseline, was not to be mended.
    let count = |report: &Report| report.findings.iter().filter(|finding| !finding.is_excused()).count();
    let (all, left) = (count(before), count(after));
    let name = visible(&before.source.name, look.unicode);
    let head = wording::mended(mends.len(), all.saturating_sub(left), all);
    let mut out = format!("{}: {head}\n", look.paint(Paint::Strong, &name));
    for mend in mends {
        out.push_str(&look.hang(&wording::mend(mend), 2));
    }
    out.push_str(&super::summary(after, look));
    out
}

/// A patch from one text to another of the same name, three lines of each hunk's neighbours with it.
pub fn patch(before: &Source, after: &Source) -> String {
    // Taken from the root of a tree, as patches are by custom.
    let name = before.name.trim_start_matches("./").trim_start_matches('/');
    // Programs that read patches know no end of a line but the line feed.
    let [old, new] = [before, after].map(|source| source.text.split_inclusive('\n').collect::<Vec<&str>>());
    let diff = TextDiff::configure().newline_terminated(true).diff_slices(&old, &new);
    diff.unified_diff().context_radius(3).header(&in_a_header("a", name), &in_a_header("b", name)).to_string()
}

/// A name in the first lines of a patch: in quotes, as C writes a text, where it holds what would end or change them.
fn in_a_header(before: &str, name: &str) -> String {
    let plain = format!("{before}/{name}");
    if !plain.contains(|sign: char| sign.is_control() || matches!(sign, '"' | '\\')) {
        return visible(&plain, true).into_owned();
    }
    let mut quoted = String::from("\"");
    for sign in plain.chars() {
        match sign {
            '\n' => quoted.push_str("\\n"),
            '\t' => quoted.push_str("\\t"),
            '\r' => quoted.push_str("\\r"),
            '"' | '\\' => quoted.extend(['\\', sign]),
            sign if sign.is_control() => {
                let mut bytes = [0; 4];
                sign.encode_utf8(&mut bytes).bytes().for_each(|byte| quoted.push_str(&format!("\\{byte:03o}")));
            }
            sign => quoted.push(sign),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_in_a_header_is_one_that_patches_can_hold() {
        assert_eq!(in_a_header("a", "reed hide.stair"), "a/reed hide.stair");
        assert_eq!(in_a_header("b", "new\nline\t\u{1b}.stair"), "\"b/new\\nline\\t\\033.stair\"");
        assert_eq!(in_a_header("a", "back\\slash.stair"), "\"a/back\\\\slash.stair\"");
    }
}
