//! The chance as it stands, and what would help: changes run on the plan's own random numbers.
//!
//! Changes are run in growing looks next to the base, which is run in full. One ends early when it hardly
//! helps by as much as matters, or by a quarter of what the best one surely does; one that helps ends when its
//! difference is known well enough. At most six are listed, each of them really run.
//!
//! Some changes are cures of one cause and tried only where it came up. What was tried without any difference in
//! any run is told as well: it never binds. Where every fire runs short whatever is tried, how long they do is what
//! can be told: see [`Shortens`].

use serde::Serialize;
use shuttle_sim::{Cause, LowWater, Plan};

use crate::changes::common_changes::{Changed, common_changes};
use crate::changes::cures::{cures, cures_by_cause};
use crate::changes::input::Change;
use crate::changes::variation::with_other_low_water;
use crate::decisions::looks::looks;
use crate::decisions::told::{Apart, Interval, LIKELY, NO_MINUTES, Rule};
use crate::runs::batch::Keep;
use crate::runs::control::{Control, SameLuck};
use crate::runs::side_by_side::SideBySide;
use crate::runs::tally::Tally;
use crate::summary::Summary;
use crate::units::Units;

/// Most changes that are listed.
pub const MOST_LISTED: usize = 6;
/// Most runs of a change: enough to tell one percentage point.
const MOST_RUNS: u64 = 4096;
/// Help by less than this does not matter.
const NOTHING: f64 = 0.01;
/// Nor does help by less than this part of what the best change surely does.
const OF_THE_BEST: f64 = 0.25;
/// A difference is known well enough when its interval reaches no further to either side than this part of it.
const PRECISE: f64 = 0.25;

/// A cause of at least this share of first interruptions is worth a cure of its own. Judgement.
const WORTH_A_CURE: f64 = 0.02;

/// A change that was run, and what it does to the chance of interruption.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Help {
    /// What is changed.
    pub change: Change,
    /// Runs made with it: the first of the base's.
    pub replications: u64,
    /// The chance as it stands, of all the base's runs.
    pub interruption_probability_before: f64,
    /// The chance with it: that less the difference on the runs that both made.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, by itself.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// How much lower the chance is, on the runs that both made.
    pub lower_by: f64,
    /// The 95% interval of that, for all changes tried and all looks at once.
    pub lower_by_ci: (f64, f64),
    /// Whether no run differs at all, not even by how much the lines get or how low the attack engine runs.
    pub never_binds: bool,
}

impl Help {
    /// Whether it lowers the chance beyond what luck could explain.
    pub fn surely_helps(&self) -> bool {
        self.lower_by_ci.0 > 0.0
    }
}

/// A change that makes the fires short for less time, where as it stands every one of them runs short.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Shortens {
    /// What is changed.
    pub change: Change,
    /// Runs made with it: the first of the base's.
    pub replications: u64,
    /// Minutes short a fire as it stands, mean of all the base's runs.
    pub minutes_before: f64,
    /// Minutes short with it: that less the difference on the runs that both made.
    pub minutes: f64,
    /// How many fewer, on the runs that both made; 95% for all changes tried and all looks at once.
    pub fewer: Apart,
}

/// Everything that is tried: what commonly helps, then the cures that wait for their cause.
pub fn changes_to_try(plan: &Plan, units: Units) -> Vec<Changed> {
    let mut all = common_changes(plan, units);
    all.extend(cures_by_cause(plan));
    all
}

/// A pump operator who gates down, as the plan has it, and what it costs where one never does.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CountsOn {
    /// Runs made with one who never gates down.
    pub replications: u64,
    /// The chance of interruption with one who never gates down and so loses prime.
    pub interruption_probability: f64,
    /// How much higher the chance is, on the runs that both made.
    pub higher_by: Apart,
}

/// The answer.
#[derive(Debug, Clone)]
pub struct RiskAnswer {
    /// The plan as it stands.
    pub summary: Summary,
    /// Changes that were tried, whatever they do, in the order in which they were.
    pub tried: Vec<Help>,
    /// Those that help, best first.
    pub helps: Vec<Help>,
    /// Where every run of the plan is interrupted: those that surely shorten it, most first; empty elsewhere.
    pub shortens: Vec<Shortens>,
    /// What an operator who never gates down costs, if it surely costs anything; `None` too where nobody
    /// drafts, and where the plan's own operator never gates down.
    pub counts_on: Option<CountsOn>,
    /// Whether it was stopped early.
    pub ended_early: bool,
}

/// Runs the plan `most_runs` times and, where `with_changes` is set and it ever runs short, tries the common
/// changes.
pub fn risk(
    plan: &Plan,
    units: Units,
    with_changes: bool,
    most_runs: u64,
    luck: SameLuck,
    control: &Control,
) -> RiskAnswer {
    let common = if with_changes { common_changes(plan, units) } else { Vec::new() };
    let always = common.len();
    let mut changes = common;
    if with_changes {
        changes.extend(cures_by_cause(plan));
    }
    let never = (with_changes && plan.facts().supply.low_water == LowWater::Throttle)
        .then(|| with_other_low_water(plan.facts()))
        .flatten();
    let plans =
        [plan].into_iter().chain(changes.iter().map(|one| &one.plan)).chain(&never).collect();
    let mut side = SideBySide::new(plans, luck, Keep::Levels);
    let most = most_runs.min(MOST_RUNS);
    // Changes follow where the base is not far ahead of them; then it goes on alone.
    side.begin_with_base(most_runs, control);
    let rule = Rule::of_chances(changes.len(), looks(most).len(), NOTHING);
    if side.base().tally.interrupted > 0 {
        let came_up = |change: &Changed| {
            let causes = &side.base().tally.causes();
            let share =
                |cause: &Cause| causes.iter().find(|one| one.0 == *cause).map_or(0.0, |it| it.1);
            cures(&change.change).iter().any(|cause| share(cause) >= WORTH_A_CURE)
        };
        let who: Vec<usize> = (changes.iter().enumerate())
            .filter(|(place, change)| *place < always || came_up(change))
            .map(|(place, _)| place + 1)
            .collect();
        try_changes(&mut side, who, most, rule, control);
    }
    let never_at = changes.len() + 1;
    if never.is_some() {
        try_never_gating_down(&mut side, never_at, most, control);
    }
    side.run_base_until(most_runs, control);
    let base = &side.base().tally;
    let tried: Vec<Help> = (changes.iter().zip(side.tallies().skip(1)))
        .filter(|(_, tally)| tally.runs > 0)
        .map(|(one, tally)| {
            let higher = rule.apart_from(base, tally, Interval::AllAtOnce);
            let (chance, (ci_low, ci_high)) = rule.chance_beside(base, tally);
            Help {
                change: one.change.clone(),
                replications: tally.runs,
                interruption_probability_before: base.chance(),
                interruption_probability: chance,
                ci_low,
                ci_high,
                lower_by: -higher.by,
                lower_by_ci: (-higher.ci_high, -higher.ci_low),
                never_binds: tally.pairs.are_the_same(),
            }
        })
        .collect();
    let mut helps: Vec<Help> = tried.iter().filter(|one| one.surely_helps()).cloned().collect();
    helps.sort_by(|a, b| b.lower_by.total_cmp(&a.lower_by));
    helps.truncate(MOST_LISTED);
    let shortens = if base.runs > 0 && base.interrupted == base.runs {
        all_that_shorten(&changes, &side, rule)
    } else {
        Vec::new()
    };
    RiskAnswer {
        summary: Summary::new(plan, side.base(), luck.seed),
        tried,
        helps,
        shortens,
        counts_on: (never.is_some()).then(|| counts_on(base, side.tally(never_at), most)).flatten(),
        ended_early: control.is_stopped(),
    }
}

/// The changes that surely make the fires short for less time, most first. Where no chance can tell them apart the error of
/// its statements is free for these.
fn all_that_shorten(changes: &[Changed], side: &SideBySide<'_>, rule: Rule) -> Vec<Shortens> {
    let minutes_before = side.base().tally.minutes_short_mean();
    let mut all: Vec<Shortens> = (changes.iter().zip(side.tallies().skip(1)))
        .filter_map(|(one, tally)| {
            let longer = tally.pairs.minutes_short.difference(rule.together)?;
            (longer.high < 0.0 && longer.value <= -NO_MINUTES).then(|| Shortens {
                change: one.change.clone(),
                replications: tally.runs,
                minutes_before,
                minutes: (minutes_before + longer.value).max(0.0),
                fewer: Apart {
                    by: -longer.value,
                    ci_low: -longer.high,
                    ci_high: -longer.low,
                    interval: Interval::AllAtOnce,
                },
            })
        })
        .collect();
    all.sort_by(|a, b| b.fewer.by.total_cmp(&a.fewer.by));
    all.truncate(MOST_LISTED);
    all
}

/// What is told of the operator alone: one statement, on the chance.
fn of_the_operator(most: u64) -> Rule {
    Rule::of_chances(1, looks(most).len(), NOTHING)
}

fn try_never_gating_down(side: &mut SideBySide<'_>, place: usize, most: u64, control: &Control) {
    let rule = of_the_operator(most);
    for look in looks(most) {
        side.run_until(look, &[place], control);
        if control.is_stopped() || rule.is_settled(&side.tally(place).pairs.interrupted) {
            return;
        }
    }
}

fn counts_on(base: &Tally, never: &Tally, most: u64) -> Option<CountsOn> {
    let rule = of_the_operator(most);
    let surely = never.runs > 0 && never.pairs.interrupted.difference(rule.together).low > 0.0;
    surely.then(|| CountsOn {
        replications: never.runs,
        interruption_probability: rule.chance_beside(base, never).0,
        higher_by: rule.apart_from(base, never, Interval::Single),
    })
}

fn try_changes(
    side: &mut SideBySide<'_>,
    mut who: Vec<usize>,
    most: u64,
    rule: Rule,
    control: &Control,
) {
    let all_tried = who.clone();
    for look in looks(most) {
        side.run_until(look, &who, control);
        if control.is_stopped() {
            return;
        }
        // How much lower the chance is, at least and at most.
        let lower_by = |place: usize, confidence: f64| {
            let higher = side.tally(place).pairs.interrupted.difference(confidence);
            (-higher.high, -higher.low)
        };
        let surely = |place: usize| lower_by(place, rule.together).0;
        let mut all: Vec<f64> = all_tried.iter().map(|place| surely(*place)).collect();
        all.sort_by(|a, b| b.total_cmp(a));
        let best = all.first().copied().unwrap_or(0.0);
        let last_listed = all.get(MOST_LISTED - 1).copied().unwrap_or(0.0);
        let matters = rule.nothing.max(OF_THE_BEST * best).max(last_listed);
        who.retain(|place| {
            let (least, most) = lower_by(*place, LIKELY);
            let is_known =
                surely(*place) > 0.0 && most - least <= 2.0 * PRECISE * f64::midpoint(least, most);
            most >= matters && !is_known
        });
    }
}
