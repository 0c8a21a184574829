//! Some tankers at some sites reckoned by hand: by both ways of travel, and with each kind of aid.

use shuttle_sim::{FillSite, PlanDraft, Tanker};

use super::{Graded, ROUNDING_GPM, Travel};
use crate::holding::grading::grading_rules::GradingRule;
use crate::holding::grading::survey::Aid;
use crate::worksheet::assignment::{Assignment, Shuttling};
use crate::worksheet::{HandTerms, Station, shuttling, unloading_of};

impl Graded<'_> {
    pub(super) fn reckoned(
        &self,
        facts: &PlanDraft,
        rule: &GradingRule,
        drive: &dyn Fn(&FillSite) -> f64,
    ) -> Shuttling {
        let load = self.load(rule);
        let mut scene = unloading_of(facts, &load);
        // A survey takes no pump for more than it is rated at.
        scene.draft_gpm = scene.draft_gpm.min(self.rated(facts));
        let terms = HandTerms { minutes: rule.duration_min, load: &load, drive };
        Shuttling { scene: Some(scene), may_stand: true, ..shuttling(facts, terms) }
    }

    /// The rating of the pump that drafts, gpm; infinite where nothing drafts or no rating is stated.
    fn rated(&self, facts: &PlanDraft) -> f64 {
        let drafts = !facts.drop_tanks.is_empty();
        self.survey.drafting_pump_gpm.filter(|_| drafts).unwrap_or(f64::INFINITY)
    }

    /// Own tankers, automatic aid too, all: each no less than the one before, whose assignment it begins with.
    pub(super) fn by_aid(
        &self,
        used: &[usize],
        rule: &GradingRule,
        begin: Option<&[Option<usize>]>,
    ) -> [Reckoning; 3] {
        let counted = Graded::counted_by(rule);
        let aid_of = |tanker: &Tanker| self.survey.of_tanker(tanker).aid;
        let mut before: Vec<Vec<Option<usize>>> = Vec::new();
        [Aid::Own, Aid::Automatic, Aid::Mutual].map(|aid| {
            let facts = self.in_time(aid, rule);
            // The new ones stand.
            let mut begins: Vec<Vec<Option<usize>>> = (before.iter())
                .map(|fewer| {
                    let mut fewer = fewer.iter();
                    let was_there = |tanker: &Tanker| aid_of(tanker) < aid;
                    let site = |tanker| was_there(tanker).then(|| *fewer.next()?).flatten();
                    facts.tankers.iter().map(site).collect()
                })
                .collect();
            begins.extend(begin.filter(|_| aid == counted).map(<[_]>::to_vec));
            let found = self.reckon(facts, used, rule, &begins);
            before = (found.both())
                .filter_map(|counts| Some(counts.assignment.as_ref()?.site_of.clone()))
                .collect();
            found
        })
    }

    /// What these sites are credited with by both ways of travel.
    pub(super) fn reckon(
        &self,
        facts: PlanDraft,
        used: &[usize],
        rule: &GradingRule,
        begin: &[Vec<Option<usize>>],
    ) -> Reckoning {
        let mut begin: Vec<&[Option<usize>]> = begin.iter().map(Vec::as_slice).collect();
        let sums = self.by_hand(&facts, rule);
        let counted = counts(&facts, used, &sums, &begin);
        begin.extend(counted.assignment.as_ref().map(|known| known.site_of.as_slice()));
        let is_known = used.iter().all(|site| miles(&facts.fill_sites[*site]).is_some());
        let by_rule = is_known.then(|| {
            let sums = self.by_travel_rule(&facts, rule);
            let counted = counts(&facts, used, &sums, &begin);
            (sums, counted)
        });
        Reckoning { takes_lower: rule.travels_by_rule, stated: (sums, counted), by_rule, facts }
    }

    /// Each leg by itself; a site that states no distance is not gone to.
    pub(super) fn by_travel_rule(&self, facts: &PlanDraft, rule: &GradingRule) -> Shuttling {
        self.reckoned(facts, rule, &|site| {
            miles(site).map_or(f64::INFINITY, |(out, back)| {
                (self.travel_rule)(out) + (self.travel_rule)(back)
            })
        })
    }
}

/// Out and back, where both are stated.
pub(super) fn miles(site: &FillSite) -> Option<(f64, f64)> {
    Some((site.out.miles?, site.back.miles?))
}

/// Some tankers at some sites, by both ways of travel.
pub(super) struct Reckoning {
    pub(super) facts: PlanDraft,
    /// Whether the lower of the two counts; else what comes of the speeds stated.
    takes_lower: bool,
    pub(super) stated: (Shuttling, Counted),
    /// `None` where a distance is not stated.
    pub(super) by_rule: Option<(Shuttling, Counted)>,
}

impl Reckoning {
    fn lower_by_rule(&self) -> Option<&(Shuttling, Counted)> {
        let is_lower = |by_rule: &&(Shuttling, Counted)| {
            self.takes_lower && by_rule.1.gpm < self.stated.1.gpm - ROUNDING_GPM
        };
        self.by_rule.as_ref().filter(is_lower)
    }

    pub(super) fn travel(&self) -> Travel {
        if self.lower_by_rule().is_some() { Travel::Rule } else { Travel::Stated }
    }

    pub(super) fn what_counts(&self) -> &(Shuttling, Counted) {
        self.lower_by_rule().unwrap_or(&self.stated)
    }

    pub(super) fn counts(&self) -> &Counted {
        &self.what_counts().1
    }

    fn both(&self) -> impl Iterator<Item = &Counted> {
        [&self.stated].into_iter().chain(&self.by_rule).map(|(_, counted)| counted)
    }
}

pub(super) struct Counted {
    pub(super) assignment: Option<Assignment>,
    pub(super) passes: f64,
    pub(super) gpm: f64,
    pub(super) scene: Option<(Station, f64)>,
}

fn counts(
    facts: &PlanDraft,
    used: &[usize],
    sums: &Shuttling,
    begin: &[&[Option<usize>]],
) -> Counted {
    if used.is_empty() || facts.tankers.is_empty() {
        return Counted { assignment: None, passes: 0.0, gpm: 0.0, scene: None };
    }
    let assignment = sums.best(used, begin, &[]);
    let scene = sums.scene.as_ref().map(|scene| {
        let drives = |tanker: usize| assignment.site_of[tanker].is_some();
        let positions = scene.positions_gpm(drives);
        let unloading =
            if facts.drop_tanks.is_empty() { Station::Intakes } else { Station::DumpSite };
        if scene.draft_gpm < positions {
            (Station::DraftAndLay, scene.draft_gpm)
        } else {
            (unloading, positions)
        }
    });
    Counted {
        passes: sums.passed(&assignment.site_of),
        gpm: assignment.gpm,
        scene: scene.filter(|(_, gpm)| gpm.is_finite()),
        assignment: Some(assignment),
    }
}
