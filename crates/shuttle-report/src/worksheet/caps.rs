//! What each station passes on at most, by hand: fill sites, where tankers unload, the draft.

use shuttle_sim::{FillSite, PlanDraft, Tanker};

use super::{Cap, CappedBy, Station, service, unloading_of};

/// What a site's flow allows, gpm; infinite where tankers fill themselves beside it.
pub(super) fn pumped_flow(facts: &PlanDraft, site: &FillSite) -> f64 {
    let fills_itself = |tanker: &Tanker| tanker.self_fill_at(site).is_some();
    if facts.tankers.iter().any(fills_itself) { f64::INFINITY } else { site.flow }
}

/// What a site's quantity allows over so many minutes, gpm; infinite where it does not run dry.
pub(super) fn quantity_gpm(site: &FillSite, minutes: f64) -> f64 {
    site.volume.map_or(f64::INFINITY, |volume| volume / minutes + site.recharge)
}

/// The least of the caps, the fill sites taken together.
pub fn tightest(fill_caps: &[Cap], other_caps: &[Cap]) -> Option<(Station, f64)> {
    let fill_sites = match fill_caps {
        [only] => (only.at.clone(), only.gpm),
        all => (Station::FillSites, all.iter().map(|cap| cap.gpm).sum()),
    };
    (other_caps.iter().map(|cap| (cap.at.clone(), cap.gpm)))
        .chain([fill_sites])
        .min_by(|a, b| a.1.total_cmp(&b.1))
}

/// Delivered gpm that a station can pass on: `positions` loads at a time, each holding one for
/// `holds` minutes, over the tankers given.
fn positions_cap<'a>(
    tankers: impl Iterator<Item = &'a Tanker> + Clone,
    positions: u32,
    holds: impl Fn(&Tanker) -> f64,
) -> f64 {
    let loads: f64 = tankers.clone().map(Tanker::load).sum();
    let minutes: f64 = tankers.map(holds).sum();
    f64::from(positions) * loads / minutes
}

/// What a fill site passes on at most, over so many minutes.
pub fn fill_cap(facts: &PlanDraft, site: &FillSite, minutes: f64) -> Cap {
    let place = facts.fill_sites.iter().position(|other| std::ptr::eq(other, site));
    // Those that could come here; if every tanker is assigned elsewhere, all of them.
    let mut users: Vec<&Tanker> = (facts.tankers.iter())
        .filter(|tanker| tanker.fill_site.is_none() || tanker.fill_site == place)
        .collect();
    if users.is_empty() {
        users = facts.tankers.iter().collect();
    }
    let users = users.into_iter();
    let positions = positions_cap(users.clone(), site.positions, |tanker| service(tanker, site));
    let delivered: f64 = users.clone().map(Tanker::load).sum();
    let taken: f64 = users.map(Tanker::fill).sum();
    let caps = [
        (CappedBy::FillPositions, positions),
        (CappedBy::Flow, pumped_flow(facts, site) * delivered / taken),
        (CappedBy::Quantity, quantity_gpm(site, minutes)),
    ];
    let least = |a: (CappedBy, f64), b: (CappedBy, f64)| if b.1 < a.1 { b } else { a };
    let (by, gpm) = caps.into_iter().reduce(least).unwrap_or(caps[0]);
    Cap { at: Station::FillSite(site.name.clone()), gpm, by }
}

/// What the scene passes on at most: where tankers unload, then the draft where there is one.
pub fn other_caps(facts: &PlanDraft) -> Vec<Cap> {
    [dump_cap(facts)].into_iter().chain(draft_cap(facts)).collect()
}

fn dump_cap(facts: &PlanDraft) -> Cap {
    let gpm = unloading_of(facts, &Tanker::load).positions_gpm(|_| true);
    let (at, by) = if facts.drop_tanks.is_empty() {
        (Station::Intakes, CappedBy::Intakes)
    } else {
        (Station::DumpSite, CappedBy::DumpPositions)
    };
    Cap { at, gpm, by }
}

pub(super) fn draft_cap(facts: &PlanDraft) -> Option<Cap> {
    let limit = facts.supply.draft_limit();
    (limit.is_finite() && !facts.drop_tanks.is_empty()).then_some(Cap {
        at: Station::DraftAndLay,
        gpm: limit,
        by: CappedBy::StatedLimits,
    })
}
