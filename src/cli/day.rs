//! The day of a check: the one that is asked for, or today's.

use time::OffsetDateTime;

use crate::base::Day;

/// Reads a day of the command line.
pub(super) fn read(text: &str) -> Result<Day, String> {
    Day::of(text).ok_or_else(|| "a day is written as `2027-03-01`".to_owned())
}

/// Today, by Greenwich: the same all over the world at one moment.
pub(super) fn today() -> Option<Day> {
    let now = OffsetDateTime::now_utc();
    Day::new(u16::try_from(now.year()).ok()?, u8::from(now.month()), now.day())
}
