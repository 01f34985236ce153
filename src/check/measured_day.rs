//! The day on which the work is said to have been measured, against the day of the check.

use super::problem::Problem;
use crate::base::{Day, Diagnostic, Source};
use crate::model::{Stair, Value, properties};

/// Advises of figures that were measured on a day that is still to come: the year was mistyped, or nobody has measured.
pub(super) fn notice(stair: &Stair, source: &Source, today: Option<Day>) -> Option<Diagnostic<Problem>> {
    let stated = stair.measured.as_ref()?.stated(0, properties::ON).filter(|stated| stated.measured)?;
    let Some(Value::Word(word)) = &stated.value else { return None };
    let (on, today) = (Day::of(word)?, today?);
    (on > today).then(|| Diagnostic::new(source, stated.span, Problem::MeasuredAhead { today }))
}
