//! The tables of `risk` for who asks for more: means and the worst, the cycle, how busy each place is.

use scenario_file::Scenario;
use shuttle_report::chart::part_words;
use shuttle_report::summary::Summary;
use shuttle_sim::Part;

use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, name};

/// Means and worst, the cycle, how busy each place is.
pub fn more(scenario: &Scenario, summary: &Summary) -> Vec<Block> {
    vec![
        Block::Table(means(scenario, summary)),
        Block::Gap,
        Block::Point(Label::Cycle, cycle(summary)),
        Block::Point(Label::Busy, busy(summary)),
    ]
}

fn means(scenario: &Scenario, summary: &Summary) -> Table {
    let facts = scenario.plan.facts();
    let mut table = Table::new(vec![
        (say![""], Align::Left),
        (say!["mean"], Align::Right),
        (say!["worst 5%"], Align::Right),
        (say![""], Align::Left),
    ]);
    let tenth = |minutes: f64| say![Piece::Number(minutes, 1)];
    // By the same rounding as in words.
    let minute = |minute: f64| say![Piece::Number(minute, 0)];
    let volume = |gallons: f64| say![Piece::BareVolume(gallons)];
    let mut row = |label: Sentence, mean: Sentence, worst: Option<Sentence>, note: Sentence| {
        table.row(vec![label, mean, worst.unwrap_or_default(), note]);
    };
    if let Some(first) = summary.first_interruption_alarm_min {
        row(
            say!["first short of water"],
            tenth(first.mean),
            first.worst_5_percent.map(tenth),
            say!["min after the alarm, in fires that run short"],
        );
    }
    row(
        say!["minutes short"],
        say![Piece::Number(summary.interrupted_minutes_mean, 2)],
        // As finely as the mean beside it.
        summary.interrupted_minutes_worst_5_percent.map(|minutes| say![Piece::Number(minutes, 2)]),
        say!["min, mean +/- ", Piece::Number(1.96 * summary.interrupted_minutes_se, 2)],
    );
    if let Some(lowest) = summary.lowest_drop_tank_gal {
        let unusable = facts.drop_tanks.first().map_or(0.0, |tank| tank.unusable);
        row(
            say!["first drop tank, lowest"],
            volume(lowest.mean),
            lowest.worst_5_percent.map(volume),
            say![Piece::VolumeSign, ", unusable below ", Piece::BareVolume(unusable)],
        );
    }
    row(
        say!["attack engine, lowest"],
        volume(summary.lowest_engine_gal.mean),
        summary.lowest_engine_gal.worst_5_percent.map(volume),
        say![Piece::VolumeSign, " of ", Piece::BareVolume(facts.attack_engine.tank)],
    );
    row(
        say!["water delivered"],
        volume(summary.delivered_gal_mean),
        summary.delivered_gal_worst_5_percent.map(volume),
        say![Piece::VolumeSign, " of ", Piece::BareVolume(summary.wanted_gal), " wanted"],
    );
    row(
        say!["first water"],
        minute(summary.first_water_min_mean),
        None,
        say!["min after the alarm"],
    );
    if let Some(established) = summary.established_min_mean {
        let nursing_only = facts.drop_tanks.is_empty();
        let what =
            if nursing_only { "the first nurse is connected" } else { "the pump first draws" };
        row(
            say!["supply established"],
            minute(established),
            None,
            say!["min after the alarm: ", what],
        );
    }
    table
}

fn cycle(summary: &Summary) -> Sentence {
    let Some(total) = summary.cycle_minutes() else {
        return say!["no ", Piece::Tanker, " came back for a second load within the watch."];
    };
    let parts = (Part::ALL.iter()).filter_map(|part| {
        let mean = *summary.cycle_min.get(part.key())?;
        (mean >= 0.05).then(|| {
            let held_up = (*part == Part::Dump && summary.held_up_min >= 0.05).then(|| {
                let minutes = Piece::Number(summary.held_up_min, 1);
                say![" (of which ", minutes, " waiting at a full drop tank)"]
            });
            say![part_words(*part), " ", Piece::Number(mean, 1), held_up]
        })
    });
    say![joined(parts, " · ", " · "), " = ", Piece::Number(total, 1), " min"]
}

fn busy(summary: &Summary) -> Sentence {
    let percent = |share: f64| say![" ", Piece::Number(100.0 * share, 0), "%"];
    let mut parts: Vec<Sentence> = (summary.busy.fill_positions.iter())
        .map(|(site, busy)| say!["fill positions at ", name(site), percent(*busy)])
        .collect();
    for (place, busy) in summary.busy.dump_positions.iter().enumerate() {
        let number = Piece::Number((place + 1) as f64, 0);
        parts.push(say!["dump positions at drop tank ", number, percent(*busy)]);
    }
    if summary.busy.intakes > 0.0 {
        parts.push(say!["engine intakes ", percent(summary.busy.intakes)]);
    }
    say![joined(parts, " · ", " · "), " of the time watched"]
}
