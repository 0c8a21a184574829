//! Loads poured out, and the water they add up to minute by minute.

use shuttle_sim::{Doing, Happening, Plan, Trace};

/// A load poured into a drop tank or the attack engine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Poured {
    /// When it began, minutes after the alarm.
    pub from: f64,
    /// When the tanker was empty.
    pub to: f64,
    /// How much, gal.
    pub gallons: f64,
}

/// All water poured by each of these minutes, gal: a load counts in a straight line from its beginning to its
/// end.
pub fn curve(loads: &[Poured], minutes: &[f64]) -> Vec<f64> {
    (minutes.iter())
        .map(|minute| {
            let share = |load: &Poured| {
                if *minute >= load.to {
                    1.0
                } else if *minute <= load.from {
                    0.0
                } else {
                    (minute - load.from) / (load.to - load.from)
                }
            };
            loads.iter().map(|load| load.gallons * share(load)).sum()
        })
        .collect()
}

/// The loads poured in a run: a full load each, as a log has them. One that is not empty when the watch ends
/// counts as far as its tanker's rate takes it.
pub fn poured_in(trace: &Trace, plan: &Plan) -> Vec<Poured> {
    let tankers = &plan.facts().tankers;
    let mut began: Vec<Option<(f64, f64)>> = vec![None; tankers.len()];
    let mut loads = Vec::new();
    for note in &trace.notes {
        let Happening::Tanker(tanker, doing) = note.happening else { continue };
        if let Some((from, _)) = began[tanker].take() {
            loads.push(Poured { from, to: note.minute, gallons: tankers[tanker].load() });
        }
        began[tanker] = match doing {
            Doing::Dumping(_) => Some((note.minute, tankers[tanker].dump_rate)),
            Doing::PumpingOff => Some((note.minute, tankers[tanker].pump_off)),
            _ => None,
        };
    }
    for (tanker, began) in began.into_iter().enumerate() {
        if let Some((from, rate)) = began {
            let gallons = tankers[tanker].load();
            loads.push(Poured { from, to: from + gallons / rate, gallons });
        }
    }
    loads
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_load_counts_as_it_is_poured() {
        let loads = [
            Poured { from: 10.0, to: 12.0, gallons: 2_000.0 },
            Poured { from: 11.0, to: 13.0, gallons: 1_000.0 },
        ];
        let minutes = [9.0, 10.5, 11.0, 12.0, 14.0];
        assert_eq!(curve(&loads, &minutes), [0.0, 500.0, 1_000.0, 2_500.0, 3_000.0]);
    }
}
