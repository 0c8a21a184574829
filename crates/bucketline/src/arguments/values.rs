//! Parsing the values of the command line: shares, flows, rules.

use answers::Date;
use fireground::side_by_side::Rule;

/// A rule for the attack flow, as the command line names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Standard {
    /// Area / 3
    Area,
    /// Volume / 100
    Volume,
    /// The delivery rate of the minimum water supply (NFPA 1142)
    MinimumSupply,
    /// The insurance needed fire flow, or its table for small dwellings
    Insurance,
    /// The Canadian insurers' required fire flow (1999 edition)
    InsuranceCanada,
}

impl Standard {
    /// The rule itself.
    pub fn rule(self) -> Rule {
        match self {
            Standard::Area => Rule::Area,
            Standard::Volume => Rule::Volume,
            Standard::MinimumSupply => Rule::MinimumSupply,
            Standard::Insurance => Rule::Insurance,
            Standard::InsuranceCanada => Rule::CanadianInsurance,
        }
    }
}

/// A blank log.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum SheetKind {
    /// The headings, for a spreadsheet
    Csv,
    /// A page to print (HTML)
    Page,
}

/// A tanker and the minute after the alarm from which it is lost.
#[derive(Debug, Clone, PartialEq)]
pub struct LostAt {
    /// Its name as typed.
    pub tanker: String,
    /// The minute.
    pub minute: f64,
}

/// "Tanker 5@40".
pub(super) fn lost_at(text: &str) -> Result<LostAt, String> {
    let wrong =
        || "write it as \"Tanker 5@40\": its name, @, and the minute after the alarm".to_owned();
    let (tanker, minute) = text.rsplit_once('@').ok_or_else(wrong)?;
    let minute = minute.trim().parse::<f64>().map_err(|_| wrong())?;
    if !(0.0..=10_000.0).contains(&minute) {
        return Err("the minute must lie between 0 and 10,000".to_owned());
    }
    Ok(LostAt { tanker: tanker.trim().to_owned(), minute })
}

/// "13:02", "1:02 pm": seconds after midnight.
pub(super) fn time_of_day(text: &str) -> Result<f64, String> {
    drill_log::time_of_day(text).ok_or_else(|| "write it as 13:02 or 1:02 pm".to_owned())
}

/// "2026-03-01": a day there is.
pub(super) fn day(text: &str) -> Result<Date, String> {
    let wrong = || "write it as 2026-03-01: year, month, day".to_owned();
    let parts: Vec<&str> = text.trim().split('-').collect();
    let [year, month, day] = parts.as_slice() else { return Err(wrong()) };
    let number = |part: &str| part.parse::<u32>().map_err(|_| wrong());
    let (year, month, day) = (number(year)?, number(month)?, number(day)?);
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return Err(format!("there is no month {month}")),
    };
    if !(1..=9_999).contains(&year) || !(1..=days).contains(&day) {
        return Err("there is no such day".to_owned());
    }
    Ok(Date { year: i64::from(year), month, day })
}

/// A share written as "5%" or "0.05", strictly between 0 and 1.
pub(super) fn share(text: &str) -> Result<f64, String> {
    let (number, scale) = match text.trim().strip_suffix('%') {
        Some(number) => (number.trim(), 100.0),
        None => (text.trim(), 1.0),
    };
    let value = number
        .parse::<f64>()
        .map(|value| value / scale)
        .map_err(|_| "write it as 5% or 0.05".to_owned())?;
    if value > 0.0 && value < 1.0 {
        Ok(value)
    } else if value >= 1.0 && scale == 1.0 {
        Err(format!("it must lie between 0 and 1; for percent write {text}%"))
    } else {
        Err("it must lie between 0% and 100%".to_owned())
    }
}

/// A flow above zero, within what a plan may state.
pub(super) fn flow(text: &str) -> Result<f64, String> {
    let value = text.trim().parse::<f64>().map_err(|_| "write a number, as 500".to_owned())?;
    if (1.0..=20_000.0).contains(&value) {
        Ok(value)
    } else {
        Err("it must lie between 1 and 20,000".to_owned())
    }
}

/// A sum of money, nothing or more.
pub(super) fn money(text: &str) -> Result<f64, String> {
    let value = text.trim().parse::<f64>().map_err(|_| "write a number, as 3000".to_owned())?;
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err("it must be nothing or more".to_owned())
    }
}

/// Minutes above zero, no more than a day.
pub(super) fn minutes(text: &str) -> Result<f64, String> {
    const DAY: f64 = 1_440.0;
    let value = text.trim().parse::<f64>().map_err(|_| "write minutes, as 10".to_owned())?;
    if value > 0.0 && value <= DAY {
        Ok(value)
    } else {
        Err("it must lie above 0, up to 1,440 minutes".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_one_of_the_calendar() {
        let of = |year, month, day| Ok(Date { year, month, day });
        assert_eq!(day("2026-03-01"), of(2026, 3, 1));
        // 2000 and 2024 were leap years, 1900 was none (Gregorian calendar).
        assert_eq!(day("2024-02-29"), of(2024, 2, 29));
        assert_eq!(day("2000-02-29"), of(2000, 2, 29));
        for wrong in
            ["1900-02-29", "2026-02-30", "2026-13-01", "2026-00-10", "3/1/2026", "today", ""]
        {
            assert!(day(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_target_is_a_percentage_or_a_share() {
        assert_eq!(share("5%"), Ok(0.05));
        // 95 x 0.01 is a little more than 0.95, and what holds in just that share of fires would not do.
        assert_eq!(share("95%"), Ok(0.95));
        assert_eq!(share("0.05"), Ok(0.05));
        for wrong in ["5", "0", "0%", "100%", "-1%", "nan", "five", ""] {
            assert!(share(wrong).is_err(), "{wrong}");
        }
    }
}
