//! The present library, put to the yardstick: see `run`. All that knows its interface is [`Present`].

#![allow(clippy::disallowed_methods, missing_docs)]

mod compare;
mod english;
mod input;
mod probe;
mod record;

use pitchboard::base::{self, Diagnostic, Severity, Source, lift};
use pitchboard::check::{LoadedSet, Report};
use pitchboard::model::{SHOP_FILE, build_shop};
use pitchboard::rules::{self, FileProblem};
use pitchboard::session::{Files, Refusal, Session, ShopPlace};
use pitchboard::syntax::{self, FragmentKind};
use pitchboard::wording::{self, Message, message, messages};

use std::path::{Path, PathBuf};

use input::{Corpus, Input, Kind};
use record::{Failed, Finding, NotChecked, Place, Proof, Seen, Set, Tally};

fn main() -> std::process::ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.split_first() {
        Some((word, rest)) if word == "probe" => probe::run::<Present>(rest).map(|()| true),
        Some((word, rest)) if word == "compare" => compare::run(rest),
        Some((word, rest)) if word == "text" => compare::text(rest).map(|()| true),
        _ => Err("`tests/yardstick/run` runs this".into()),
    };
    match done {
        Ok(true) => std::process::ExitCode::SUCCESS,
        Ok(false) => std::process::ExitCode::FAILURE,
        Err(why) => {
            eprintln!("{why}");
            std::process::ExitCode::from(2)
        }
    }
}

/// The files of the corpus; the text of one shop's file may be another.
#[derive(Debug)]
struct Texts {
    corpus: &'static Corpus,
    instead: Option<&'static Input>,
}

impl Texts {
    fn text(&self, path: &str) -> Option<String> {
        let instead = self.instead.filter(|input| input.path == path).map(|input| input.text.clone());
        instead.or_else(|| self.corpus.file(path))
    }
}

/// The path without `..`.
fn plain(path: &Path) -> String {
    input::beside(&path.to_string_lossy(), None)
}

impl Files for Texts {
    fn read(&self, path: &Path) -> Result<Source, Refusal> {
        let path = plain(path);
        let refused = || Box::new(Diagnostic::whole(&Source::new(&path, ""), FileProblem::NotFound));
        Ok(Source::new(&path, self.text(&path).ok_or_else(refused)?))
    }

    fn identity(&self, path: &Path) -> PathBuf {
        PathBuf::from(plain(path))
    }

    fn exists(&self, path: &Path) -> bool {
        self.text(&plain(path)).is_some()
    }

    fn shops_above(&self, folder: &Path) -> Vec<ShopPlace> {
        let with_shop = folder.ancestors().filter(|above| self.exists(&above.join(SHOP_FILE)));
        with_shop.filter_map(|above| Some(ShopPlace::new(above.to_owned(), folder.strip_prefix(above).ok()?))).collect()
    }
}

/// The present version.
struct Present {
    corpus: &'static Corpus,
    session: Session,
}

impl probe::Observer for Present {
    fn new(corpus: &'static Corpus) -> Self {
        Self { corpus, session: Session::new(Texts { corpus, instead: None }) }
    }

    fn observe(&mut self, input: &'static Input) -> Seen {
        let source = Source::new(&input.path, &input.text);
        match input.kind {
            Kind::Design => checked(&self.session.check(&source, None).report),
            Kind::Rules => proved(self.session.read_set(&source)),
            Kind::Shop if input.below.is_empty() => {
                let (tree, slips) = syntax::parse_design(&source);
                let mut found = lift(slips);
                build_shop(&tree, &source, &mut found);
                let findings = messages(&found);
                Seen { exit: exit(&findings), findings: findings.iter().map(finding).collect(), ..Seen::default() }
            }
            Kind::Shop => {
                let session = Session::new(Texts { corpus: self.corpus, instead: Some(input) });
                let design = Source::new(&input.below, self.corpus.file(&input.below).unwrap_or_default());
                checked(&session.check(&design, None).report)
            }
        }
    }
}

fn checked(report: &Report) -> Seen {
    let tally = report.tally;
    let not_checked = report.not_checked.iter().map(|item| NotChecked {
        set: item.set.clone(),
        rule: item.rule.clone(),
        shall: item.shall,
        about: item.about.clone(),
        place: place(&report.source, item.span),
        needs: wording::need(&item.needs),
    });
    let sets = report.sets.iter().map(|set| Set {
        title: set.title.clone(),
        edition: set.edition.clone(),
        basis: set.basis.clone(),
        caution: set.caution.clone(),
        amends: set.amends.iter().map(|(below, _)| format!("{} {}", below.title, below.edition)).collect(),
    });
    let findings = messages(&report.findings);
    Seen {
        exit: exit(&findings),
        tally: Some(Tally {
            passed: tally.passed,
            broken: tally.broken,
            advised: tally.advised,
            not_applicable: tally.not_applicable,
            not_checked: tally.not_checked,
            from_memory: report.from_memory,
        }),
        findings: findings.iter().map(finding).collect(),
        not_checked: not_checked.collect(),
        customs: report.customs.clone(),
        sets: sets.collect(),
        shop: report.shops.last().map(|(name, shares)| {
            let shares = shares.iter().map(|share| wording::shares(std::slice::from_ref(share)));
            (name.clone(), shares.collect())
        }),
        proof: None,
    }
}

fn proved(LoadedSet { set, mut diagnostics }: LoadedSet) -> Seen {
    let exit = exit(&messages(&diagnostics));
    let proofs = rules::prove(&set);
    diagnostics.extend(rules::lacking_proof(&set));
    let failed = proofs.iter().filter_map(|proof| {
        let failed = message(&proof.diagnostic()?);
        let head = format!("rule \"{}\": this example ", proof.rule);
        let (_, saw) = failed.message.strip_prefix(&head)?.split_once("; ")?;
        Some(Failed {
            rule: proof.rule.clone(),
            kind: format!("{:?}", proof.kind).to_lowercase(),
            place: place(&proof.source, proof.span),
            said: format!("{saw} | {}", failed.help.as_deref().unwrap_or_default()),
        })
    });
    let bare = |kind: FragmentKind| rules::without(&set, &proofs, kind).len();
    let proof = Proof {
        rules: set.rules.len(),
        withdrawn: set.withdrawn.len(),
        fragments: proofs.len(),
        set_aside: proofs.iter().filter(|proof| proof.set_aside).count(),
        without_passing: bare(FragmentKind::Passes),
        without_failing: bare(FragmentKind::Fails),
        failed: failed.collect(),
    };
    let amends = set.takes_in.iter().map(|below| format!("{} {}", below.title, below.edition)).collect();
    let line = Set { title: set.title, edition: set.edition, basis: set.basis, caution: set.caution, amends };
    Seen {
        exit,
        findings: messages(&diagnostics).iter().map(finding).collect(),
        sets: vec![line],
        proof: Some(proof),
        ..Seen::default()
    }
}

/// The exit code that a command gives for these findings.
fn exit(findings: &[Message]) -> u8 {
    match findings.iter().map(|finding| finding.severity).min() {
        Some(Severity::Unchecked) => 2,
        Some(Severity::NotUnderstood | Severity::Broken) => 1,
        Some(Severity::Advised) | None => 0,
    }
}

fn place(source: &Source, span: base::Span) -> Place {
    Place { text: source.name.to_string(), start: span.start, end: span.end }
}

/// One finding as the yardstick writes it down.
fn finding(found: &Message) -> Finding {
    let mut places = found.labels.iter().map(|label| place(&found.source, label.span));
    let mut finding = Finding {
        name: found.name.clone(),
        class: found.severity.word().to_owned(),
        place: places.next(),
        behind: places.collect(),
        set: found.clause.as_ref().map(|clause| clause.set.clone()).unwrap_or_default(),
        ..Finding::default()
    };
    if let Some(beside) = &found.beside {
        finding.beside = beside.labels.iter().map(|label| place(&beside.source, label.span)).collect();
    }
    english::read(&mut finding, found.clause.is_some(), &found.message, found.help.as_deref().unwrap_or_default());
    finding
}
