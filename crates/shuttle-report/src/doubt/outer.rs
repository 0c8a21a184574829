//! The outer draws of a plan's inputs, and runs under each of them.

use shuttle_sim::{
    KeyedStream, Luck, Plan, PlanDraft, Purpose, RestsOn, RunResult, Shuttle, TimeTaken, Unsure,
};

use super::DRAWS;
use super::posterior::{self, numbers_needed};
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;

/// Fires under each draw, a multiple of 64: half as many again in all as the answer itself may run.
pub fn fires_each(most_runs: u64) -> u64 {
    (3 * most_runs).div_ceil(2 * DRAWS as u64).div_ceil(64).max(1) * 64
}

/// Every draw of every input of a plan that rests on readings or a guess.
#[derive(Debug, Clone)]
pub struct OuterDraws {
    inputs: Vec<Input>,
}

#[derive(Debug, Clone)]
struct Input {
    unsure: Unsure,
    /// What it is about, as stated; none for a plain number.
    time: Option<TimeTaken>,
    /// By draw.
    numbers: Vec<Vec<f64>>,
}

impl OuterDraws {
    /// - Given: `draws`, how many.
    /// - Returns: `None` where nothing of the plan rests on readings or a guess.
    pub fn of(plan: &Plan, seed: u64, draws: usize) -> Option<OuterDraws> {
        let inputs: Vec<Input> = (plan.facts().unsure.iter())
            .filter_map(|unsure| Input::new(unsure, plan.facts(), seed, draws))
            .collect();
        (!inputs.is_empty()).then_some(OuterDraws { inputs })
    }

    /// The inputs that are drawn, in the order of the plan.
    pub fn inputs(&self) -> impl Iterator<Item = &Unsure> {
        self.inputs.iter().map(|input| &input.unsure)
    }

    /// The plan under one draw.
    pub fn plan(&self, plan: &Plan, draw: usize) -> Plan {
        let mut facts = plan.facts().clone();
        for Input { unsure, numbers, .. } in &self.inputs {
            let numbers = &numbers[draw];
            unsure.redraw(
                &mut facts,
                |time| posterior::time(time, unsure.rests_on, numbers),
                |value| match unsure.rests_on {
                    RestsOn::Guess(factor) => value * posterior::guessed(factor, numbers[0]),
                    RestsOn::Readings(_) => value,
                },
            );
        }
        Plan::redrawn(facts)
    }

    /// How far off each input is in each draw: the logarithm of its mean against the stated one.
    pub fn off_by(&self) -> Vec<Vec<f64>> {
        (self.inputs.iter())
            .map(|input| (input.numbers.iter()).map(|numbers| input.off_by(numbers)).collect())
            .collect()
    }

    /// By input, how much one reading of it alone would spread: the standard deviation of its logarithm, where the
    /// plan states a spread.
    pub(super) fn spread_of_a_reading(&self) -> Vec<Option<f64>> {
        (self.inputs.iter())
            .map(|input| match input.time.as_ref()? {
                TimeTaken::Lognormal { cv, .. } if *cv > 0.0 => Some((cv * cv).ln_1p().sqrt()),
                _ => None,
            })
            .collect()
    }
}

impl Input {
    fn new(unsure: &Unsure, facts: &PlanDraft, seed: u64, draws: usize) -> Option<Input> {
        // Nothing rests on it where who it is about stays away.
        unsure.redraw(&mut facts.clone(), TimeTaken::clone, |value| value).checked_sub(1)?;
        let time = unsure.times(facts).into_iter().next();
        let count = numbers_needed(unsure.rests_on, time.as_ref());
        let key = unsure.key();
        let mut numbers: Vec<Vec<f64>> = (0..draws as u64)
            .map(|draw| {
                let mut stream = KeyedStream::new(seed, draw, &key);
                (0..count).map(|_| stream.next_uniform(Purpose::Input)).collect()
            })
            .collect();
        // Many numbers a draw leave nothing to even out.
        if count <= 2 {
            (0..count).for_each(|place| spread_evenly(&mut numbers, place));
        }
        Some(Input { unsure: unsure.clone(), time, numbers })
    }

    fn off_by(&self, numbers: &[f64]) -> f64 {
        match (&self.time, self.unsure.rests_on) {
            (_, RestsOn::Guess(factor)) => posterior::guessed(factor, numbers[0]).ln(),
            (Some(stated), rests_on) => {
                let drawn = posterior::time(stated, rests_on, numbers).mean() / stated.mean();
                if drawn.is_finite() && drawn > 0.0 { drawn.ln() } else { 0.0 }
            }
            (None, _) => 0.0,
        }
    }
}

/// One number of each draw moved within its order so that each of as many equal parts between 0 and 1 has one.
fn spread_evenly(numbers: &mut [Vec<f64>], place: usize) {
    let mut order: Vec<usize> = (0..numbers.len()).collect();
    order.sort_by(|a, b| numbers[*a][place].total_cmp(&numbers[*b][place]));
    let of = numbers.len() as f64;
    for (rank, draw) in order.into_iter().enumerate() {
        // Where it lay is as good as any number for where it lies within its part.
        let within = (numbers[draw][place] * 1_048_576.0).fract().clamp(1e-6, 1.0 - 1e-6);
        numbers[draw][place] = (rank as f64 + within) / of;
    }
}

/// Runs a plan under each draw, `fires` times on fires of the draw's own.
///
/// - Given: `measure`, what is kept of a run.
/// - Returns: by draw what was kept, in the order of its fires; `None` if it was stopped before the end.
pub fn under_each<Kept: Send>(
    plan: &Plan,
    draws: &OuterDraws,
    (count, fires): (usize, u64),
    luck: SameLuck,
    control: &Control,
    measure: impl Fn(&RunResult) -> Kept + Sync,
) -> Option<Vec<Vec<Kept>>> {
    let mut all = Vec::with_capacity(count);
    let work = |_: &mut (), draw: u64| {
        let plan = draws.plan(plan, draw as usize);
        let mut shuttle = Shuttle::new(&plan);
        shuttle.keep_levels(false);
        let kept: Vec<Kept> = (draw * fires..(draw + 1) * fires)
            .map(|replication| {
                let luck = Luck::Drawn { seed: luck.seed, replication };
                measure(shuttle.run(luck))
            })
            .collect();
        control.add_done(fires);
        kept
    };
    in_order(count as u64, luck.threads, control, || (), work, |_, kept| all.push(kept));
    (all.len() == count).then_some(all)
}
