//! The table of `compare`: figures of each option and their differences on common random numbers.

use shuttle_report::options_compared::{Apart, Differences, Row};
use shuttle_report::units::{Units, percent, percent_to, whole};

use super::figures::{points, points_range, signed};

/// The figures of an option, and below them how far they are from those of the plan as it stands.
pub fn table(row: &Row, runs: u64, digits: usize, units: Units) -> String {
    let name = textwrap::wrap(&row.name, 22);
    let mut lines = vec![[
        percent_to(row.interruption_probability, digits),
        percent(row.reserve_touched, runs),
        format!("{:.2}", row.interrupted_minutes_mean),
        whole(units.volume(row.lowest_engine_gal_mean)),
        whole(units.flow(row.flow_gpm_mean)),
    ]];
    if let Some(apart) = &row.differences {
        let columns = differences(apart, units);
        lines.extend([0, 1].map(|line| columns.each_ref().map(|column| column[line].clone())));
    }
    let mut text = String::new();
    for place in 0..lines.len().max(name.len()) {
        let left = name.get(place).map_or("", |part| part.as_ref());
        let empty = <[String; 5]>::default();
        let [a, b, c, d, e] = lines.get(place).unwrap_or(&empty);
        let line = format!("{left:<22} {a:>15} {b:>15} {c:>14} {d:>15} {e:>13}");
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// Column by column: the difference, and below it its 95% interval.
fn differences(apart: &Differences, units: Units) -> [[String; 2]; 5] {
    let chance = |one: &Apart| [points(one.by, one.ci_high - one.ci_low), points_range(one)];
    let figure = |one: Option<&Apart>, scale: &dyn Fn(f64) -> f64, digits| {
        let Some(one) = one else { return ["-".to_owned(), String::new()] };
        let [by, low, high] =
            [one.by, one.ci_low, one.ci_high].map(|value| signed(scale(value), digits));
        [by, format!("{low} to {high}")]
    };
    let minutes = apart.interrupted_minutes_mean.as_ref();
    let flow = apart.flow_gpm_mean.as_ref();
    [
        chance(&apart.interruption_probability),
        chance(&apart.reserve_touched),
        figure(minutes, &|value| value, minute_digits(minutes)),
        figure(apart.lowest_engine_gal_mean.as_ref(), &|value| units.volume(value), 0),
        figure(flow, &|value| units.flow(value), digits_of(flow, units)),
    ]
}

/// Small differences of the flow need a digit more.
fn digits_of(flow: Option<&Apart>, units: Units) -> usize {
    let is_small = |flow: &Apart| {
        units.flow(flow.ci_high - flow.ci_low) < 2.0 && units.flow(flow.by.abs()) < 50.0
    };
    flow.map_or(0, |flow| usize::from(is_small(flow)))
}

/// Minutes to a hundredth where there are only a few.
fn minute_digits(minutes: Option<&Apart>) -> usize {
    minutes.map_or(
        2,
        |minutes| if minutes.ci_low.abs().max(minutes.ci_high.abs()) < 9.0 { 2 } else { 1 },
    )
}
