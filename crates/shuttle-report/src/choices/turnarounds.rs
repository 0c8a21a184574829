//! How long tankers are away from the scene, and when sources run dry: read from the story of every run.

use shuttle_sim::{Doing, Happening, Luck, Plan, Shuttle, Trace};

use crate::runs::batch::BLOCK;
use crate::runs::control::{Control, Runs};
use crate::runs::in_order::in_order;

/// Parts of a minute that are told apart.
const TENTHS: f64 = 10.0;

/// How long a tanker is away for a load: from leaving the scene until it is back there, loaded. What the end of the
/// watch cuts off is not counted.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Away {
    /// Times it was away, over all runs.
    pub trips: u64,
    /// Minutes away, over all of them.
    minutes: f64,
    /// How many took so many whole tenths of a minute.
    by_tenth: Vec<u64>,
}

/// When a source runs dry.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Dry {
    /// Runs in which it did.
    pub runs: u64,
    /// The minute after the alarm, over all of them.
    minutes: f64,
}

/// What was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Turnarounds {
    /// Runs read.
    pub runs: u64,
    /// By tanker, in order.
    pub tankers: Vec<Away>,
    /// By tanker, in order, and by the fill site where it loaded last before it was back.
    pub by_site: Vec<Vec<Away>>,
    /// By fill site, in order.
    pub sources: Vec<Dry>,
}

impl Away {
    /// Minutes away, mean; `None` where it never came back.
    pub fn mean(&self) -> Option<f64> {
        (self.trips > 0).then(|| self.minutes / self.trips as f64)
    }

    /// Minutes within which this share of the times it was back, to a tenth of a minute, upwards.
    pub fn within(&self, share: f64) -> Option<f64> {
        let wanted = share * self.trips as f64;
        let mut back = 0;
        (self.by_tenth.iter().enumerate()).filter(|_| self.trips > 0).find_map(|(tenth, count)| {
            back += count;
            (back as f64 >= wanted).then(|| (tenth + 1) as f64 / TENTHS)
        })
    }

    fn add(&mut self, minutes: f64) {
        let tenth = (minutes * TENTHS) as usize;
        if tenth >= self.by_tenth.len() {
            self.by_tenth.resize(tenth + 1, 0);
        }
        self.by_tenth[tenth] += 1;
        self.trips += 1;
        self.minutes += minutes;
    }

    fn merge(&mut self, other: &Away) {
        self.trips += other.trips;
        self.minutes += other.minutes;
        self.by_tenth.resize(self.by_tenth.len().max(other.by_tenth.len()), 0);
        for (sum, count) in self.by_tenth.iter_mut().zip(&other.by_tenth) {
            *sum += count;
        }
    }
}

impl Dry {
    /// The minute after the alarm at which it runs dry, mean over the runs in which it does.
    pub fn mean(&self) -> Option<f64> {
        (self.runs > 0).then(|| self.minutes / self.runs as f64)
    }
}

impl Turnarounds {
    fn none_yet(plan: &Plan) -> Turnarounds {
        let facts = plan.facts();
        Turnarounds {
            runs: 0,
            tankers: vec![Away::default(); facts.tankers.len()],
            by_site: vec![vec![Away::default(); facts.fill_sites.len()]; facts.tankers.len()],
            sources: vec![Dry::default(); facts.fill_sites.len()],
        }
    }

    fn read(&mut self, trace: &Trace) {
        let mut left: Vec<Option<f64>> = vec![None; self.tankers.len()];
        // A stretch that carries one direction at a time may lie before a road out or behind a road back.
        let mut is_here = vec![false; self.tankers.len()];
        let mut is_dry = vec![false; self.sources.len()];
        let mut loaded_at: Vec<Option<usize>> = vec![None; self.tankers.len()];
        for note in &trace.notes {
            if let Happening::Tanker(tanker, Doing::Filling(site)) = note.happening {
                loaded_at[tanker] = Some(site);
            }
            match note.happening {
                Happening::Tanker(tanker, doing) => match side(doing) {
                    Side::OnTheRoad if is_here[tanker] => {
                        is_here[tanker] = false;
                        left[tanker] = Some(note.minute);
                    }
                    Side::OnTheRoad => {}
                    Side::AtTheScene => {
                        is_here[tanker] = true;
                        if let Some(since) = left[tanker].take() {
                            self.tankers[tanker].add(note.minute - since);
                            if let Some(site) = loaded_at[tanker].take() {
                                self.by_site[tanker][site].add(note.minute - since);
                            }
                        }
                    }
                    Side::Out => (left[tanker], is_here[tanker]) = (None, false),
                },
                Happening::FillSiteDry(site) if !is_dry[site] => {
                    is_dry[site] = true;
                    self.sources[site].runs += 1;
                    self.sources[site].minutes += note.minute;
                }
                _ => {}
            }
        }
        self.runs += 1;
    }

    fn merge(&mut self, other: &Turnarounds) {
        self.runs += other.runs;
        for (sum, more) in self.tankers.iter_mut().zip(&other.tankers) {
            sum.merge(more);
        }
        for (sum, more) in self.by_site.iter_mut().flatten().zip(other.by_site.iter().flatten()) {
            sum.merge(more);
        }
        for (sum, more) in self.sources.iter_mut().zip(&other.sources) {
            sum.runs += more.runs;
            sum.minutes += more.minutes;
        }
    }
}

/// What doing something says of where a tanker is.
enum Side {
    AtTheScene,
    OnTheRoad,
    Out,
}

fn side(doing: Doing) -> Side {
    match doing {
        Doing::Responding
        | Doing::TravelingOut(_)
        | Doing::WaitingForRoad
        | Doing::CrossingOneLane
        | Doing::WaitingToFill(_)
        | Doing::Connecting(_)
        | Doing::Filling(_)
        | Doing::Disconnecting(_)
        | Doing::TravelingBack
        | Doing::InRepair => Side::OnTheRoad,
        Doing::WaitingAtScene
        | Doing::OnDeck
        | Doing::NurseConnecting
        | Doing::PumpingOff
        | Doing::NurseDisconnecting
        | Doing::Positioning(_)
        | Doing::Dumping(_)
        | Doing::Clearing(_)
        | Doing::BreakingOff(_) => Side::AtTheScene,
        Doing::OutOfService | Doing::StandingBy => Side::Out,
    }
}

/// Runs the plan and reads every run; the same on any number of threads.
pub fn turnarounds(plan: &Plan, runs: Runs, control: &Control) -> Turnarounds {
    let mut all = Turnarounds::none_yet(plan);
    let work = |shuttle: &mut Shuttle, block: u64| {
        let mut found = Turnarounds::none_yet(plan);
        for run in block * BLOCK..((block + 1) * BLOCK).min(runs.count) {
            let luck = Luck::Drawn { seed: runs.seed, replication: runs.first + run };
            let (_, trace) = shuttle.run_traced(luck);
            found.read(&trace);
        }
        control.add_done(found.runs);
        found
    };
    let blocks = runs.count.div_ceil(BLOCK);
    let room = || Shuttle::new(plan);
    in_order(blocks, runs.threads, control, room, work, |_, more| all.merge(&more));
    all
}
