//! The curves of many runs minute by minute, and how far another curve strays from them.

use shuttle_sim::{Luck, Plan, Shuttle};

use super::poured::{curve, poured_in};
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;

/// A tanker taken out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Absent {
    /// Its place in the plan.
    pub tanker: usize,
    /// From when on, minutes after the alarm.
    pub from: f64,
    /// For how long, minutes; `None`: for good.
    pub minutes: Option<f64>,
}

/// The curves of many runs.
#[derive(Debug, Clone)]
pub struct Band {
    /// Minutes after the alarm.
    pub minutes: Vec<f64>,
    /// 5% of the runs have poured less, gal.
    pub low: Vec<f64>,
    /// The middle one.
    pub middle: Vec<f64>,
    /// 5% of the runs have poured more.
    pub high: Vec<f64>,
    /// Runs made.
    pub runs: u64,
    /// How far each run strays at its furthest, in rising order: see [`Band::strays`].
    furthest: Vec<f64>,
    /// The least half width that is counted with, gal: one load, which a minute more or less brings or not.
    least: f64,
}

/// How a curve lies to a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Share of the runs that stray as far at some minute; below one in twenty the curve has parted from them.
    pub share_as_far: f64,
    /// The first minute at which it lies further out than 19 runs of 20 ever do; `None` where it never does.
    pub parts_at: Option<f64>,
    /// Whether it lies below there.
    pub is_below: bool,
    /// How far it strays at its furthest, in half widths of the band.
    pub furthest: f64,
}

/// One run of 20 strays further: a curve that does has parted from the band.
pub const PARTS_BELOW: f64 = 0.05;

/// Runs a plan many times and keeps what is poured by each minute.
///
/// - Given: the minutes, in rising order; how many runs.
/// - Returns: of fewer runs if it was stopped early; `None` if none was made.
pub fn band(
    plan: &Plan,
    absent: &[Absent],
    minutes: &[f64],
    runs: u64,
    luck: SameLuck,
    control: &Control,
) -> Option<Band> {
    let room = || {
        let mut shuttle = Shuttle::new(plan);
        shuttle.keep_levels(false);
        for one in absent {
            shuttle.take_out(one.tanker, one.from, one.minutes);
        }
        shuttle
    };
    let work = |shuttle: &mut Shuttle, replication: u64| {
        let drawn = Luck::Drawn { seed: luck.seed, replication };
        let (_, trace) = shuttle.run_traced(drawn);
        control.add_done(1);
        curve(&poured_in(&trace, plan), minutes)
    };
    let mut curves: Vec<Vec<f64>> = Vec::new();
    in_order(runs, luck.threads, control, room, work, |_, made| curves.push(made));
    let loads = plan.facts().tankers.iter().map(|tanker| tanker.load());
    Band::of(minutes, &curves, loads.fold(f64::INFINITY, f64::min))
}

impl Band {
    /// The band of these curves.
    ///
    /// - Given: the least load, gal.
    fn of(minutes: &[f64], curves: &[Vec<f64>], least_load: f64) -> Option<Band> {
        if curves.is_empty() {
            return None;
        }
        let mut band = Band {
            minutes: minutes.to_vec(),
            low: Vec::new(),
            middle: Vec::new(),
            high: Vec::new(),
            runs: curves.len() as u64,
            furthest: Vec::new(),
            least: least_load,
        };
        for place in 0..minutes.len() {
            let mut values: Vec<f64> = curves.iter().map(|curve| curve[place]).collect();
            values.sort_by(f64::total_cmp);
            let at = |share: f64| values[((values.len() - 1) as f64 * share).round() as usize];
            band.low.push(at(0.05));
            band.middle.push(at(0.5));
            band.high.push(at(0.95));
        }
        band.furthest = curves
            .iter()
            .map(|curve| band.strays(curve).fold(0.0, |most, one| one.abs().max(most)))
            .collect();
        band.furthest.sort_by(f64::total_cmp);
        Some(band)
    }

    /// How far a curve lies from the middle at each minute, in half widths of the band to that side; below
    /// zero where it lies below.
    fn strays<'a>(&'a self, curve: &'a [f64]) -> impl Iterator<Item = f64> + 'a {
        curve.iter().enumerate().map(|(place, value)| {
            let off = value - self.middle[place];
            let half = if off < 0.0 {
                self.middle[place] - self.low[place]
            } else {
                self.high[place] - self.middle[place]
            };
            off / half.max(self.least)
        })
    }

    /// How another curve over the same minutes lies to the band. Its furthest point is held against the furthest
    /// points of the runs, so that many minutes are one comparison.
    pub fn fit(&self, curve: &[f64]) -> Fit {
        let furthest = self.strays(curve).fold(0.0, |most: f64, one| one.abs().max(most));
        let as_far = self.furthest.iter().filter(|one| **one >= furthest).count();
        // The curve itself counts as one more run (Davison and Hinkley 1997, 4.2: Monte Carlo tests).
        let share_as_far = (as_far as f64 + 1.0) / (self.furthest.len() as f64 + 1.0);
        let count = self.furthest.len() as f64;
        let limit = self.furthest[((count - 1.0) * (1.0 - PARTS_BELOW)).round() as usize];
        let first = self.strays(curve).enumerate().find(|(_, one)| one.abs() > limit);
        let parted = first.filter(|_| share_as_far <= PARTS_BELOW);
        Fit {
            share_as_far,
            parts_at: parted.map(|(place, _)| self.minutes[place]),
            is_below: parted.is_some_and(|(_, stray)| stray < 0.0),
            furthest,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_of_the_plan_itself_parts_in_one_case_of_twenty_and_a_loss_always_does() {
        let plan = crate::chart::demo::plan(3, 90.0, 1);
        let minutes: Vec<f64> = (0..100).map(f64::from).collect();
        let luck = |seed| SameLuck { seed, threads: 2 };
        let whole = band(&plan, &[], &minutes, 400, luck(1), &Control::default()).expect("runs");
        let mut parted = 0;
        for replication in 0..200 {
            let mut shuttle = Shuttle::new(&plan);
            let (_, trace) = shuttle.run_traced(Luck::Drawn { seed: 2, replication });
            let fit = whole.fit(&curve(&poured_in(&trace, &plan), &minutes));
            parted += u32::from(fit.parts_at.is_some());
        }
        // Binomial, 200 of 5%: 10, standard error 3.1; the limit of 400 runs adds a little.
        assert!((1..=22).contains(&parted), "{parted} of 200 part");
        let absent = Absent { tanker: 0, from: 30.0, minutes: None };
        let lost =
            band(&plan, &[absent], &minutes, 64, luck(3), &Control::default()).expect("runs");
        let fit = whole.fit(&lost.middle);
        assert!(fit.is_below && fit.parts_at.is_some_and(|at| at > 30.0), "{fit:?}");
        // Until then nothing is different, to the bit.
        let same =
            band(&plan, &[absent], &minutes[..30], 64, luck(1), &Control::default()).expect("runs");
        let with =
            band(&plan, &[], &minutes[..30], 64, luck(1), &Control::default()).expect("runs");
        assert_eq!(same.middle, with.middle);
    }
}
