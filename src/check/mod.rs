//! The whole path for one text: read, build, derive, hold, report. Pure: texts in, values out.

mod cause;
#[cfg(feature = "cli")]
mod change;
mod excused;
mod finding;
mod fix;
mod group;
#[cfg(feature = "cli")]
mod known;
mod loaded;
mod mend;
mod needs;
mod outcome;
pub mod problem;
mod purpose;
mod rule_finding;
mod shipped;
mod standing;
mod stock;
mod view;
mod waived;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::base::{Day, Diagnostic, Source, Span, lift};
use crate::derive::{CustomId, Missing, Need};
use crate::model::{self, Id, PropertyName, Shop, Stair, Waiver, kinds, properties};
use crate::rules::{self, FileProblem, Rule, RuleSet, Verdict};
use crate::syntax::{self, Tree};
use cause::OfOneCause;
pub use cause::{Cause, Group};
#[cfg(feature = "internals")]
pub use change::Change;
#[cfg(feature = "cli")]
pub use change::{Changes, changes};
pub use excused::Excused;
pub use finding::Finding;
use fix::Redraw;
pub use fix::{Drawn, Edit, Fix, Offer};
#[cfg(feature = "cli")]
pub use known::Fault;
pub use loaded::{LoadedSet, LoadedShop, RuleRef, Sets, ShopAbove};
pub use mend::Mend;
pub use needs::NeedsOfOne;
pub use outcome::{Comparison, Grounds, RuleOutcome, Settled};
pub use problem::{Problem, WaiverProblem};
pub use rule_finding::{HowMany, Place, Role, RuleFinding};
#[cfg(feature = "internals")]
pub use shipped::FOR;
pub use shipped::{BUILT_IN, borrowed_titles, held_always, nearest_shipped, shipped};
pub use standing::Standing;
use view::CheckedView;
pub use view::View;
use waived::Waivers;
#[cfg(feature = "cli")]
pub use waived::waivers_of;

/// What one design came to.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Report {
    /// The design's text.
    pub source: Source,
    /// What could not be read, is broken or advised: the gravest first, then in the order of the places, and those of one
    /// cause together.
    pub findings: Vec<Finding>,
    /// The findings by their causes, in the same order; each finding is in one of them.
    pub groups: Vec<Group>,
    /// Rules that could not be settled.
    pub not_checked: Vec<NotChecked>,
    /// How the rules stand.
    pub tally: Tally,
    /// Every rule that applies to a stair, and how it stands there; their counts are those of the tally.
    pub standings: Vec<RuleStanding>,
    /// Customs that stood in for what is not stated.
    pub customs: Vec<String>,
    /// Words of the design that took rules out, and nothing else of the drawing bears out.
    pub excused: Vec<Excused>,
    /// How many more such words there are that were not tried without.
    pub untried: usize,
    /// The sets it was held to.
    pub sets: Vec<SetLine>,
    /// Rules that passed or are not met, on figures that their set has from memory.
    pub from_memory: usize,
    /// The same of figures that were seen second hand.
    pub second_hand: usize,
    /// The shops' files that had a say, and in what; the outermost first.
    pub shops: Vec<(String, Vec<FromShop>)>,
}

/// How a rule stands over all things of one stair.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RuleStanding {
    /// The stair, by its place among those drawn.
    pub stair: usize,
    /// The rule, and the set that was asked for.
    pub rule: RuleRef,
    /// How it stands.
    pub standing: Standing,
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
    /// The waiver that excuses it: it is told, and fails nothing.
    pub waived: Option<Arc<Waiver>>,
    /// A baseline knows it: it is told, and fails nothing.
    pub known: bool,
}

impl NotChecked {
    /// Whether a waiver excuses it, or a baseline knows it.
    pub fn is_excused(&self) -> bool {
        self.known || self.waived.is_some()
    }
}

/// Something of a design that its shop's file states.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FromShop {
    /// Sets that it is checked against, by their names there.
    Rules(Vec<String>),
    /// A section, by its name there.
    Section(String),
    /// A timber, by its name there.
    Timber(String),
    /// A property of the stair.
    Property(PropertyName),
}

/// Rules by how they stand. A rule counts once: broken before not checked before waived before passed.
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
    /// Does not hold somewhere, or is not settled, and is excused wherever that is so.
    pub waived: usize,
    /// Does not hold somewhere, and a baseline knows of every such place.
    pub known: usize,
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
    /// Its file; nothing for a shipped set.
    pub file: Option<String>,
    /// The sets that it amends, the nearest first, each with its file.
    pub amends: Vec<(rules::Below, Option<String>)>,
    /// What it lets pass that those do not.
    pub departs: rules::Departures,
    /// The stairs that were held to it, by title, where others of the text were not.
    pub only: Vec<String>,
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
    /// The day on which it was checked, where that is known.
    pub on: Option<Day>,
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

/// Checks what is drawn against the sets that it asks for, or against `rules` in their place. On a day, for what holds
/// until one; where none is given, nothing that has an end holds.
pub fn check(drawing: Drawing, rules: Option<&[String]>, on: Option<Day>, sets: &dyn Sets) -> Analysis {
    let Drawing { source, tree, stairs, shop, diagnostics } = drawing;
    let nothing_drawn = stairs.is_empty() && diagnostics.is_empty();
    let mut report = Report {
        source,
        findings: diagnostics.into_iter().map(Finding::from).collect(),
        groups: Vec::new(),
        not_checked: Vec::new(),
        tally: Tally::default(),
        standings: Vec::new(),
        customs: Vec::new(),
        excused: Vec::new(),
        untried: 0,
        sets: Vec::new(),
        from_memory: 0,
        second_hand: 0,
        shops: Vec::new(),
    };
    if nothing_drawn {
        report.findings.push(Diagnostic::whole(&report.source, Problem::NoStair).into());
    }
    let waiting = Waiting::default();
    let slips = report.findings.iter().filter(|found| found.source().name == report.source.name).count();
    let (shop_above, loaded, grouped) = (shop.as_ref(), Vec::new(), Vec::new());
    let mut checking =
        Checking { sets, rules, on, tree: &tree, shop: shop_above, report, slips, grouped, loaded, waiting };
    let stair_sets: Vec<_> = stairs.iter().enumerate().map(|(at, stair)| checking.stair(at, stair)).collect();
    let Checking { mut report, grouped, loaded, .. } = checking;
    // The set that is held always has no line.
    for (line, set) in report.sets.iter_mut().zip(loaded.iter().skip(1)) {
        let holds = |sets: &Vec<Arc<LoadedSet>>| sets.iter().any(|held| Arc::ptr_eq(held, set));
        if !stair_sets.iter().all(holds) {
            let held = stairs.iter().zip(&stair_sets).filter(|(_, sets)| holds(sets));
            line.only = held.map(|(stair, _)| stair.title.clone()).collect();
        }
    }
    if let Some(above) = &shop {
        let shop = above.shop();
        let source = report.source.clone();
        for advice in stairs.iter().flat_map(|stair| stock::advices(&stair.drawn, &source, shop)) {
            report.add_once(advice);
        }
        shares(above, &stairs, rules, &mut report);
    }
    (report.findings, report.groups) = cause::in_order(std::mem::take(&mut report.findings), grouped);
    Analysis { tree, stairs, shop, sets: loaded, stair_sets, on, report }
}

/// The sets that a stair is to be checked against, where nobody else says which, with the texts and the words that ask for
/// them: those of the shops' files first, the outermost foremost, to which a design's own are only added.
pub fn asked_for<'a>(
    stair: &'a Stair,
    design: &'a Source,
    shop: Option<&'a ShopAbove>,
) -> Vec<(&'a str, &'a Source, Span)> {
    let own = stair.rules.iter().map(|(name, span)| (&**name, design, *span));
    shop.map(ShopAbove::rules).unwrap_or_default().into_iter().chain(own).collect()
}

/// One check under way.
struct Checking<'a> {
    sets: &'a dyn Sets,
    rules: Option<&'a [String]>,
    /// The day of the check, where that is known.
    on: Option<Day>,
    tree: &'a Tree,
    shop: Option<&'a ShopAbove>,
    /// What comes of it; its findings are those of the readers so far.
    report: Report,
    /// How many of them are slips of the design's text.
    slips: usize,
    /// The findings of rules.
    grouped: Vec<OfOneCause>,
    /// Every set that was asked for, once.
    loaded: Vec<Arc<LoadedSet>>,
    waiting: Waiting,
}

/// The rules that are not checked so far, by title of the set and name and by whether that is excused, with the places
/// of their needs in the report.
type Waiting = BTreeMap<(String, String, bool), NeedsOfOne>;

/// A set that is asked for, and the words that ask for it.
type AskedSet = (String, Option<(Source, Span)>);

impl Checking<'_> {
    /// The sets that a stair is to be checked against.
    fn asked(&self, stair: &Stair) -> Vec<AskedSet> {
        if let Some(rules) = self.rules {
            return rules.iter().map(|name| (name.clone(), None)).collect();
        }
        let asked = asked_for(stair, &self.report.source, self.shop).into_iter();
        asked.map(|(name, by, span)| (name.to_owned(), Some((by.clone(), span)))).collect()
    }

    /// Checks a stair; gives back the sets that it was checked against.
    fn stair(&mut self, at: usize, stair: &Stair) -> Vec<Arc<LoadedSet>> {
        if self.sets.is_given_up() {
            return Vec::new();
        }
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
                        let slips = loaded.diagnostics.iter().filter(|slip| slip.problem.concerns_designs());
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
        let waivers = Waivers::of(&stair.drawn, self.on);
        let redraw = Redraw { tree: self.tree, shop: self.shop.map(ShopAbove::shop), stair: at, slips: self.slips };
        let drawn = CheckedView::new(&stair.drawn, View::Drawn, report.source.clone(), &sets);
        let held = self.sets;
        let given_up = || held.is_given_up();
        let drawn = drawn.with_redraw(redraw).with_waivers(&waivers).until(&given_up);
        self.grouped.extend(drawn.check(None, report, &mut self.waiting, &mut standings));
        let (excused, untried) = excused::excused(&drawn);
        report.excused.extend(excused);
        report.untried += untried;
        if let Some(design) = &stair.measured {
            let measured = CheckedView::measured(design, &drawn).with_redraw(redraw).with_waivers(&waivers);
            let measured = measured.until(&given_up);
            self.grouped.extend(measured.check(Some(&drawn), report, &mut self.waiting, &mut standings));
        }
        // A waiver may speak of a rule of the sets that the design asks for, where others were asked for in their place.
        let all_known = self.rules.is_none() && !refused && understood;
        for problem in waivers.problems(&report.source, &sets, all_known) {
            report.add_once(problem);
        }
        let rules = sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (loaded, rule)));
        for ((loaded, rule), standing) in rules.zip(standings) {
            report.tally.count(standing);
            if standing != Standing::NotApplicable {
                let rule = RuleRef::new(loaded, rule);
                report.standings.push(RuleStanding { stair: at, rule, standing });
            }
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

/// The name of a set's file, unless it is a shipped one.
fn file_of(text: &Option<Source>) -> Option<String> {
    text.as_ref().filter(|text| !shipped::is_shipped(text)).map(|text| text.name.to_string())
}

impl SetLine {
    fn of(set: &RuleSet) -> Self {
        Self {
            title: set.title.clone(),
            edition: set.edition.clone(),
            basis: set.basis.clone(),
            caution: set.caution.clone(),
            file: file_of(&set.text),
            amends: set.takes_in.iter().map(|below| (below.clone(), file_of(&below.text))).collect(),
            departs: set.departures(),
            only: Vec::new(),
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
    let rules = |above: &ShopAbove| {
        let names: Vec<String> = above.shop().rules_of(&above.design).iter().map(|(name, _)| name.clone()).collect();
        (rules_asked.is_none() && !stairs.is_empty() && !names.is_empty()).then_some(FromShop::Rules(names))
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
        self.waived += other.waived;
        self.known += other.known;
    }
}

impl Tally {
    /// Counts one more rule.
    pub(crate) fn count(&mut self, standing: Standing) {
        *self.counted(standing) += 1;
    }

    /// How many rules stand so.
    fn counted(&mut self, standing: Standing) -> &mut usize {
        match standing {
            Standing::Broken => &mut self.broken,
            Standing::Advised => &mut self.advised,
            Standing::NotChecked => &mut self.not_checked,
            Standing::Waived => &mut self.waived,
            #[cfg(feature = "cli")]
            Standing::Known => &mut self.known,
            Standing::Passes => &mut self.passed,
            Standing::NotApplicable => &mut self.not_applicable,
            #[cfg(feature = "cli")]
            Standing::Absent => &mut self.not_applicable,
        }
    }
}

impl CheckedView<'_> {
    /// Checks every rule, and takes each into how it stands so far; gives back what is not met. What rests on nothing
    /// measured is as it is for the drawing, where it was told.
    fn check(
        &self,
        drawn: Option<&CheckedView<'_>>,
        report: &mut Report,
        waiting: &mut Waiting,
        standings: &mut [Standing],
    ) -> Vec<OfOneCause> {
        let (mut customs, mut all_found) = (Vec::new(), Vec::new());
        let rules = || self.sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (loaded, rule)));
        // Every rule before the first finding: a search for a fix asks which of the others it breaks.
        let evaluate = |set: &RuleSet, rule: &Rule| self.plain.looking(|| self.plain.trace(|| self.plainly(set, rule)));
        let as_drawn =
            |at: usize| drawn.and_then(|drawn| drawn.looked_up_by(at)).filter(|names| !self.plain.may_change(*names));
        let outcome = |(at, (loaded, rule)): (usize, (&Arc<LoadedSet>, &Arc<Rule>))| match as_drawn(at) {
            Some(names) => (Default::default(), names),
            None => evaluate(&loaded.set, rule),
        };
        let (outcomes, looked_up): (Vec<_>, Vec<_>) = rules().enumerate().map(outcome).unzip();
        let fails = |at: usize, loaded: &Arc<LoadedSet>, rule: &Arc<Rule>, is_unmet: bool| {
            let earlier = || drawn.is_some_and(|drawn| drawn.unmet.borrow().contains(&RuleRef::new(loaded, rule)));
            is_unmet || as_drawn(at).is_some() && earlier()
        };
        let all = rules().zip(&outcomes).enumerate();
        let unmet = all.filter(|(at, ((loaded, rule), (stands, _)))| fails(*at, loaded, rule, stands.is_unmet));
        self.unmet.replace(unmet.map(|(_, ((loaded, rule), _))| RuleRef::new(loaded, rule)).collect());
        self.looked_up.replace(looked_up);
        for (((loaded, rule), (stands, reads)), so_far) in rules().zip(outcomes).zip(standings) {
            let found = match stands.is_unmet {
                true if !self.is_given_up() => group::findings(self, &RuleRef::new(loaded, rule)),
                _ => Vec::new(),
            };
            // What the measured figures leave as drawn was counted with the drawing.
            let drawn_already = self.view == View::Measured && found.is_empty();
            *so_far = (*so_far).max(if drawn_already { Standing::NotApplicable } else { stands.worst });
            all_found.extend(found);
            if self.view == View::Measured {
                continue;
            }
            customs.extend(reads.behind.customs());
            for unknown in stands.unknown {
                self.not_checked(report, waiting, (&loaded.set, rule), unknown);
            }
        }
        for custom in customs.into_iter().filter_map(CustomId::custom) {
            if !report.customs.iter().any(|known| known == custom.sentence) {
                report.customs.push(custom.sentence.to_owned());
            }
        }
        cause::of_rules(self, all_found)
    }

    /// How a rule stands, by the plain verdicts.
    fn plainly(&self, set: &RuleSet, rule: &Rule) -> Stands<'_> {
        let mut stands = Stands { worst: Standing::NotApplicable, is_unmet: false, unknown: Vec::new() };
        for (element, verdict) in rules::verdicts(rule, &self.plain) {
            let waivers = self.waivers;
            let waived = waivers.and_then(|waivers| waivers.excusing(self.design, set, rule, element, &verdict));
            let standing = Standing::of_verdict(&verdict, rule.shall);
            stands.is_unmet |= standing.fails();
            stands.worst = stands.worst.max(if waived.is_some() { Standing::Waived } else { standing });
            if let Verdict::NotChecked(missing) = verdict {
                let unknown = Unknown { element, missing, waived };
                if !stands.unknown.iter().any(|known| known.is_settled_with(&unknown)) {
                    stands.unknown.push(unknown);
                }
            }
        }
        stands
    }

    fn not_checked(&self, report: &mut Report, waiting: &mut Waiting, (set, rule): (&RuleSet, &Rule), of: Unknown<'_>) {
        let Unknown { element, missing, waived } = of;
        let waiting = waiting.entry((set.title.clone(), rule.name.clone(), waived.is_some())).or_default();
        let needs = Need::of(self.design, &missing);
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
            waived: waived.map(Arc::clone),
            known: false,
        });
    }
}

/// How a rule stands over all things that it speaks of.
#[derive(Default)]
struct Stands<'w> {
    /// The worst of it, with what is excused taken for that.
    worst: Standing,
    /// It does not hold somewhere, excused or not.
    is_unmet: bool,
    /// What is missing where it is not known, each once.
    unknown: Vec<Unknown<'w>>,
}

/// A thing for which a rule is not known to hold.
struct Unknown<'w> {
    element: Id,
    missing: Missing,
    waived: Option<&'w Arc<Waiver>>,
}

impl Unknown<'_> {
    fn is_settled_with(&self, other: &Unknown<'_>) -> bool {
        self.missing == other.missing && self.waived.is_some() == other.waived.is_some()
    }
}
