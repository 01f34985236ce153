//! The whole path for one text: read, build, derive, hold, report. Pure: texts in, values out.

mod change;
mod finding;
pub mod problem;
mod remedy;
mod shipped;
mod stock;
mod telling;

use std::cell::{Cell, OnceCell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use crate::base::{Diagnostic, Severity, Source, Span, lift};
use crate::derive::Working;
use crate::model::{self, Design, Shop, Stair};
use crate::rules::{self, Outcome, RuleSet, Standing};
pub use crate::rules::{FileProblem, Library, SetRefusal, ShopFile};
use crate::syntax;
pub use change::{Change, Changes, Held, changes};
pub use finding::{Finding, RuleFinding};
pub use problem::Problem;
pub use shipped::{BUILT_IN, Shipped};

/// What one design came to.
#[derive(Debug, Clone)]
pub struct Report {
    /// The design's text.
    pub source: Source,
    /// What is broken, advised or could not be read, in the order of the places.
    pub findings: Vec<Finding>,
    /// Rules that could not be settled.
    pub not_checked: Vec<NotChecked>,
    /// How the rules stand.
    pub tally: Tally,
    /// Customs that stood in for what is not stated.
    pub customs: Vec<String>,
    /// The sets it was held to.
    pub sets: Vec<SetLine>,
    /// Rules that passed or are not met, on figures that their set has from memory.
    pub from_memory: usize,
    /// The shop's file that had a say, and in what.
    pub shop: Option<(String, Vec<String>)>,
}

/// A rule that could not be settled for one element, and what would settle it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotChecked {
    /// Title of the set.
    pub set: String,
    /// Name of the rule.
    pub rule: String,
    /// `shall`, not `should`.
    pub shall: bool,
    /// The element.
    pub about: String,
    /// What would settle it.
    pub needs: String,
    /// Where the element is drawn.
    pub span: Span,
}

/// Rules by how they stand. A rule counts once: broken before not checked before passed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Hold wherever they apply.
    pub passed: usize,
    /// A `shall` does not hold somewhere.
    pub broken: usize,
    /// A `should` does not hold somewhere.
    pub advised: usize,
    /// Nothing to hold.
    pub not_applicable: usize,
    /// Not settled somewhere.
    pub not_checked: usize,
}

/// A set that a design was held to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetLine {
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// What it rests on.
    pub basis: String,
    /// What its authors warn of.
    pub caution: String,
    /// The sets that it amends, the nearest first.
    pub amends: Vec<rules::Below>,
}

/// Most findings of one stair for which a value that would pass is sought.
const MOST_REMEDIES: usize = 40;

/// Checks designs against sets, reading each set once.
pub struct Checker<'l> {
    library: &'l dyn Library,
    sets: RefCell<BTreeMap<String, Rc<Loaded>>>,
    shops: RefCell<BTreeMap<String, Rc<Opened>>>,
}

/// A shop's file that was read, with what was found in it.
struct Opened {
    shop: Shop,
    found: Vec<Diagnostic<Problem>>,
}

/// A design's place below a shop's file.
struct Below {
    opened: Rc<Opened>,
    /// Its path from there.
    design: String,
}

struct Loaded {
    set: Result<RuleSet, SetRefusal>,
    found: Vec<Diagnostic<Problem>>,
}

/// A design as it is read, before any rule is held against it.
#[derive(Debug, Clone)]
pub struct ReadDesign {
    /// The shop that it lies under, and its path from the shop's file.
    pub shop: Option<(Shop, String)>,
    /// Its stairs.
    pub stairs: Vec<Stair>,
    /// What could not be read of it, and of the shop's file.
    pub found: Vec<Diagnostic<Problem>>,
}

/// Reads a design below its shop's file.
pub fn read_design(source: &Source, library: &dyn Library) -> ReadDesign {
    let (tree, slips) = syntax::parse_design(source);
    let mut found = lift(model::problem::of_syntax_all(slips));
    let below = Checker::new(library).shop(source, &mut found);
    let shop = below.map(|below| (below.opened.shop.clone(), below.design));
    let mut slips = Vec::new();
    let stairs = model::build_below(&tree, source, shop.as_ref().map(|(shop, _)| shop), &mut slips);
    found.extend(slips.into_iter().map(Diagnostic::lift));
    ReadDesign { shop, stairs, found }
}

/// Checks one design; see [`Checker`] for many.
pub fn check(source: &Source, rules: Option<&[String]>, library: &dyn Library) -> Report {
    Checker::new(library).check(source, rules)
}

impl<'l> Checker<'l> {
    /// A checker over a library of sets.
    pub fn new(library: &'l dyn Library) -> Self {
        Self { library, sets: RefCell::default(), shops: RefCell::default() }
    }

    /// Checks one design against the sets it asks for, or against `rules` in their place.
    pub fn check(&self, source: &Source, rules: Option<&[String]>) -> Report {
        let (tree, slips) = syntax::parse_design(source);
        let mut found = lift(model::problem::of_syntax_all(slips));
        let unread = found.iter().any(|slip| slip.severity() == Severity::Unchecked);
        let below = self.shop(source, &mut found);
        let shop = below.as_ref().map(|below| &below.opened.shop);
        let mut slips = Vec::new();
        let stairs = model::build_below(&tree, source, shop, &mut slips);
        found.extend(slips.into_iter().map(Diagnostic::lift));
        let mut report = Report {
            source: source.clone(),
            findings: found.into_iter().map(Finding::Reader).collect(),
            not_checked: Vec::new(),
            tally: Tally::default(),
            customs: Vec::new(),
            sets: Vec::new(),
            from_memory: 0,
            shop: None,
        };
        if stairs.is_empty() && !unread && report.findings.is_empty() {
            report.findings.push(Finding::Reader(Diagnostic::whole(source, Problem::NoStair)));
        }
        for stair in &stairs {
            self.stair(stair, rules, below.as_ref(), &mut report);
        }
        if let Some(shop) = shop {
            let advices = stairs.iter().flat_map(|stair| stock::advices(&stair.drawn, source, shop));
            for advice in advices {
                report.add_once(advice);
            }
            let rules_asked =
                rules.is_some() || below.as_ref().is_some_and(|below| shop.rules_of(&below.design).is_empty());
            shares(shop, &stairs, rules_asked, &mut report);
        }
        report.findings.sort_by_key(|finding| (finding.place(), finding.severity()));
        report
    }

    /// The shop's file that a design lies under; what is found in it is reported with the design.
    fn shop(&self, design: &Source, found: &mut Vec<Diagnostic<Problem>>) -> Option<Below> {
        let file = match self.library.shop(&design.name) {
            Ok(file) => file?,
            Err(refused) => {
                found.push(refused.lift());
                return None;
            }
        };
        let known = self.shops.borrow().get(&*file.source.name).map(Rc::clone);
        let opened = known.unwrap_or_else(|| {
            let (tree, slips) = syntax::parse_design(&file.source);
            let mut slips = model::problem::of_syntax_all(slips);
            let shop = model::build_shop(&tree, &file.source, &mut slips);
            Rc::new(Opened { shop, found: lift(slips) })
        });
        self.shops.borrow_mut().insert(file.source.name.to_string(), Rc::clone(&opened));
        found.extend(opened.found.iter().cloned());
        Some(Below { opened, design: file.design })
    }

    /// Reads a set, or remembers it by the name its text goes by.
    fn load(&self, name: &str, asked_by: Option<&str>) -> Rc<Loaded> {
        let source = match self.library.ruleset(name, asked_by) {
            Ok(source) => source,
            Err(refusal) => return Rc::new(Loaded { set: Err(refusal), found: Vec::new() }),
        };
        if let Some(loaded) = self.sets.borrow().get(&*source.name) {
            return Rc::clone(loaded);
        }
        let mut found = Vec::new();
        let set = Ok(rules::load(&source, self.library, &mut found));
        let loaded = Rc::new(Loaded { set, found: lift(found) });
        self.sets.borrow_mut().insert(source.name.to_string(), Rc::clone(&loaded));
        loaded
    }

    fn stair(&self, stair: &Stair, rules: Option<&[String]>, below: Option<&Below>, report: &mut Report) {
        let stated = stair.drawn.stated(0, "rules").is_some();
        let asked: Vec<(String, Option<(Source, Span)>)> = match (rules, below) {
            (Some(rules), _) => rules.iter().map(|name| (name.clone(), None)).collect(),
            (None, Some(below)) if !stated => {
                let shop = &below.opened.shop;
                let rules = shop.rules_of(&below.design).iter();
                rules.map(|(name, span)| (name.clone(), Some((shop.source.clone(), *span)))).collect()
            }
            _ => stair.rules.iter().map(|(name, span)| (name.clone(), Some((report.source.clone(), *span)))).collect(),
        };
        if asked.is_empty() && !stated {
            let problem = Problem::NoRules { stair: stair.title.clone() };
            report.findings.push(Finding::Reader(Diagnostic::new(&report.source, stair.span, problem)));
        }
        let mut sets: Vec<Rc<Loaded>> = Vec::new();
        for (name, place) in asked {
            let asked_by = place.as_ref().map(|(source, _)| source.name.to_string());
            let loaded = self.load(&name, asked_by.as_deref());
            match &loaded.set {
                Ok(set) => {
                    let line = SetLine {
                        title: set.title.clone(),
                        edition: set.edition.clone(),
                        basis: set.basis.clone(),
                        caution: set.caution.clone(),
                        amends: set.takes_in.clone(),
                    };
                    if !report.sets.contains(&line) {
                        report.sets.push(line);
                        // What is only advised to the writer of a set does not touch who is held to it.
                        let found = loaded.found.iter().filter(|slip| slip.severity() != Severity::Advised);
                        report.findings.extend(found.cloned().map(Finding::Reader));
                    }
                    // A set that is asked for twice is held once.
                    if !sets.iter().any(|other| Rc::ptr_eq(other, &loaded)) {
                        sets.push(loaded);
                    }
                }
                Err(refusal) => {
                    let problem = Problem::Refused(refusal.clone());
                    report.add_once(match place {
                        Some((source, span)) => Diagnostic::new(&source, span, problem),
                        None => Diagnostic::whole(&report.source, problem),
                    });
                }
            }
        }
        let sets: Vec<&RuleSet> = sets.iter().filter_map(|loaded| loaded.set.as_ref().ok()).collect();
        let view = View {
            design: &stair.drawn,
            measured: false,
            source: &report.source.clone(),
            sets: &sets,
            unmet: OnceCell::new(),
            remedies: Cell::new(MOST_REMEDIES),
        };
        let mut standings = vec![Worst::NotApplicable; sets.iter().map(|set| set.rules.len()).sum()];
        view.hold(report, &mut standings);
        if let Some(measured) = &stair.measured {
            View {
                design: measured,
                measured: true,
                unmet: OnceCell::new(),
                remedies: Cell::new(MOST_REMEDIES),
                ..view
            }
            .hold(report, &mut standings);
        }
        for (rule, worst) in sets.iter().flat_map(|set| &set.rules).zip(standings) {
            report.tally.count(rule.shall, worst);
            report.from_memory += usize::from(rule.sure == "memory" && matches!(worst, Worst::Passed | Worst::Unmet));
        }
    }
}

impl Report {
    /// Adds what a reader found, unless the same was found before.
    fn add_once(&mut self, found: Diagnostic<Problem>) {
        let finding = Finding::Reader(found);
        if !self.findings.contains(&finding) {
            self.findings.push(finding);
        }
    }
}

/// Notes what the shop's file had a say in; its rules had none if others were asked for.
fn shares(shop: &Shop, stairs: &[Stair], rules_asked: bool, report: &mut Report) {
    let mut shares: Vec<String> = Vec::new();
    let mut add = |share: String| {
        if !shares.contains(&share) {
            shares.push(share);
        }
    };
    for stair in stairs {
        if !rules_asked && stair.drawn.stated(0, "rules").is_none() {
            add("rules".to_owned());
        }
        let stated =
            stair.drawn.elements.iter().flat_map(|element| element.stated.iter().map(move |stated| (element, stated)));
        for (element, stated) in stated {
            match stated.shop {
                Some(shop_words) if shop_words.called => {
                    add(format!("section {}", shop.source.slice(shop_words.words)))
                }
                Some(_) if element.kind.name == "timber" => {
                    add(format!("timber \"{}\"", element.name.as_deref().unwrap_or_default()));
                }
                Some(_) => add(stated.property.name.to_owned()),
                None => {}
            }
        }
    }
    if !shares.is_empty() {
        report.shop = Some((shop.source.name.to_string(), shares));
    }
}

/// How a rule stands over all elements, as drawn and as measured; the worst is the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Worst {
    NotApplicable,
    Passed,
    NotChecked,
    Unmet,
}

impl Worst {
    fn of(outcomes: &[Outcome]) -> Self {
        let each = outcomes.iter().map(|outcome| match outcome.standing {
            Standing::Pass => Worst::Passed,
            Standing::Fail(_) => Worst::Unmet,
            Standing::NotApplicable => Worst::NotApplicable,
            Standing::NotChecked(_) => Worst::NotChecked,
        });
        each.max().unwrap_or(Worst::NotApplicable)
    }
}

impl Tally {
    fn count(&mut self, shall: bool, worst: Worst) {
        *match worst {
            Worst::Unmet if shall => &mut self.broken,
            Worst::Unmet => &mut self.advised,
            Worst::NotChecked => &mut self.not_checked,
            Worst::Passed => &mut self.passed,
            Worst::NotApplicable => &mut self.not_applicable,
        } += 1;
    }
}

/// One stair as drawn, or as measured, and the sets it is held to.
pub(crate) struct View<'a> {
    pub design: &'a Design,
    pub measured: bool,
    pub source: &'a Source,
    pub sets: &'a [&'a RuleSet],
    /// The rules that do not hold, found once if a remedy asks.
    pub unmet: OnceCell<Vec<&'a rules::Rule>>,
    /// How many remedies may still be sought: the search holds whole sets again and again.
    pub remedies: Cell<usize>,
}

impl View<'_> {
    fn hold(&self, report: &mut Report, standings: &mut [Worst]) {
        let working = Working::new(self.design);
        let mut customs = Vec::new();
        let mut standings = standings.iter_mut();
        for set in self.sets {
            for rule in &set.rules {
                let (outcomes, reads) = working.trace(|| rules::hold(rule, &working));
                let unmet = telling::tell(self, set, rule, &outcomes, &working);
                if let Some(standing) = standings.next() {
                    // What the measured figures leave as drawn was counted with the drawing.
                    let worst = match (self.measured, unmet.is_empty()) {
                        (true, true) => Worst::NotApplicable,
                        (true, false) => Worst::Unmet,
                        (false, _) => Worst::of(&outcomes),
                    };
                    *standing = worst.max(*standing);
                }
                report.findings.extend(unmet.into_iter().map(|finding| Finding::Rule(Box::new(finding))));
                if self.measured {
                    continue;
                }
                customs.extend(working.customs_behind(&reads));
                for outcome in &outcomes {
                    if let Standing::NotChecked(missing) = &outcome.standing {
                        let not_checked = NotChecked {
                            set: set.title.clone(),
                            rule: rule.name.clone(),
                            shall: rule.shall,
                            about: self.design.called(outcome.element),
                            needs: missing.needs.clone(),
                            span: self.design.get(outcome.element).map(|element| element.span).unwrap_or_default(),
                        };
                        let same = |earlier: &NotChecked| {
                            earlier.rule == not_checked.rule
                                && earlier.set == not_checked.set
                                && earlier.needs == not_checked.needs
                        };
                        if !report.not_checked.iter().any(same) {
                            report.not_checked.push(not_checked);
                        }
                    }
                }
            }
        }
        for custom in customs {
            if !report.customs.iter().any(|told| told == custom.sentence) {
                report.customs.push(custom.sentence.to_owned());
            }
        }
    }
}
