//! The whole path for one text: read, build, derive, hold, report. Pure: texts in, values out.

mod cause;
#[cfg(feature = "cli")]
mod change;
mod earlier;
mod excused;
mod finding;
mod fix;
mod group;
mod hold;
#[cfg(feature = "cli")]
mod known;
mod loaded;
mod measured_day;
mod mend;
mod needs;
mod outcome;
pub mod problem;
mod purpose;
mod report;
mod rule_finding;
mod sets;
mod shipped;
mod standing;
mod stock;
mod unasked;
mod usual;
mod view;
mod waived;

use std::cell::Cell;
use std::sync::Arc;

use crate::base::{Day, Diagnostic, Source, Span, lift};
use crate::model::{self, Stair, properties};
use crate::rules::{self, FileProblem};
use crate::syntax::{self, Tree};
use cause::OfOneCause;
pub use cause::{Cause, Group};
#[cfg(feature = "internals")]
pub use change::Change;
#[cfg(feature = "cli")]
pub use change::{Changes, changes};
pub use earlier::Earlier;
#[cfg(feature = "cli")]
pub use excused::Excused;
pub use finding::Finding;
pub use fix::{Drawn, Edit, Fix, Offer};
use fix::{MOST_READ_AGAIN, Redraw};
use hold::Waiting;
#[cfg(feature = "cli")]
pub use known::Fault;
pub use loaded::{LoadedSet, LoadedShop, RuleRef, ShopAbove};
pub use mend::Mend;
#[cfg(feature = "cli")]
pub use needs::NeedsOfOne;
pub use outcome::{Comparison, Grounds, RuleOutcome, Settled};
pub use problem::{Problem, WaiverProblem};
pub use report::{FromShop, NotChecked, Report, RuleStanding, SetLine, Tally};
pub use rule_finding::{HowMany, Place, Role, RuleFinding, Said, SaidPiece};
pub use sets::Sets;
#[cfg(feature = "internals")]
pub use shipped::FOR;
pub use shipped::{BUILT_IN, borrowed_titles, held_always, nearest_shipped, shipped};
pub use standing::Standing;
#[cfg(feature = "cli")]
pub use usual::Usual;
use view::CheckedView;
pub use view::View;
use waived::Waivers;
#[cfg(feature = "cli")]
pub use waived::waivers_of;

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
        unasked: Vec::new(),
        usual_left_out: Vec::new(),
        sets: Vec::new(),
        from_memory: 0,
        second_hand: 0,
        shops: Vec::new(),
    };
    if nothing_drawn {
        report.findings.push(Diagnostic::whole(&report.source, Problem::NoStair).into());
    }
    let waiting = Waiting::default();
    let read_again = Cell::new(MOST_READ_AGAIN);
    let slips = report.findings.iter().filter(|found| found.source().name == report.source.name).count();
    let (shop_above, loaded, grouped) = (shop.as_ref(), Vec::new(), Vec::new());
    let mut checking = Checking {
        sets,
        rules,
        on,
        tree: &tree,
        shop: shop_above,
        report,
        slips,
        read_again: &read_again,
        grouped,
        loaded,
        waiting,
    };
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
        let source = report.source.clone();
        // What one of them does not stock is told, whatever another does: a nearer file only adds to what is told.
        let shops = std::iter::once(above).chain(&above.beyond).map(ShopAbove::shop);
        for shop in shops.filter(|shop| !shop.sections.is_empty() || !shop.timbers.is_empty()) {
            for advice in stairs.iter().flat_map(|stair| stock::advices(&stair.drawn, &source, shop)) {
                report.add_once(advice);
            }
        }
        report.note_shares(above, &stairs, rules);
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
    /// How many bytes of the text may still be read again for what is tried.
    read_again: &'a Cell<usize>,
    /// The findings of rules.
    grouped: Vec<OfOneCause>,
    /// Every set that was asked for, once.
    loaded: Vec<Arc<LoadedSet>>,
    waiting: Waiting,
}

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
                // A set that is asked for twice is held once.
                Ok(loaded) if sets.iter().any(|other| Arc::ptr_eq(other, &loaded)) => {}
                Ok(loaded) => sets.push(loaded),
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
        // So is one that another of them takes in as it is.
        let all = sets.clone();
        sets.retain(|loaded| !all.iter().any(|other| other.set.takes_in_whole(&loaded.set)));
        for loaded in sets.iter().skip(1) {
            if !self.loaded.iter().any(|known| Arc::ptr_eq(known, loaded)) {
                report.sets.push(SetLine::of(&loaded.set));
                // What is only advised to the writer of a set does not touch who is held to it.
                let slips = loaded.diagnostics.iter().filter(|slip| slip.problem.concerns_designs());
                report.findings.extend(slips.map(|slip| slip.clone().lift().into()));
                self.loaded.push(Arc::clone(loaded));
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
        if let Some(notice) = measured_day::notice(stair, &report.source, self.on) {
            report.add_once(notice);
        }
        let mut standings = vec![Standing::NotApplicable; sets.iter().map(|loaded| loaded.set.rules.len()).sum()];
        let waivers = Waivers::of(&stair.drawn, self.on);
        let redraw = Redraw {
            tree: self.tree,
            shop: self.shop.map(ShopAbove::shop),
            stair: at,
            slips: self.slips,
            left: self.read_again,
        };
        let drawn = CheckedView::new(&stair.drawn, View::Drawn, report.source.clone(), &sets);
        let held = self.sets;
        let earlier = held.earlier();
        let given_up = || held.is_given_up();
        let drawn = drawn.with_redraw(redraw).with_waivers(&waivers).until(&given_up);
        self.grouped.extend(drawn.check(None, earlier, report, &mut self.waiting, &mut standings));
        let (excused, untried) = excused::excused(&drawn);
        report.excused.extend(excused);
        report.untried += untried;
        for kind in unasked::unasked(&stair.drawn, asked_for) {
            if !report.unasked.contains(&kind) {
                report.unasked.push(kind);
            }
        }
        for usual in usual::left_out(asked_for) {
            if !report.usual_left_out.contains(&usual) {
                report.usual_left_out.push(usual);
            }
        }
        if let Some(design) = &stair.measured {
            let measured = CheckedView::measured(design, &drawn).with_redraw(redraw).with_waivers(&waivers);
            let measured = measured.until(&given_up);
            self.grouped.extend(measured.check(Some(&drawn), earlier, report, &mut self.waiting, &mut standings));
        }
        // A waiver may speak of a rule of the sets that the design asks for, where others were asked for in their place.
        let all_known = self.rules.is_none() && !refused && understood;
        for problem in waivers.problems(&report.source, &sets, all_known) {
            report.add_once(problem);
        }
        let rules = sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (loaded, rule)));
        for ((loaded, rule), standing) in rules.zip(standings) {
            // Nobody asked for the rules of the drawing itself: that it does not contradict itself is no merit.
            let counts = !loaded.set.is_drawing() || standing > Standing::Passes;
            if counts {
                report.tally.count(standing);
            }
            if counts && standing != Standing::NotApplicable {
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
