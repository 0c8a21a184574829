//! Whether a rule's flow holds with a set of fill sites, how much more does, and what else the rule asks.

use shuttle_sim::{FillSite, Plan, PlanDraft};

use super::conditions::shown::{Drilled, drilled, not_shown};
use super::conditions::{State, none_stands_against, of_rule};
use super::grade::{RuleResult, Verdict};
use super::grading_rules::{Condition, GradingRule};
use super::site_sets::Graded;
use super::survey::SiteSurvey;
use crate::changes::variation::draft_with_sites;
use crate::holding::demand::{Demand, Trial};
use crate::holding::held_flow::{Greatest, Look, Search, greatest_step};
use crate::runs::control::Control;
use crate::worksheet::{Station, Worksheet, fill_cap, other_caps, tightest, worksheet};

/// No grading flow is above this, gpm.
const GREATEST_FLOW: f64 = 5_000.0;

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

/// A search for the flow that holds, with what its steps mean.
pub(super) struct Found {
    pub(super) greatest: Greatest,
    /// The step of the rule's minimum.
    asked: u32,
    grid: Option<Grid>,
    minimum_gpm: f64,
}

impl Found {
    /// The flow of a step, gpm. A rule without a higher flow credits its minimum and no more: that is its one step.
    pub(super) fn flow(&self, step: u32) -> f64 {
        self.grid.map_or(self.minimum_gpm, |grid| grid.flow(step))
    }
}

pub(super) fn search_for(
    facts: &PlanDraft,
    rule: &GradingRule,
    step_gpm: f64,
    search: Search,
    control: &Control,
) -> Found {
    let plan = Plan::check(facts.clone()).ok();
    let grid = rule.higher_within_min.map(|_| Grid::with(rule.minimum_gpm, step_gpm));
    let (asked, likely, top) = match (&grid, &plan) {
        (Some(grid), Some(plan)) => {
            let likely = grid.step_at(by_hand(&worksheet(plan)));
            (grid.step_at(rule.minimum_gpm), likely, grid.step_at(GREATEST_FLOW))
        }
        _ => (1, 1, 1),
    };
    let mut found = Found {
        greatest: Greatest::default(),
        asked,
        grid: grid.filter(|_| plan.is_some()),
        minimum_gpm: rule.minimum_gpm,
    };
    found.greatest = greatest_step(likely, Some(asked), top, search, control, |step| {
        Trial::new(plan.as_ref()?, rule.demand(), found.flow(step)).ok()
    });
    found
}

pub(super) fn hold(
    one: &Graded<'_>,
    places: &[usize],
    begin: Option<&[Option<usize>]>,
    rule: &GradingRule,
    step_gpm: f64,
    search: Search,
    control: &Control,
) -> RuleResult {
    let used = used(one, places, rule);
    let facts = draft_with_sites(&one.with(Graded::counted_by(rule)), &used);
    let found = search_for(&facts, rule, step_gpm, search, control);
    let conditions = conditions_at(one, &used, rule);
    let greatest = &found.greatest;
    let minimum = greatest.look(found.asked);
    let flow = if minimum.is_some_and(Look::fails) {
        Verdict::Fail
    } else if minimum.is_some_and(Look::holds)
        && greatest.holds.is_some_and(|step| step >= found.asked)
    {
        Verdict::Pass
    } else {
        Verdict::NotClear
    };
    let hand = one.credit(places, rule, begin);
    let drilled = drilled(&one.survey.drills, rule);
    // What the places pass however many tankers come, whatever the rule says of its sources.
    let tightest = tightest_of(&facts, rule.duration_min);
    let cap = tightest.as_ref().map_or(f64::INFINITY, |(_, gpm)| *gpm);
    let held_gpm = greatest.holds.map(|step| found.flow(step));
    let hardest = greatest.fails.and_then(|step| greatest.look(step));
    RuleResult {
        rule: rule.key.clone(),
        verdict: judged(flow, &conditions, drilled, rule.is_reached_by(hand.counts_gpm)),
        flow,
        conditions,
        drilled,
        not_shown: not_shown(rule, one.survey, sites(one, &used)),
        by_hand_reached: rule.is_reached_by(hand.counts_gpm),
        hand,
        held_with: facts.fill_sites.iter().map(|site| site.name.clone()).collect(),
        held_gpm,
        first_loads_gal: held_gpm
            .filter(|held| *held > cap)
            .map(|held| (held - cap) * rule.duration_min),
        minimum_above_cap: rule.minimum_gpm > cap,
        tightest,
        not_clear_up_to_gpm: greatest.unclear_up_to().map(|step| found.flow(step)),
        fails_gpm: greatest.fails.map(|step| found.flow(step)),
        binds: hardest.and_then(|look| look.main_cause),
        late_share: hardest.map_or(0.0, |look| look.late as f64 / look.replications.max(1) as f64),
        uneven: greatest.uneven,
        replications: greatest.replications(),
        search: found.greatest,
    }
}

/// Whether the rule is met: the flow holds, the credit by hand reaches the minimum, and nothing that is stated stands
/// against it.
pub(super) fn judged(
    flow: Verdict,
    conditions: &[(Condition, State)],
    drilled: Drilled,
    by_hand_reached: bool,
) -> Verdict {
    let fell_short = matches!(drilled, Drilled::FellShort(_));
    if none_stands_against(conditions) && by_hand_reached && !fell_short {
        flow
    } else {
        Verdict::Fail
    }
}

/// Whether a rule's minimum holds with a set of fill sites, and nothing more.
pub(super) struct MinimumHeld {
    /// Whether the rule is met.
    pub(super) verdict: Verdict,
    /// Whether the flow alone is enough.
    pub(super) flow: Verdict,
    /// What else it asks for.
    pub(super) conditions: Vec<(Condition, State)>,
    /// What drills say of it.
    pub(super) drilled: Drilled,
    /// Whether something stands against it that no other set of sites can mend.
    pub(super) place_fails: bool,
    /// What counts by hand, gpm, where that is less than the minimum.
    pub(super) too_little_gpm: Option<f64>,
    /// The cause of the most first breaks.
    pub(super) cause: Option<&'static str>,
    /// Share of the runs in which the crew had no water in time.
    pub(super) late_share: f64,
    /// Runs made.
    pub(super) replications: u64,
}

/// Tries a rule's minimum; nothing is run where a condition is known not to be met, a drill fell short, or less counts
/// by hand.
pub(super) fn minimum_held(
    one: &Graded<'_>,
    places: &[usize],
    rule: &GradingRule,
    search: Search,
    control: &Control,
) -> MinimumHeld {
    let places = &used(one, places, rule);
    let conditions = conditions_at(one, places, rule);
    let of_sites = |condition: &Condition| {
        matches!(condition, Condition::SourceWithin(_) | Condition::AllYear)
    };
    let drilled = drilled(&one.survey.drills, rule);
    let place_fails = matches!(drilled, Drilled::FellShort(_))
        || (conditions.iter())
            .any(|(condition, state)| *state == State::NotMet && !of_sites(condition));
    let counts = one.counts_gpm(places, rule);
    let mut held = MinimumHeld {
        verdict: Verdict::Fail,
        flow: Verdict::NotClear,
        drilled,
        place_fails,
        too_little_gpm: (!rule.is_reached_by(counts)).then_some(counts),
        cause: None,
        late_share: 0.0,
        replications: 0,
        conditions,
    };
    if place_fails || held.too_little_gpm.is_some() || !none_stands_against(&held.conditions) {
        return held;
    }
    let facts = draft_with_sites(&one.with(Graded::counted_by(rule)), places);
    let plan = Plan::check(facts).ok();
    let found = greatest_step(1, Some(1), 1, search, control, |_| {
        Trial::new(plan.as_ref()?, rule.demand(), rule.minimum_gpm).ok()
    });
    let look = found.look(1);
    held.flow = match look {
        Some(look) if look.holds() => Verdict::Pass,
        Some(look) if look.fails() => Verdict::Fail,
        _ => Verdict::NotClear,
    };
    held.verdict = held.flow;
    held.cause = look.and_then(|look| look.main_cause).map(|(cause, _)| cause);
    held.late_share = look.map_or(0.0, |look| look.late as f64 / look.broken.max(1) as f64);
    held.replications = found.replications();
    held
}

/// The sites of a set that a rule credits, for nobody fills at another under it; where it credits none of them, all, to
/// say what they would hold.
fn used(one: &Graded<'_>, places: &[usize], rule: &GradingRule) -> Vec<usize> {
    let creditable = one.creditable(rule);
    let credited: Vec<usize> = places.iter().copied().filter(|site| creditable[*site]).collect();
    if credited.is_empty() { places.to_vec() } else { credited }
}

fn conditions_at(
    one: &Graded<'_>,
    places: &[usize],
    rule: &GradingRule,
) -> Vec<(Condition, State)> {
    of_rule(rule, one.survey, sites(one, places))
}

/// Sites by place, with what is stated of them.
fn sites<'a>(
    one: &Graded<'a>,
    places: &'a [usize],
) -> impl Iterator<Item = (&'a FillSite, Option<&'a SiteSurvey>)> + Clone {
    let (all, stated) = (&one.everyone.fill_sites, &one.survey.sites);
    places.iter().map(|place| (&all[*place], stated.get(*place)))
}

fn tightest_of(facts: &PlanDraft, minutes: f64) -> Option<(Station, f64)> {
    let caps: Vec<_> =
        (facts.fill_sites.iter()).map(|site| fill_cap(facts, site, minutes)).collect();
    tightest(&caps, &other_caps(facts))
}

/// The most a hand calculation gives: the sum of the tankers' rates, no more than the tightest cap, gpm.
pub fn by_hand(sheet: &Worksheet) -> f64 {
    let scene = sheet.other_caps.iter().map(|cap| cap.gpm);
    let sites = sheet.fill_caps.iter().map(|cap| cap.gpm).sum::<f64>();
    scene.fold(sheet.plan_passes_gpm.min(sites), f64::min)
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
}
