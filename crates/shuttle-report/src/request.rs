//! The mutual-aid request: the smallest set of the aid there is that keeps the chance of interruption
//! below the target, and what each unit of it is worth.
//!
//! Sets are tried by size, the smallest first, all sets of one size on the same luck. A set is sampled
//! until its always-valid interval leaves the target; the confidence of each is raised so that any
//! wrong word about any set has a chance of at most 5%. Nothing is assumed of how one more tanker
//! acts: it may well stand in the way. Units that are equal but for their names are tried once. Where
//! there are too many sets for that, units are added one by one, each time the one that helps most,
//! and then each is tried to be left out.

use serde::Serialize;
use shuttle_sim::Plan;

use crate::aid::{Aid, Set, brings};
use crate::batch::Control;
use crate::fleet_size::Verdict;
use crate::options_compared::{self, Apart, Verdict as Told};
use crate::side_by_side::{Record, SameLuck, SideBySide};
use crate::statistics::confidence_for_each;
use crate::statistics::sequential::{Decision, confidence_sequence, decide};

/// Up to so many sets all are tried: twelve units that are all different.
pub const MOST_SETS: usize = 4096;
/// Runs in the first look at a set.
const FIRST_LOOK: u64 = 64;
/// Sets of the right size that are sure or still open are held against each other over this many runs.
const FINAL_RUNS: u64 = 2048;
/// Runs for what surrounds the answer: one unit less, one more, asked for later.
const AROUND_RUNS: u64 = 4096;
/// Minutes by which the request may come late.
pub const LATE: [f64; 3] = [5.0, 10.0, 15.0];

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct RequestQuestion {
    /// Chance of interruption to stay below.
    pub target: f64,
    /// Most runs for any one set.
    pub most_runs: u64,
    /// The luck of all.
    pub luck: SameLuck,
    /// Up to so many sets all are tried: [`MOST_SETS`].
    pub most_sets: usize,
}

/// A unit to ask for.
#[derive(Debug, Clone, Serialize)]
pub struct Unit {
    /// Its name.
    pub name: String,
    /// Its capacity, gal.
    pub capacity_gal: f64,
    /// When it is asked for, minutes after the alarm.
    pub requested_at_min: f64,
    /// How long it takes to come, minutes, mean.
    pub response_min: f64,
    /// Whether it brings a drop tank.
    pub brings_drop_tank: bool,
    /// The request without it, or without one that is equal but for its name, where that was tried.
    pub without_it: Option<Around>,
}

/// The best set of one size.
#[derive(Debug, Clone, Serialize)]
pub struct SizeRow {
    /// How many units are asked for.
    pub units: usize,
    /// Sets of this size that were tried.
    pub sets: usize,
    /// The best of them.
    pub names: Vec<String>,
    /// Its runs.
    pub runs: u64,
    /// Its chance of interruption.
    pub interruption_probability: f64,
    /// Lower end of its always-valid interval, for all sets tried at once.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// `Below` if the best is; `Above` if all are; `NotClear` otherwise.
    pub verdict: Verdict,
}

/// The request changed a little.
#[derive(Debug, Clone, Serialize)]
pub struct Around {
    /// What is changed: a unit's name, or the minutes it is late.
    pub what: String,
    /// Runs made; where the same set stands in the table of sizes with more runs, those.
    pub runs: u64,
    /// Chance of interruption then, of those runs.
    pub interruption_probability: f64,
    /// How much higher the chance is than with the request as it stands; the intervals hold together.
    pub higher_by: Apart,
    /// What can be said, for all changes around the request at once.
    pub told: Told,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct RequestAnswer {
    /// The plan's title.
    pub title: String,
    /// Chance of interruption to stay below.
    pub target: f64,
    /// Whether some set is surely below the target.
    pub meets_target: bool,
    /// What to ask for, in the order to ask; all there is if no set meets the target.
    pub request: Vec<Unit>,
    /// Runs, chance and always-valid interval of that.
    pub runs: u64,
    /// Its chance of interruption.
    pub interruption_probability: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// By number of units, from none.
    pub sizes: Vec<SizeRow>,
    /// A smaller number that may already do, where the runs allowed did not make it clear.
    pub perhaps: Option<usize>,
    /// Whether all sets up to the answer's size were tried, or units were added one by one.
    pub all_sets_tried: bool,
    /// Asked for later, by [`LATE`].
    pub late: Vec<Around>,
    /// One more of the units that are not asked for.
    pub one_more: Vec<Around>,
    /// Names of units whose coming makes no difference that is clear.
    pub add_nothing: Vec<String>,
    /// Names of units whose coming surely makes it worse.
    pub in_the_way: Vec<String>,
    /// Seed of all luck.
    pub seed: u64,
    /// Whether it was ended early.
    pub stopped_early: bool,
}

/// A set that was tried.
struct Tried {
    set: Set,
    record: Record,
    decision: Decision,
    /// Its always-valid interval: what all looks leave together, so that it never takes back a decision.
    interval: (f64, f64),
}

impl Tried {
    fn rank(&self) -> (f64, f64) {
        (self.record.chance(), self.record.mean(self.record.minutes_short))
    }
}

/// The search as it goes.
struct Search<'p> {
    aid: Aid<'p>,
    question: RequestQuestion,
    confidence: f64,
    control: &'p Control,
    sizes: Vec<SizeRow>,
}

/// Finds the smallest request.
///
/// - Given: `plan` with everyone who could come; `candidates`, the places of the tankers that are
///   there to be asked for, in rising order. The others always come.
pub fn smallest_request(
    plan: &Plan,
    candidates: &[usize],
    question: RequestQuestion,
    control: &Control,
) -> RequestAnswer {
    let aid = Aid::of(plan, candidates);
    let sets = aid.sets().filter(|sets| *sets <= question.most_sets);
    let units = aid.units();
    // One by one: up to all kinds at each size, and as many again when each is left out.
    let statements = sets.unwrap_or(2 * (units + 1) * (units + 1));
    let confidence = confidence_for_each(0.95, statements);
    let mut search = Search { aid, question, confidence, control, sizes: Vec::new() };
    let found = if sets.is_some() { search.all_sets(units) } else { search.one_by_one(units) };
    search.answer(found, sets.is_some())
}

impl Search<'_> {
    /// Every set, by size.
    fn all_sets(&mut self, units: usize) -> Option<Tried> {
        for size in 0..=units {
            let sets = self.aid.sets_of(size);
            if let Some(best) = self.try_size(size, sets) {
                return Some(best);
            }
            if self.control.is_stopped() {
                return None;
            }
        }
        None
    }

    /// The best unit each time; then one less each time, while that is still surely below.
    fn one_by_one(&mut self, units: usize) -> Option<Tried> {
        let mut set: Set = vec![0; self.aid.kinds.len()];
        let mut sets = vec![set.clone()];
        let mut found = None;
        for size in 0..=units {
            let (below, best) = self.try_all(&sets, FIRST_LOOK * 8);
            self.note(size, sets.len(), below.as_ref().or(best.as_ref()));
            if below.is_some() || self.control.is_stopped() {
                found = below;
                break;
            }
            if let Some(best) = best {
                set = best.set;
            } else if let Some(first) = sets.first() {
                set.clone_from(first);
            }
            sets = self.aid.neighbours(&set, true).into_iter().map(|(_, set)| set).collect();
        }
        let mut found = found?;
        while !self.control.is_stopped() {
            let sets: Vec<Set> =
                self.aid.neighbours(&found.set, false).into_iter().map(|(_, set)| set).collect();
            match self.try_all(&sets, FIRST_LOOK).0 {
                Some(smaller) => found = smaller,
                None => break,
            }
        }
        Some(found)
    }

    /// All sets of one size; the best of those surely below, if any is.
    fn try_size(&mut self, size: usize, sets: Vec<Set>) -> Option<Tried> {
        let (below, best) = self.try_all(&sets, FIRST_LOOK);
        self.note(size, sets.len(), below.as_ref().or(best.as_ref()));
        below
    }

    fn note(&mut self, size: usize, sets: usize, best: Option<&Tried>) {
        let row = match best {
            Some(best) => {
                let record = &best.record;
                let (low, high) = best.interval;
                SizeRow {
                    units: size,
                    sets,
                    names: self.aid.names(&best.set),
                    runs: record.runs,
                    interruption_probability: record.chance(),
                    low,
                    high,
                    verdict: match best.decision {
                        Decision::Below => Verdict::Below,
                        Decision::Above => Verdict::Above,
                        Decision::NotClear => Verdict::NotClear,
                    },
                }
            }
            None => SizeRow {
                units: size,
                sets,
                names: Vec::new(),
                runs: 0,
                interruption_probability: 1.0,
                low: 1.0,
                high: 1.0,
                verdict: Verdict::CannotWork,
            },
        };
        if !self.control.is_stopped() {
            self.sizes.push(row);
        }
    }

    /// Samples sets on the same luck until each is clear, or one of them is surely below.
    ///
    /// - Returns: the best of those surely below, and else the best of all that can work: one that is
    ///   not clear before one that is surely above, then the one that took longest to tell.
    fn try_all(&self, sets: &[Set], first_look: u64) -> (Option<Tried>, Option<Tried>) {
        let (sets, plans): (Vec<&Set>, Vec<Plan>) =
            sets.iter().filter_map(|set| Some((set, self.aid.plan(set)?))).unzip();
        if plans.is_empty() {
            return (None, None);
        }
        let most = self.question.most_runs;
        let mut side = SideBySide::new(plans.iter().collect(), self.question.luck);
        let mut open: Vec<usize> = (0..plans.len()).collect();
        let mut below: Vec<usize> = Vec::new();
        let mut clear_after = vec![0_u64; plans.len()];
        let mut intervals = vec![(0.0_f64, 1.0_f64); plans.len()];
        let decision = |record: &Record| {
            decide(record.interrupted, record.runs, self.question.target, self.confidence)
        };
        let mut look = first_look.min(most);
        loop {
            let running: Vec<usize> = merged(&open, &below);
            side.run_until(look, &running, self.control);
            for place in running {
                let record = &side.records()[place];
                let (low, high) =
                    confidence_sequence(record.interrupted, record.runs, self.confidence);
                let seen = &mut intervals[place];
                *seen = (seen.0.max(low), seen.1.min(high));
            }
            for place in std::mem::take(&mut open) {
                match decision(&side.records()[place]) {
                    Decision::Below => below.push(place),
                    Decision::Above => clear_after[place] = look,
                    Decision::NotClear => open.push(place),
                }
            }
            let settled = if below.is_empty() {
                open.is_empty() || look >= most
            } else {
                look >= FINAL_RUNS.min(most)
            };
            if settled || self.control.is_stopped() {
                break;
            }
            look = (2 * look).min(most);
        }
        let tried = |place: usize, decision: Decision| Tried {
            set: sets[place].clone(),
            record: side.records()[place].clone(),
            decision,
            interval: intervals[place],
        };
        let by_rank = |a: &Tried, b: &Tried| {
            let (a, b) = (a.rank(), b.rank());
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        };
        let sure = below.iter().map(|place| tried(*place, Decision::Below)).min_by(by_rank);
        let best = if open.is_empty() {
            (0..plans.len())
                .min_by(|a, b| {
                    let rank = |place: usize| tried(place, Decision::Above).rank();
                    let (x, y) = (rank(*a), rank(*b));
                    (clear_after[*b].cmp(&clear_after[*a]))
                        .then(x.0.total_cmp(&y.0))
                        .then(x.1.total_cmp(&y.1))
                })
                .map(|place| tried(place, Decision::Above))
        } else {
            open.iter().map(|place| tried(*place, Decision::NotClear)).min_by(by_rank)
        };
        (sure, best)
    }

    fn answer(self, found: Option<Tried>, all_sets_tried: bool) -> RequestAnswer {
        let meets_target = found.is_some();
        let set = found.as_ref().map_or_else(|| self.aid.everyone(), |found| found.set.clone());
        let perhaps = (self.sizes.iter())
            .find(|row| row.verdict == Verdict::NotClear)
            .map(|row| row.units)
            .filter(|unclear| !meets_target || *unclear < set.iter().sum());
        let facts = self.aid.plan.facts();
        let mut request: Vec<Unit> = (self.aid.places(&set).into_iter())
            .map(|place| {
                let tanker = &facts.tankers[place];
                Unit {
                    name: tanker.name.clone(),
                    capacity_gal: tanker.capacity,
                    requested_at_min: tanker.call.requested_at,
                    response_min: tanker.call.response.mean(),
                    brings_drop_tank: brings(facts, place),
                    without_it: None,
                }
            })
            .collect();
        let around = self.around(&set);
        let (mut add_nothing, mut in_the_way) = (Vec::new(), Vec::new());
        for (kind, less) in &around.one_less {
            for place in &self.aid.kinds[*kind][..set[*kind]] {
                let name = &facts.tankers[*place].name;
                for unit in request.iter_mut().filter(|unit| unit.name == *name) {
                    unit.without_it = Some(less.clone());
                }
                // With none that meets the target everyone is listed: who could as well stay away?
                match less.told {
                    Told::NotToldApart if !meets_target => add_nothing.push(name.clone()),
                    Told::LowerChance | Told::FewerMinutes => in_the_way.push(name.clone()),
                    _ => {}
                }
            }
        }
        for (kind, more) in &around.one_more {
            let rest = self.aid.kinds[*kind][set[*kind]..].iter();
            let names = rest.map(|place| facts.tankers[*place].name.clone());
            match more.told {
                Told::NotToldApart => add_nothing.extend(names),
                Told::HigherChance | Told::MoreMinutes => in_the_way.extend(names),
                Told::LowerChance | Told::FewerMinutes => {}
            }
        }
        request.sort_by(|a, b| {
            let costs =
                |unit: &Unit| unit.without_it.as_ref().map_or(0.0, |without| without.higher_by.by);
            (a.requested_at_min.total_cmp(&b.requested_at_min))
                .then(costs(b).total_cmp(&costs(a)))
                .then(b.response_min.total_cmp(&a.response_min))
        });
        let of_one_look = |record: Record| {
            let interval = confidence_sequence(record.interrupted, record.runs, self.confidence);
            (record, interval)
        };
        let (record, (low, high)) = match found {
            Some(found) => (found.record, found.interval),
            None => of_one_look(around.record.unwrap_or_default()),
        };
        RequestAnswer {
            title: facts.title.clone(),
            target: self.question.target,
            meets_target,
            request,
            runs: record.runs,
            interruption_probability: record.chance(),
            low,
            high,
            sizes: self.sizes,
            perhaps,
            all_sets_tried,
            late: around.late,
            one_more: around.one_more.into_iter().map(|(_, more)| more).collect(),
            add_nothing,
            in_the_way,
            seed: self.question.luck.seed,
            stopped_early: self.control.is_stopped(),
        }
    }

    /// The request changed a little, each change on the same luck.
    fn around(&self, set: &Set) -> Surroundings {
        let Some(base) = self.aid.plan(set).filter(|_| !self.control.is_stopped()) else {
            return Surroundings::default();
        };
        let mut plans = vec![base];
        let mut changes: Vec<(Option<(usize, bool)>, String)> = Vec::new();
        let mut in_the_table: Vec<Option<&SizeRow>> = Vec::new();
        for more in [false, true] {
            for (kind, changed) in self.aid.neighbours(set, more) {
                let Some(plan) = self.aid.plan(&changed) else { continue };
                plans.push(plan);
                let place = if more { set[kind] } else { set[kind] - 1 };
                let name = &self.aid.plan.facts().tankers[self.aid.kinds[kind][place]].name;
                changes.push((Some((kind, more)), name.clone()));
                let names = self.aid.names(&changed);
                in_the_table.push(self.sizes.iter().find(|row| row.names == names));
            }
        }
        let asked = self.aid.names(set);
        for minutes in LATE {
            if let Some(plan) = late(&plans[0], &asked, minutes) {
                plans.push(plan);
                changes.push((None, format!("{minutes:.0} min later")));
                in_the_table.push(None);
            }
        }
        let mut side = SideBySide::new(plans.iter().collect(), self.question.luck);
        let who: Vec<usize> = (1..plans.len()).collect();
        side.run_until(AROUND_RUNS.min(self.question.most_runs), &who, self.control);
        let mut records = side.records().iter();
        let record = records.next().cloned();
        let each = confidence_for_each(0.95, (2 * changes.len()).max(1));
        let mut found = Surroundings { record, ..Surroundings::default() };
        for (((kind, what), row), record) in changes.into_iter().zip(in_the_table).zip(records) {
            // The same set in the table of sizes, with more runs: one page shows one figure for it.
            let longer = row.filter(|row| row.runs > record.runs);
            let (runs, chance) = longer.map_or((record.runs, record.chance()), |row| {
                (row.runs, row.interruption_probability)
            });
            let around = Around {
                what,
                runs,
                interruption_probability: chance,
                higher_by: record.pairs.interrupted.difference(each).into(),
                told: options_compared::verdict(record, each),
            };
            match kind {
                Some((kind, false)) => found.one_less.push((kind, around)),
                Some((kind, true)) => found.one_more.push((kind, around)),
                None => found.late.push(around),
            }
        }
        found
    }
}

#[derive(Default)]
struct Surroundings {
    record: Option<Record>,
    one_less: Vec<(usize, Around)>,
    one_more: Vec<(usize, Around)>,
    late: Vec<Around>,
}

/// The plan with these units asked for so many minutes later.
fn late(plan: &Plan, names: &[String], minutes: f64) -> Option<Plan> {
    if names.is_empty() {
        return None;
    }
    let mut facts = plan.facts().clone();
    for tanker in facts.tankers.iter_mut().filter(|tanker| names.contains(&tanker.name)) {
        tanker.call.requested_at += minutes;
    }
    Plan::check(facts).ok()
}

/// Two lists of places as one, in rising order.
fn merged(a: &[usize], b: &[usize]) -> Vec<usize> {
    let mut all: Vec<usize> = a.iter().chain(b).copied().collect();
    all.sort_unstable();
    all
}
