//! A day of the calendar.

use std::fmt;

/// A day, as `2027-03-01` writes it. The later one is the greater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day {
    year: u16,
    month: u8,
    day: u8,
}

impl Day {
    /// The day of a year's month; nothing if the month has no such day.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => 0,
        };
        ((1..=9999).contains(&year) && (1..=days).contains(&day)).then_some(Self { year, month, day })
    }

    /// Whether it lies before 1900: a year that was mistyped, and no day of a stair that is checked here.
    pub fn is_long_past(self) -> bool {
        self.year < 1900
    }

    /// The day that a text writes as year, month and day, four digits and twice two with hyphens between; nothing if
    /// it writes none.
    pub fn of(text: &str) -> Option<Self> {
        let digits = |part: &str, many: usize| part.len() == many && part.bytes().all(|byte| byte.is_ascii_digit());
        let mut parts = text.split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        if parts.next().is_some() || !digits(year, 4) || !digits(month, 2) || !digits(day, 2) {
            return None;
        }
        Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::Day;

    #[test]
    fn only_days_of_the_calendar_are_read_and_the_later_is_the_greater() {
        for text in ["2027-03-01", "2024-02-29", "2000-02-29", "1999-12-31"] {
            assert_eq!(Day::of(text).map(|day| day.to_string()).as_deref(), Some(text));
        }
        for text in [
            "2027-02-29",
            "1900-02-29",
            "2027-13-01",
            "2027-00-10",
            "2027-04-31",
            "2027-3-1",
            "27-03-01",
            "",
            "2027-03-01-",
            "+027-03-01",
        ] {
            assert_eq!(Day::of(text), None, "{text}");
        }
        assert!(Day::of("2026-12-31") < Day::of("2027-01-01") && Day::of("2027-01-31") < Day::of("2027-02-01"));
    }
}
