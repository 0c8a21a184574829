//! Fill sites compared for a grading: the hand credit, and the flow that is shown to hold.
//!
//! The hand credit is the published formula, tanker by tanker. The simulation asks the rule's own question:
//! in what share of runs does the flow begin in time and stay unbroken to the end? The two hours of a
//! higher flow are counted from the minute by which it must be reached, which is the stricter reading where
//! the pages leave it open.

use serde::Serialize;
use shuttle_sim::Plan;

use super::demand::{Demand, Trial};
use super::grading_rules::GradingRule;
use super::held_flow::{Greatest, Look, Search, greatest_step};
use crate::changes::variation::with_sites;
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;
use crate::worksheet::{Worksheet, worksheet};

/// What is asked.
#[derive(Debug, Clone)]
pub struct GradeQuestion {
    /// The rules to hold the fill sites to; the first ranks them.
    pub rules: Vec<&'static GradingRule>,
    /// Share of runs in which the flow must hold.
    pub share: f64,
    /// Most runs for any one flow.
    pub most_runs: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use.
    pub threads: usize,
    /// Flows are tried this far apart, gpm.
    pub step_gpm: f64,
}

/// Whether a rule is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// The minimum is shown to hold.
    Pass,
    /// It is shown not to, or the source lies too far.
    Fail,
    /// Not clear from the runs made.
    NotClear,
}

/// What one tanker is credited with by hand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TankerCredit {
    /// Its name.
    pub name: String,
    /// Its tank, gal.
    pub tank_gal: f64,
    /// The site it fills at.
    pub fill_site: String,
    /// Fill, round trip and discharge with all handling, minutes.
    pub cycle_min: f64,
    /// Tank less 10% over that, gpm.
    pub credit_gpm: f64,
}

/// One rule and one set of fill sites.
#[derive(Debug, Clone, Serialize)]
pub struct RuleResult {
    /// The rule's key.
    pub rule: &'static str,
    /// Whether it is met.
    pub verdict: Verdict,
    /// Whether every source of the set lies near enough; `None` where the scenario states no distance
    /// or the rule no limit.
    pub near_enough: Option<bool>,
    /// The greatest flow that is shown to hold in the stated share of runs, gpm; for a rule without a
    /// higher flow its minimum or nothing.
    pub held_gpm: Option<f64>,
    /// Flows up to this one may hold too: not clear from the runs made, gpm.
    pub not_clear_up_to_gpm: Option<f64>,
    /// The least flow above it that is shown not to hold, gpm.
    pub fails_gpm: Option<f64>,
    /// Why that one breaks: the cause of the most first breaks and its share of them.
    pub binds: Option<(&'static str, f64)>,
    /// Share of that flow's runs in which the crew had no water in time.
    pub late_share: f64,
    /// Where that flow exceeds the hand capacity of the bottleneck: the part of it, over the rule's time,
    /// that comes only once, from first loads and full tanks, gal.
    pub first_loads_gal: Option<f64>,
    /// Whether the rule's minimum itself exceeds the hand capacity of the bottleneck.
    pub minimum_above_cap: bool,
    /// Whether a greater flow was seen to hold where a lesser one fails.
    pub uneven: bool,
    /// Runs made.
    pub replications: u64,
    /// The search, step by step.
    pub search: Greatest,
}

/// One set of fill sites of one scenario.
#[derive(Debug, Clone, Serialize)]
pub struct SiteGrade {
    /// Which scenario, counted from 0.
    pub scenario: usize,
    /// The sites used, by name.
    pub sites: Vec<String>,
    /// One way to the farthest of them, miles; `None` where a distance is not stated.
    pub miles: Option<f64>,
    /// One way to each of them, miles.
    pub site_miles: Vec<Option<f64>>,
    /// The hand credit by tanker.
    pub credits: Vec<TankerCredit>,
    /// Their sum, gpm.
    pub hand_gpm: f64,
    /// The bottleneck by hand and its capacity, gpm.
    pub tightest: Option<(String, f64)>,
    /// What counts by hand: the sum, no more than the capacity of the bottleneck, gpm.
    pub counts_gpm: f64,
    /// One a rule, in the order asked.
    pub results: Vec<RuleResult>,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct GradeAnswer {
    /// Titles of the scenarios.
    pub titles: Vec<String>,
    /// The rules asked about.
    pub rules: Vec<&'static GradingRule>,
    /// Share of runs in which the flow must hold.
    pub share: f64,
    /// Best first: by verdict on the first rule, then its greatest flow, then what counts by hand.
    pub ranked: Vec<SiteGrade>,
    /// Whether it was stopped early; sets that were not reached are left out.
    pub ended_early: bool,
    /// Seed of the random numbers.
    pub seed: u64,
}

/// No grading flow is above this, gpm.
const GREATEST_FLOW: f64 = 5_000.0;
/// Most sites with which every pair is tried too.
const SITES_FOR_PAIRS: usize = 4;

/// Grades every fill site of every scenario, and sets of them.
pub fn grade(plans: &[&Plan], question: &GradeQuestion, control: &Control) -> GradeAnswer {
    let sets: Vec<(usize, Vec<usize>)> = (plans.iter().enumerate())
        .flat_map(|(place, plan)| {
            sets_of(plan.facts().fill_sites.len()).into_iter().map(move |set| (place, set))
        })
        .collect();
    let sets: Vec<(usize, Plan)> = (sets.into_iter())
        .filter_map(|(place, set)| Some((place, with_sites(plans[place], &set).ok()?)))
        .collect();
    let rules = &question.rules;
    let jobs = sets.len() * rules.len();
    let (outer, inner) = shared_out(question.threads, jobs);
    let search = Search {
        share: question.share,
        most_runs: question.most_runs,
        luck: SameLuck { seed: question.seed, threads: inner },
        searches: jobs,
        to_be_exact: question.most_runs / 4,
        within: 0.02,
    };
    let mut results: Vec<RuleResult> = Vec::new();
    let work = |_: &mut (), job: u64| {
        let (set, rule) = (job as usize / rules.len(), job as usize % rules.len());
        hold(&sets[set].1, rules[rule], question.step_gpm, search, control)
    };
    in_order(jobs as u64, outer, control, || (), work, |_, result| results.push(result));
    if control.is_stopped() {
        // The searches that were under way have not found what they were after.
        results.truncate(results.len().saturating_sub(outer) / rules.len() * rules.len());
    }
    let mut ranked: Vec<SiteGrade> = (sets.iter().zip(results.chunks_exact(rules.len().max(1))))
        .map(|((scenario, plan), results)| site_grade(plan, *scenario, results.to_vec()))
        .collect();
    ranked.sort_by(|a, b| {
        let held = |one: &SiteGrade| one.results.first().and_then(|first| first.held_gpm);
        (rank(a).cmp(&rank(b)))
            .then(held(b).unwrap_or(0.0).total_cmp(&held(a).unwrap_or(0.0)))
            .then(b.counts_gpm.total_cmp(&a.counts_gpm))
    });
    GradeAnswer {
        titles: plans.iter().map(|plan| plan.facts().title.clone()).collect(),
        rules: question.rules.clone(),
        share: question.share,
        ranked,
        ended_early: control.is_stopped(),
        seed: question.seed,
    }
}

/// How many searches that takes: for a progress bar.
pub fn searches(plans: &[&Plan], rules: usize) -> usize {
    plans.iter().map(|plan| sets_of(plan.facts().fill_sites.len()).len() * rules).sum()
}

/// Each site alone, pairs where there are few, and all together.
fn sets_of(sites: usize) -> Vec<Vec<usize>> {
    let mut sets: Vec<Vec<usize>> = (0..sites).map(|site| vec![site]).collect();
    if (3..=SITES_FOR_PAIRS).contains(&sites) {
        sets.extend((0..sites).flat_map(|a| (a + 1..sites).map(move |b| vec![a, b])));
    }
    if sites > 1 {
        sets.push((0..sites).collect());
    }
    sets
}

fn rank(one: &SiteGrade) -> u8 {
    match one.results.first().map(|first| first.verdict) {
        Some(Verdict::Pass) => 0,
        Some(Verdict::NotClear) => 1,
        _ => 2,
    }
}

/// Threads for searches next to each other, and within each of them: many searches run next to each other.
pub(super) fn shared_out(threads: usize, searches: usize) -> (usize, usize) {
    if searches >= 2 * threads { (threads, 1) } else { (1, threads) }
}

/// One way to each site, miles, and to the farthest of them.
fn miles_of(plan: &Plan) -> (Vec<Option<f64>>, Option<f64>) {
    let site_miles: Vec<Option<f64>> = (plan.facts().fill_sites.iter())
        .map(|site| Some(site.out.miles?.max(site.back.miles?)))
        .collect();
    let farthest = (site_miles.iter().copied())
        .collect::<Option<Vec<f64>>>()
        .map(|all| all.into_iter().fold(0.0, f64::max));
    (site_miles, farthest)
}

fn site_grade(plan: &Plan, scenario: usize, results: Vec<RuleResult>) -> SiteGrade {
    let sheet = worksheet(plan);
    let sites = &plan.facts().fill_sites;
    let (site_miles, miles) = miles_of(plan);
    SiteGrade {
        scenario,
        sites: sites.iter().map(|site| site.name.clone()).collect(),
        miles,
        site_miles,
        credits: (sheet.tankers.iter().zip(&plan.facts().tankers))
            .map(|(one, tanker)| TankerCredit {
                name: one.name.clone(),
                tank_gal: tanker.capacity,
                fill_site: one.fill_site.clone(),
                cycle_min: one.cycle_min,
                credit_gpm: one.hand_gpm,
            })
            .collect(),
        hand_gpm: sheet.hand_gpm,
        counts_gpm: (sheet.tightest.as_ref())
            .map_or(sheet.hand_gpm, |(_, cap)| cap.min(sheet.hand_gpm)),
        tightest: sheet.tightest,
        results,
    }
}

impl GradingRule {
    /// What the rule wants, minute by minute.
    pub fn demand(&self) -> Demand {
        Demand {
            minimum: self.minimum_gpm,
            minimum_from: self.within_min,
            full_from: self.higher_within_min.unwrap_or(self.within_min),
            minutes: self.duration_min,
        }
    }
}

fn hold(
    plan: &Plan,
    rule: &'static GradingRule,
    step_gpm: f64,
    search: Search,
    control: &Control,
) -> RuleResult {
    let sheet = worksheet(plan);
    let near_enough =
        miles_of(plan).1.zip(rule.source_within_miles).map(|(miles, most)| miles <= most + 1e-9);
    let grid = Grid::with(rule.minimum_gpm, step_gpm);
    // A rule without a higher flow credits its minimum and no more: the grid has that one flow.
    let higher = rule.higher_within_min.is_some();
    let (asked, likely, top) = if higher {
        let likely = grid.step_at(by_hand(&sheet));
        (grid.step_at(rule.minimum_gpm), likely, grid.step_at(GREATEST_FLOW))
    } else {
        (1, 1, 1)
    };
    let flow = |step: u32| if higher { grid.flow(step) } else { rule.minimum_gpm };
    let found = greatest_step(likely, Some(asked), top, search, control, |step| {
        Trial::new(plan, rule.demand(), flow(step)).ok()
    });
    let minimum = found.look(asked);
    let verdict = match near_enough {
        Some(false) => Verdict::Fail,
        _ if minimum.is_some_and(Look::fails) => Verdict::Fail,
        _ if minimum.is_some_and(Look::holds) && found.holds.is_some_and(|step| step >= asked) => {
            Verdict::Pass
        }
        _ => Verdict::NotClear,
    };
    let cap = sheet.tightest.as_ref().map_or(f64::INFINITY, |(_, gpm)| *gpm);
    let held_gpm = found.holds.map(flow);
    let hardest = found.fails.and_then(|step| found.look(step));
    RuleResult {
        rule: rule.key,
        verdict,
        near_enough,
        held_gpm,
        first_loads_gal: held_gpm
            .filter(|held| *held > cap)
            .map(|held| (held - cap) * rule.duration_min),
        minimum_above_cap: rule.minimum_gpm > cap,
        not_clear_up_to_gpm: found.unclear_up_to().map(flow),
        fails_gpm: found.fails.map(flow),
        binds: hardest.and_then(|look| look.main_cause),
        late_share: hardest.map_or(0.0, |look| look.late as f64 / look.replications.max(1) as f64),
        uneven: found.uneven,
        replications: found.replications(),
        search: found,
    }
}

/// The most a hand calculation gives: the sum of the tankers' rates, no more than the tightest cap, gpm.
pub fn by_hand(sheet: &Worksheet) -> f64 {
    (sheet.tightest.as_ref()).map_or(sheet.plan_gpm, |(_, gpm)| gpm.min(sheet.plan_gpm))
}

/// Flows that are tried: a step apart, one of them a given flow, all above nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// The flow of step 1, gpm.
    lowest: f64,
    /// From step to step, gpm.
    apart: f64,
}

impl Grid {
    /// The grid on which `flow` lies, gpm.
    pub fn with(flow: f64, apart: f64) -> Grid {
        let below = (flow / apart - 1e-9).ceil() - 1.0;
        Grid { lowest: flow - below * apart, apart }
    }

    /// The flow of a step, gpm.
    pub fn flow(&self, step: u32) -> f64 {
        self.lowest + f64::from(step.saturating_sub(1)) * self.apart
    }

    /// The step of a flow, or the last below it, at least 1.
    pub fn step_at(&self, flow: f64) -> u32 {
        let steps = (flow - self.lowest) / self.apart + 1e-6;
        if steps > 0.0 { steps as u32 + 1 } else { 1 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grid_meets_the_rule_and_never_reaches_nothing() {
        for flow in [250.0, 200.0, 950.0 / 3.785_411_784, 10.0, 3.0] {
            let grid = Grid::with(flow, 10.0);
            assert!((grid.flow(grid.step_at(flow)) - flow).abs() < 1e-9, "{flow}");
            assert!(grid.flow(1) > 0.0 && grid.flow(1) <= 10.0, "{flow}");
            assert!((grid.flow(5) - grid.flow(4) - 10.0).abs() < 1e-9);
        }
        assert_eq!(Grid::with(250.0, 10.0).step_at(254.0), 25);
        assert_eq!(Grid::with(250.0, 10.0).step_at(0.0), 1);
    }

    #[test]
    fn sites_alone_in_pairs_and_together() {
        assert_eq!(sets_of(1), [vec![0]]);
        assert_eq!(sets_of(2), [vec![0], vec![1], vec![0, 1]]);
        assert_eq!(sets_of(3).len(), 7);
        assert_eq!(sets_of(5).len(), 6);
    }
}
