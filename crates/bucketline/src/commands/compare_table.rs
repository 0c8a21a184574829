//! The table of `compare`: figures of each option and their differences on the same luck.

use shuttle_report::options_compared::{Apart, Row};
use shuttle_report::units::{Units, percent, percent_to, whole};

use super::{points, points_range, signed};

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
        let chances = [&apart.interruption_probability, &apart.reserve_touched];
        let minutes = apart.interrupted_minutes_mean.as_ref();
        let volume = |value: f64| units.volume(value);
        let level = apart.lowest_engine_gal_mean.as_ref();
        let flow = apart.flow_gpm_mean.as_ref();
        let by = |one: Option<&Apart>, scale: &dyn Fn(f64) -> f64, digits| {
            one.map_or_else(|| "-".to_owned(), |one| signed(scale(one.by), digits))
        };
        let range = |one: Option<&Apart>, scale: &dyn Fn(f64) -> f64, digits| {
            one.map_or_else(String::new, |one| {
                let (low, high) = (scale(one.ci_low), scale(one.ci_high));
                format!("{} to {}", signed(low, digits), signed(high, digits))
            })
        };
        let own = |value: f64| value;
        let difference = |one: &Apart| points(one.by, one.ci_high - one.ci_low);
        lines.push([
            difference(chances[0]),
            difference(chances[1]),
            by(minutes, &own, minute_digits(minutes)),
            by(level, &volume, 0),
            by(flow, &volume, digits_of(flow, units)),
        ]);
        lines.push([
            points_range(chances[0]),
            points_range(chances[1]),
            range(minutes, &own, minute_digits(minutes)),
            range(level, &volume, 0),
            range(flow, &volume, digits_of(flow, units)),
        ]);
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
