//! The face for tools that read checkstyle XML: a file with its errors.

use super::checked::{Checked, Spot, Weight};
use super::face::{Face, ROW, Run};
use super::totals::caution;
use super::xml::{HEAD, Xml};

/// `checkstyle`.
pub(super) const FACE: Face = Face {
    name: "checkstyle",
    about: "checkstyle XML, which many reviewers of changes read",
    ending: "xml",
    schema: "checkstyle",
    begins: |_| format!("{HEAD}<checkstyle version=\"1.0\">\n  <!-- {} -->\n", caution()),
    design,
    ends: |_, _| "</checkstyle>\n".to_owned(),
    ..ROW
};

fn design(checked: &Checked<'_>, run: &Run) -> String {
    let mut found: Vec<(String, Option<&Spot>, &str, String, String)> = Vec::new();
    for entry in checked.entries() {
        let severity = match checked.weight(entry) {
            Weight::Fails => "error",
            Weight::Told => "warning",
            Weight::Excused => "info",
        };
        let file = checked.named(&entry.message.source).words();
        let source = source(entry.finding.map_or("reader", |finding| &finding.rule.set().title), &entry.message.name);
        let said = checked.excused(&entry.message.message, entry.excuse());
        found.push((file, entry.spot.as_ref(), severity, said, source));
    }
    for wait in checked.listed_waits(&run.look) {
        let severity = if checked.counts_as_broken(wait) { "error" } else { "info" };
        let said = checked.excused(&format!("not checked: needs {}", wait.needs), wait.excuse());
        found.push((wait.spot.file.words(), Some(&wait.spot), severity, said, source(&wait.item.set, &wait.item.rule)));
    }
    let mut xml = Xml::within(1);
    if found.is_empty() {
        xml.empty("file", &[("name", &checked.name.words())]);
    }
    for of_file in found.chunk_by(|one, next| one.0 == next.0) {
        xml.open("file", &[("name", of_file.first().map_or("", |(file, ..)| file))]);
        for (_, spot, severity, message, source) in of_file {
            let (line, column) = spot.map_or((1, 1), |spot| (spot.start.line, spot.start.column));
            xml.empty(
                "error",
                &[
                    ("line", &line.to_string()),
                    ("column", &column.to_string()),
                    ("severity", severity),
                    ("message", message),
                    ("source", source),
                ],
            );
        }
        xml.close();
    }
    xml.text()
}

fn source(set: &str, rule: &str) -> String {
    format!("{set}/{rule}")
}
