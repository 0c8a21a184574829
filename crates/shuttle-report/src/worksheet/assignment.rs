//! Whole tankers assigned to fill sites, by hand.
//!
//! Each tanker goes to one site, or is left to stand where that is allowed. A site is credited with the sum of its tankers' rates, multiplied by
//! positions / busy where the positions they keep busy (the sum of service / cycle) are more than it has,
//! and with no more than its flow, nor its quantity over the minutes asked for. A set of sites is worth its
//! best assignment; it may leave a site unused, so it is never worth less for one site more, and where tankers may
//! stand never less than with fewer of them. Derived from the terms of the published rate (operational laws of queueing
//! for the positions).

use super::unloading::Unloading;

/// What one site passes on at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiteLimit {
    /// Tankers hooked up at once.
    pub positions: f64,
    /// Its flow, gpm.
    pub flow_gpm: f64,
    /// Its quantity over the minutes asked for, gpm; infinite where it does not run dry.
    pub quantity_gpm: f64,
}

/// One tanker at one site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    /// Its load over its cycle, gpm.
    pub rate_gpm: f64,
    /// The part of its cycle in which it holds a fill position, 0 to 1.
    pub busy: f64,
}

/// Tankers and sites.
#[derive(Debug, Clone, PartialEq)]
pub struct Shuttling {
    /// The sites.
    pub sites: Vec<SiteLimit>,
    /// By tanker, then by site.
    pub turns: Vec<Vec<Turn>>,
    /// What the scene passes of all that comes; `None`: it is not looked at.
    pub scene: Option<Unloading>,
    /// Whether a tanker may be left to stand.
    pub may_stand: bool,
}

/// What binds a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SiteBound {
    /// Nothing: its tankers bring all they can.
    Tankers,
    /// Its fill positions.
    Positions,
    /// Its flow.
    Flow,
    /// Its quantity.
    Quantity,
}

/// What a site is credited with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiteCredit {
    /// Tankers that come to it.
    pub tankers: usize,
    /// The sum of their rates, gpm.
    pub made_gpm: f64,
    /// Positions they keep busy.
    pub busy: f64,
    /// What it passes of it, gpm.
    pub gpm: f64,
    /// What binds.
    pub bound: SiteBound,
}

/// An assignment, and what it passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Assignment {
    /// By tanker: its site; `None`: it stands.
    pub site_of: Vec<Option<usize>>,
    /// What counts: what all sites pass together, no more than the scene does, gpm.
    pub gpm: f64,
    /// Whether every assignment was weighed; else it was searched for, and a better one may exist.
    pub exact: bool,
}

/// Most assignments that are all weighed, equal tankers counted once: beyond, a search. Judgement: some
/// milliseconds.
pub const MOST_ASSIGNMENTS: f64 = 100_000.0;

/// With more tankers than these a search moves them one by one and exchanges none. Judgement.
const MOST_EXCHANGED: usize = 40;

/// Sums at one site while tankers are assigned.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    made: f64,
    busy: f64,
}

impl Sums {
    fn add(&mut self, turn: Turn) {
        self.made += turn.rate_gpm;
        self.busy += turn.busy;
    }

    fn passed(&self, limit: &SiteLimit) -> f64 {
        let share = if self.busy > limit.positions { limit.positions / self.busy } else { 1.0 };
        (self.made * share).min(limit.flow_gpm).min(limit.quantity_gpm)
    }
}

/// Less than this is rounding, gpm.
const GAIN: f64 = 1e-9;

impl Shuttling {
    /// What each site is credited with under an assignment.
    pub fn credits(&self, site_of: &[Option<usize>]) -> Vec<SiteCredit> {
        (self.sites.iter().enumerate())
            .map(|(site, limit)| {
                let mut sums = Sums::default();
                let mut tankers = 0;
                for (tanker, _) in site_of.iter().enumerate().filter(|(_, at)| **at == Some(site)) {
                    sums.add(self.turns[tanker][site]);
                    tankers += 1;
                }
                let gpm = sums.passed(limit);
                let share = (limit.positions / sums.busy).min(1.0);
                let bound = if gpm >= sums.made {
                    SiteBound::Tankers
                } else if gpm >= sums.made * share {
                    SiteBound::Positions
                } else if limit.quantity_gpm <= limit.flow_gpm {
                    SiteBound::Quantity
                } else {
                    SiteBound::Flow
                };
                SiteCredit { tankers, made_gpm: sums.made, busy: sums.busy, gpm, bound }
            })
            .collect()
    }

    /// What the sites pass under an assignment, gpm.
    pub fn passed(&self, site_of: &[Option<usize>]) -> f64 {
        self.credits(site_of).iter().map(|credit| credit.gpm).sum()
    }

    /// What the scene passes of the tankers that drive, gpm.
    fn scene_gpm(&self, site_of: &[Option<usize>]) -> f64 {
        let scene = self.scene.as_ref();
        scene.map_or(f64::INFINITY, |scene| {
            scene.positions_gpm(|tanker| site_of[tanker].is_some()).min(scene.draft_gpm)
        })
    }

    fn counts(&self, site_of: &[Option<usize>]) -> f64 {
        self.passed(site_of).min(self.scene_gpm(site_of))
    }

    /// The best assignment of the tankers to these sites.
    ///
    /// - Given: `set`, at least one site; `begin`, assignments, of which a search never falls behind those to subsets
    ///   of it; `only`, by tanker the one site of the set that it may go to, if it is bound to one.
    pub fn best(
        &self,
        set: &[usize],
        begin: &[&[Option<usize>]],
        only: &[Option<usize>],
    ) -> Assignment {
        let allowed = |tanker: usize| -> Vec<Option<usize>> {
            match only.get(tanker).copied().flatten() {
                Some(site) => vec![Some(site)],
                None => {
                    (set.iter().copied().map(Some)).chain(self.may_stand.then_some(None)).collect()
                }
            }
        };
        let choices: Vec<Vec<Option<usize>>> = (0..self.turns.len()).map(allowed).collect();
        let fastest: Vec<Option<usize>> = (choices.iter().enumerate())
            .map(|(tanker, sites)| self.fastest(tanker, sites))
            .collect();
        let mut best = Assignment { gpm: self.counts(&fastest), site_of: fastest, exact: false };
        // One that goes beyond the set is no assignment to it.
        let is_within = |site_of: &[Option<usize>]| {
            site_of.iter().all(|at| at.map_or(self.may_stand, |site| set.contains(&site)))
        };
        for other in begin.iter().filter(|other| is_within(other)) {
            let gpm = self.counts(other);
            if gpm > best.gpm + GAIN {
                best = Assignment { site_of: other.to_vec(), gpm, exact: false };
            }
        }
        let climbed = self.climbed(best, &choices);
        if self.count(&choices) <= MOST_ASSIGNMENTS {
            self.weigh_all(climbed, &choices)
        } else {
            climbed
        }
    }

    fn rate(&self, tanker: usize, at: Option<usize>) -> f64 {
        at.map_or(0.0, |site| self.turns[tanker][site].rate_gpm)
    }

    fn fastest(&self, tanker: usize, sites: &[Option<usize>]) -> Option<usize> {
        let rate = |site: Option<usize>| self.rate(tanker, site);
        let first = sites[0];
        sites.iter().fold(first, |best, site| if rate(*site) > rate(best) { *site } else { best })
    }

    /// Whether a tanker is as the one before it, wherever it may go.
    fn is_as_before(&self, tanker: usize, choices: &[Vec<Option<usize>>]) -> bool {
        let unloads_alike = |scene: &Unloading| scene.loads[tanker] == scene.loads[tanker - 1];
        tanker > 0
            && choices[tanker] == choices[tanker - 1]
            && (choices[tanker].iter().flatten())
                .all(|site| self.turns[tanker][*site] == self.turns[tanker - 1][*site])
            && self.scene.as_ref().is_none_or(unloads_alike)
    }

    /// How many assignments there are, equal tankers in a row counted once.
    fn count(&self, choices: &[Vec<Option<usize>>]) -> f64 {
        let (mut count, mut alike) = (1.0, 0.0);
        for (tanker, sites) in choices.iter().enumerate() {
            alike = if self.is_as_before(tanker, choices) { alike + 1.0 } else { 0.0 };
            count *= (sites.len() as f64 + alike) / (alike + 1.0);
        }
        count
    }

    /// Moves one tanker, or exchanges two, for as long as that gains.
    fn climbed(&self, begin: Assignment, choices: &[Vec<Option<usize>>]) -> Assignment {
        let mut climb =
            Climb { all: self, passes: self.passed(&begin.site_of), site_of: begin.site_of };
        loop {
            let mut gained = false;
            for tanker in 0..choices.len() {
                for site in &choices[tanker] {
                    gained |= climb.gains(&[(tanker, *site)]);
                }
                let others =
                    if choices.len() <= MOST_EXCHANGED { tanker + 1 } else { choices.len() };
                for other in others..choices.len() {
                    let (a, b) = (climb.site_of[tanker], climb.site_of[other]);
                    if a != b && choices[tanker].contains(&b) && choices[other].contains(&a) {
                        gained |= climb.gains(&[(tanker, b), (other, a)]);
                    }
                }
            }
            if !gained {
                let gpm = self.counts(&climb.site_of);
                return Assignment { gpm, site_of: climb.site_of, exact: false };
            }
        }
    }

    fn passed_at(&self, sites: &[usize], site_of: &[Option<usize>]) -> f64 {
        (sites.iter())
            .map(|site| {
                let mut sums = Sums::default();
                for (tanker, at) in site_of.iter().enumerate() {
                    if *at == Some(*site) {
                        sums.add(self.turns[tanker][*site]);
                    }
                }
                sums.passed(&self.sites[*site])
            })
            .sum()
    }

    /// Every assignment, but for those that cannot be better than what is found.
    fn weigh_all(&self, begin: Assignment, choices: &[Vec<Option<usize>>]) -> Assignment {
        let tankers = choices.len();
        // The most that the tankers from this one on can make, were there no limits.
        let mut still = vec![0.0; tankers + 1];
        for tanker in (0..tankers).rev() {
            let rate =
                choices[tanker].iter().map(|site| self.rate(tanker, *site)).fold(0.0, f64::max);
            still[tanker] = still[tanker + 1] + rate;
        }
        let alike = (0..tankers).map(|tanker| self.is_as_before(tanker, choices)).collect();
        let mut weighing = Weighing { all: self, choices, still, alike, best: begin };
        let mut sums = vec![Sums::default(); self.sites.len()];
        weighing.from(0, 0.0, &mut sums, &mut Vec::with_capacity(tankers));
        Assignment { exact: true, ..weighing.best }
    }
}

/// An assignment that is moved.
struct Climb<'s> {
    all: &'s Shuttling,
    site_of: Vec<Option<usize>>,
    /// What its sites pass, gpm.
    passes: f64,
}

impl Climb<'_> {
    /// Makes these moves if more counts with them; or as much, and the sites pass more.
    fn gains(&mut self, moves: &[(usize, Option<usize>)]) -> bool {
        let mut touched: Vec<usize> = moves
            .iter()
            .flat_map(|(tanker, site)| [self.site_of[*tanker], *site])
            .flatten()
            .collect();
        touched.sort_unstable();
        touched.dedup();
        let counted = self.passes.min(self.all.scene_gpm(&self.site_of));
        let before = self.all.passed_at(&touched, &self.site_of);
        let were: Vec<Option<usize>> =
            moves.iter().map(|(tanker, _)| self.site_of[*tanker]).collect();
        for (tanker, site) in moves {
            self.site_of[*tanker] = *site;
        }
        let passes = self.passes + self.all.passed_at(&touched, &self.site_of) - before;
        let counts = passes.min(self.all.scene_gpm(&self.site_of));
        if counts > counted + GAIN || (counts >= counted && passes > self.passes + GAIN) {
            self.passes = passes;
            return true;
        }
        for ((tanker, _), was) in moves.iter().zip(were) {
            self.site_of[*tanker] = was;
        }
        false
    }
}

struct Weighing<'s> {
    all: &'s Shuttling,
    choices: &'s [Vec<Option<usize>>],
    still: Vec<f64>,
    alike: Vec<bool>,
    best: Assignment,
}

impl Weighing<'_> {
    fn from(
        &mut self,
        tanker: usize,
        made: f64,
        sums: &mut [Sums],
        site_of: &mut Vec<Option<usize>>,
    ) {
        if made + self.still[tanker] <= self.best.gpm + GAIN {
            return;
        }
        if tanker == self.choices.len() {
            let passes: f64 =
                (sums.iter().zip(&self.all.sites)).map(|(sum, limit)| sum.passed(limit)).sum();
            let gpm = passes.min(self.all.scene_gpm(site_of));
            if gpm > self.best.gpm + GAIN {
                self.best = Assignment { site_of: site_of.clone(), gpm, exact: true };
            }
            return;
        }
        // Equal tankers in a row: which of them goes where does not matter.
        let from = match site_of.last() {
            Some(before) if self.alike[tanker] => {
                self.choices[tanker].iter().position(|site| site == before).unwrap_or(0)
            }
            _ => 0,
        };
        for place in from..self.choices[tanker].len() {
            let at = self.choices[tanker][place];
            let before = at.map(|site| sums[site]);
            if let Some(site) = at {
                sums[site].add(self.all.turns[tanker][site]);
            }
            site_of.push(at);
            self.from(tanker + 1, made + self.all.rate(tanker, at), sums, site_of);
            site_of.pop();
            if let Some((site, before)) = at.zip(before) {
                sums[site] = before;
            }
        }
    }
}
