//! Two plans on the same luck: is the chance of an interruption surely higher in one of them?

use shuttle_sim::{Luck, Plan, Shuttle};

/// Runs of the first look, of the second and of the last. Each look takes fresh runs, and only who is
/// suspected in one is looked at again.
pub const LOOKS: [u64; 3] = [1_000, 4_000, 20_000];

/// A look at which chance alone would do this seldom is followed by the next; the last one decides.
const SUSPECT: [f64; 2] = [0.2, 0.05];

/// One-sided.
const SURE: f64 = 0.005;

/// A smaller difference in the chance is no matter.
const MATTERS: f64 = 0.005;

/// How the chance of an interruption changed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Verdict {
    /// Surely lower.
    Better,
    /// Not surely either.
    #[default]
    NoDifference,
    /// Surely higher.
    Worse,
}

/// What the last look at a pair of plans gave.
#[derive(Debug, Clone, Copy, Default)]
pub struct Look {
    /// Pairs of runs.
    pub runs: u64,
    /// Of them interrupted only as it was.
    pub only_before: u64,
    /// Only with the addition.
    pub only_after: u64,
    /// Both ways.
    pub both: u64,
    /// What follows.
    pub verdict: Verdict,
}

impl Look {
    /// The chance as it was.
    pub fn chance_before(&self) -> f64 {
        (self.only_before + self.both) as f64 / self.runs as f64
    }

    /// The chance with the addition.
    pub fn chance_after(&self) -> f64 {
        (self.only_after + self.both) as f64 / self.runs as f64
    }
}

/// The runs of one plan, made as they are asked for and remembered.
pub struct Remembered {
    shuttle: Shuttle,
    seed: u64,
    interrupted: Vec<bool>,
}

impl Remembered {
    /// No runs yet.
    pub fn new(plan: &Plan, seed: u64) -> Remembered {
        let mut shuttle = Shuttle::new(plan);
        shuttle.keep_levels(false);
        Remembered { shuttle, seed, interrupted: Vec::new() }
    }

    /// Whether the lines are interrupted in these runs, which are not remembered.
    pub fn fresh(&mut self, first: u64, count: u64) -> impl Iterator<Item = bool> {
        (first..first + count).map(|replication| {
            let run = self.shuttle.run(Luck::Drawn { seed: self.seed, replication });
            !run.interruptions.is_empty()
        })
    }

    /// Whether the lines were interrupted in these runs.
    pub fn runs(&mut self, first: u64, count: u64) -> &[bool] {
        for replication in self.interrupted.len() as u64..first + count {
            let run = self.shuttle.run(Luck::Drawn { seed: self.seed, replication });
            self.interrupted.push(!run.interruptions.is_empty());
        }
        &self.interrupted[first as usize..(first + count) as usize]
    }
}

/// Looks until it is clear enough.
pub fn compare(before: &mut Remembered, after: &mut Remembered) -> Look {
    let mut first = 0;
    for (at, runs) in LOOKS.into_iter().enumerate() {
        let pairs = before.runs(first, runs).iter().zip(after.runs(first, runs));
        let mut look = Look { runs, ..Look::default() };
        for (&was, &is) in pairs {
            look.only_before += u64::from(was && !is);
            look.only_after += u64::from(is && !was);
            look.both += u64::from(was && is);
        }
        first += runs;
        let (worse, better) = (look.only_after, look.only_before);
        let apart = (worse.abs_diff(better)) as f64 / runs as f64;
        let is_sure = |more, less| apart >= MATTERS && chance_of_so_many(more, less) < SURE;
        let is_last = at + 1 == LOOKS.len();
        if !is_last && worse > better && chance_of_so_many(worse, better) < SUSPECT[at] {
            continue;
        }
        look.verdict = if is_last && worse > better && is_sure(worse, better) {
            Verdict::Worse
        } else if better > worse && is_sure(better, worse) {
            Verdict::Better
        } else {
            Verdict::NoDifference
        };
        return look;
    }
    unreachable!("the last look decides")
}

/// The chance that of `more + less` tosses of a coin at least `more` fall one way: the exact one-sided
/// test for pairs (McNemar, Psychometrika 12 (1947), 153-157).
fn chance_of_so_many(more: u64, less: u64) -> f64 {
    let tosses = more + less;
    // The logarithm of the binomial coefficient, term by term.
    let mut log = -(tosses as f64) * std::f64::consts::LN_2;
    let mut chance = log.exp();
    for lost in 1..=less {
        log += ((tosses - lost + 1) as f64 / lost as f64).ln();
        chance += log.exp();
    }
    chance
}
