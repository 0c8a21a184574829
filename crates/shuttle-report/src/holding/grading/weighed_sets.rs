//! Sets of fill sites weighed by hand: which sets there are, and what each passes.

use std::collections::BTreeMap;

use crate::worksheet::assignment::{Assignment, Shuttling};

/// Most sets that are all weighed by hand: 26 sites alone, in pairs and in threes. Judgement: a second or two.
pub const MOST_SETS: usize = 3_000;
/// Beyond that so many of the best sets are grown by one site each. Judgement.
const GROWN: usize = 60;

/// The sets weighed, each with its best assignment.
#[derive(Debug, Clone)]
pub struct Weighed {
    /// Sites by place in rising order, with what their best assignment passes.
    pub sets: Vec<(Vec<usize>, Assignment)>,
    /// Whether every site alone, every pair, every three and all together were weighed.
    pub all_up_to_three: bool,
}

/// Every site alone, every pair, every three and all together; where these are too many, the best of them, grown
/// site by site. No set is worth less than one of its subsets that was weighed.
pub fn weigh(sums: &Shuttling, sites: &[usize]) -> Weighed {
    let n = sites.len();
    let many = n + n * n.saturating_sub(1) / 2 + n * n.saturating_sub(1) * n.saturating_sub(2) / 6;
    let mut found: BTreeMap<Vec<usize>, Assignment> = BTreeMap::new();
    let add = |found: &mut BTreeMap<Vec<usize>, Assignment>, set: Vec<usize>| {
        if found.contains_key(&set) {
            return;
        }
        let subsets: Vec<Vec<usize>> = (0..set.len())
            .map(|left_out| {
                let mut fewer = set.clone();
                fewer.remove(left_out);
                fewer
            })
            .collect();
        let begin: Vec<&[Option<usize>]> = (subsets.iter())
            .filter_map(|fewer| Some(found.get(fewer)?.site_of.as_slice()))
            .collect();
        let best = sums.best(&set, &begin, &[]);
        found.insert(set, best);
    };
    for site in sites {
        add(&mut found, vec![*site]);
    }
    let all_up_to_three = many <= MOST_SETS;
    for size in 2..=3.min(n) {
        let mut smaller: Vec<(Vec<usize>, f64)> = (found.iter())
            .filter(|(set, _)| set.len() == size - 1)
            .map(|(set, best)| (set.clone(), best.gpm))
            .collect();
        if !all_up_to_three {
            smaller.sort_by(|a, b| b.1.total_cmp(&a.1));
            smaller.truncate(GROWN);
        }
        for (set, _) in smaller {
            for site in sites.iter().filter(|site| !set.contains(site)) {
                let mut larger = set.clone();
                larger.push(*site);
                larger.sort_unstable();
                add(&mut found, larger);
            }
        }
    }
    if n > 3 {
        // All together begins from the best that smaller sets reached.
        let best = (found.values()).max_by(|a, b| a.gpm.total_cmp(&b.gpm)).cloned();
        let begin: Vec<&[Option<usize>]> =
            best.iter().map(|best| best.site_of.as_slice()).collect();
        let all = sums.best(sites, &begin, &[]);
        found.insert(sites.to_vec(), all);
    }
    Weighed { sets: found.into_iter().collect(), all_up_to_three }
}
