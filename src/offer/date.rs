//! Days as a file writes them and as a page shows them.

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// A day of the calendar. Days are in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u32,
    month: u32,
    day: u32,
}

impl Date {
    /// A day as ISO 8601 writes it, `2026-12-31`; none where there is no such day.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.trim().split('-');
        let mut part = |digits: usize| {
            let part = parts.next().filter(|part| part.len() == digits)?;
            part.bytes().all(|byte| byte.is_ascii_digit()).then(|| part.parse::<u32>().ok())?
        };
        let (year, month, day) = (part(4)?, part(2)?, part(2)?);
        if parts.next().is_some() {
            return None;
        }
        let is_leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
        let days = match month {
            2 if is_leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => 0,
        };
        (1..=days).contains(&day).then_some(Self { year, month, day })
    }

    /// `31 December 2026`.
    #[must_use]
    pub fn in_words(self) -> String {
        let month = MONTHS.get(self.month as usize - 1).copied().unwrap_or_default();
        format!("{} {month} {}", self.day, self.year)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Leap years by the Gregorian calendar: 2000 was one, 1900 was not.
    #[test]
    fn practice_days_of_the_calendar() {
        let words = |text| Date::read(text).map(Date::in_words);
        assert_eq!(words("2026-12-31").as_deref(), Some("31 December 2026"));
        assert_eq!(words("2000-02-29").as_deref(), Some("29 February 2000"));
        let none =
            ["1900-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-1-1", "31.12.2026"];
        for text in none.into_iter().chain(["2026-12-31-1", "2026-12-+1", ""]) {
            assert_eq!(Date::read(text), None, "{text}");
        }
        assert!(Date::read("2026-12-31") > Date::read("2026-02-28"));
    }
}
