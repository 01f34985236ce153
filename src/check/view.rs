//! One stair as it is checked: by the figures of its drawing, or by those measured on the finished work.

use std::cell::{Cell, OnceCell, RefCell};
use std::sync::Arc;

use super::fix::{Redraw, Tried};
use super::loaded::{LoadedSet, RuleRef};
use super::waived::Waivers;
use crate::base::Source;
use crate::derive::Evaluation;
use crate::model::{Design, Id, PropertyNames, Waiver};
use crate::rules::{self, Rule, Verdict};

/// Which figures of a stair a finding rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum View {
    /// Those of the drawing.
    Drawn,
    /// Those measured on the finished work, and the drawn ones beside them.
    Measured,
}

/// Most findings of one stair for which a value that would pass is sought.
const MOST_SEARCHES: usize = 40;

/// Most first changes of one stair for which a second is sought.
const MOST_PAIRS: usize = 16;

/// One stair as drawn, or as measured, and the sets it is checked against.
pub(crate) struct CheckedView<'a> {
    pub design: &'a Arc<Design>,
    pub view: View,
    pub source: Source,
    pub sets: &'a [Arc<LoadedSet>],
    /// How the stair is drawn once more with something added; not where that was done already.
    pub redraw: Option<Redraw<'a>>,
    /// The waivers of the stair; not where a change is only tried.
    pub waivers: Option<&'a Waivers>,
    /// Whether nobody waits for the findings any more; asked before each search for a fix, and in it.
    given_up: Option<&'a dyn Fn() -> bool>,
    pub plain: Evaluation<'a>,
    /// Made where a rule fails: then what was read is asked for.
    traced: OnceCell<Evaluation<'a>>,
    /// The paths of its elements, once one is asked for.
    paths: OnceCell<Vec<String>>,
    /// The rules that do not hold.
    pub unmet: RefCell<Vec<RuleRef>>,
    /// What each rule looked up in what is stated, in the order of the rules; empty until they were evaluated.
    pub looked_up: RefCell<Vec<PropertyNames>>,
    /// What the changes came to that were tried: what one cause breaks is mended by one change, which is tried once.
    pub tried: RefCell<Vec<Tried>>,
    /// How many fixes may still be sought: a search checks whole sets again and again.
    pub searches: Cell<usize>,
    /// How many times two changes together may still be sought.
    pub pairs: Cell<usize>,
}

impl<'a> CheckedView<'a> {
    pub fn new(design: &'a Arc<Design>, view: View, source: Source, sets: &'a [Arc<LoadedSet>]) -> Self {
        let (searches, pairs) = (Cell::new(MOST_SEARCHES), Cell::new(MOST_PAIRS));
        let (plain, traced) = (Evaluation::plain(design), OnceCell::new());
        let (unmet, looked_up, tried) = (RefCell::default(), RefCell::default(), RefCell::default());
        let (redraw, waivers, given_up, paths) = (None, None, None, OnceCell::new());
        Self {
            design,
            view,
            source,
            sets,
            redraw,
            waivers,
            given_up,
            plain,
            traced,
            paths,
            unmet,
            looked_up,
            tried,
            searches,
            pairs,
        }
    }

    /// The same, until nobody waits for it any more.
    pub fn until(self, given_up: &'a dyn Fn() -> bool) -> Self {
        Self { given_up: Some(given_up), ..self }
    }

    /// Whether nobody waits for the findings any more.
    pub fn is_given_up(&self) -> bool {
        self.given_up.is_some_and(|given_up| given_up())
    }

    /// The stair as measured, beside what it is as drawn.
    pub fn measured(design: &'a Arc<Design>, drawn: &'a CheckedView<'_>) -> Self {
        let view = Self::new(design, View::Measured, drawn.source.clone(), drawn.sets);
        Self { plain: Evaluation::after(design, &drawn.plain), ..view }
    }

    /// The stair as a change makes it, beside what it was before; nobody waits for it longer than for that.
    pub fn changed(design: &'a Arc<Design>, source: Source, before: &'a CheckedView<'_>) -> Self {
        let view = Self::new(design, before.view, source, before.sets);
        Self { plain: Evaluation::after(design, &before.plain), given_up: before.given_up, ..view }
    }

    /// What a rule looked up, by its place among the rules.
    pub fn looked_up_by(&self, rule: usize) -> Option<PropertyNames> {
        self.looked_up.borrow().get(rule).copied()
    }

    /// The same, with a way to draw something into the text.
    pub fn with_redraw(self, redraw: Redraw<'a>) -> Self {
        Self { redraw: Some(redraw), ..self }
    }

    /// The same, with the waivers of the stair.
    pub fn with_waivers(self, waivers: &'a Waivers) -> Self {
        Self { waivers: Some(waivers), ..self }
    }

    /// The waiver that excuses an outcome.
    pub fn waiver(&self, rule: &RuleRef, element: Id, verdict: &Verdict) -> Option<&'a Arc<Waiver>> {
        self.waivers?.excusing(self.design, rule.set(), rule.rule(), element, verdict)
    }

    /// The path of an element; empty where there is none of this number.
    pub fn path(&self, element: Id) -> &str {
        self.paths.get_or_init(|| self.design.paths()).get(element).map_or("", String::as_str)
    }

    /// The element of a path.
    pub fn of_path(&self, path: &str) -> Option<Id> {
        self.paths.get_or_init(|| self.design.paths()).iter().position(|known| known == path)
    }

    /// How many rules all its sets have.
    pub fn many(&self) -> usize {
        self.sets.iter().map(|loaded| loaded.set.rules.len()).sum()
    }

    /// The rules of all its sets, each with its set.
    pub fn rules(&self) -> impl Iterator<Item = (&'a Arc<LoadedSet>, &'a Arc<Rule>)> + use<'a> {
        self.sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (loaded, rule)))
    }

    /// Evaluates every rule that may come out otherwise than before the change that made this stair, and keeps which
    /// do not hold.
    pub fn evaluate_after(&self, before: &CheckedView<'_>) -> Vec<RuleRef> {
        let was_unmet = before.unmet.borrow();
        let (mut unmet, mut looked_up) = (Vec::new(), Vec::with_capacity(self.many()));
        for (at, (loaded, rule)) in self.rules().enumerate() {
            let untouched = before.looked_up_by(at).filter(|names| !self.plain.may_change(*names));
            let (fails, names) = match untouched {
                Some(names) => (was_unmet.iter().any(|unmet| unmet.is(loaded, rule)), names),
                None => self.plain.looking(|| rules::fails(rule, &self.plain)),
            };
            unmet.extend(fails.then(|| RuleRef::new(loaded, rule)));
            looked_up.push(names);
        }
        self.looked_up.replace(looked_up);
        self.unmet.replace(unmet.clone());
        unmet
    }

    /// The rules that may come out otherwise for a design that was made from this one by a change.
    pub fn rules_touched<'e>(
        &'e self,
        after: &'e Evaluation<'_>,
    ) -> impl Iterator<Item = (&'a Arc<LoadedSet>, &'a Arc<Rule>)> + use<'a, 'e> {
        let touched = move |at: usize| self.looked_up_by(at).is_none_or(|names| after.may_change(names));
        self.rules().enumerate().filter(move |(at, _)| touched(*at)).map(|(_, rule)| rule)
    }

    /// The evaluation that keeps what was read.
    pub fn traced(&self) -> &Evaluation<'a> {
        self.traced.get_or_init(|| Evaluation::traced(self.design))
    }
}
