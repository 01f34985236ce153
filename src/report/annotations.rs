//! The face for CI logs that read commands: each finding is a command that shows it beside its line. The only face that may
//! give commands; what comes from a file can end none early and begin no other.

use super::checked::{Checked, Spot, Wait, Weight};
use super::face::{Face, ROW, Run};
use super::totals::caution;
use super::words::{count, visible};

/// `annotations`.
pub(super) const FACE: Face = Face {
    name: "annotations",
    about: "commands to a CI log that show each finding beside its line",
    commands: true,
    design,
    ends: |_, _| command("notice", "no permit", "", None, &caution()),
    ..ROW
};

fn design(checked: &Checked<'_>, run: &Run) -> String {
    let mut out = String::new();
    for entry in checked.entries() {
        let command = match checked.weight(entry) {
            Weight::Fails => "error",
            Weight::Told => "warning",
            Weight::Excused => "notice",
        };
        let file = checked.named(&entry.message.source).words();
        let said = checked.excused(&entry.message.message, entry.excuse());
        out += &self::command(command, &entry.message.name, &file, entry.spot.as_ref(), &said);
    }
    let listed: Vec<&Wait<'_>> = checked.listed_waits(&run.look).collect();
    for wait in &listed {
        let command = if checked.counts_as_broken(wait) { "error" } else { "notice" };
        let said = checked.excused(&format!("not checked: needs {}", wait.needs), wait.excuse());
        out += &self::command(command, &wait.item.rule, &wait.spot.file.words(), Some(&wait.spot), &said);
    }
    let not_checked = checked.report().map_or(0, |report| report.tally.not_checked);
    if listed.len() < checked.waits().len() && not_checked > 0 {
        let said = format!("{} not checked: not all is stated that they ask", count(not_checked, "rule"));
        out += &command("notice", "not checked", &checked.name.words(), None, &said);
    }
    out
}

/// One command and the end of its line.
fn command(command: &str, title: &str, file: &str, spot: Option<&Spot>, message: &str) -> String {
    let mut properties = vec![("title", title.to_owned())];
    if !file.is_empty() {
        properties.push(("file", file.to_owned()));
    }
    if let Some(Spot { start, end, .. }) = spot {
        properties.push(("line", start.line.to_string()));
        // Columns are of one line only.
        if start.line == end.line {
            properties.push(("col", start.column.to_string()));
            properties.push(("endColumn", end.column.to_string()));
        } else {
            properties.push(("endLine", end.line.to_string()));
        }
    }
    let properties: Vec<String> =
        properties.iter().map(|(name, value)| format!("{name}={}", of_property(&harmless(value)))).collect();
    format!("::{command} {}::{}\n", properties.join(","), of_message(&harmless(message)))
}

/// Control characters by their stand-ins; and nothing that another machine takes for a command within a line.
fn harmless(text: &str) -> String {
    visible(text, true).replace("##", "#\\x23")
}

fn of_message(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn of_property(text: &str) -> String {
    of_message(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Span;
    use crate::report::positions::{Named, Position};

    /// The same bytes as `error()` of the npm package `@actions/core` 1.11.1 writes for these; see `.ci/outside`.
    #[test]
    fn a_command_is_the_one_that_the_reference_writes() {
        let spot = Spot {
            file: Named::File("hides/reed bed, hide.stair".to_owned()),
            span: Span::new(0, 0),
            start: Position { line: 6, column: 17 },
            end: Position { line: 6, column: 23 },
        };
        assert_eq!(
            command("error", "riser: height, x", "hides/reed bed, hide.stair", Some(&spot), "height is 8\", 100% over"),
            "::error title=riser%3A height%2C x,file=hides/reed bed%2C hide.stair,line=6,col=17,endColumn=23::height is 8\", 100%25 over\n"
        );
    }

    #[test]
    fn no_text_ends_a_command_or_begins_another() {
        for said in ["a\n::set-env name=x::y", "a\r::stop::", "a::b", "##[error]x", "\u{1b}[1m::error::"] {
            let line = command("error", said, said, None, said);
            assert_eq!(line.matches('\n').count(), 1, "{line:?}");
            assert!(!line.contains('\r') && !line.contains('\u{1b}') && !line.contains("##"), "{line:?}");
            let head = line.strip_prefix("::error title=").expect("the command").split("::").next().unwrap();
            assert_eq!(head.split(',').count(), 2, "{line:?}");
        }
    }
}
