//! What a log measures, and the values it gives for the scenario.

use drill_log::{
    Course, Figures, Log, Measured, Outlier, Reading, Step, figures, measure, outliers,
};
use scenario_file::{Only, Put, Scenario, Units};
use serde_json::{Value as Json, json};
use shuttle_report::units::LITRES_PER_GALLON;
use shuttle_sim::{DumpCurve, Handling, Tanker, TimeTaken};

use super::course::{course, everyone};

/// Fewer readings of a step than this are not put into a scenario. Judgement.
pub const ENOUGH: usize = 3;
/// Where the reading error makes up more of the variance than this, samples would carry it into the plan as
/// spread: the mean and what is left of the spread are put instead. Judgement.
const COARSE: f64 = 0.25;
/// The greatest factor that the format takes for a guess.
const MOST_GUESSED: f64 = 10.0;
/// A tanker that fills at less than this share of what the others do is held to be limited itself. Judgement.
const OWN_LIMIT: f64 = 0.85;

/// A log with all it measures.
#[derive(Debug, Clone)]
pub struct Timed {
    /// The log.
    pub log: Log,
    /// What it was held against.
    pub course: Course,
    /// Its readings, without those of rows that were left out.
    pub measured: Measured,
    /// Readings that stand out: they are counted.
    pub outliers: Vec<Outlier>,
    /// Rows whose readings are left out, as asked.
    pub left_out: Vec<usize>,
    /// The values for the scenario.
    pub values: Vec<Value>,
}

/// A value for the scenario.
#[derive(Debug, Clone)]
pub struct Value {
    /// Where it goes, and what.
    pub put: Put,
    /// How many readings it rests on.
    pub readings: usize,
    /// The step that was read.
    pub step: Step,
}

/// Measures a log.
///
/// - Given: the rows whose readings are to be left out; whom they held up stays so.
pub fn timed(scenario: &Scenario, log: Log, left_out: &[usize]) -> Timed {
    let course = course(scenario);
    let mut measured = measure(&log, &course);
    measured.readings.retain(|one| !left_out.contains(&one.row));
    measured.breakdowns.retain(|one| !left_out.contains(&one.row));
    let outliers = outliers(&measured.readings, &course, log.grain);
    let mut timed =
        Timed { log, course, measured, outliers, left_out: left_out.to_vec(), values: Vec::new() };
    timed.values = values(scenario, &timed);
    timed
}

impl Timed {
    /// The readings of a step, of all tankers or one, at all sites or one.
    pub fn of(&self, step: Step, tanker: Option<usize>, site: Option<usize>) -> Vec<f64> {
        (self.measured.readings.iter())
            .filter(|one| one.step == step)
            .filter(|one| tanker.is_none_or(|tanker| one.tanker == tanker))
            .filter(|one| site.is_none_or(|site| one.site == Some(site)))
            .map(|one| one.minutes)
            .collect()
    }

    /// What they say.
    pub fn figures(
        &self,
        step: Step,
        tanker: Option<usize>,
        site: Option<usize>,
    ) -> Option<Figures> {
        figures(&self.of(step, tanker, site))
    }

    /// The values as they are to be put.
    pub fn puts(&self) -> Vec<Put> {
        self.values.iter().map(|value| value.put.clone()).collect()
    }

    /// Times are written so coarsely that it shows in the step's spread.
    fn is_coarse(&self, of: &Figures) -> bool {
        self.log.reading_error().powi(2) > COARSE * of.deviation.powi(2)
            && self.log.grain > 5.0 / 60.0
    }
}

type OfHandling = fn(&Handling) -> &TimeTaken;

/// The steps that are handling, with their keys.
const HANDLING: [(Step, &str, OfHandling); 4] = [
    (Step::FillConnect, "fill_connect", |handling| &handling.fill_connect),
    (Step::FillDisconnect, "fill_disconnect", |handling| &handling.fill_disconnect),
    (Step::DumpPosition, "dump_position", |handling| &handling.dump_position),
    (Step::DumpClear, "dump_clear", |handling| &handling.dump_clear),
];

fn values(scenario: &Scenario, timed: &Timed) -> Vec<Value> {
    let facts = everyone(scenario);
    let mut all = Vec::new();
    let mut add = |place: String, value: Option<Json>, only, readings, step| {
        if let Some(value) = value {
            all.push(Value { put: Put { place, value, only }, readings, step });
        }
    };
    let entries = entries(scenario);
    for (step, key, of) in HANDLING {
        let pooled = timed.of(step, None, None);
        let was = facts.tankers.first().map(|tanker| of(&tanker.handling));
        let spread = was.and_then(|was| spread(timed, &pooled, was));
        add(format!("handling.{key}"), spread, Only::Always, pooled.len(), step);
        for entry in &entries {
            let own = entry.readings(timed, step, None);
            let spread = self::spread(timed, &own, of(&entry.tanker.handling));
            let place = format!("{}.handling.{key}", entry.place);
            add(place, spread, Only::WhereStated, own.len(), step);
        }
    }
    for (site, stated) in facts.fill_sites.iter().enumerate() {
        for (step, key, was) in [
            (Step::DriveOut, "out", &stated.out.time),
            (Step::DriveBack, "back", &stated.back.time),
        ] {
            let own = timed.of(step, None, Some(site));
            let leg = spread(timed, &own, was).map(|spread| json!({"minutes": spread}));
            add(format!("fill_sites[{site}].{key}"), leg, Only::Always, own.len(), step);
        }
    }
    for entry in &entries {
        let own = entry.readings(timed, Step::Dump, None);
        let usual = usual(timed, &own).filter(|_| own.len() >= ENOUGH);
        let rate = usual.map(|minutes| {
            let rate = dump_rate(entry.tanker, minutes);
            rate_in_file(rate, scenario.units, &own, timed.log.reading_error())
        });
        let only = Only::Always;
        add(format!("{}.dump_rate", entry.place), rate, only, own.len(), Step::Dump);
    }
    fills(scenario, timed, &entries, &mut add);
    all
}

/// What the fills say of sites and of tankers that take less than the others.
fn fills(
    scenario: &Scenario,
    timed: &Timed,
    entries: &[TankerEntry<'_>],
    add: &mut impl FnMut(String, Option<Json>, Only, usize, Step),
) {
    let facts = everyone(scenario);
    let mut greatest = vec![0.0_f64; entries.len()];
    let mut own_limit = vec![None; entries.len()];
    for (site, stated) in facts.fill_sites.iter().enumerate() {
        let own: Vec<Vec<f64>> =
            entries.iter().map(|entry| entry.readings(timed, Step::Fill, Some(site))).collect();
        // Gallons and minutes of each entry.
        let sums: Vec<(f64, f64, usize)> = (entries.iter().zip(&own))
            .map(|(entry, own)| {
                (entry.tanker.fill() * own.len() as f64, own.iter().sum(), own.len())
            })
            .collect();
        // Minutes a thousand gallons, of the entries chosen.
        let paces = |of: &dyn Fn(usize) -> bool| -> Vec<f64> {
            (entries.iter().zip(&own).enumerate())
                .filter(|(place, _)| of(*place))
                .flat_map(|(_, (entry, own))| {
                    own.iter().map(|minutes| 1_000.0 * minutes / entry.tanker.fill())
                })
                .collect()
        };
        let rate = |of: &dyn Fn(usize) -> bool| {
            let chosen = || (0..sums.len()).filter(|place| of(*place));
            let gallons: f64 = chosen().map(|place| sums[place].0).sum();
            let minutes: f64 = chosen().map(|place| sums[place].1).sum();
            (minutes > 0.0).then(|| gallons / minutes)
        };
        let Some(of_all) = rate(&|_| true) else { continue };
        let is_slow = |place: usize| {
            let (_, minutes, readings) = sums[place];
            let own = rate(&|other| other == place).filter(|_| minutes > 0.0);
            readings >= ENOUGH && own.is_some_and(|own| own < OWN_LIMIT * of_all)
        };
        let rest = |place: usize| !is_slow(place);
        let (flow, readings) = match rate(&rest) {
            Some(flow) => {
                (flow, (0..sums.len()).filter(|one| rest(*one)).map(|one| sums[one].2).sum())
            }
            None => (of_all, sums.iter().map(|sum| sum.2).sum::<usize>()),
        };
        if readings < ENOUGH {
            continue;
        }
        let fills = (0..own.len()).filter(|one| rest(*one)).flat_map(|one| &own[one]);
        let mean = fills.sum::<f64>() / readings as f64;
        // As a share of a fill the same as of its pace.
        let paces = paces(&rest);
        let pace = paces.iter().sum::<f64>() / paces.len().max(1) as f64;
        let error = timed.log.reading_error() * pace / mean;
        let value = rate_in_file(flow, scenario.units, &paces, error);
        let place = format!("fill_sites[{site}].flow");
        add(place, Some(value), Only::WhereNumber, readings, Step::Fill);
        for (entry, tanker) in entries.iter().enumerate() {
            if is_slow(entry) {
                own_limit[entry] = rate(&|other| other == entry).map(|own| (own, sums[entry].2));
            } else if tanker.tanker.fill_limit_at(stated) < flow && sums[entry].2 > 0 {
                greatest[entry] = greatest[entry].max(flow);
            }
        }
    }
    for (place, entry) in entries.iter().enumerate() {
        let own = entry.readings(timed, Step::Fill, None).len();
        let raised = (greatest[place] > 0.0).then_some((greatest[place], own));
        if let Some((rate, readings)) = own_limit[place].or(raised) {
            let value = in_file(rate, scenario.units);
            let at = format!("{}.fill_limit", entry.place);
            add(at, Some(value), Only::Always, readings, Step::Fill);
        }
    }
}

/// An entry of the file's tankers or aid, which may stand for several tankers.
struct TankerEntry<'s> {
    place: String,
    tanker: &'s Tanker,
    tankers: Vec<usize>,
}

impl TankerEntry<'_> {
    fn readings(&self, timed: &Timed, step: Step, site: Option<usize>) -> Vec<f64> {
        let is_own = |one: &&Reading| {
            one.step == step
                && self.tankers.contains(&one.tanker)
                && site.is_none_or(|site| one.site == Some(site))
        };
        timed.measured.readings.iter().filter(is_own).map(|one| one.minutes).collect()
    }
}

fn entries(scenario: &Scenario) -> Vec<TankerEntry<'_>> {
    let facts = everyone(scenario);
    let own =
        scenario.plan.facts().tankers.iter().map(|tanker| tanker.listed + 1).max().unwrap_or(0);
    let mut all: Vec<TankerEntry<'_>> = Vec::new();
    for (place, tanker) in facts.tankers.iter().enumerate() {
        let at = if tanker.listed < own {
            format!("tankers[{}]", tanker.listed)
        } else {
            format!("aid[{}]", tanker.listed - own)
        };
        match all.iter_mut().find(|entry| entry.place == at) {
            Some(entry) => entry.tankers.push(place),
            None => all.push(TankerEntry { place: at, tanker, tankers: vec![place] }),
        }
    }
    all
}

/// The readings as a duration of the format; `None` of too few.
fn spread(timed: &Timed, readings: &[f64], was: &TimeTaken) -> Option<Json> {
    let of = figures(readings).filter(|of| of.readings >= ENOUGH)?;
    if timed.is_coarse(&of) {
        // Too short to be seen at all on such a watch.
        if of.mean <= 0.0 {
            return None;
        }
        let left = of.deviation.powi(2) - timed.log.reading_error().powi(2);
        let cv = if left > 0.0 { left.sqrt() / of.mean } else { cv_of(was) };
        let cv = hundredths(cv);
        // Without any spread there is nothing for the number of readings to narrow.
        return Some(match cv > 0.0 {
            true => json!({"mean": hundredths(of.mean), "cv": cv, "timed": of.readings}),
            false => json!({"mean": hundredths(of.mean), "cv": cv}),
        });
    }
    Some(json!({"samples": readings.iter().map(|one| hundredths(*one)).collect::<Vec<_>>()}))
}

/// The usual time: the middle one; of coarse readings the mean, whose rounding evens out.
fn usual(timed: &Timed, readings: &[f64]) -> Option<f64> {
    let of = figures(readings)?;
    let usual = if timed.is_coarse(&of) { of.mean } else { of.median };
    Some(usual).filter(|usual| *usual > 0.0)
}

/// The dump rate as the format has it, from the minutes a whole load takes, gpm.
fn dump_rate(tanker: &Tanker, minutes: f64) -> f64 {
    match tanker.dump_curve {
        DumpCurve::Steady => tanker.load() / minutes,
        DumpCurve::Gravity => {
            // MODEL.md: with v the load and the residual, the flow falls with the square root of v; the whole
            // tank would take T = 0.9 v0 / (rate (1 - sqrt 0.1)), and the load the share 1 - sqrt(r / v0) of T.
            let rest = tanker.capacity * tanker.residual;
            let all = tanker.load() + rest;
            let whole = minutes / (1.0 - (rest / all).sqrt());
            0.9 * all / (whole * (1.0 - 0.1_f64.sqrt()))
        }
    }
}

/// A rate with how far it may be off, from the times it rests on: a factor either way in 80 of 100 cases, as the
/// format has a guess.
///
/// - Given: the error of a single reading: times that are all alike may be so only as they were written.
fn rate_in_file(gpm: f64, units: Units, minutes: &[f64], reading_error: f64) -> Json {
    /// 90 of 100 of a normal distribution lie below this many standard deviations (any table of it).
    const NORMAL_90: f64 = 1.2816;
    let value = in_file(gpm, units);
    let factor = figures(minutes)
        .filter(|of| of.mean > 0.0)
        .map(|of| of.deviation.max(reading_error) / of.mean / (of.readings as f64).sqrt())
        .map(|error| thousandths((NORMAL_90 * error).exp()));
    match factor.filter(|factor| *factor > 1.0) {
        Some(factor) => json!({"value": value, "guess": factor.min(MOST_GUESSED)}),
        None => value,
    }
}

/// A flow in the file's units, to the nearest ten (of L/min to the nearest ten too).
fn in_file(gpm: f64, units: Units) -> Json {
    let value = match units {
        Units::Us => gpm,
        Units::Metric => gpm * LITRES_PER_GALLON,
    };
    let round = (value / 10.0).round() * 10.0;
    json!(round.max(10.0) as u64)
}

fn thousandths(value: f64) -> f64 {
    (1_000.0 * value).round() / 1_000.0
}

fn hundredths(value: f64) -> f64 {
    (100.0 * value).round() / 100.0
}

/// Standard deviation over mean.
fn cv_of(time: &TimeTaken) -> f64 {
    let mean = time.mean();
    let deviation = match time {
        TimeTaken::Fixed(_) => 0.0,
        TimeTaken::Lognormal { cv, .. } => return *cv,
        TimeTaken::Exponential { .. } => return 1.0,
        TimeTaken::Triangular { low, likely, high } => {
            ((low * low + likely * likely + high * high
                - low * likely
                - low * high
                - likely * high)
                / 18.0)
                .max(0.0)
                .sqrt()
        }
        TimeTaken::Uniform { low, high } => (high - low) / 12.0_f64.sqrt(),
        TimeTaken::Samples(samples) => figures(samples).map_or(0.0, |of| of.deviation),
        TimeTaken::Weighted(weighted) => {
            let apart = |(minutes, weight): &(f64, f64)| weight * (minutes - mean).powi(2);
            weighted.iter().map(apart).sum::<f64>().sqrt()
        }
    };
    if mean > 0.0 { deviation / mean } else { 0.0 }
}
