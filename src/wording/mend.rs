//! What was written into a design, in words.

use super::phrase;
use crate::base::Severity;
use crate::check::Mend;

/// How many changes mend how many of the findings.
pub fn mended(changes: usize, cured: usize, all: usize) -> String {
    match (changes, all) {
        (0, 0) => "nothing to mend".to_owned(),
        (0, 1) => "1 finding, which no change was found to mend".to_owned(),
        (0, all) => format!("{all} findings, none of which a change was found to mend"),
        (changes, all) => {
            let mend = if changes == 1 { "mends" } else { "mend" };
            format!("{} {mend} {cured} of {}", phrase::plural(changes, "change"), phrase::plural(all, "finding"))
        }
    }
}

/// Words in place of others.
pub fn in_place(old: &str, new: &str) -> String {
    format!("write `{}` in place of `{}`", new.trim(), old.trim())
}

/// One change: its words with their lines, and the findings that are gone.
pub fn mend(mend: &Mend) -> String {
    let edits = mend.edits.iter().map(|edit| {
        let (line, new) = (mend.before.line(edit.span.start), edit.text.trim().trim_start_matches("; "));
        match mend.before.slice(edit.span) {
            "" => format!("line {line}: `{new}` is added"),
            old => format!("line {line}: `{new}` in place of `{old}`"),
        }
    });
    let edits: Vec<String> = edits.collect();
    let cured = mend.cured.iter().map(|(severity, name)| match severity {
        Severity::Advised => format!("{name} (advice)"),
        _ => name.clone(),
    });
    format!("{}. It mends {}", edits.join("; "), phrase::all_of(&cured.collect::<Vec<_>>()))
}
