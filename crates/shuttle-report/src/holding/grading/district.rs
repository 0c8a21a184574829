//! Many places graded: one row an address, pass or fail by rule.
//!
//! Of each address the sets of fill sites are weighed by hand; then the rule's minimum is simulated with the best set,
//! and where it is not shown to hold, with the best site alone and with all that serve the address. A rule fails
//! without a simulation where a condition on the place is known not to be met, a drill fell short, or less than its
//! minimum counts by hand.

use serde::Serialize;
use shuttle_sim::PlanDraft;

use super::conditions::shown::Drilled;
use super::conditions::{State, one_way_miles};
use super::grade::Verdict;
use super::grading_rules::{Condition, GradingRule};
use super::rule_held::{MinimumHeld, minimum_held};
use super::site_sets::{Graded, HandCredit};
use super::survey::{Address, Aid, Survey};
use super::weighed_sets::weigh;
use crate::holding::held_flow::Search;
use crate::holding::shared_out;
use crate::runs::control::{Control, SameLuck};
use crate::runs::in_order::in_order;

/// Sets whose flow is simulated at most, for each address and rule.
const MOST_TRIED: usize = 3;

/// A place as it is graded.
#[derive(Debug, Clone)]
pub struct Place {
    /// Its name.
    pub name: String,
    /// Everyone, with the fill sites that serve the place and the roads from there.
    pub everyone: PlanDraft,
    /// What is stated for it.
    pub survey: Survey,
}

impl Place {
    /// An address of a scenario: its roads in place of the scenario's own; a site without a road does not serve it.
    pub fn of(address: &Address, everyone: &PlanDraft, survey: &Survey) -> Place {
        let mut facts = everyone.clone();
        let mut survey = Survey { addresses: Vec::new(), ..survey.clone() };
        facts.one_lanes.clear();
        facts.fill_sites.clear();
        let sites = std::mem::take(&mut survey.sites);
        for (place, site) in everyone.fill_sites.iter().enumerate() {
            if let Some(road) = address.roads.iter().find(|road| road.site == site.name) {
                let mut site = site.clone();
                (site.out, site.back) = (road.leg.clone(), road.leg.clone());
                facts.fill_sites.push(site);
                survey.sites.push(sites.get(place).cloned().unwrap_or_default());
            }
        }
        for tanker in &mut facts.tankers {
            tanker.fill_site = None;
        }
        survey.station_miles = address.station_miles;
        survey.suction_point_ft = address.suction_point_ft;
        Place { name: address.name.clone(), everyone: facts, survey }
    }
}

/// What is asked.
#[derive(Debug, Clone)]
pub struct DistrictQuestion {
    /// The rules; the first decides which set is best.
    pub rules: Vec<GradingRule>,
    /// Share of runs in which a rule's minimum must hold.
    pub share: f64,
    /// Most runs for any one set.
    pub most_runs: u64,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Threads to use.
    pub threads: usize,
    /// Minutes by the travel rule for so many miles.
    pub travel_rule: fn(f64) -> f64,
}

/// Why a rule is not met.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fails {
    /// A condition that is not met.
    Condition(Condition),
    /// A drill, by its place, held less, or had its water too late.
    Drill(usize),
    /// Less than the minimum counts by hand: so much, gpm.
    ByHand(f64),
    /// The flow breaks, by the cause of the most first breaks.
    Flow(Option<&'static str>),
    /// The crew has no water in time.
    Late,
}

/// A rule at a place.
#[derive(Debug, Clone, Serialize)]
pub struct PlaceResult {
    /// Whether it is met, as far as is stated.
    pub verdict: Verdict,
    /// The sites with which.
    pub with: Vec<String>,
    /// Why not; empty where it passes or is not clear.
    pub fails: Vec<Fails>,
    /// Whether no road to a fill site is stated: nothing can be told.
    pub no_road: bool,
    /// Conditions of which nothing is stated.
    pub open: Vec<Condition>,
    /// Runs made.
    pub replications: u64,
}

/// One place.
#[derive(Debug, Clone, Serialize)]
pub struct PlaceRow {
    /// Its name.
    pub name: String,
    /// The site with the most credit by hand under the first rule, and its road, miles.
    pub best_site: Option<(String, Option<f64>)>,
    /// The set with the most credit; of equal ones the smallest.
    pub best_set: Vec<String>,
    /// What that is credited with by hand.
    pub hand: Option<HandCredit>,
    /// What the own tankers alone are credited with by hand, with the best set of sites for them, gpm.
    pub own_gpm: f64,
    /// The same with all aid that is listed, gpm.
    pub all_gpm: f64,
    /// Road from the station, miles.
    pub station_miles: Option<f64>,
    /// To the nearest suction point, ft.
    pub suction_point_ft: Option<f64>,
    /// One a rule.
    pub results: Vec<PlaceResult>,
}

/// The answer.
#[derive(Debug, Clone, Serialize)]
pub struct DistrictAnswer {
    /// One a place, in the order given.
    pub rows: Vec<PlaceRow>,
    /// Whether it was stopped early; places that were not reached are left out.
    pub ended_early: bool,
}

impl DistrictAnswer {
    /// Places at which a rule, by its place in the list, has this verdict.
    pub fn count(&self, rule: usize, verdict: Verdict) -> usize {
        let has = |row: &&PlaceRow| row.results.get(rule).is_some_and(|one| one.verdict == verdict);
        self.rows.iter().filter(has).count()
    }

    /// Runs made in all.
    pub fn replications(&self) -> u64 {
        self.rows.iter().flat_map(|row| &row.results).map(|one| one.replications).sum()
    }
}

/// Grades every place.
pub fn district(
    places: &[Place],
    question: &DistrictQuestion,
    control: &Control,
) -> DistrictAnswer {
    let (outer, inner) = shared_out(question.threads, places.len());
    let search = Search {
        share: question.share,
        most_runs: question.most_runs,
        luck: SameLuck { seed: question.seed, threads: inner },
        searches: places.len() * question.rules.len() * MOST_TRIED,
        to_be_exact: 0,
        within: 0.0,
    };
    let mut rows: Vec<PlaceRow> = Vec::new();
    let mut cut_short = false;
    let work = |_: &mut (), job: u64| {
        let row = row(&places[job as usize], question, search, control);
        (row, control.is_stopped())
    };
    in_order(
        places.len() as u64,
        outer,
        control,
        || (),
        work,
        |_, (row, stopped)| {
            cut_short |= stopped;
            if !cut_short {
                rows.push(row);
            }
        },
    );
    DistrictAnswer { rows, ended_early: control.is_stopped() }
}

fn row(place: &Place, question: &DistrictQuestion, search: Search, control: &Control) -> PlaceRow {
    let graded = Graded {
        everyone: &place.everyone,
        survey: &place.survey,
        travel_rule: question.travel_rule,
    };
    let names = |set: &[usize]| -> Vec<String> {
        set.iter().map(|site| place.everyone.fill_sites[*site].name.clone()).collect()
    };
    let best = best_sets(&graded, question.rules.first());
    let no_road = place.everyone.fill_sites.is_empty();
    let results = (question.rules.iter())
        .map(|rule| {
            let mut found: Option<(Vec<usize>, MinimumHeld)> = None;
            let mut replications = 0;
            for set in best.tried(&graded.creditable(rule)) {
                let held = minimum_held(&graded, &set, rule, search, control);
                replications += held.replications;
                let passes = held.verdict == Verdict::Pass;
                let is_better = |(_, known): &(Vec<usize>, MinimumHeld)| {
                    passes || (held.verdict == Verdict::NotClear && known.verdict == Verdict::Fail)
                };
                if found.as_ref().is_none_or(is_better) {
                    found = Some((set, held));
                }
                // What the place itself does not meet no other set mends.
                let hopeless = found.as_ref().is_some_and(|(_, held)| held.place_fails);
                if passes || hopeless {
                    break;
                }
            }
            match found {
                Some((set, held)) => PlaceResult { replications, ..result(&held, names(&set)) },
                None => PlaceResult {
                    verdict: if no_road { Verdict::NotClear } else { Verdict::Fail },
                    with: Vec::new(),
                    fails: if no_road { Vec::new() } else { vec![Fails::ByHand(0.0)] },
                    no_road,
                    open: Vec::new(),
                    replications: 0,
                },
            }
        })
        .collect();
    let best_with = |aid: Aid| {
        let known = best.set.as_deref().unwrap_or_default();
        question.rules.first().map_or(0.0, |rule| graded.best_by_hand(aid, rule, known).gpm)
    };
    PlaceRow {
        own_gpm: best_with(Aid::Own),
        all_gpm: best_with(Aid::Mutual),
        station_miles: place.survey.station_miles,
        suction_point_ft: place.survey.suction_point_ft,
        name: place.name.clone(),
        best_site: best.site.map(|site| {
            let site = &place.everyone.fill_sites[site];
            (site.name.clone(), one_way_miles(site))
        }),
        best_set: best.set.as_deref().map(names).unwrap_or_default(),
        hand: best
            .set
            .as_ref()
            .zip(question.rules.first())
            .map(|(set, rule)| graded.credit(set, rule, best.site_of.as_deref())),
        results,
    }
}

fn result(held: &MinimumHeld, with: Vec<String>) -> PlaceResult {
    let not_met = (held.conditions.iter())
        .filter(|(_, state)| *state == State::NotMet)
        .map(|(condition, _)| Fails::Condition(*condition));
    let mut fails: Vec<Fails> = not_met.collect();
    if let Drilled::FellShort(drill) = held.drilled {
        fails.push(Fails::Drill(drill));
    }
    fails.extend(held.too_little_gpm.map(Fails::ByHand));
    if held.flow == Verdict::Fail {
        fails.push(if held.late_share > 0.5 { Fails::Late } else { Fails::Flow(held.cause) });
    }
    PlaceResult {
        verdict: held.verdict,
        with,
        fails,
        no_road: false,
        open: (held.conditions.iter())
            .filter(|(_, state)| *state == State::NotKnown)
            .map(|(condition, _)| *condition)
            .collect(),
        replications: 0,
    }
}

/// The sets worth trying at a place.
struct Best {
    site: Option<usize>,
    set: Option<Vec<usize>>,
    site_of: Option<Vec<Option<usize>>>,
    sets: Vec<Vec<usize>>,
}

impl Best {
    /// The sets to try under a rule: those that are best under the first, without the sites that this one does not
    /// credit, and all that it does; where it credits none, the best as it is, to say why not.
    fn tried(&self, creditable: &[bool]) -> Vec<Vec<usize>> {
        let all: Vec<usize> = (0..creditable.len()).filter(|site| creditable[*site]).collect();
        let mut sets: Vec<Vec<usize>> = Vec::new();
        for set in self.sets.iter().chain([&all]) {
            let credited: Vec<usize> =
                set.iter().copied().filter(|site| creditable[*site]).collect();
            if !credited.is_empty() && !sets.contains(&credited) {
                sets.push(credited);
            }
        }
        if sets.is_empty() {
            return self.sets.first().cloned().into_iter().collect();
        }
        if sets.len() > MOST_TRIED {
            // The best one, and all together, stay.
            sets.drain(1..sets.len() + 1 - MOST_TRIED);
        }
        sets
    }
}

fn best_sets(graded: &Graded<'_>, rule: Option<&GradingRule>) -> Best {
    let nothing = Best { site: None, set: None, site_of: None, sets: Vec::new() };
    let Some(rule) = rule else { return nothing };
    let facts = graded.in_time(Graded::counted_by(rule), rule);
    let creditable = graded.creditable(rule);
    let all: Vec<usize> = (0..creditable.len()).collect();
    let mut sites: Vec<usize> = all.iter().copied().filter(|site| creditable[*site]).collect();
    if sites.is_empty() {
        sites = all;
    }
    if sites.is_empty() || facts.tankers.is_empty() {
        return nothing;
    }
    let weighed = weigh(&graded.by_hand(&facts, rule), &sites);
    // Of equal credits the smaller set.
    let best = |most_sites: usize| {
        (weighed.sets.iter()).filter(|(set, _)| set.len() <= most_sites).reduce(|best, one| {
            let gains = one.1.gpm > best.1.gpm + 1e-6;
            let smaller = one.1.gpm > best.1.gpm - 1e-6 && one.0.len() < best.0.len();
            if gains || smaller { one } else { best }
        })
    };
    let (Some(set), Some(single)) = (best(usize::MAX), best(1)) else { return nothing };
    let mut sets = vec![set.0.clone()];
    for other in [single.0.clone(), sites] {
        if !sets.contains(&other) {
            sets.push(other);
        }
    }
    sets.truncate(MOST_TRIED);
    Best {
        site: single.0.first().copied(),
        set: Some(set.0.clone()),
        site_of: Some(set.1.site_of.clone()),
        sets,
    }
}
