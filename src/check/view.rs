//! One stair as it is checked: by the figures of its drawing, or by those measured on the finished work.

use std::cell::{Cell, OnceCell};
use std::sync::Arc;

use super::loaded::{LoadedSet, RuleRef};
use crate::base::Source;
use crate::model::Design;

/// Which figures of a stair a finding rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum View {
    /// Those of the drawing.
    Drawn,
    /// Those measured on the finished work, and the drawn ones beside them.
    Measured,
}

/// One stair as drawn, or as measured, and the sets it is checked against.
pub(crate) struct CheckedView<'a> {
    pub design: Arc<Design>,
    pub view: View,
    pub source: Source,
    pub sets: &'a [Arc<LoadedSet>],
    /// The rules that do not hold, found once if a search for a fix asks.
    pub unmet: OnceCell<Vec<RuleRef>>,
    /// How many fixes may still be sought: a search checks whole sets again and again.
    pub searches: Cell<usize>,
}
