//! Dates, and the order of revision marks.

use std::cmp::Ordering;
use std::fmt;

/// A day of the calendar; one that does not exist cannot be held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(time::Date);

impl Date {
    /// `2026-03-18`; none where it is written otherwise, or the calendar has no such day.
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.split('-');
        let mut part = |width: usize| {
            let digits = parts.next().filter(|p| p.len() == width && p.bytes().all(|b| b.is_ascii_digit()))?;
            digits.parse::<u16>().ok()
        };
        let (year, month, day) = (part(4)?, part(2)?, part(2)?);
        if parts.next().is_some() || year == 0 {
            return None;
        }
        let month = time::Month::try_from(u8::try_from(month).ok()?).ok()?;
        time::Date::from_calendar_date(year.into(), month, u8::try_from(day).ok()?).ok().map(Self)
    }

    /// Year, 1 to 9999.
    pub fn year(self) -> u16 {
        u16::try_from(self.0.year()).unwrap_or_default()
    }

    /// Month, 1 to 12.
    pub fn month(self) -> u8 {
        self.0.month().into()
    }

    /// Day of the month.
    pub fn day(self) -> u8 {
        self.0.day()
    }

    /// The same day so many years on; 28 February where that year has no 29th. None past the year 9999.
    #[must_use]
    pub fn after_years(self, years: u16) -> Option<Self> {
        let year = self.0.year() + i32::from(years);
        let of = |day| time::Date::from_calendar_date(year, self.0.month(), day).ok();
        of(self.day()).or_else(|| of(28)).filter(|_| year <= 9999).map(Self)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year(), self.month(), self.day())
    }
}

/// The order of two revision marks: `B` before `C`, `Z` before `AA`, `2` before `10`, `P1` before `P2`; none where they are of different
/// kinds.
pub fn order_of_marks(a: &str, b: &str) -> Option<Ordering> {
    let split = |mark: &str| {
        let letters = mark.trim_end_matches(|c: char| c.is_ascii_digit());
        (letters.to_uppercase(), mark[letters.len()..].parse::<u32>().ok())
    };
    match (split(a), split(b)) {
        ((a, None), (b, None)) if [&a, &b].iter().all(|mark| mark.chars().all(char::is_alphabetic)) => {
            Some(a.chars().count().cmp(&b.chars().count()).then(a.cmp(&b)))
        }
        ((a, Some(m)), (b, Some(n))) if a == b => Some(m.cmp(&n)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_are_days_of_the_calendar() {
        for text in ["2026-03-18", "2024-02-29", "2000-02-29", "0001-01-01", "9999-12-31"] {
            assert_eq!(Date::read(text).map(|date| date.to_string()).as_deref(), Some(text));
        }
        for text in [
            "2026-02-30",
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "2026-04-00",
            "2026-3-18",
            "18.3.2026",
            "2026-03-18-1",
            "2026-03",
            "0000-01-01",
            "",
        ] {
            assert_eq!(Date::read(text), None, "{text}");
        }
    }

    #[test]
    fn a_leap_day_some_years_on_is_the_28th() {
        let on = |text, years| Date::read(text).and_then(|date| date.after_years(years)).map(|date| date.to_string());
        assert_eq!(on("2024-02-29", 10).as_deref(), Some("2034-02-28"));
        assert_eq!(on("2024-02-29", 4).as_deref(), Some("2028-02-29"));
        assert_eq!(on("2026-12-31", 7).as_deref(), Some("2033-12-31"));
        assert_eq!(on("9999-01-01", 1), None);
    }

    #[test]
    fn marks_come_in_order() {
        let less = [("A", "B"), ("Z", "AA"), ("AA", "AB"), ("b", "C"), ("2", "10"), ("P1", "P2"), ("P9", "P10"), ("0", "1")];
        for (a, b) in less {
            assert_eq!((order_of_marks(a, b), order_of_marks(b, a)), (Some(Ordering::Less), Some(Ordering::Greater)), "{a} {b}");
        }
        for (a, b) in [("A", "1"), ("P1", "Q1"), ("A", "A1"), ("draft 1a", "A")] {
            assert_eq!(order_of_marks(a, b), None, "{a} {b}");
        }
    }
}
