//! The story of a fire as tables: its turning points, and every line.

use shuttle_sim::{Plan, Trace};

use super::what::{Line, What};
use crate::say;
use crate::say::{Align, Piece, Table};

/// Turning points that fit a screen with the rest of the answer, and as many where it has a sentence more.
pub const MOST: usize = 7;
pub const MOST_BESIDE_A_SENTENCE: usize = 5;

/// What turned this fire, in order of time: so many moments at most.
pub fn turning_points(plan: &Plan, trace: &Trace, most: usize) -> Table {
    let lines = lines(plan, trace);
    let mut turning: Vec<(u8, usize)> = (0..lines.len())
        .filter_map(|place| {
            let is_first = lines[..place].iter().all(|other| other.what != lines[place].what);
            Some((weight(lines[place].what, is_first)?, place))
        })
        .collect();
    turning.sort();
    // One more takes the line that would say it is left out.
    let most = if turning.len() == most + 1 { most + 1 } else { most };
    let left_out = turning.len().saturating_sub(most);
    turning.truncate(most);
    let mut places: Vec<usize> = turning.into_iter().map(|(_, place)| place).collect();
    places.sort_unstable();
    let mut table = table(plan, trace, &lines, &places);
    if left_out > 0 {
        let more = Piece::Number(left_out as f64, 0);
        table.feet.push(say![
            "and ",
            more,
            " more such moments",
            crate::say::on_command("; every line: --more")
        ]);
    }
    table
}

/// Every line.
pub fn every_line(plan: &Plan, trace: &Trace) -> Table {
    let lines = lines(plan, trace);
    let places: Vec<usize> = (0..lines.len()).collect();
    table(plan, trace, &lines, &places)
}

fn lines(plan: &Plan, trace: &Trace) -> Vec<Line> {
    trace.notes.iter().map(|note| Line::new(plan, note)).collect()
}

/// How much a moment turns the fire, the least number most; `None`: everyday work.
///
/// - Given: whether it is the first of its kind.
fn weight(what: What, is_first: bool) -> Option<u8> {
    match what {
        What::FirstWater | What::SupplyEstablished => Some(0),
        What::ShortfallBegan if is_first => Some(0),
        What::OutOfService | What::FillSiteDry | What::WatchEnded => Some(1),
        What::ShortfallEnded | What::PrimeLost if is_first => Some(1),
        What::InRepair => Some(2),
        What::PrimeBack | What::Dumping | What::PumpingOff | What::StandingBy if is_first => {
            Some(2)
        }
        // The first flow comes with first water.
        What::FlowWanted if is_first => None,
        What::ShortfallBegan | What::FlowWanted => Some(3),
        What::ShortfallEnded | What::PrimeLost | What::PrimeBack | What::FillSiteReady => Some(4),
        What::AttackEngineArrived | What::SupplyEngineArrived | What::HookedUp => Some(5),
        _ => None,
    }
}

fn table(plan: &Plan, trace: &Trace, lines: &[Line], places: &[usize]) -> Table {
    let tanks = plan.facts().drop_tanks.len();
    let mut columns = vec![(say!["minute"], Align::Right), (say!["what happens"], Align::Left)];
    for place in 0..tanks {
        let number = Piece::Number((place + 1) as f64, 0);
        columns.push((say!["tank ", number, ", ", Piece::VolumeSign], Align::Right));
    }
    columns.push((say!["engine, ", Piece::VolumeSign], Align::Right));
    let mut table = Table::new(columns);
    for place in places {
        let line = &lines[*place];
        let mut row =
            vec![say![Piece::Number(line.minute, 1)], say![line.who.words(), ": ", line.words()]];
        let levels = &trace.levels[place * (tanks + 1)..(place + 1) * (tanks + 1)];
        row.extend(levels.iter().map(|level| say![Piece::BareVolume(*level)]));
        table.row(row);
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_shortfall_turns_a_fire_more_than_the_second() {
        assert!(weight(What::ShortfallBegan, true) < weight(What::ShortfallBegan, false));
        assert_eq!(weight(What::TravelingOut, true), None);
    }
}
