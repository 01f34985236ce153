//! The whole path for one text: read, build, derive, hold, report. Pure: texts in, values out.

#[cfg(feature = "cli")]
mod change;
mod finding;
mod fix;
mod group;
mod loaded;
pub mod problem;
mod rule_finding;
mod shipped;
mod stock;
mod view;

use std::cell::{Cell, OnceCell};
use std::sync::Arc;

use crate::base::{Diagnostic, Severity, Source, Span, lift};
use crate::derive::{Need, Working};
use crate::model::{self, Shop, Stair, kinds, properties};
use crate::rules::{self, FileProblem, Outcome, RuleSet, Standing};
use crate::syntax::{self, Tree};
#[cfg(feature = "internals")]
pub use change::Change;
#[cfg(feature = "cli")]
pub use change::{Changes, Held, changes};
pub use finding::Finding;
pub use fix::{Drawn, Edit, Fix, Offer};
pub use loaded::{LoadedSet, LoadedShop, RuleRef, Sets, ShopAbove};
pub use problem::Problem;
pub use rule_finding::{HowMany, Place, Role, RuleFinding};
pub use shipped::{BUILT_IN, nearest_shipped, shipped};
use view::CheckedView;
pub use view::View;

/// What one design came to.
#[derive(Debug, Clone)]
#[non_exhaustive]
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
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
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
    pub needs: Need,
    /// Where the element is drawn.
    pub span: Span,
}

/// Rules by how they stand. A rule counts once: broken before not checked before passed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
#[non_exhaustive]
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
#[non_exhaustive]
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
const MOST_SEARCHES: usize = 40;

/// What a text draws and states.
#[derive(Debug)]
#[non_exhaustive]
pub struct Drawing {
    /// The design's text.
    pub source: Source,
    /// Its syntax tree.
    pub tree: Tree,
    /// The stairs drawn.
    pub stairs: Vec<Stair>,
    /// The shop that it lies under.
    pub shop: Option<ShopAbove>,
    /// What could not be read, of the design and of its shop's file.
    pub diagnostics: Vec<Diagnostic<Problem>>,
}

/// What a design is, and what it came to against its rulesets.
#[derive(Debug)]
#[non_exhaustive]
pub struct Analysis {
    /// The design's syntax tree.
    pub tree: Tree,
    /// The stairs drawn.
    pub stairs: Vec<Stair>,
    /// The shop that it lies under.
    pub shop: Option<ShopAbove>,
    /// The sets that it was checked against.
    pub sets: Vec<Arc<LoadedSet>>,
    /// What it came to.
    pub report: Report,
}

/// Reads what a text draws and states, below a shop's file or the reason why that cannot be read.
pub fn draw(source: &Source, shop: Result<Option<ShopAbove>, Box<Diagnostic<FileProblem>>>) -> Drawing {
    let (tree, slips) = syntax::parse_design(source);
    let mut diagnostics = lift(lift::<_, model::Problem>(slips));
    let shop = shop.unwrap_or_else(|refused| {
        diagnostics.push(refused.lift());
        None
    });
    diagnostics.extend(shop.iter().flat_map(|shop| lift(shop.opened.diagnostics.clone())));
    let mut slips = Vec::new();
    let stairs = model::build_below(&tree, source, shop.as_ref().map(ShopAbove::shop), &mut slips);
    diagnostics.extend(lift(slips));
    Drawing { source: source.clone(), tree, stairs, shop, diagnostics }
}

/// Checks what is drawn against the sets that it asks for, or against `rules` in their place.
pub fn check(drawing: Drawing, rules: Option<&[String]>, sets: &dyn Sets) -> Analysis {
    let Drawing { source, tree, stairs, shop, diagnostics } = drawing;
    let nothing_drawn = stairs.is_empty() && diagnostics.is_empty();
    let mut report = Report {
        source,
        findings: diagnostics.into_iter().map(Finding::from).collect(),
        not_checked: Vec::new(),
        tally: Tally::default(),
        customs: Vec::new(),
        sets: Vec::new(),
        from_memory: 0,
        shop: None,
    };
    if nothing_drawn {
        report.findings.push(Diagnostic::whole(&report.source, Problem::NoStair).into());
    }
    let mut checking = Checking { sets, rules, shop: shop.as_ref(), report, loaded: Vec::new() };
    for stair in &stairs {
        checking.stair(stair);
    }
    let Checking { mut report, loaded, .. } = checking;
    if let Some(above) = &shop {
        let shop = above.shop();
        let source = report.source.clone();
        for advice in stairs.iter().flat_map(|stair| stock::advices(&stair.drawn, &source, shop)) {
            report.add_once(advice);
        }
        let rules_asked = rules.is_some() || shop.rules_of(&above.design).is_empty();
        shares(shop, &stairs, rules_asked, &mut report);
    }
    report.findings.sort_by_key(|finding| (finding.place(), finding.severity()));
    Analysis { tree, stairs, shop, sets: loaded, report }
}

/// One check under way.
struct Checking<'a> {
    sets: &'a dyn Sets,
    rules: Option<&'a [String]>,
    shop: Option<&'a ShopAbove>,
    report: Report,
    /// Every set that was asked for, once.
    loaded: Vec<Arc<LoadedSet>>,
}

/// A set that is asked for, and the words that ask for it.
type AskedSet = (String, Option<(Source, Span)>);

impl Checking<'_> {
    /// The sets that a stair is to be checked against.
    fn asked(&self, stair: &Stair) -> Vec<AskedSet> {
        let stated = stair.drawn.stated(0, properties::RULES).is_some();
        let named = |rules: &[(String, Span)], by: &Source| {
            rules.iter().map(|(name, span)| (name.clone(), Some((by.clone(), *span)))).collect()
        };
        match (self.rules, self.shop) {
            (Some(rules), _) => rules.iter().map(|name| (name.clone(), None)).collect(),
            (None, Some(above)) if !stated => named(above.shop().rules_of(&above.design), &above.shop().source),
            _ => named(&stair.rules, &self.report.source),
        }
    }

    fn stair(&mut self, stair: &Stair) {
        let asked = self.asked(stair);
        let report = &mut self.report;
        if asked.is_empty() && stair.drawn.stated(0, properties::RULES).is_none() {
            let problem = Problem::NoRules { stair: stair.title.clone() };
            report.findings.push(Diagnostic::new(&report.source, stair.span, problem).into());
        }
        let mut sets: Vec<Arc<LoadedSet>> = Vec::new();
        for (name, place) in asked {
            match self.sets.set(&name, place.as_ref().map(|(source, _)| source)) {
                Ok(loaded) => {
                    if !self.loaded.iter().any(|known| Arc::ptr_eq(known, &loaded)) {
                        report.sets.push(SetLine::of(&loaded.set));
                        // What is only advised to the writer of a set does not touch who is held to it.
                        let slips = loaded.diagnostics.iter().filter(|slip| slip.severity() != Severity::Advised);
                        report.findings.extend(slips.map(|slip| slip.clone().lift().into()));
                        self.loaded.push(Arc::clone(&loaded));
                    }
                    // A set that is asked for twice is held once.
                    if !sets.iter().any(|other| Arc::ptr_eq(other, &loaded)) {
                        sets.push(loaded);
                    }
                }
                Err(refusal) => {
                    let problem = Problem::Refused(refusal);
                    report.add_once(match place {
                        Some((source, span)) => Diagnostic::new(&source, span, problem),
                        None => Diagnostic::whole(&report.source, problem),
                    });
                }
            }
        }
        let mut standings = vec![Worst::NotApplicable; sets.iter().map(|loaded| loaded.set.rules.len()).sum()];
        let views = [(View::Drawn, Some(&stair.drawn)), (View::Measured, stair.measured.as_ref())];
        for (view, design) in views {
            let Some(design) = design else { continue };
            let source = report.source.clone();
            let searches = Cell::new(MOST_SEARCHES);
            CheckedView { design: Arc::clone(design), view, source, sets: &sets, unmet: OnceCell::new(), searches }
                .check(report, &mut standings);
        }
        for (rule, worst) in sets.iter().flat_map(|loaded| &loaded.set.rules).zip(standings) {
            report.tally.count(rule.shall, worst);
            report.from_memory += usize::from(rule.sure == "memory" && matches!(worst, Worst::Passed | Worst::Unmet));
        }
    }
}

impl SetLine {
    fn of(set: &RuleSet) -> Self {
        Self {
            title: set.title.clone(),
            edition: set.edition.clone(),
            basis: set.basis.clone(),
            caution: set.caution.clone(),
            amends: set.takes_in.clone(),
        }
    }
}

impl Report {
    /// Adds what a reader found, unless the same was found before.
    fn add_once(&mut self, found: Diagnostic<Problem>) {
        let finding = found.into();
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
        if !rules_asked && stair.drawn.stated(0, properties::RULES).is_none() {
            add("rules".to_owned());
        }
        let stated =
            stair.drawn.elements.iter().flat_map(|element| element.stated.iter().map(move |stated| (element, stated)));
        for (element, stated) in stated {
            match stated.shop {
                Some(shop_words) if shop_words.called => {
                    add(format!("section {}", shop.source.slice(shop_words.words)))
                }
                Some(_) if element.kind == kinds::TIMBER => {
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

impl std::ops::AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.broken += other.broken;
        self.advised += other.advised;
        self.not_applicable += other.not_applicable;
        self.not_checked += other.not_checked;
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

impl CheckedView<'_> {
    fn check(&self, report: &mut Report, standings: &mut [Worst]) {
        let working = Working::new(&self.design);
        let mut customs = Vec::new();
        let mut standings = standings.iter_mut();
        for loaded in self.sets {
            let set = &loaded.set;
            for rule in &set.rules {
                let (outcomes, reads) = working.trace(|| rules::hold(rule, &working));
                let found = group::findings(self, &RuleRef::new(loaded, rule), &outcomes, &working);
                if let Some(standing) = standings.next() {
                    // What the measured figures leave as drawn was counted with the drawing.
                    let worst = match (self.view == View::Measured, found.is_empty()) {
                        (true, true) => Worst::NotApplicable,
                        (true, false) => Worst::Unmet,
                        (false, _) => Worst::of(&outcomes),
                    };
                    *standing = worst.max(*standing);
                }
                report.findings.extend(found.into_iter().map(|finding| Finding::Rule(Box::new(finding))));
                if self.view == View::Measured {
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
                            needs: Need::of(&self.design, missing),
                            span: self.design.get(outcome.element).map(|element| element.span).unwrap_or_default(),
                        };
                        let same = |earlier: &NotChecked| {
                            earlier.rule == not_checked.rule
                                && earlier.set == not_checked.set
                                && earlier.needs.settled_with(&not_checked.needs)
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
