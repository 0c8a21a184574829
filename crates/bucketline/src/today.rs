//! What day it is.

use std::time::{SystemTime, UNIX_EPOCH};

use answers::Date;

/// Seconds of a day.
const DAY: u64 = 86_400;

/// Today by the system's clock, in universal time.
pub fn today() -> Date {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs());
    date_of((since / DAY) as i64)
}

/// The day so many days after 1 January 1970. Years are counted from March, so that a leap day ends one (400 years are
/// 146,097 days).
fn date_of(days: i64) -> Date {
    let since_march_0 = days + 719_468;
    let era = since_march_0.div_euclid(146_097);
    let day_of_era = since_march_0.rem_euclid(146_097);
    let year_of_era =
        (day_of_era - day_of_era / 1_460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    Date { year, month: month as u32, day: day as u32 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_days() {
        // Days since 1 January 1970 as a general-purpose calendar gives them (GNU date, `date -d DAY +%s` / 86,400).
        for (days, year, month, day) in [
            (0, 1970, 1, 1),
            (11_016, 2000, 2, 29),
            (11_017, 2000, 3, 1),
            (19_782, 2024, 2, 29),
            (20_088, 2024, 12, 31),
        ] {
            assert_eq!(date_of(days), Date { year, month, day }, "{days}");
        }
    }
}
