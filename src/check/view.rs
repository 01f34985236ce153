//! One stair as it is checked: by the figures of its drawing, or by those measured on the finished work.

use std::cell::{Cell, OnceCell, RefCell};
use std::sync::Arc;

use super::fix::{Redraw, Tried};
use super::loaded::{LoadedSet, RuleRef};
use super::waived::Waivers;
use crate::base::Source;
use crate::derive::Evaluation;
use crate::model::{Design, Id, Waiver};
use crate::rules::Verdict;

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
    pub plain: Evaluation<'a>,
    /// Made where a rule fails: then what was read is asked for.
    traced: OnceCell<Evaluation<'a>>,
    /// The rules that do not hold.
    pub unmet: RefCell<Vec<RuleRef>>,
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
        let (plain, unmet, tried) = (Evaluation::plain(design), RefCell::default(), RefCell::default());
        let traced = OnceCell::new();
        Self { design, view, source, sets, redraw: None, waivers: None, plain, traced, unmet, tried, searches, pairs }
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

    /// The rules of all its sets.
    pub fn rules(&self) -> impl Iterator<Item = RuleRef> + '_ {
        self.sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(|rule| RuleRef::new(loaded, rule)))
    }

    /// The evaluation that keeps what was read.
    pub fn traced(&self) -> &Evaluation<'a> {
        self.traced.get_or_init(|| Evaluation::traced(self.design))
    }
}
