//! What a check found, as diagnostics at the words to change. The words are those of every other face.

use std::collections::BTreeMap;

use gen_lsp_types::{Code, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Message};

use super::documents::{Document, Holds};
use super::sets;
use super::workspace::Workspace;
use crate::base::{self, Severity, Source, Span};
use crate::check::{NotChecked, Problem, Report};
use crate::rules::Proof;
use crate::wording::{self, ToMessage, message};

/// What a client shows as the maker of a diagnostic.
const MAKER: &str = "pitchboard";
/// The code of what could not be settled.
const NOT_CHECKED: &str = "not checked";

/// All that there is to say of a document, the gravest first; nothing where it was given up on the way.
pub(super) fn of(workspace: &Workspace, document: &Document, given_up: &dyn Fn() -> bool) -> Option<Vec<Diagnostic>> {
    let told = |found: &dyn ToMessage| told(workspace, document, &message(found));
    Some(match document.holds {
        Holds::BuiltIn => Vec::new(),
        Holds::Design => match workspace.session.analyse_until(&document.path, given_up) {
            Ok(None) => return None,
            Ok(Some(analysis)) => {
                let report = &analysis.report;
                let found = report.findings.iter().map(|finding| told(finding));
                found.chain(not_checked(workspace, document, report)).collect()
            }
            Err(refused) => vec![told(&*refused)],
        },
        Holds::Rules => match workspace.session.set(&document.path.to_string_lossy(), None) {
            Ok(loaded) => {
                let proofs = sets::examples::proofs(workspace, document);
                let failed = proofs.iter().filter_map(Proof::diagnostic);
                let failed: Vec<Diagnostic> = failed.map(|found| told(&found)).collect();
                loaded.diagnostics.iter().map(|found| told(found)).chain(failed).collect()
            }
            Err(refusal) => vec![plain(workspace, document, wording::refusal(&refusal))],
        },
        Holds::Shop => match workspace.session.shop(&document.path) {
            Ok(loaded) => {
                let shop = &loaded.shop;
                let asked = shop.rules.iter().chain(shop.folders.iter().flat_map(|folder| &folder.rules));
                let refused = asked.filter_map(|(name, span)| {
                    let refusal = workspace.session.set(name, Some(&shop.source)).err()?;
                    Some(told(&base::Diagnostic::<Problem>::new(&shop.source, *span, Problem::Refused(refusal))))
                });
                loaded.diagnostics.iter().map(|found| told(found)).chain(refused).collect()
            }
            Err(refused) => vec![told(&*refused)],
        },
    })
}

/// A message at its place. One of another text stands at the head of the document, and points there.
fn told(workspace: &Workspace, document: &Document, message: &wording::Message) -> Diagnostic {
    let own = message.source.path() == document.source.path();
    let main = message.labels.first().filter(|_| own).map(|label| label.span).unwrap_or_default();
    let mut text = message.message.clone();
    let mut add = |more: &str| {
        text.push('\n');
        text += more;
    };
    if let Some(waiver) = &message.waived {
        add(&wording::waiver(waiver));
    }
    message.help.iter().for_each(|help| add(help));
    message.also.iter().for_each(|also| add(also));
    if let Some(clause) = &message.clause {
        add(&wording::source_line(clause));
    }
    let related = workspace.client.related.then(|| related(workspace, message, usize::from(own)));
    Diagnostic {
        range: workspace.range(document, main),
        severity: Some(if message.waived.is_some() { DiagnosticSeverity::Hint } else { grave(message.severity) }),
        code: Some(Code::String(message.name.clone())),
        source: Some(MAKER.to_owned()),
        message: Message::String(text),
        related_information: related.filter(|related| !related.is_empty()),
        ..Diagnostic::default()
    }
}

/// The other words that a message points at: of its own text but for the first, of the shop's file, of the set.
fn related(workspace: &Workspace, message: &wording::Message, own: usize) -> Vec<DiagnosticRelatedInformation> {
    let labels = message.labels.iter().skip(own).map(|label| (&message.source, label.span, label.text.clone()));
    let mut places: Vec<(&Source, Span, String)> = labels.collect();
    if let Some(beside) = &message.beside {
        places.extend(beside.labels.iter().map(|label| (&beside.source, label.span, label.text.clone())));
    }
    if let Some(clause) = &message.clause {
        let asked = wording::the_clause(clause);
        places.push((&clause.source, asked.span, asked.text));
        for amended in &clause.amended {
            places.extend(amended.changes.iter().map(|label| (&amended.source, label.span, label.text.clone())));
        }
    }
    let place = |(source, span, message): (&Source, Span, String)| {
        Some(DiagnosticRelatedInformation { location: workspace.location(source, span)?, message })
    };
    places.into_iter().filter_map(place).collect()
}

fn grave(severity: Severity) -> DiagnosticSeverity {
    match severity {
        Severity::Unchecked | Severity::NotUnderstood | Severity::Broken => DiagnosticSeverity::Error,
        Severity::Advised => DiagnosticSeverity::Warning,
    }
}

/// Rules that could not be settled, together for each thing: silence would be taken for a pass.
fn not_checked<'w>(
    workspace: &'w Workspace,
    document: &'w Document,
    report: &Report,
) -> impl Iterator<Item = Diagnostic> + use<'w> {
    let mut at: BTreeMap<Span, Vec<String>> = BTreeMap::new();
    for item in report.not_checked.iter().filter(|item| !item.is_excused()) {
        let NotChecked { rule, about, needs, span, .. } = item;
        let line = format!("{rule} of {about}: {NOT_CHECKED}, needs {}", wording::need(needs));
        let lines = at.entry(*span).or_default();
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    at.into_iter().map(move |(span, lines)| {
        // What draws a thing may be a whole block; its first line is enough to stand at.
        let first = document.source.slice(span).lines().next().unwrap_or_default().trim_end();
        let span = Span::new(span.start as usize, span.start as usize + first.len());
        Diagnostic {
            range: workspace.range(document, span),
            severity: Some(DiagnosticSeverity::Information),
            code: Some(Code::String(NOT_CHECKED.to_owned())),
            source: Some(MAKER.to_owned()),
            message: Message::String(lines.join("\n")),
            ..Diagnostic::default()
        }
    })
}

fn plain(workspace: &Workspace, document: &Document, text: String) -> Diagnostic {
    Diagnostic {
        range: workspace.range(document, Span::default()),
        severity: Some(DiagnosticSeverity::Error),
        source: Some(MAKER.to_owned()),
        message: Message::String(text),
        ..Diagnostic::default()
    }
}
