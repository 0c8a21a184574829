//! A few runs of many plans on common random numbers, of which any two can be held against each other.
//!
//! [`side_by_side`](super::side_by_side) holds every plan against one; here a few figures of every run are kept, so
//! this is for hundreds of runs, not for thousands.

use shuttle_sim::{Luck, Plan, Shuttle};

use super::batch::BLOCK;
use super::control::{Control, SameLuck};
use super::in_order::in_order;
use super::tally::{Figures, Pairs};

/// The plans and the runs they have made.
pub(crate) struct AnyTwo<'p> {
    plans: Vec<&'p Plan>,
    luck: SameLuck,
    runs: Vec<Vec<Figures>>,
}

impl<'p> AnyTwo<'p> {
    /// No runs yet.
    pub fn new(plans: Vec<&'p Plan>, luck: SameLuck) -> AnyTwo<'p> {
        AnyTwo { runs: vec![Vec::new(); plans.len()], plans, luck }
    }

    /// Runs those in `who` from where they stand up to run `until`. If it is stopped early, some keep fewer runs.
    ///
    /// - Given: a multiple of 64 runs so far, of all of them the same.
    pub fn run_until(&mut self, until: u64, who: &[usize], control: &Control) {
        let begin = who.first().map_or(until, |place| self.runs[*place].len() as u64);
        let blocks = until.saturating_sub(begin).div_ceil(BLOCK);
        let work = |room: &mut Option<(usize, Shuttle)>, job: u64| {
            let (place, block) = (who[(job / blocks) as usize], job % blocks);
            if room.as_ref().is_none_or(|(of, _)| *of != place) {
                let mut shuttle = Shuttle::new(self.plans[place]);
                shuttle.keep_levels(false);
                *room = Some((place, shuttle));
            }
            let (first, last) = (begin + block * BLOCK, (begin + (block + 1) * BLOCK).min(until));
            let runs: Vec<Figures> = (room.iter_mut())
                .flat_map(|(_, shuttle)| {
                    (first..last).map(|replication| {
                        let luck = Luck::Drawn { seed: self.luck.seed, replication };
                        Figures::of(shuttle.run(luck))
                    })
                })
                .collect();
            control.add_done(last - first);
            runs
        };
        let mut made = Vec::new();
        let jobs = blocks * who.len() as u64;
        in_order(
            jobs,
            self.luck.threads,
            control,
            || None,
            work,
            |job, runs| made.push((job, runs)),
        );
        for (job, runs) in made {
            self.runs[who[(job / blocks) as usize]].extend(runs);
        }
    }

    /// One plan against another, over the runs that both made.
    pub fn pairs(&self, one: usize, other: usize) -> Pairs {
        let mut pairs = Pairs::default();
        for (own, other) in self.runs[one].iter().zip(&self.runs[other]) {
            pairs.add(own, other);
        }
        pairs
    }

    /// How often a plan ran short, and the minutes short of all its runs.
    pub fn short(&self, place: usize) -> (usize, f64) {
        let runs = &self.runs[place];
        (
            runs.iter().filter(|run| run.interrupted).count(),
            runs.iter().map(|run| run.minutes_short).sum(),
        )
    }
}
