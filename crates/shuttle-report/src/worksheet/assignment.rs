//! Whole tankers assigned to fill sites, by hand.
//!
//! Each tanker goes to one site. A site is credited with the sum of its tankers' rates, multiplied by
//! positions / busy where the positions they keep busy (the sum of service / cycle) are more than it has,
//! and with no more than its flow, nor its quantity over the minutes asked for. A set of sites is worth its
//! best assignment; it may leave a site unused, so it is never worth less for one site more. Derived from the
//! terms of the published rate (operational laws of queueing for the positions).

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
    /// By tanker: its site.
    pub site_of: Vec<usize>,
    /// What all sites pass together, gpm.
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

impl Shuttling {
    /// What each site is credited with under an assignment.
    pub fn credits(&self, site_of: &[usize]) -> Vec<SiteCredit> {
        (self.sites.iter().enumerate())
            .map(|(site, limit)| {
                let mut sums = Sums::default();
                let mut tankers = 0;
                for (tanker, _) in site_of.iter().enumerate().filter(|(_, at)| **at == site) {
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

    /// What an assignment passes, gpm.
    pub fn passed(&self, site_of: &[usize]) -> f64 {
        self.credits(site_of).iter().map(|credit| credit.gpm).sum()
    }

    /// The best assignment of all tankers to these sites.
    ///
    /// - Given: `set`, at least one site; `begin`, assignments, of which a search never falls behind those to subsets
    ///   of it; `only`, by tanker the one site of the set that it may go to, if it is bound to one.
    pub fn best(&self, set: &[usize], begin: &[&[usize]], only: &[Option<usize>]) -> Assignment {
        let allowed = |tanker: usize| -> Vec<usize> {
            match only.get(tanker).copied().flatten() {
                Some(site) => vec![site],
                None => set.to_vec(),
            }
        };
        let choices: Vec<Vec<usize>> = (0..self.turns.len()).map(allowed).collect();
        let fastest: Vec<usize> = (choices.iter().enumerate())
            .map(|(tanker, sites)| self.fastest(tanker, sites))
            .collect();
        let mut best = Assignment { gpm: self.passed(&fastest), site_of: fastest, exact: false };
        // One that goes beyond the set is no assignment to it.
        for other in begin.iter().filter(|other| other.iter().all(|site| set.contains(site))) {
            let gpm = self.passed(other);
            if gpm > best.gpm {
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

    fn fastest(&self, tanker: usize, sites: &[usize]) -> usize {
        let rate = |site: usize| self.turns[tanker][site].rate_gpm;
        let first = sites[0];
        sites.iter().fold(first, |best, site| if rate(*site) > rate(best) { *site } else { best })
    }

    /// Whether a tanker is as the one before it, wherever it may go.
    fn is_as_before(&self, tanker: usize, choices: &[Vec<usize>]) -> bool {
        tanker > 0
            && choices[tanker] == choices[tanker - 1]
            && (choices[tanker].iter())
                .all(|site| self.turns[tanker][*site] == self.turns[tanker - 1][*site])
    }

    /// How many assignments there are, equal tankers in a row counted once.
    fn count(&self, choices: &[Vec<usize>]) -> f64 {
        let (mut count, mut alike) = (1.0, 0.0);
        for (tanker, sites) in choices.iter().enumerate() {
            alike = if self.is_as_before(tanker, choices) { alike + 1.0 } else { 0.0 };
            count *= (sites.len() as f64 + alike) / (alike + 1.0);
        }
        count
    }

    /// Moves one tanker, or exchanges two, for as long as that gains.
    fn climbed(&self, begin: Assignment, choices: &[Vec<usize>]) -> Assignment {
        let mut site_of = begin.site_of;
        loop {
            let mut gained = false;
            for tanker in 0..choices.len() {
                for site in &choices[tanker] {
                    gained |= self.gains(&mut site_of, &[(tanker, *site)]);
                }
                let others =
                    if choices.len() <= MOST_EXCHANGED { tanker + 1 } else { choices.len() };
                for other in others..choices.len() {
                    let (a, b) = (site_of[tanker], site_of[other]);
                    if a != b && choices[tanker].contains(&b) && choices[other].contains(&a) {
                        gained |= self.gains(&mut site_of, &[(tanker, b), (other, a)]);
                    }
                }
            }
            if !gained {
                return Assignment { gpm: self.passed(&site_of), site_of, exact: false };
            }
        }
    }

    /// Makes these moves if they gain.
    fn gains(&self, site_of: &mut [usize], moves: &[(usize, usize)]) -> bool {
        /// Less than this is rounding, gpm.
        const GAIN: f64 = 1e-9;
        let mut touched: Vec<usize> =
            moves.iter().flat_map(|(tanker, site)| [site_of[*tanker], *site]).collect();
        touched.sort_unstable();
        touched.dedup();
        let before = self.passed_at(&touched, site_of);
        let were: Vec<usize> = moves.iter().map(|(tanker, _)| site_of[*tanker]).collect();
        for (tanker, site) in moves {
            site_of[*tanker] = *site;
        }
        if self.passed_at(&touched, site_of) > before + GAIN {
            return true;
        }
        for ((tanker, _), was) in moves.iter().zip(were) {
            site_of[*tanker] = was;
        }
        false
    }

    fn passed_at(&self, sites: &[usize], site_of: &[usize]) -> f64 {
        (sites.iter())
            .map(|site| {
                let mut sums = Sums::default();
                for (tanker, at) in site_of.iter().enumerate() {
                    if at == site {
                        sums.add(self.turns[tanker][*site]);
                    }
                }
                sums.passed(&self.sites[*site])
            })
            .sum()
    }

    /// Every assignment, but for those that cannot be better than what is found.
    fn weigh_all(&self, begin: Assignment, choices: &[Vec<usize>]) -> Assignment {
        let tankers = choices.len();
        // The most that the tankers from this one on can make, were there no limits.
        let mut still = vec![0.0; tankers + 1];
        for tanker in (0..tankers).rev() {
            let rate = (choices[tanker].iter())
                .map(|site| self.turns[tanker][*site].rate_gpm)
                .fold(0.0, f64::max);
            still[tanker] = still[tanker + 1] + rate;
        }
        let alike = (0..tankers).map(|tanker| self.is_as_before(tanker, choices)).collect();
        let mut weighing = Weighing { all: self, choices, still, alike, best: begin };
        let mut sums = vec![Sums::default(); self.sites.len()];
        weighing.from(0, 0.0, &mut sums, &mut Vec::with_capacity(tankers));
        Assignment { exact: true, ..weighing.best }
    }
}

struct Weighing<'s> {
    all: &'s Shuttling,
    choices: &'s [Vec<usize>],
    still: Vec<f64>,
    alike: Vec<bool>,
    best: Assignment,
}

impl Weighing<'_> {
    fn from(&mut self, tanker: usize, made: f64, sums: &mut [Sums], site_of: &mut Vec<usize>) {
        if made + self.still[tanker] <= self.best.gpm {
            return;
        }
        if tanker == self.choices.len() {
            let gpm =
                (sums.iter().zip(&self.all.sites)).map(|(sum, limit)| sum.passed(limit)).sum();
            if gpm > self.best.gpm {
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
            let site = self.choices[tanker][place];
            let turn = self.all.turns[tanker][site];
            let before = sums[site];
            sums[site].add(turn);
            site_of.push(site);
            self.from(tanker + 1, made + turn.rate_gpm, sums, site_of);
            site_of.pop();
            sums[site] = before;
        }
    }
}
