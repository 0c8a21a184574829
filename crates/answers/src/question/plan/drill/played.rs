//! The day played back: what the model expects from the measured times, and which assumption explains the rest.

use shuttle_report::batch::Control;
use shuttle_report::playback::assumptions::{Assumption, Tried, assumptions, tried};
use shuttle_report::playback::band::{Absent, Band, Fit, PARTS_BELOW, band};
use shuttle_report::playback::poured::curve;
use shuttle_report::side_by_side::SameLuck;

use super::day::Day;

/// Runs of the day: a 5% quantile of 400 is known to about a percent either way.
const RUNS: u64 = 400;
/// Runs of each assumption: only the best few matter.
const RUNS_TRIED: u64 = 120;

/// A tanker that is lost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lost {
    /// Its place among everyone.
    pub tanker: usize,
    /// From which minute after the alarm on.
    pub minute: f64,
}

/// The day played back.
#[derive(Debug, Clone)]
pub(super) struct Played {
    pub day: Day,
    /// What was poured by each minute, gal.
    pub poured: Vec<f64>,
    /// What the model expects.
    pub expected: Band,
    pub fit: Fit,
    /// With a tanker lost, and how the day lies to that.
    pub lost: Option<(Lost, Band, Fit)>,
    /// Assumptions, the best first; none where nothing has to be explained.
    pub tried: Vec<Tried>,
}

impl Played {
    /// A tanker that was out brings no more water, and none the less before it was out.
    fn can_explain(&self, assumption: Assumption) -> bool {
        match assumption {
            Assumption::Out(absent) => {
                self.fit.is_below && self.fit.parts_at.is_some_and(|at| absent.from <= at)
            }
            _ => true,
        }
    }

    /// The assumptions that explain the day.
    pub fn explained_by(&self) -> impl Iterator<Item = &Tried> {
        (self.tried.iter())
            .filter(|one| one.fit.share_as_far > PARTS_BELOW)
            .filter(|one| self.can_explain(one.assumption))
    }
}

/// Plays the day back; `None` where there is nothing to play, or it was stopped.
pub(super) fn played(
    day: Day,
    lost: Option<Lost>,
    luck: SameLuck,
    control: &Control,
) -> Option<Played> {
    let plan = day.plan.clone()?;
    if day.loads.is_empty() {
        return None;
    }
    let poured = curve(&day.loads, &day.minutes);
    let expected = band(&plan, &[], &day.minutes, RUNS, luck, control)?;
    let fit = expected.fit(&poured);
    let lost = lost.and_then(|lost| {
        let absent = Absent { tanker: day.places[lost.tanker]?, from: lost.minute, minutes: None };
        let without = band(&plan, &[absent], &day.minutes, RUNS, luck, control)?;
        let fit = without.fit(&poured);
        Some((lost, without, fit))
    });
    let tried = if fit.parts_at.is_some() {
        let all = assumptions(&plan, &day.known);
        tried(&plan, &all, (&day.minutes, &poured), RUNS_TRIED, luck, control)
    } else {
        Vec::new()
    };
    Some(Played { day, poured, expected, fit, lost, tried })
}
