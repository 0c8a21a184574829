//! What a set of fill sites is credited with by hand, and with whose tankers.
//!
//! Who comes after the minute by which the flow must be reached is not counted; anyone else may be left to stand. Both
//! ways of travel are reckoned, the speeds stated and the travel rule; where the body takes the travel rule, the lower
//! is what counts.

mod reckoning;

use serde::Serialize;
use shuttle_sim::{Part, PlanDraft, Tanker};

use reckoning::{Reckoning, miles};

use super::conditions::{State, of_site};
use super::grading_rules::GradingRule;
use super::survey::{Aid, Survey};
use crate::changes::variation::draft_with_tankers;
use crate::worksheet::assignment::{Shuttling, SiteBound, SiteCredit, Turn};
use crate::worksheet::{Station, hand_load, stated_drive, tanker_sheet};

/// Credits that differ by less are equal, gpm.
pub(super) const ROUNDING_GPM: f64 = 1e-6;

/// By what the minutes on the road are reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Travel {
    /// By the speeds or minutes stated.
    Stated,
    /// By the travel rule, each way.
    Rule,
}

/// What one tanker is credited with by hand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TankerCredit {
    /// Its name.
    pub name: String,
    /// Whose it is.
    pub aid: Aid,
    /// Its tank, gal.
    pub tank_gal: f64,
    /// Whether the tank is counted whole: sealed, and the rule lets it.
    pub counted_whole: bool,
    /// The site it is assigned to.
    pub fill_site: String,
    /// Minutes by part of the cycle, means.
    #[serde(skip)]
    pub parts: Vec<(Part, f64)>,
    /// Fill, round trip and discharge with all handling, minutes.
    pub cycle_min: f64,
    /// The tank, less 10% unless it is counted whole, over that, gpm.
    pub credit_gpm: f64,
    /// The same by the travel rule; `None` where a distance is not stated.
    pub by_travel_rule: Option<ByTravelRule>,
}

/// What one tanker is credited with where the road takes the minutes of the travel rule.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ByTravelRule {
    /// Out and back, minutes.
    pub road_min: [f64; 2],
    /// Its cycle with them, minutes.
    pub cycle_min: f64,
    /// Its credit over that, gpm.
    pub credit_gpm: f64,
}

/// What one site of a set is credited with by hand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SiteUse {
    /// Its name.
    pub name: String,
    /// Whether the rule credits it at all, as far as it is stated.
    pub creditable: bool,
    /// What it is credited with; a site that is left unused has no tankers.
    #[serde(skip)]
    pub credit: SiteCredit,
}

/// The hand credit of a set of sites under a rule.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HandCredit {
    /// How the road is reckoned in what follows.
    pub travel: Travel,
    /// By tanker that drives: where it is assigned, and what it is credited with there.
    pub tankers: Vec<TankerCredit>,
    /// By site of the set.
    pub sites: Vec<SiteUse>,
    /// The sum of the tankers' credits, gpm.
    pub made_gpm: f64,
    /// What the sites pass of it, gpm.
    pub passes_gpm: f64,
    /// The least that passes at the scene, where tankers unload and water is drafted, gpm.
    pub scene: Option<(Station, f64)>,
    /// What counts: what the sites pass, no more than the scene does, gpm.
    pub counts_gpm: f64,
    /// What the rule credits of that, gpm.
    pub credited_gpm: f64,
    /// What counts by the speeds or minutes stated, gpm.
    pub by_speeds_gpm: f64,
    /// What counts by the travel rule, gpm; `None` where a distance is not stated.
    pub by_travel_rule_gpm: Option<f64>,
    /// What counts with the department's own tankers only, gpm.
    pub own_gpm: f64,
    /// With those on automatic aid too, gpm.
    pub automatic_gpm: f64,
    /// With all aid that is listed, gpm.
    pub all_gpm: f64,
    /// Whether every assignment was weighed; else it was searched for.
    pub exact: bool,
    /// Tankers that would count and are left to stand, by name: with them in line less would pass.
    pub stand_by: Vec<String>,
    /// Tankers that would count and come only after the rule's minute, by name.
    pub late: Vec<String>,
    /// Tankers on automatic aid that are asked for after the alarm, by name.
    pub asked_later: Vec<String>,
}

/// The best that any set of sites is credited with by hand, with some of the tankers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BestByHand {
    /// The sites that are used, by place in rising order; none where no site is credited or nobody comes.
    pub sites: Vec<usize>,
    /// What is credited, gpm.
    pub gpm: f64,
}

/// A place to be graded.
#[derive(Debug, Clone, Copy)]
pub struct Graded<'p> {
    /// Everyone that is listed, aid too.
    pub everyone: &'p PlanDraft,
    /// What is stated for the grading.
    pub survey: &'p Survey,
    /// Minutes by the travel rule for so many miles.
    pub travel_rule: fn(f64) -> f64,
}

impl Graded<'_> {
    /// The facts with only those tankers whose aid is counted.
    pub fn with(&self, aid: Aid) -> PlanDraft {
        self.with_those(|tanker| self.survey.of_tanker(tanker).aid <= aid)
    }

    fn with_those(&self, comes: impl Fn(&Tanker) -> bool) -> PlanDraft {
        let comes: Vec<bool> = self.everyone.tankers.iter().map(comes).collect();
        draft_with_tankers(self.everyone, &comes)
    }

    /// Those whose aid is counted and who are there by the rule's minute, free to fill wherever it is best: sets are
    /// choices, whatever the scenario assigns.
    pub fn in_time(&self, aid: Aid, rule: &GradingRule) -> PlanDraft {
        let mut facts = self.with_those(|tanker| {
            self.survey.of_tanker(tanker).aid <= aid && !self.is_late(tanker, rule)
        });
        for tanker in &mut facts.tankers {
            tanker.fill_site = None;
        }
        facts
    }

    /// Whether a tanker comes, on average, after the minute by which the rule's flow must be reached; the clock is the
    /// first engine's arrival.
    fn is_late(&self, tanker: &Tanker, rule: &GradingRule) -> bool {
        let arrives = |call: &shuttle_sim::Call| call.requested_at + call.response.mean();
        let after = arrives(&tanker.call) - arrives(&self.everyone.attack_engine.call);
        after > rule.reached_by_min() + 1e-9
    }

    /// Whose tankers a rule counts: automatic aid with the own, or the own alone.
    pub fn counted_by(rule: &GradingRule) -> Aid {
        if rule.own_only { Aid::Own } else { Aid::Automatic }
    }

    pub(super) fn load<'a>(&'a self, rule: &'a GradingRule) -> impl Fn(&Tanker) -> f64 + 'a {
        |tanker| {
            if self.counts_whole(tanker, rule) { tanker.capacity } else { hand_load(tanker) }
        }
    }

    fn counts_whole(&self, tanker: &Tanker, rule: &GradingRule) -> bool {
        rule.sealed_counts_whole.is_some() && self.survey.of_tanker(tanker).vacuum
    }

    /// Tankers at sites, by hand, under a rule, with the speeds stated.
    pub fn by_hand(&self, facts: &PlanDraft, rule: &GradingRule) -> Shuttling {
        self.reckoned(facts, rule, &stated_drive)
    }

    /// The sites, by place, that a rule credits as far as it is stated.
    pub fn creditable(&self, rule: &GradingRule) -> Vec<bool> {
        (self.everyone.fill_sites.iter().enumerate())
            .map(|(place, site)| of_site(rule, site, self.survey.sites.get(place)) != State::NotMet)
            .collect()
    }

    /// What a set is credited with.
    ///
    /// - Given: `begin`, an assignment of those who are in time, which is not fallen behind.
    pub fn credit(
        &self,
        set: &[usize],
        rule: &GradingRule,
        begin: Option<&[Option<usize>]>,
    ) -> HandCredit {
        let creditable = self.creditable(rule);
        let used: Vec<usize> = set.iter().copied().filter(|site| creditable[*site]).collect();
        let counted = Graded::counted_by(rule);
        let fleets = self.by_aid(&used, rule, begin);
        let gpm = |aid: Aid| fleets[aid as usize].counts().gpm;
        let reckoning = &fleets[counted as usize];
        let Reckoning { facts, stated, by_rule, .. } = reckoning;
        let (sums, counts) = reckoning.what_counts();
        let assigned = counts.assignment.as_ref();
        let site_of = |place: usize| assigned.and_then(|assigned| assigned.site_of[place]);
        let tankers: Vec<TankerCredit> = (facts.tankers.iter().enumerate())
            .filter_map(|(place, tanker)| {
                let site = site_of(place)?;
                let turn = sums.turns[place][site];
                let by_rule = by_rule.as_ref().map(|(sums, _)| sums.turns[place][site]);
                Some(self.tanker_credit(facts, tanker, site, (turn, by_rule), rule))
            })
            .collect();
        let credits = assigned.map(|assigned| sums.credits(&assigned.site_of));
        let nobody = SiteCredit {
            tankers: 0,
            made_gpm: 0.0,
            busy: 0.0,
            gpm: 0.0,
            bound: SiteBound::Tankers,
        };
        let sites = (set.iter())
            .map(|site| SiteUse {
                name: facts.fill_sites[*site].name.clone(),
                creditable: creditable[*site],
                credit: credits.as_ref().map_or(nobody, |credits| credits[*site]),
            })
            .collect();
        let stand_by = (facts.tankers.iter().enumerate())
            .filter(|(place, _)| assigned.is_some() && site_of(*place).is_none())
            .map(|(_, tanker)| tanker.name.clone());
        let named = |test: &dyn Fn(&Tanker) -> bool| -> Vec<String> {
            let those = self.everyone.tankers.iter().filter(|tanker| test(tanker));
            those.map(|tanker| tanker.name.clone()).collect()
        };
        let aid_of = |tanker: &Tanker| self.survey.of_tanker(tanker).aid;
        HandCredit {
            travel: reckoning.travel(),
            made_gpm: tankers.iter().map(|one| one.credit_gpm).sum(),
            tankers,
            sites,
            passes_gpm: counts.passes,
            scene: counts.scene.clone(),
            counts_gpm: counts.gpm,
            credited_gpm: rule.credits(counts.gpm),
            by_speeds_gpm: stated.1.gpm,
            by_travel_rule_gpm: by_rule.as_ref().map(|(_, counts)| counts.gpm),
            own_gpm: gpm(Aid::Own),
            automatic_gpm: gpm(Aid::Automatic),
            all_gpm: gpm(Aid::Mutual),
            exact: assigned.is_none_or(|assigned| assigned.exact),
            stand_by: stand_by.collect(),
            late: named(&|tanker| aid_of(tanker) <= counted && self.is_late(tanker, rule)),
            asked_later: named(&|tanker| {
                aid_of(tanker) == Aid::Automatic && tanker.call.requested_at > 0.0
            }),
        }
    }

    /// What counts of a set by hand, and nothing more, gpm.
    pub fn counts_gpm(&self, set: &[usize], rule: &GradingRule) -> f64 {
        let creditable = self.creditable(rule);
        let used: Vec<usize> = set.iter().copied().filter(|site| creditable[*site]).collect();
        let facts = self.in_time(Graded::counted_by(rule), rule);
        self.reckon(facts, &used, rule, &[]).counts().gpm
    }

    /// The best that any set of sites is credited with by hand, with these tankers: a set may leave sites unused, and
    /// the best set with more tankers may be another one.
    ///
    /// - Given: `known`, a set of sites that is good with other tankers, and taken where nothing is better.
    pub fn best_by_hand(&self, aid: Aid, rule: &GradingRule, known: &[usize]) -> BestByHand {
        let creditable = self.creditable(rule);
        let credited = |sites: &[usize]| -> Vec<usize> {
            sites.iter().copied().filter(|site| creditable[*site]).collect()
        };
        let all: Vec<usize> = (0..creditable.len()).collect();
        let mut best = BestByHand { sites: Vec::new(), gpm: 0.0 };
        for set in [credited(known), credited(&all)] {
            let fleets = self.by_aid(&set, rule, None);
            let counts = fleets[aid as usize].counts();
            let Some(assigned) = &counts.assignment else { continue };
            if counts.gpm > best.gpm + ROUNDING_GPM {
                let mut sites: Vec<usize> = assigned.site_of.iter().copied().flatten().collect();
                sites.sort_unstable();
                sites.dedup();
                best = BestByHand { sites, gpm: counts.gpm };
            }
        }
        best.gpm = rule.credits(best.gpm);
        best
    }

    /// Every tanker that is listed, at one site, as if it were alone there; whether or not the rule counts it, or
    /// credits the site.
    pub fn everyone_at(&self, site: usize, rule: &GradingRule) -> Vec<TankerCredit> {
        let facts = self.everyone;
        let is_known = miles(&facts.fill_sites[site]).is_some();
        let by_rule = is_known.then(|| self.by_travel_rule(facts, rule));
        (facts.tankers.iter().zip(self.by_hand(facts, rule).turns).enumerate())
            .map(|(place, (tanker, turns))| {
                let by_rule = by_rule.as_ref().map(|sums| sums.turns[place][site]);
                self.tanker_credit(facts, tanker, site, (turns[site], by_rule), rule)
            })
            .collect()
    }

    fn tanker_credit(
        &self,
        facts: &PlanDraft,
        tanker: &Tanker,
        site: usize,
        (turn, by_rule): (Turn, Option<Turn>),
        rule: &GradingRule,
    ) -> TankerCredit {
        let sheet = tanker_sheet(facts, tanker, &facts.fill_sites[site]);
        let cycle = |turn: Turn| (self.load(rule))(tanker) / turn.rate_gpm;
        TankerCredit {
            name: tanker.name.clone(),
            aid: self.survey.of_tanker(tanker).aid,
            tank_gal: tanker.capacity,
            counted_whole: self.counts_whole(tanker, rule),
            fill_site: sheet.fill_site,
            parts: sheet.parts,
            cycle_min: cycle(turn),
            credit_gpm: turn.rate_gpm,
            by_travel_rule: by_rule.zip(miles(&facts.fill_sites[site])).map(
                |(turn, (out, back))| {
                    let road = |miles: f64| (self.travel_rule)(miles) * tanker.drive_factor;
                    ByTravelRule {
                        road_min: [road(out), road(back)],
                        cycle_min: cycle(turn),
                        credit_gpm: turn.rate_gpm,
                    }
                },
            ),
        }
    }
}
