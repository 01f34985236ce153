//! The whole path for one text: read, build, derive, hold, report. Pure: texts in, values out.

#[cfg(feature = "cli")]
mod change;
mod excused;
mod finding;
mod fix;
mod group;
mod loaded;
mod needs;
mod outcome;
pub mod problem;
mod purpose;
mod rule_finding;
mod shipped;
mod standing;
mod stock;
mod view;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::base::{Diagnostic, Severity, Source, Span, lift};
use crate::derive::{CustomId, Missing, Need};
use crate::model::{self, Id, PropertyName, Shop, Stair, kinds, properties};
use crate::rules::{self, FileProblem, Rule, RuleSet, Verdict};
use crate::syntax::{self, Tree};
#[cfg(feature = "internals")]
pub use change::Change;
#[cfg(feature = "cli")]
pub use change::{Changes, changes};
pub use excused::Excused;
pub use finding::Finding;
use fix::Redraw;
pub use fix::{Drawn, Edit, Fix, Offer};
pub use loaded::{LoadedSet, LoadedShop, RuleRef, Sets, ShopAbove};
pub use needs::NeedsOfOne;
pub use outcome::{Comparison, Grounds, RuleOutcome, Settled};
pub use problem::Problem;
pub use rule_finding::{HowMany, Place, Role, RuleFinding};
#[cfg(feature = "internals")]
pub use shipped::FOR;
pub use shipped::{BUILT_IN, held_always, nearest_shipped, shipped};
pub use standing::Standing;
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
    /// Words of the design that took rules out, and nothing else of the drawing bears out.
    pub excused: Vec<Excused>,
    /// The sets it was held to.
    pub sets: Vec<SetLine>,
    /// Rules that passed or are not met, on figures that their set has from memory.
    pub from_memory: usize,
    /// The same of figures that were seen second hand.
    pub second_hand: usize,
    /// The shops' files that had a say, and in what; the outermost first.
    pub shops: Vec<(String, Vec<FromShop>)>,
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

/// Something of a design that its shop's file states.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FromShop {
    /// The sets that it is checked against.
    Rules,
    /// A section, by its name there.
    Section(String),
    /// A timber, by its name there.
    Timber(String),
    /// A property of the stair.
    Property(PropertyName),
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
    /// Those that each stair was checked against, in the order of the stairs.
    pub stair_sets: Vec<Vec<Arc<LoadedSet>>>,
    /// What it came to.
    pub report: Report,
}

/// Reads what a text draws and states, below the shops' files over it, the nearest first, or the reason why one of them
/// cannot be read.
pub fn draw(source: &Source, shops: Vec<Result<ShopAbove, Box<Diagnostic<FileProblem>>>>) -> Drawing {
    let (tree, slips) = syntax::parse_design(source);
    let mut diagnostics = lift(lift::<_, model::Problem>(slips));
    let mut shops = shops.into_iter().filter_map(|shop| shop.map_err(|refused| diagnostics.push(refused.lift())).ok());
    let mut shop = shops.next();
    let beyond: Vec<_> = shops.collect();
    if let Some(nearest) = &mut shop {
        nearest.beyond = beyond;
    }
    let all = shop.iter().flat_map(|shop| std::iter::once(shop).chain(&shop.beyond));
    diagnostics.extend(all.flat_map(|shop| lift(shop.opened.diagnostics.clone())));
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
        excused: Vec::new(),
        sets: Vec::new(),
        from_memory: 0,
        second_hand: 0,
        shops: Vec::new(),
    };
    if nothing_drawn {
        report.findings.push(Diagnostic::whole(&report.source, Problem::NoStair).into());
    }
    let waiting = Waiting::default();
    let mut checking = Checking { sets, rules, tree: &tree, shop: shop.as_ref(), report, loaded: Vec::new(), waiting };
    let stair_sets = stairs.iter().enumerate().map(|(at, stair)| checking.stair(at, stair)).collect();
    let Checking { mut report, loaded, .. } = checking;
    if let Some(above) = &shop {
        let shop = above.shop();
        let source = report.source.clone();
        for advice in stairs.iter().flat_map(|stair| stock::advices(&stair.drawn, &source, shop)) {
            report.add_once(advice);
        }
        shares(above, &stairs, rules, &mut report);
    }
    report.findings.sort_by_key(|finding| (finding.place(), finding.severity()));
    Analysis { tree, stairs, shop, sets: loaded, stair_sets, report }
}

/// One check under way.
struct Checking<'a> {
    sets: &'a dyn Sets,
    rules: Option<&'a [String]>,
    tree: &'a Tree,
    shop: Option<&'a ShopAbove>,
    report: Report,
    /// Every set that was asked for, once.
    loaded: Vec<Arc<LoadedSet>>,
    waiting: Waiting,
}

/// The rules that are not checked so far, by title of the set and name, with the places of their needs in the report.
type Waiting = BTreeMap<(String, String), NeedsOfOne>;

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
            (None, Some(above)) if !stated => {
                let rules = above.rules().into_iter();
                rules.map(|(name, by, span)| (name.to_owned(), Some((by.clone(), span)))).collect()
            }
            _ => named(&stair.rules, &self.report.source),
        }
    }

    /// Checks a stair; gives back the sets that it was checked against.
    fn stair(&mut self, at: usize, stair: &Stair) -> Vec<Arc<LoadedSet>> {
        let asked = self.asked(stair);
        let report = &mut self.report;
        // That a stair asks for rules in words that were not understood was reported.
        let understood = !asked.is_empty() || stair.drawn.stated(0, properties::RULES).is_none();
        let always = held_always();
        let (mut sets, mut refused): (Vec<Arc<LoadedSet>>, bool) = (vec![Arc::clone(&always)], false);
        if self.loaded.is_empty() {
            self.loaded.push(always);
        }
        for (name, place) in asked {
            match self.sets.set(&name, place.as_ref().map(|(source, _)| source)) {
                // It is held already.
                Ok(loaded) if loaded.set.is_drawing() => {}
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
                    refused = true;
                    let problem = Problem::Refused(refusal);
                    report.add_once(match place {
                        Some((source, span)) => Diagnostic::new(&source, span, problem),
                        None => Diagnostic::whole(&report.source, problem),
                    });
                }
            }
        }
        // The drawing's own rules are held always: to ask for them alone is to ask for none.
        if sets.len() == 1 && !refused && understood {
            let problem = Problem::NoRules { stair: stair.title.clone(), fits: purpose::fits(stair) };
            report.findings.push(Diagnostic::new(&report.source, stair.span, problem).into());
        }
        // What a set is for that cannot be had is not known.
        let asked_for = sets.get(1..).filter(|_| !refused).unwrap_or_default();
        for notice in purpose::notices(stair, &report.source, asked_for) {
            report.add_once(notice);
        }
        let mut standings = vec![Standing::NotApplicable; sets.iter().map(|loaded| loaded.set.rules.len()).sum()];
        let redraw = Redraw { tree: self.tree, shop: self.shop.map(ShopAbove::shop), stair: at };
        let drawn = CheckedView::new(&stair.drawn, View::Drawn, report.source.clone(), &sets).with_redraw(redraw);
        drawn.check(None, report, &mut self.waiting, &mut standings);
        report.excused.extend(excused::excused(&drawn));
        if let Some(design) = &stair.measured {
            let measured = CheckedView::measured(design, &drawn).with_redraw(redraw);
            measured.check(Some(&drawn), report, &mut self.waiting, &mut standings);
        }
        for (rule, standing) in sets.iter().flat_map(|loaded| &loaded.set.rules).zip(standings) {
            report.tally.count(standing);
            let settled = standing == Standing::Passes || standing.fails();
            match rules::Sure::of(&rule.sure).filter(|_| settled) {
                Some(rules::Sure::Memory) => report.from_memory += 1,
                Some(rules::Sure::SecondHand) => report.second_hand += 1,
                Some(rules::Sure::Seen) | None => {}
            }
        }
        sets
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

/// Notes what the shops' files had a say in; their rules had none if others were asked for.
fn shares(above: &ShopAbove, stairs: &[Stair], rules_asked: Option<&[String]>, report: &mut Report) {
    let unasked = stairs.iter().any(|stair| stair.drawn.stated(0, properties::RULES).is_none());
    let rules = |above: &ShopAbove| {
        let states = !above.shop().rules_of(&above.design).is_empty();
        (rules_asked.is_none() && unasked && states).then_some(FromShop::Rules)
    };
    let beyond = above.beyond.iter().rev().filter_map(|beyond| Some((beyond, vec![rules(beyond)?])));
    report.shops = beyond.map(|(beyond, shares)| (beyond.shop().source.name.to_string(), shares)).collect();
    let shares = shares_of_nearest(above.shop(), stairs, rules(above));
    if !shares.is_empty() {
        report.shops.push((above.shop().source.name.to_string(), shares));
    }
}

/// What the nearest shop's file had a say in.
fn shares_of_nearest(shop: &Shop, stairs: &[Stair], rules: Option<FromShop>) -> Vec<FromShop> {
    let mut shares: Vec<FromShop> = rules.into_iter().collect();
    let mut add = |share: FromShop| {
        if !shares.contains(&share) {
            shares.push(share);
        }
    };
    for stair in stairs {
        let stated =
            stair.drawn.elements.iter().flat_map(|element| element.stated.iter().map(move |stated| (element, stated)));
        for (element, stated) in stated {
            match stated.shop {
                Some(shop_words) if shop_words.called => {
                    add(FromShop::Section(shop.source.slice(shop_words.words).to_owned()));
                }
                Some(_) if element.kind == kinds::TIMBER => {
                    add(FromShop::Timber(element.name.clone().unwrap_or_default()));
                }
                Some(_) => add(FromShop::Property(stated.property.handle())),
                None => {}
            }
        }
    }
    shares
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
    fn count(&mut self, standing: Standing) {
        *match standing {
            Standing::Broken => &mut self.broken,
            Standing::Advised => &mut self.advised,
            Standing::NotChecked => &mut self.not_checked,
            Standing::Passes => &mut self.passed,
            Standing::NotApplicable => &mut self.not_applicable,
            #[cfg(feature = "cli")]
            Standing::Absent => &mut self.not_applicable,
        } += 1;
    }
}

impl CheckedView<'_> {
    /// Checks every rule, and takes each into how it stands so far. What rests on nothing measured is as it is for the
    /// drawing, where it was told.
    fn check(
        &self,
        drawn: Option<&CheckedView<'_>>,
        report: &mut Report,
        waiting: &mut Waiting,
        standings: &mut [Standing],
    ) {
        let mut customs = Vec::new();
        let rules = || self.sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (loaded, rule)));
        // Every rule before the first finding: a search for a fix asks which of the others it breaks.
        let evaluate = |rule: &Rule| self.plain.looking(|| self.plain.trace(|| self.plainly(rule)));
        let as_drawn =
            |at: usize| drawn.and_then(|drawn| drawn.looked_up_by(at)).filter(|names| !self.plain.may_change(*names));
        let outcome = |(at, (_, rule)): (usize, (_, &Arc<Rule>))| match as_drawn(at) {
            Some(names) => (Default::default(), names),
            None => evaluate(rule),
        };
        let (outcomes, looked_up): (Vec<_>, Vec<_>) = rules().enumerate().map(outcome).unzip();
        let fails = |at: usize, loaded: &Arc<LoadedSet>, rule: &Arc<Rule>, standing: Standing| {
            let earlier = || drawn.is_some_and(|drawn| drawn.unmet.borrow().contains(&RuleRef::new(loaded, rule)));
            standing.fails() || as_drawn(at).is_some() && earlier()
        };
        let all = rules().zip(&outcomes).enumerate();
        let unmet = all.filter(|(at, ((loaded, rule), ((standing, _), _)))| fails(*at, loaded, rule, *standing));
        self.unmet.replace(unmet.map(|(_, ((loaded, rule), _))| RuleRef::new(loaded, rule)).collect());
        self.looked_up.replace(looked_up);
        for (((loaded, rule), ((standing, unknown), reads)), so_far) in rules().zip(outcomes).zip(standings) {
            let found = match standing.fails() {
                true => group::findings(self, &RuleRef::new(loaded, rule)),
                false => Vec::new(),
            };
            // What the measured figures leave as drawn was counted with the drawing.
            let drawn_already = self.view == View::Measured && found.is_empty();
            *so_far = (*so_far).max(if drawn_already { Standing::NotApplicable } else { standing });
            report.findings.extend(found.into_iter().map(|finding| Finding::Rule(Box::new(finding))));
            if self.view == View::Measured {
                continue;
            }
            customs.extend(reads.behind.customs());
            if !unknown.is_empty() {
                let waiting = waiting.entry((loaded.set.title.clone(), rule.name.clone())).or_default();
                for (element, missing) in unknown {
                    self.not_checked(report, waiting, (&loaded.set, rule), element, &missing);
                }
            }
        }
        for custom in customs.into_iter().filter_map(CustomId::custom) {
            if !report.customs.iter().any(|known| known == custom.sentence) {
                report.customs.push(custom.sentence.to_owned());
            }
        }
    }

    /// How a rule stands, and what is missing where it is not known, each once.
    fn plainly(&self, rule: &Rule) -> (Standing, Vec<(Id, Missing)>) {
        let (mut standing, mut unknown) = (Standing::NotApplicable, Vec::new());
        for (element, verdict) in rules::verdicts(rule, &self.plain) {
            standing = standing.max(Standing::of_verdict(&verdict, rule.shall));
            if let Verdict::NotChecked(missing) = verdict
                && !unknown.iter().any(|(_, known)| *known == missing)
            {
                unknown.push((element, missing));
            }
        }
        (standing, unknown)
    }

    fn not_checked(
        &self,
        report: &mut Report,
        waiting: &mut NeedsOfOne,
        (set, rule): (&RuleSet, &Rule),
        element: Id,
        missing: &Missing,
    ) {
        let needs = Need::of(self.design, missing);
        let known = |at: usize| report.not_checked.get(at).map(|earlier| &earlier.needs);
        if waiting.settled_with(&needs, known).is_some() {
            return;
        }
        waiting.add(&needs, report.not_checked.len());
        report.not_checked.push(NotChecked {
            set: set.title.clone(),
            rule: rule.name.clone(),
            shall: rule.shall,
            about: self.design.called(element),
            needs,
            span: self.design.get(element).map(|element| element.span).unwrap_or_default(),
        });
    }
}
