//! Clock times as people write them.

use crate::table::Cell;

/// How the times of a log were read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClockOf {
    /// Times of the day, 24 hours.
    Day,
    /// Times of the day on a clock of 12 hours that does not say morning or afternoon.
    HalfDay,
    /// Minutes and seconds of a stopwatch.
    Stopwatch,
}

/// A time as written, before it is known what clock it is of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Written {
    /// 13:05, or 13 minutes and 5 seconds.
    Pair(u32, u32),
    /// 13:05:20.
    Triple(u32, u32, f64),
    /// A time of the day for certain, seconds: morning or afternoon is said, or written as 1305.
    OfDay(f64),
}

/// What is wrong with a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum NoTime {
    /// A decimal point; what was probably meant.
    Point(String),
    /// Beyond what a clock has.
    BeyondTheClock,
    /// No time at all.
    NotATime,
}

/// Reads a cell that is not blank.
///
/// - Returns: also whether it was a bare number of a spreadsheet, read as a share of a day.
pub(super) fn written(cell: &Cell) -> Result<(Written, bool), NoTime> {
    match cell {
        Cell::Text(text) => text_time(text).map(|time| (time, false)),
        Cell::Time(seconds) => Ok((of_seconds(*seconds), false)),
        Cell::Number(number) if *number > 0.0 && *number < 1.0 => {
            Ok((of_seconds((number * 86_400.0 * 1_000.0).round() / 1_000.0), true))
        }
        Cell::Number(number) if number.fract() == 0.0 && (100.0..10_000.0).contains(number) => {
            without_colon(*number as u32).map(|time| (time, false))
        }
        Cell::Number(number) => text_time(&number.to_string()).map(|time| (time, false)),
        Cell::Empty => Err(NoTime::NotATime),
    }
}

/// A time of the day as it may be typed: "13:05", "1:05 pm", "1305".
///
/// - Returns: seconds after midnight.
/// - Errors: what is no time of the day.
pub fn time_of_day(text: &str) -> Option<f64> {
    match text_time(text).ok()? {
        Written::OfDay(seconds) => Some(seconds),
        Written::Pair(hours, minutes) => day_seconds(hours, minutes, 0.0),
        Written::Triple(hours, minutes, seconds) => day_seconds(hours, minutes, seconds),
    }
}

fn of_seconds(seconds: f64) -> Written {
    let minutes = (seconds / 60.0).floor();
    let rest = seconds - 60.0 * minutes;
    let (hours, minutes) = ((minutes / 60.0).floor() as u32, (minutes % 60.0) as u32);
    if rest == 0.0 { Written::Pair(hours, minutes) } else { Written::Triple(hours, minutes, rest) }
}

/// 1305, 905.
fn without_colon(number: u32) -> Result<Written, NoTime> {
    let (hours, minutes) = (number / 100, number % 100);
    day_seconds(hours, minutes, 0.0).map(Written::OfDay).ok_or(NoTime::BeyondTheClock)
}

fn day_seconds(hours: u32, minutes: u32, seconds: f64) -> Option<f64> {
    // Midnight may be written as 24:00 (ISO 8601).
    let is_midnight = hours == 24 && minutes == 0 && seconds == 0.0;
    let is_sound = hours < 24 && minutes < 60 && (0.0..60.0).contains(&seconds);
    let all = f64::from(hours % 24) * 3_600.0 + f64::from(minutes) * 60.0 + seconds;
    (is_sound || is_midnight).then_some(all)
}

fn text_time(text: &str) -> Result<Written, NoTime> {
    let text = text.trim().to_lowercase();
    let (digits, half) = half_of_day(&text);
    let digits = digits.trim();
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if is_number(digits) && half.is_none() {
        return match digits.len() {
            3 | 4 => without_colon(digits.parse().unwrap_or(0)),
            _ => Err(NoTime::NotATime),
        };
    }
    // "13h05": as French-speaking departments write it.
    let digits = digits.replace('h', ":");
    let parts: Vec<&str> = digits.split(':').map(str::trim).collect();
    let whole = |text: &str| -> Option<u32> {
        (is_number(text) && text.len() <= 4).then(|| text.parse().ok()).flatten()
    };
    if let [one] = parts[..] {
        if half.is_some()
            && let Some(hours) = whole(one)
        {
            return afternoon(hours, 0, 0.0, half);
        }
        return Err(match one.split_once(['.', ',']) {
            Some((left, right)) if is_number(left) && is_number(right) && right.len() <= 2 => {
                NoTime::Point(format!("{left}:{right:0<2}"))
            }
            _ => NoTime::NotATime,
        });
    }
    let (Some(first), Some(second)) = (whole(parts[0]), whole(parts[1])) else {
        return Err(NoTime::NotATime);
    };
    if second > 59 || parts[1].len() != 2 {
        return Err(if second > 59 { NoTime::BeyondTheClock } else { NoTime::NotATime });
    }
    match parts[2..] {
        [] if half.is_some() => afternoon(first, second, 0.0, half),
        [] => Ok(Written::Pair(first, second)),
        [seconds] => {
            let sound = seconds.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
            let third = seconds.parse::<f64>().ok().filter(|_| sound).ok_or(NoTime::NotATime)?;
            if third >= 60.0 {
                return Err(NoTime::BeyondTheClock);
            }
            if half.is_some() {
                return afternoon(first, second, third, half);
            }
            Ok(Written::Triple(first, second, third))
        }
        _ => Err(NoTime::NotATime),
    }
}

/// What stands before "am" or "pm", and whether it is afternoon.
fn half_of_day(text: &str) -> (&str, Option<bool>) {
    for (ending, is_afternoon) in
        [("a.m.", false), ("p.m.", true), ("am", false), ("pm", true), ("a", false), ("p", true)]
    {
        if let Some(before) = text.strip_suffix(ending) {
            return (before, Some(is_afternoon));
        }
    }
    (text, None)
}

fn afternoon(
    hours: u32,
    minutes: u32,
    seconds: f64,
    half: Option<bool>,
) -> Result<Written, NoTime> {
    if !(1..=12).contains(&hours) {
        return Err(NoTime::BeyondTheClock);
    }
    let hours = hours % 12 + if half == Some(true) { 12 } else { 0 };
    day_seconds(hours, minutes, seconds).map(Written::OfDay).ok_or(NoTime::BeyondTheClock)
}

/// What clock the times of a log are of, and whether that had to be guessed.
///
/// - Given: the times of each row, in the order of the cycle.
pub(super) fn clock_of(rows: &[Vec<Written>]) -> (ClockOf, bool) {
    /// No step of a shuttle commonly takes this long, seconds; judgement.
    const TOO_LONG: f64 = 1_800.0;
    let all = || rows.iter().flatten();
    let beyond = |time: &Written| match time {
        Written::Pair(first, second) => *first > 24 || (*first == 24 && *second > 0),
        Written::Triple(first, ..) => *first > 24,
        Written::OfDay(_) => false,
    };
    if all().any(|time| matches!(time, Written::OfDay(_))) {
        let all_small = all().all(|time| match time {
            Written::Pair(hours, _) | Written::Triple(hours, ..) => (1..=12).contains(hours),
            Written::OfDay(_) => true,
        });
        let some_silent = all().any(|time| !matches!(time, Written::OfDay(_)));
        // "1:05 pm" once at the top, and then the bare times.
        return if all_small && some_silent {
            (ClockOf::HalfDay, true)
        } else {
            (ClockOf::Day, false)
        };
    }
    if all().any(beyond) {
        return (ClockOf::Stopwatch, true);
    }
    let day = |time: &Written| seconds(*time, ClockOf::Day).unwrap_or(0.0);
    if all().all(|time| matches!(time, Written::Pair(..))) {
        let mut steps: Vec<f64> = (rows.iter())
            .flat_map(|row| {
                row.windows(2).map(|pair| (day(&pair[1]) - day(&pair[0])).rem_euclid(86_400.0))
            })
            .collect();
        steps.sort_by(f64::total_cmp);
        let middle = steps.len().saturating_sub(1) / 2;
        if steps.get(middle).is_some_and(|middle| *middle >= TOO_LONG) {
            return (ClockOf::Stopwatch, true);
        }
    }
    let hours = |time: &Written| match time {
        Written::Pair(hours, _) | Written::Triple(hours, ..) => *hours,
        Written::OfDay(_) => 0,
    };
    if all().all(|time| (1..=12).contains(&hours(time))) {
        let times: Vec<f64> = all().map(day).collect();
        // Past noon on such a clock the times of an afternoon seem to come hours before those of the morning.
        if span(&times, 86_400.0) > 10.0 * 3_600.0 && span(&times, 43_200.0) < 10.0 * 3_600.0 {
            return (ClockOf::HalfDay, true);
        }
    }
    (ClockOf::Day, false)
}

/// A time in seconds on its clock; `None` where that clock has no such time.
pub(super) fn seconds(time: Written, clock: ClockOf) -> Option<f64> {
    match (clock, time) {
        (ClockOf::Stopwatch, Written::Pair(minutes, seconds)) => {
            Some(60.0 * f64::from(minutes) + f64::from(seconds))
        }
        (ClockOf::Stopwatch, Written::Triple(hours, minutes, seconds)) => {
            Some(3_600.0 * f64::from(hours) + 60.0 * f64::from(minutes) + seconds)
        }
        (_, Written::OfDay(seconds)) => Some(seconds),
        (_, Written::Pair(hours, minutes)) => day_seconds(hours, minutes, 0.0),
        (_, Written::Triple(hours, minutes, seconds)) => day_seconds(hours, minutes, seconds),
    }
}

/// Where times on a round clock begin: behind the longest stretch without any.
///
/// - Given: seconds on a clock that goes round in `round` seconds.
pub(super) fn beginning(times: &[f64], round: f64) -> Option<f64> {
    let mut sorted: Vec<f64> = times.iter().map(|time| time.rem_euclid(round)).collect();
    sorted.sort_by(f64::total_cmp);
    let last = *sorted.last()?;
    let mut best = (sorted[0] + round - last, sorted[0]);
    for pair in sorted.windows(2) {
        if pair[1] - pair[0] > best.0 {
            best = (pair[1] - pair[0], pair[1]);
        }
    }
    Some(best.1)
}

fn span(times: &[f64], round: f64) -> f64 {
    let Some(first) = beginning(times, round) else { return 0.0 };
    times.iter().map(|time| (time - first).rem_euclid(round)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(of: &str) -> Result<Written, NoTime> {
        written(&Cell::Text(of.to_owned())).map(|(time, _)| time)
    }

    #[test]
    fn times_as_people_write_them() {
        for (written, expected) in [
            ("13:05", Written::Pair(13, 5)),
            (" 9:05 ", Written::Pair(9, 5)),
            ("13h05", Written::Pair(13, 5)),
            ("13:05:20", Written::Triple(13, 5, 20.0)),
            ("13:05:20.5", Written::Triple(13, 5, 20.5)),
            ("1:05 pm", Written::OfDay(47_100.0)),
            ("1:05P.M.", Written::OfDay(47_100.0)),
            ("12:05 am", Written::OfDay(300.0)),
            ("12:05 pm", Written::OfDay(43_500.0)),
            ("1305", Written::OfDay(47_100.0)),
            ("0905", Written::OfDay(32_700.0)),
            ("75:30", Written::Pair(75, 30)),
        ] {
            assert_eq!(text(written), Ok(expected), "{written}");
        }
        for (written, expected) in [
            ("12.34", NoTime::Point("12:34".to_owned())),
            ("12,3", NoTime::Point("12:30".to_owned())),
            ("13:75", NoTime::BeyondTheClock),
            ("13:05:60", NoTime::BeyondTheClock),
            ("13:00 pm", NoTime::BeyondTheClock),
            ("2575", NoTime::BeyondTheClock),
            ("13:5", NoTime::NotATime),
            ("soon", NoTime::NotATime),
            ("-13:05", NoTime::NotATime),
            ("1:2:3:4", NoTime::NotATime),
        ] {
            assert_eq!(text(written), Err(expected), "{written}");
        }
    }

    #[test]
    fn minutes_and_seconds_are_told_from_hours_and_minutes() {
        let row = |times: &[&str]| times.iter().map(|time| text(time).expect("a time")).collect();
        for (rows, expected) in [
            (vec![row(&["13:05", "13:07", "13:11"])], ClockOf::Day),
            (vec![row(&["1:05", "2:10", "5:20"])], ClockOf::Stopwatch),
            (vec![row(&["59:40", "61:10"])], ClockOf::Stopwatch),
            (vec![row(&["0:30:00", "1:30:00"])], ClockOf::Day),
            (vec![row(&["12:58", "1:01", "1:05"])], ClockOf::HalfDay),
            (vec![row(&["1:05 pm", "1:07", "1:09"])], ClockOf::HalfDay),
            (vec![row(&["23:58", "0:01", "0:05"])], ClockOf::Day),
        ] {
            assert_eq!(clock_of(&rows).0, expected, "{rows:?}");
        }
    }

    #[test]
    fn a_log_begins_behind_the_longest_stretch_without_times() {
        assert_eq!(beginning(&[300.0, 86_000.0, 85_000.0], 86_400.0), Some(85_000.0));
        assert_eq!(beginning(&[47_000.0, 50_000.0], 86_400.0), Some(47_000.0));
        assert_eq!(beginning(&[], 86_400.0), None);
    }
}
