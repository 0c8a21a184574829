//! Fill sites compared for a grading: the hand credit, and the flow that is shown to hold.
//!
//! The hand credit is the published formula, tanker by tanker, each assigned to one site of a set
//! ([`super::site_sets`]). The simulation asks the rule's own question: in what share of runs does the flow
//! begin in time and stay unbroken to the end? The two hours of a higher flow are counted from the minute by
//! which it must be reached, which is the stricter reading where the pages leave it open. A set may leave a
//! site unused, so it holds at least what any set within it was shown to hold.

use std::borrow::Cow;
use std::cmp::Ordering;

use serde::Serialize;

use super::by_aid::{BY_AID_SEARCHES, HeldWith, by_aid};
use super::conditions::shown::{Drilled, NotShown};
use super::conditions::{State, none_stands_against, one_way_miles};
use super::grading_rules::{Condition, GradingRule};
use super::rule_held::{hold, judged};
use super::simulated_sets::{SimulatedSet, simulated_sets, weighed};
use super::site_sets::{Graded, HandCredit, TankerCredit};
use super::weighed_sets::Weighed;
use crate::holding::held_flow::{Greatest, Search};
use crate::holding::shared_out;
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;
use crate::worksheet::Station;

/// What is asked.
#[derive(Debug, Clone)]
pub struct GradeQuestion {
    /// The rules to hold the fill sites to; the first ranks them.
    pub rules: Vec<GradingRule>,
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
    /// The minimum is shown to hold, it is credited by hand, and nothing stated stands against it.
    Pass,
    /// It is shown not to, less is credited by hand, a condition is not met, or a drill fell short.
    Fail,
    /// Not clear from the runs made.
    NotClear,
}

/// One rule and one set of fill sites.
#[derive(Debug, Clone, Serialize)]
pub struct RuleResult {
    /// The rule's key.
    pub rule: Cow<'static, str>,
    /// Whether it is met.
    pub verdict: Verdict,
    /// Whether the flow alone is enough, whatever else the rule asks for.
    pub flow: Verdict,
    /// What else the rule asks for, and whether the sites used and the scenario meet it.
    pub conditions: Vec<(Condition, State)>,
    /// What drills say of it.
    pub drilled: Drilled,
    /// What a survey sees and the scenario does not state of the sites used and the department.
    pub not_shown: Vec<NotShown>,
    /// Whether what counts by hand is the minimum or more.
    pub by_hand_reached: bool,
    /// What is credited by hand.
    pub hand: HandCredit,
    /// The sites that the flow which holds is taken from: where fewer hold more, the others are left unused.
    pub held_with: Vec<String>,
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
    /// The place that passes least by hand over the rule's time, and what, gpm.
    pub tightest: Option<(Station, f64)>,
    /// Where the flow that holds exceeds that: the part of it, over the rule's time, that comes only once, from
    /// first loads and full tanks, gal.
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
    /// The sites of the set, by place.
    pub places: Vec<usize>,
    /// The same by name.
    pub sites: Vec<String>,
    /// One way to each of them, miles.
    pub site_miles: Vec<Option<f64>>,
    /// One a rule, in the order asked.
    pub results: Vec<RuleResult>,
}

impl SiteGrade {
    /// What is credited by hand under the first rule.
    pub fn hand(&self) -> Option<&HandCredit> {
        self.results.first().map(|first| &first.hand)
    }

    /// What counts of that, gpm.
    pub fn counts_gpm(&self) -> f64 {
        self.hand().map_or(0.0, |hand| hand.counts_gpm)
    }
}

/// Every site of a scenario alone, by hand, under the first rule.
#[derive(Debug, Clone, Serialize)]
pub struct Alone {
    /// Which scenario, counted from 0.
    pub scenario: usize,
    /// The site.
    pub site: String,
    /// Whether the rule credits it, as far as the scenario says.
    pub creditable: bool,
    /// Every tanker that is listed, at this site.
    pub everyone: Vec<TankerCredit>,
    /// What it is credited with.
    pub hand: HandCredit,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct GradeAnswer {
    /// Titles of the scenarios.
    pub titles: Vec<String>,
    /// The rules asked about.
    pub rules: Vec<GradingRule>,
    /// Share of runs in which the flow must hold.
    pub share: f64,
    /// Best first: by verdict on the first rule, then its greatest flow, then what counts by hand.
    pub ranked: Vec<SiteGrade>,
    /// What each scenario holds at best with the own tankers, with automatic aid, with all, where these differ.
    pub held_with: Vec<HeldWith>,
    /// Every site alone.
    pub alone: Vec<Alone>,
    /// Sets weighed by hand, of all scenarios.
    pub weighed: usize,
    /// Whether these were every site alone, every pair, every three and all together; else the best were grown site
    /// by site.
    pub all_up_to_three: bool,
    /// Whether it was stopped early; sets that were not reached are left out.
    pub ended_early: bool,
    /// Seed of the random numbers.
    pub seed: u64,
}

impl GradeAnswer {
    /// The best set of a scenario under one of the rules, by its place in the list: by verdict, then the flow that
    /// holds, then what is credited by hand, then the fewest sites.
    pub fn best(&self, scenario: usize, rule: usize) -> Option<(&SiteGrade, &RuleResult)> {
        (self.ranked.iter())
            .filter(|one| one.scenario == scenario)
            .filter_map(|one| Some((one, one.results.get(rule)?)))
            .reduce(|best, one| {
                let order = better_by(one.1, best.1)
                    .then(one.1.hand.counts_gpm.total_cmp(&best.1.hand.counts_gpm))
                    .then(best.0.places.len().cmp(&one.0.places.len()));
                if order.is_gt() { one } else { best }
            })
    }
}

/// Grades the fill sites of every scenario, and sets of them.
pub fn grade(graded: &[Graded<'_>], question: &GradeQuestion, control: &Control) -> GradeAnswer {
    let rules = &question.rules;
    let weighed: Vec<Weighed> = graded.iter().map(|one| weighed(one, rules)).collect();
    let sets: Vec<SimulatedSet> = (weighed.iter().enumerate())
        .flat_map(|(place, weighed)| simulated_sets(place, &graded[place], weighed, rules))
        .collect();
    let jobs = sets.len() * rules.len();
    let (outer, inner) = shared_out(question.threads, jobs);
    let search = Search {
        share: question.share,
        most_runs: question.most_runs,
        luck: SameLuck { seed: question.seed, threads: inner },
        searches: jobs + BY_AID_SEARCHES * graded.len(),
        to_be_exact: question.most_runs / 4,
        within: 0.02,
    };
    let mut results: Vec<RuleResult> = Vec::new();
    let work = |_: &mut (), job: u64| {
        let (set, rule) = (&sets[job as usize / rules.len()], job as usize % rules.len());
        let begin = (rule == 0 && !set.site_of.is_empty()).then_some(set.site_of.as_slice());
        let one = &graded[set.scenario];
        hold(one, &set.places, begin, &rules[rule], question.step_gpm, search, control)
    };
    in_order(jobs as u64, outer, control, || (), work, |_, result| results.push(result));
    if control.is_stopped() {
        // The searches that were under way have not found what they were after.
        results.truncate(results.len().saturating_sub(outer) / rules.len() * rules.len());
    }
    let mut ranked: Vec<SiteGrade> = (sets.iter().zip(results.chunks_exact(rules.len().max(1))))
        .map(|(set, results)| site_grade(&graded[set.scenario], set, results.to_vec()))
        .collect();
    take_from_subsets(&mut ranked);
    ranked.sort_by(|a, b| {
        (rank(a).cmp(&rank(b)))
            .then(held(b).total_cmp(&held(a)))
            .then(b.counts_gpm().total_cmp(&a.counts_gpm()))
            .then(a.places.len().cmp(&b.places.len()))
    });
    let held_with = if control.is_stopped() {
        Vec::new()
    } else {
        (0..graded.len())
            .flat_map(|scenario| {
                let best = ranked.iter().find(|one| one.scenario == scenario);
                best.map(|best| by_aid(&graded[scenario], best, question, search, control))
            })
            .flatten()
            .collect()
    };
    GradeAnswer {
        titles: graded.iter().map(|one| one.everyone.title.clone()).collect(),
        rules: rules.clone(),
        share: question.share,
        held_with,
        alone: graded
            .iter()
            .enumerate()
            .flat_map(|(place, one)| alone(one, place, rules))
            .collect(),
        weighed: weighed.iter().map(|one| one.sets.len()).sum(),
        all_up_to_three: weighed.iter().all(|one| one.all_up_to_three),
        ranked,
        ended_early: control.is_stopped(),
        seed: question.seed,
    }
}

/// How many searches that takes: for a progress bar.
pub fn searches(graded: &[Graded<'_>], rules: &[GradingRule]) -> usize {
    (graded.iter().enumerate())
        .map(|(place, one)| {
            simulated_sets(place, one, &weighed(one, rules), rules).len() * rules.len()
        })
        .sum()
}

fn rank(one: &SiteGrade) -> u8 {
    one.results.first().map_or(2, |first| rank_of(first.verdict))
}

fn rank_of(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Pass => 0,
        Verdict::NotClear => 1,
        Verdict::Fail => 2,
    }
}

fn held(one: &SiteGrade) -> f64 {
    one.results.first().and_then(|first| first.held_gpm).unwrap_or(0.0)
}

/// A set may leave sites unused: where a set within it does better, that is what it does.
fn take_from_subsets(ranked: &mut [SiteGrade]) {
    let mut by_size: Vec<usize> = (0..ranked.len()).collect();
    by_size.sort_by_key(|place| ranked[*place].places.len());
    for place in by_size.iter().copied() {
        for rule in 0..ranked[place].results.len() {
            let this = &ranked[place];
            let better = (ranked.iter())
                .filter(|other| {
                    other.scenario == this.scenario
                        && other.places.len() < this.places.len()
                        && other.places.iter().all(|site| this.places.contains(site))
                })
                .map(|other| &other.results[rule])
                .filter(|other| does_better(other, &this.results[rule]))
                .max_by(|a, b| if does_better(b, a) { Ordering::Less } else { Ordering::Greater })
                .cloned();
            if let Some(better) = better {
                // The hand credit stays its own: it is the best assignment to the whole set.
                let own = &ranked[place].results[rule];
                let (hand, by_hand_reached) = (own.hand.clone(), own.by_hand_reached);
                let (flow, drilled) = (better.flow, better.drilled);
                let verdict = judged(flow, &better.conditions, drilled, by_hand_reached);
                ranked[place].results[rule] =
                    RuleResult { verdict, hand, by_hand_reached, ..better };
            }
        }
    }
}

/// Whether a result is better: by verdict, then whether no condition is known to stand against it, for what holds at a
/// source that the rule does not credit is of no use; then by the flow that holds.
fn does_better(a: &RuleResult, b: &RuleResult) -> bool {
    // Each keeps its own credit by hand.
    let reached = |one: &RuleResult| judged(one.flow, &one.conditions, one.drilled, true);
    rank_of(reached(b)).cmp(&rank_of(reached(a))).then(held_by(a, b)).is_gt()
}

fn better_by(a: &RuleResult, b: &RuleResult) -> Ordering {
    rank_of(b.verdict).cmp(&rank_of(a.verdict)).then(held_by(a, b))
}

fn held_by(a: &RuleResult, b: &RuleResult) -> Ordering {
    let creditable = |one: &RuleResult| none_stands_against(&one.conditions);
    (creditable(a).cmp(&creditable(b)))
        .then(a.held_gpm.unwrap_or(0.0).total_cmp(&b.held_gpm.unwrap_or(0.0)))
}

fn site_grade(one: &Graded<'_>, set: &SimulatedSet, results: Vec<RuleResult>) -> SiteGrade {
    let sites = || set.places.iter().map(|place| &one.everyone.fill_sites[*place]);
    SiteGrade {
        scenario: set.scenario,
        sites: sites().map(|site| site.name.clone()).collect(),
        site_miles: sites().map(one_way_miles).collect(),
        places: set.places.clone(),
        results,
    }
}

fn alone<'a>(
    one: &'a Graded<'_>,
    scenario: usize,
    rules: &'a [GradingRule],
) -> impl Iterator<Item = Alone> + 'a {
    (one.everyone.fill_sites.iter().enumerate()).filter_map(move |(place, site)| {
        let rule = rules.first()?;
        Some(Alone {
            scenario,
            site: site.name.clone(),
            creditable: one.creditable(rule)[place],
            everyone: one.everyone_at(place, rule),
            hand: one.credit(&[place], rule, None),
        })
    })
}
