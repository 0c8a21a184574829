//! What a set of fill sites is credited with by hand, and with whose tankers.

use serde::Serialize;
use shuttle_sim::{FillSite, Part, PlanDraft, Tanker};

use super::conditions::{State, of_site};
use super::grading_rules::GradingRule;
use super::survey::{Aid, Survey};
use crate::changes::variation::draft_with_tankers;
use crate::worksheet::assignment::{Assignment, Shuttling, SiteCredit, Turn};
use crate::worksheet::{
    HandTerms, Station, hand_load, other_caps, shuttling, stated_drive, tanker_sheet,
};

/// Credits that differ by less are equal, gpm.
const ROUNDING_GPM: f64 = 1e-6;

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
    /// By tanker that counts: where it is assigned, and what it is credited with there.
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
    /// The same by the travel rule in place of stated speeds, gpm; `None` where a distance is not stated.
    pub by_travel_rule_gpm: Option<f64>,
    /// The same with the department's own tankers only, gpm.
    pub own_gpm: f64,
    /// With those on automatic aid too, gpm.
    pub automatic_gpm: f64,
    /// With all aid that is listed, gpm.
    pub all_gpm: f64,
    /// Whether every assignment was weighed; else it was searched for.
    pub exact: bool,
    /// Tankers that would count and are left to stand, by name: with them in line the sites would pass less.
    pub stand_by: Vec<String>,
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
        let comes: Vec<bool> = (self.everyone.tankers.iter())
            .map(|tanker| self.survey.of_tanker(tanker).aid <= aid)
            .collect();
        draft_with_tankers(self.everyone, &comes)
    }

    /// The same, free to fill wherever it is best: sets are choices, whatever the scenario assigns.
    fn free(&self, aid: Aid) -> PlanDraft {
        let mut facts = self.with(aid);
        for tanker in &mut facts.tankers {
            tanker.fill_site = None;
        }
        facts
    }

    /// Whose tankers a rule counts: automatic aid with the own, or the own alone.
    pub fn counted_by(rule: &GradingRule) -> Aid {
        if rule.own_only { Aid::Own } else { Aid::Automatic }
    }

    fn load<'a>(&'a self, rule: &'a GradingRule) -> impl Fn(&Tanker) -> f64 + 'a {
        |tanker| {
            if self.counts_whole(tanker, rule) { tanker.capacity } else { hand_load(tanker) }
        }
    }

    fn counts_whole(&self, tanker: &Tanker, rule: &GradingRule) -> bool {
        rule.sealed_counts_whole.is_some() && self.survey.of_tanker(tanker).vacuum
    }

    /// Tankers at sites, by hand, under a rule.
    pub fn by_hand(&self, facts: &PlanDraft, rule: &GradingRule) -> Shuttling {
        let load = self.load(rule);
        let terms = HandTerms { minutes: rule.duration_min, load: &load, drive: &stated_drive };
        shuttling(facts, terms)
    }

    /// The sites, by place, that a rule credits as far as it is stated.
    pub fn creditable(&self, rule: &GradingRule) -> Vec<bool> {
        (self.everyone.fill_sites.iter().enumerate())
            .map(|(place, site)| of_site(rule, site, self.survey.sites.get(place)) != State::NotMet)
            .collect()
    }

    /// What a set is credited with.
    pub fn credit(&self, set: &[usize], rule: &GradingRule, begin: Option<&[usize]>) -> HandCredit {
        let creditable = self.creditable(rule);
        let used: Vec<usize> = set.iter().copied().filter(|site| creditable[*site]).collect();
        let counted = Graded::counted_by(rule);
        let of = |aid: Aid| {
            let facts = self.free(aid);
            let begin = begin.filter(|_| aid == counted);
            self.counts(&facts, &used, &self.by_hand(&facts, rule), begin)
        };
        let (own, automatic, all) = (of(Aid::Own), of(Aid::Automatic), of(Aid::Mutual));
        // Aid that would only stand in line, and keep larger loads from the water, is left to stand.
        let taken = if own.gpm > automatic.gpm { Aid::Own } else { counted };
        let counts = if taken == Aid::Own { &own } else { &automatic };
        let facts = self.free(taken);
        let stand_by = (self.everyone.tankers.iter())
            .filter(|tanker| {
                (self.survey.of_tanker(tanker).aid > taken) && self.is_counted(tanker, rule)
            })
            .map(|tanker| tanker.name.clone());
        let by_travel_rule =
            [taken, counted].map(|aid| self.by_travel_rule(&self.free(aid), &used, rule));
        let sums = self.by_hand(&facts, rule);
        let assigned = counts.assignment.as_ref();
        let tankers: Vec<TankerCredit> = (facts.tankers.iter().enumerate())
            .filter_map(|(place, tanker)| {
                let site = assigned?.site_of[place];
                Some(self.tanker_credit(&facts, tanker, site, sums.turns[place][site], rule))
            })
            .collect();
        let credits = assigned.map(|assigned| sums.credits(&assigned.site_of));
        let nobody = SiteCredit {
            tankers: 0,
            made_gpm: 0.0,
            busy: 0.0,
            gpm: 0.0,
            bound: crate::worksheet::assignment::SiteBound::Tankers,
        };
        let sites = (set.iter())
            .map(|site| SiteUse {
                name: facts.fill_sites[*site].name.clone(),
                creditable: creditable[*site],
                credit: credits.as_ref().map_or(nobody, |credits| credits[*site]),
            })
            .collect();
        HandCredit {
            made_gpm: tankers.iter().map(|one| one.credit_gpm).sum(),
            tankers,
            sites,
            passes_gpm: counts.passes,
            scene: counts.scene.clone(),
            counts_gpm: counts.gpm,
            by_travel_rule_gpm: by_travel_rule.into_iter().flatten().reduce(f64::max),
            own_gpm: own.gpm,
            automatic_gpm: automatic.gpm.max(own.gpm),
            all_gpm: all.gpm.max(automatic.gpm).max(own.gpm),
            exact: assigned.is_none_or(|assigned| assigned.exact),
            stand_by: stand_by.collect(),
        }
    }

    fn is_counted(&self, tanker: &Tanker, rule: &GradingRule) -> bool {
        self.survey.of_tanker(tanker).aid <= Graded::counted_by(rule)
    }

    /// The best that any set of sites is credited with, with these tankers: a set may leave sites unused, and the
    /// best set with more tankers may be another one. Aid that would pass less is left to stand.
    ///
    /// - Given: `known`, a set of sites that is good with other tankers, and taken where nothing is better.
    pub fn best_by_hand(&self, aid: Aid, rule: &GradingRule, known: &[usize]) -> BestByHand {
        let creditable = self.creditable(rule);
        let credited = |sites: &[usize]| -> Vec<usize> {
            sites.iter().copied().filter(|site| creditable[*site]).collect()
        };
        let all: Vec<usize> = (0..creditable.len()).collect();
        let mut best = BestByHand { sites: Vec::new(), gpm: 0.0 };
        for comes in [Aid::Own, Aid::Automatic, Aid::Mutual].into_iter().filter(|one| *one <= aid) {
            let facts = self.free(comes);
            let sums = self.by_hand(&facts, rule);
            for set in [credited(known), credited(&all)] {
                let counted = self.counts(&facts, &set, &sums, None);
                let Some(assigned) = counted.assignment else { continue };
                if counted.gpm > best.gpm + ROUNDING_GPM {
                    let mut sites = assigned.site_of;
                    sites.sort_unstable();
                    sites.dedup();
                    best = BestByHand { sites, gpm: counted.gpm };
                }
            }
        }
        best
    }

    /// Every tanker that is listed, at one site, as if it were alone there; whether or not the rule counts it, or
    /// credits the site.
    pub fn everyone_at(&self, site: usize, rule: &GradingRule) -> Vec<TankerCredit> {
        let facts = self.free(Aid::Mutual);
        let sums = self.by_hand(&facts, rule);
        (facts.tankers.iter().zip(&sums.turns))
            .map(|(tanker, turns)| self.tanker_credit(&facts, tanker, site, turns[site], rule))
            .collect()
    }

    fn tanker_credit(
        &self,
        facts: &PlanDraft,
        tanker: &Tanker,
        site: usize,
        turn: Turn,
        rule: &GradingRule,
    ) -> TankerCredit {
        let sheet = tanker_sheet(facts, tanker, &facts.fill_sites[site]);
        TankerCredit {
            name: tanker.name.clone(),
            aid: self.survey.of_tanker(tanker).aid,
            tank_gal: tanker.capacity,
            counted_whole: self.counts_whole(tanker, rule),
            fill_site: sheet.fill_site,
            parts: sheet.parts,
            cycle_min: sheet.cycle_min,
            credit_gpm: turn.rate_gpm,
        }
    }

    fn counts(
        &self,
        facts: &PlanDraft,
        used: &[usize],
        sums: &Shuttling,
        begin: Option<&[usize]>,
    ) -> Counted {
        let scene = (other_caps(facts).into_iter())
            .map(|cap| (cap.at, cap.gpm))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        if used.is_empty() || facts.tankers.is_empty() {
            return Counted { assignment: None, passes: 0.0, gpm: 0.0, scene };
        }
        let begin: Vec<&[usize]> = begin.into_iter().collect();
        let assignment = sums.best(used, &begin, &[]);
        let passes = assignment.gpm;
        let gpm = scene.as_ref().map_or(passes, |(_, most)| passes.min(*most));
        Counted { assignment: Some(assignment), passes, gpm, scene }
    }

    fn by_travel_rule(&self, facts: &PlanDraft, used: &[usize], rule: &GradingRule) -> Option<f64> {
        let miles = |site: &FillSite| Some((site.out.miles?, site.back.miles?));
        for site in used {
            miles(&facts.fill_sites[*site])?;
        }
        let drive = |site: &FillSite| {
            // Each leg by itself; a site of another set may state no distance, and is not gone to.
            miles(site).map_or(f64::INFINITY, |(out, back)| {
                (self.travel_rule)(out) + (self.travel_rule)(back)
            })
        };
        let load = self.load(rule);
        let terms = HandTerms { minutes: rule.duration_min, load: &load, drive: &drive };
        Some(self.counts(facts, used, &shuttling(facts, terms), None).gpm)
    }
}

struct Counted {
    assignment: Option<Assignment>,
    passes: f64,
    gpm: f64,
    scene: Option<(Station, f64)>,
}
