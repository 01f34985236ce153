//! The library as it was, put to the yardstick: see `run`, which builds this against that version, beside its table of
//! faults. It makes the corpus too.

#![allow(missing_docs)]

mod corpus;
mod damage;
#[allow(dead_code)]
mod drawing;
mod english;
#[allow(dead_code)]
mod faults;
mod input;
mod probe;
#[allow(dead_code)]
mod record;

use pitchboard::base::{self, Class, Source};
use pitchboard::check::{Checker, Library, Report, Shipped, ShopFile};
use pitchboard::model::{SHOP_FILE, build_shop};
use pitchboard::syntax::FragmentKind;
use pitchboard::{rules, syntax};

use input::{Corpus, Input, Kind};
use record::{Failed, Finding, NotChecked, Place, Proof, Seen, Set, Tally};

fn main() -> std::process::ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.split_first() {
        Some((word, rest)) if word == "probe" => probe::run::<Earlier>(rest).map(|()| true),
        Some((word, rest)) if word == "corpus" => corpus::run(rest, is_good).map(|()| true),
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

/// Nothing is broken in a design, and all of it is read.
fn is_good(path: &str, text: &str) -> bool {
    let report = Checker::new(&Shipped).check(&Source::new(path, text), None);
    report.findings.iter().all(|finding| finding.class == Class::Advised)
}

/// Sets and shops by name, else by path in the corpus; the text of one shop's file may be another.
struct Texts {
    corpus: &'static Corpus,
    instead: Option<&'static Input>,
}

impl Library for Texts {
    fn ruleset(&self, name: &str, asked_by: Option<&str>) -> Result<Source, String> {
        if !name.ends_with(".rules") && !name.contains('/') {
            return Shipped.ruleset(name, asked_by);
        }
        let path = input::beside(name, asked_by);
        let text = self.corpus.file(&path).ok_or_else(|| format!("there is no set `{path}`"))?;
        Ok(Source::new(path, text))
    }

    fn shop(&self, design: &str) -> Result<Option<ShopFile>, Box<base::Finding>> {
        let found = shops_above(design, SHOP_FILE).into_iter().find_map(|(path, below)| {
            let instead = self.instead.filter(|input| input.path == path).map(|input| input.text.clone());
            let text = instead.or_else(|| self.corpus.file(&path))?;
            Some(ShopFile { source: Source::new(path, text), design: below.to_owned() })
        });
        Ok(found)
    }
}

/// The paths at which a shop's file may lie above a design, the nearest first, each with the design's path from there.
fn shops_above<'d>(design: &'d str, file: &str) -> Vec<(String, &'d str)> {
    let cuts = design.match_indices('/').map(|(at, _)| at).rev();
    cuts.map(|at| {
        let (folder, below) = design.split_at(at);
        (format!("{folder}/{file}"), below.trim_start_matches('/'))
    })
    .collect()
}

/// The earlier version.
struct Earlier {
    corpus: &'static Corpus,
    checker: Checker<'static>,
}

impl probe::Observer for Earlier {
    fn new(corpus: &'static Corpus) -> Self {
        let texts = Box::leak(Box::new(Texts { corpus, instead: None }));
        Self { corpus, checker: Checker::new(texts) }
    }

    fn observe(&mut self, input: &'static Input) -> Seen {
        let source = Source::new(&input.path, &input.text);
        match input.kind {
            Kind::Design => checked(&self.checker.check(&source, None)),
            Kind::Rules => proved(&source, &Texts { corpus: self.corpus, instead: None }),
            Kind::Shop if input.below.is_empty() => {
                let (tree, mut findings) = syntax::parse_design(&source);
                build_shop(&tree, &source, &mut findings);
                Seen { exit: exit(&findings), findings: findings.iter().map(finding).collect(), ..Seen::default() }
            }
            Kind::Shop => {
                let texts = Texts { corpus: self.corpus, instead: Some(input) };
                let design = Source::new(&input.below, self.corpus.file(&input.below).unwrap_or_default());
                checked(&Checker::new(&texts).check(&design, None))
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
        needs: item.needs.clone(),
    });
    let sets = report.sets.iter().map(|set| Set {
        title: set.title.clone(),
        edition: set.edition.clone(),
        basis: set.basis.clone(),
        caution: set.caution.clone(),
        amends: set.amends.iter().map(|below| format!("{} {}", below.title, below.edition)).collect(),
    });
    Seen {
        exit: exit(&report.findings),
        tally: Some(Tally {
            passed: tally.passed,
            broken: tally.broken,
            advised: tally.advised,
            not_applicable: tally.not_applicable,
            not_checked: tally.not_checked,
            from_memory: report.from_memory,
        }),
        findings: report.findings.iter().map(finding).collect(),
        not_checked: not_checked.collect(),
        customs: report.customs.clone(),
        sets: sets.collect(),
        shop: report.shop.clone(),
        proof: None,
    }
}

fn proved(source: &Source, library: &dyn Library) -> Seen {
    let mut findings = Vec::new();
    let set = rules::load(source, library, &mut findings);
    let exit = exit(&findings);
    let proofs = rules::prove(&set);
    findings.extend(rules::lacking_proof(&set));
    let failed = proofs.iter().filter_map(|proof| {
        let failed = proof.failed.as_ref()?;
        Some(Failed {
            rule: proof.rule.clone(),
            kind: format!("{:?}", proof.kind).to_lowercase(),
            place: place(&proof.source, proof.span),
            said: format!("{} | {}", failed.saw, failed.why.as_deref().unwrap_or_default()),
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
        findings: findings.iter().map(finding).collect(),
        sets: vec![line],
        proof: Some(proof),
        ..Seen::default()
    }
}

/// The exit code that a command gives for these findings.
fn exit(findings: &[base::Finding]) -> u8 {
    match findings.iter().map(|finding| finding.class).min() {
        Some(Class::Unchecked) => 2,
        Some(Class::Unread | Class::Broken) => 1,
        Some(Class::Advised) | None => 0,
    }
}

fn place(source: &Source, span: base::Span) -> Place {
    Place { text: source.name.to_string(), start: span.start, end: span.end }
}

/// One finding as the yardstick writes it down.
fn finding(found: &base::Finding) -> Finding {
    let mut places = found.labels.iter().map(|label| place(&found.source, label.span));
    let mut finding = Finding {
        name: found.name.clone(),
        class: found.class.word().to_owned(),
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
