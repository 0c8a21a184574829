//! What is allowed but odd: a plan that runs and that an experienced reader would ask about.

use super::calls::{Brought, Call};
use super::facts::{Handling, LowWater, PlanDraft, Tanker};
use super::fill_sites::FillSite;
use super::place::{Part, Place, listed};
use super::time_taken::TimeTaken;

/// Something in a plan that is allowed but odd.
#[derive(Debug, Clone, PartialEq)]
pub struct Oddity {
    /// Where.
    pub place: Place,
    /// What is odd.
    pub odd: Odd,
}

/// What is odd, with the numbers in it: gallons, gallons a minute, minutes, miles, miles an hour.
#[derive(Debug, Clone, PartialEq)]
pub enum Odd {
    /// No duration has any spread, so every run is the same.
    NothingVaries,
    /// The reserve is the attack engine's whole tank.
    AllReserve,
    /// Short of water for this long does not count.
    LongTolerance(f64),
    /// A step of the attack flow that begins after the watch.
    StepAfterTheWatch {
        /// When it begins.
        from: f64,
        /// When the watch ends.
        end: f64,
    },
    /// Without a drop tank the intakes let in less than the lines want.
    TooFewIntakes {
        /// What can come in at once.
        nursed: f64,
        /// Intakes.
        intakes: u32,
        /// The attack flow.
        wanted: f64,
    },
    /// A supply engine without a drop tank.
    NothingToDraftFrom,
    /// The draft gives less than the lines want.
    WeakDraft {
        /// What it gives.
        gives: f64,
        /// The attack flow.
        wanted: f64,
    },
    /// A drafting pump that may fail, without a drop tank.
    NoPumpToFail,
    /// Something that never turns out.
    NeverComes {
        /// Its name; none for a drop tank.
        name: Option<String>,
    },
    /// What happens when prime is lost, without a draft.
    NoPrimeToLose,
    /// A drop tank smaller than a load.
    SmallDropTank {
        /// What it holds.
        holds: f64,
        /// The load.
        load: f64,
        /// Whose load.
        tanker: String,
        /// Whether it is the drop tank that is drafted from.
        is_first: bool,
    },
    /// More than half of a drop tank cannot be drawn.
    MostlyUnusable {
        /// What cannot be drawn.
        unusable: f64,
        /// What it holds.
        capacity: f64,
    },
    /// A tanker smaller than the apparatus standard asks.
    SmallTanker {
        /// Its tank.
        capacity: f64,
        /// What the standard asks.
        standard: f64,
    },
    /// Waste and residual take more than half of a load.
    LittleDelivered {
        /// Its tank.
        capacity: f64,
        /// What a load delivers.
        load: f64,
    },
    /// A tanker that breaks down after this share of its trips.
    OftenBroken(f64),
    /// A tanker that comes when the watch is over.
    ComesTooLate {
        /// Minute after the alarm.
        arrives: f64,
        /// Minute after the alarm.
        end: f64,
    },
    /// A tanker that handles hoses and positions in no time.
    HandlesInNoTime {
        /// Its name.
        tanker: String,
    },
    /// The fill sites together cannot keep up with the attack flow, however many tankers there are.
    SitesTooWeak {
        /// What they put into the shuttle after waste.
        pass: f64,
        /// The attack flow.
        wanted: f64,
    },
    /// A fill site to which nobody is sent.
    NobodyComes,
    /// A fill site that holds less than half a load of any tanker that comes.
    LittleWater {
        /// What it holds.
        holds: f64,
    },
    /// A tanker that no fill site, though full, can fill by half: it stands by for good after its first load.
    NeverFilledAgain {
        /// The fill site it is assigned to; none where it may choose among all.
        site: Option<String>,
        /// Its tank.
        capacity: f64,
    },
    /// A road on which a tanker is faster or slower than tankers are.
    Speed {
        /// How far.
        miles: f64,
        /// How long.
        minutes: f64,
        /// How fast.
        mph: f64,
        /// Too fast, else too slow.
        fast: bool,
    },
}

/// A tanker smaller than this is odd, gal. Source: NFPA 1901/1903 asks at least 1,000 gal of a
/// mobile water supply apparatus.
const SMALL_TANKER: f64 = 1_000.0;
/// A mean speed above this is odd for a laden tanker, mph. Common practice, judgement.
const FAST: f64 = 60.0;
/// A mean speed below this is odd, mph. Judgement: walking pace.
const SLOW: f64 = 4.0;
/// An interruption ignored for longer than this is odd, minutes. Judgement.
const LONG_TOLERANCE: f64 = 5.0;
/// A chance of breaking down on each trip above this is odd. Judgement.
const FREQUENT_BREAKDOWN: f64 = 0.2;

/// What is odd in a draft, in the order of its parts. Meant for a draft without mistakes.
pub fn oddities_in(draft: &PlanDraft) -> Vec<Oddity> {
    let mut odd = Vec::new();
    incident(&mut odd, draft);
    supply(&mut odd, draft);
    drop_tanks(&mut odd, draft);
    tankers(&mut odd, draft);
    handling(&mut odd, draft);
    fill_sites(&mut odd, draft);
    if !anything_varies(draft) {
        note(&mut odd, Place::of([Part::Title]), Odd::NothingVaries);
    }
    odd
}

fn note(list: &mut Vec<Oddity>, place: Place, odd: Odd) {
    let oddity = Oddity { place, odd };
    // The tankers of a group share one place and say the same.
    if !list.contains(&oddity) {
        list.push(oddity);
    }
}

fn greatest_flow(draft: &PlanDraft) -> f64 {
    (draft.incident.attack_flow.iter()).fold(0.0, |most, step| most.max(step.flow))
}

fn incident(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let incident = &draft.incident;
    if incident.reserve == draft.attack_engine.tank {
        note(odd, Place::of([Part::Incident, Part::Reserve]), Odd::AllReserve);
    }
    if incident.tolerance > LONG_TOLERANCE {
        let place = Place::of([Part::Incident, Part::Tolerance]);
        note(odd, place, Odd::LongTolerance(incident.tolerance));
    }
    for (index, step) in incident.attack_flow.iter().enumerate() {
        if step.from >= incident.duration {
            let place = Place::of([Part::Incident, Part::AttackFlow]).entry(index).at(Part::From);
            let (from, end) = (step.from, incident.duration);
            note(odd, place, Odd::StepAfterTheWatch { from, end });
        }
    }
}

fn supply(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let wanted = greatest_flow(draft);
    let limit = draft.supply.draft_limit();
    if draft.drop_tanks.is_empty() {
        let mut rates: Vec<f64> = draft.tankers.iter().map(|tanker| tanker.pump_off).collect();
        rates.sort_by(|a, b| b.total_cmp(a));
        let intakes = draft.attack_engine.intakes as usize;
        let nursed: f64 = rates.iter().take(intakes).sum();
        if nursed < wanted {
            let place = Place::of([Part::AttackEngine, Part::Intakes]);
            let intakes = draft.attack_engine.intakes;
            note(odd, place, Odd::TooFewIntakes { nursed, intakes, wanted });
        }
        if draft.supply.engine.is_some() {
            note(odd, Place::of([Part::Supply, Part::Engine]), Odd::NothingToDraftFrom);
        }
    } else if limit < wanted {
        note(odd, Place::of([Part::Supply]), Odd::WeakDraft { gives: limit, wanted });
    }
    if draft.supply.failure.is_some() && draft.drop_tanks.is_empty() {
        note(odd, Place::of([Part::Supply, Part::Failure]), Odd::NoPumpToFail);
    }
    if let Some(engine) = &draft.supply.engine {
        let place = Place::of([Part::Supply, Part::Engine]);
        never_comes(odd, &place, &engine.call, Some(&engine.name));
    }
    if draft.supply.low_water == LowWater::LosePrime && draft.drop_tanks.is_empty() {
        note(odd, Place::of([Part::Supply, Part::LowWater]), Odd::NoPrimeToLose);
    }
}

fn drop_tanks(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let Some(greatest) = (draft.tankers.iter()).max_by(|a, b| a.load().total_cmp(&b.load())) else {
        return;
    };
    for (index, tank) in draft.drop_tanks.iter().enumerate() {
        let place = listed(Part::DropTanks, index);
        if let Brought::Itself(call) = &tank.brought {
            never_comes(odd, &place, call, None);
        }
        if tank.capacity < greatest.load() {
            let odd_size = Odd::SmallDropTank {
                holds: tank.capacity,
                load: greatest.load(),
                tanker: greatest.name.clone(),
                is_first: index == 0,
            };
            note(odd, place.at(Part::Capacity), odd_size);
        }
        if tank.unusable > tank.capacity / 2.0 {
            let (unusable, capacity) = (tank.unusable, tank.capacity);
            note(odd, place.at(Part::Unusable), Odd::MostlyUnusable { unusable, capacity });
        }
    }
}

fn tankers(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let first_water = draft.attack_engine.call.requested_at
        + draft.attack_engine.call.response.mean()
        + draft.attack_engine.water_on.mean();
    let end = first_water + draft.incident.duration;
    for tanker in &draft.tankers {
        let place = listed(Part::Tankers, tanker.listed);
        let capacity = tanker.capacity;
        if tanker.capacity < SMALL_TANKER {
            let standard = SMALL_TANKER;
            note(odd, place.at(Part::Capacity), Odd::SmallTanker { capacity, standard });
        }
        if tanker.load() < tanker.capacity / 2.0 {
            let load = tanker.load();
            note(odd, place.at(Part::Waste), Odd::LittleDelivered { capacity, load });
        }
        if tanker.breakdown_per_trip > FREQUENT_BREAKDOWN {
            let share = tanker.breakdown_per_trip;
            note(odd, place.at(Part::BreakdownPerTrip), Odd::OftenBroken(share));
        }
        never_comes(odd, &place, &tanker.call, Some(&tanker.name));
        if arrival(&tanker.call) >= end {
            let arrives = arrival(&tanker.call);
            note(odd, place.at(Part::Response), Odd::ComesTooLate { arrives, end });
        }
        never_filled_again(odd, draft, tanker);
    }
}

/// A tanker does not drive to a fill site that cannot fill half of it, and a limited volume never grows
/// beyond what is stated.
fn never_filled_again(odd: &mut Vec<Oddity>, draft: &PlanDraft, tanker: &Tanker) {
    let half = tanker.capacity / 2.0;
    let too_little = |site: &FillSite| site.volume.is_some_and(|volume| volume < half);
    let mut sites = draft.fill_sites.iter().enumerate().filter(|(index, _)| uses(tanker, *index));
    if sites.all(|(_, site)| too_little(site)) {
        let (part, site) = match tanker.fill_site {
            Some(site) => (Part::FillSite, Some(draft.fill_sites[site].name.clone())),
            None => (Part::Capacity, None),
        };
        let place = listed(Part::Tankers, tanker.listed).at(part);
        note(odd, place, Odd::NeverFilledAgain { site, capacity: tanker.capacity });
    }
}

fn never_comes(odd: &mut Vec<Oddity>, place: &Place, call: &Call, name: Option<&str>) {
    if call.turnout == 0.0 {
        note(odd, place.at(Part::Turnout), Odd::NeverComes { name: name.map(str::to_owned) });
    }
}

fn arrival(call: &Call) -> f64 {
    call.requested_at + call.response.mean()
}

fn handling(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    for tanker in &draft.tankers {
        if takes_no_time(&tanker.handling, !draft.drop_tanks.is_empty()) {
            let place = listed(Part::Tankers, tanker.listed).at(Part::Handling);
            note(odd, place, Odd::HandlesInNoTime { tanker: tanker.name.clone() });
        }
    }
}

/// Whether every piece of handling that this plan can ask for takes no time.
fn takes_no_time(handling: &Handling, dumps: bool) -> bool {
    (handling.each().iter())
        .filter(|(key, _)| dumps || !key.starts_with("dump"))
        .all(|(_, time)| time.mean() == 0.0)
}

fn fill_sites(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let wanted = greatest_flow(draft);
    let together = fill_rate(draft);
    if together < wanted {
        note(odd, Place::of([Part::FillSites]), Odd::SitesTooWeak { pass: together, wanted });
    }
    for (index, site) in draft.fill_sites.iter().enumerate() {
        let place = listed(Part::FillSites, index);
        let mut users = draft.tankers.iter().filter(|tanker| uses(tanker, index));
        match users.next() {
            None => note(odd, place.clone(), Odd::NobodyComes),
            Some(first) => {
                let least = users.fold(first.capacity, |least, other| least.min(other.capacity));
                if let Some(volume) = site.volume.filter(|volume| *volume < least / 2.0) {
                    note(odd, place.at(Part::Volume), Odd::LittleWater { holds: volume });
                }
            }
        }
        for (part, leg) in [(Part::Out, &site.out), (Part::Back, &site.back)] {
            let Some(miles) = leg.miles else { continue };
            let mph = miles / leg.time.mean() * 60.0;
            if !(SLOW..=FAST).contains(&mph) {
                let (minutes, fast) = (leg.time.mean(), mph > FAST);
                note(odd, place.at(part), Odd::Speed { miles, minutes, mph, fast });
            }
        }
    }
}

fn uses(tanker: &Tanker, site: usize) -> bool {
    tanker.fill_site.is_none_or(|assigned| assigned == site)
}

/// What all fill sites together can load at best, after the least waste of those who use them,
/// gpm: each no more than its flow, nor than its positions can take.
fn fill_rate(draft: &PlanDraft) -> f64 {
    let mut sum = 0.0;
    for (index, site) in draft.fill_sites.iter().enumerate() {
        let users = || draft.tankers.iter().filter(|tanker| uses(tanker, index));
        let taken = users().fold(0.0, |most: f64, tanker| most.max(tanker.fill_limit_at(site)));
        let waste = users().fold(1.0, |least: f64, tanker| least.min(tanker.waste));
        sum += site.flow.min(taken * f64::from(site.positions)) * (1.0 - waste);
    }
    sum
}

/// Whether two runs can differ.
fn anything_varies(draft: &PlanDraft) -> bool {
    let mut times: Vec<&TimeTaken> = vec![
        &draft.attack_engine.call.response,
        &draft.attack_engine.water_on,
        &draft.supply.reprime,
    ];
    match &draft.supply.engine {
        Some(engine) => times.extend([&engine.call.response, &engine.setup]),
        None => times.push(&draft.supply.setup),
    }
    for tank in &draft.drop_tanks {
        times.push(&tank.setup);
        if let Brought::Itself(call) = &tank.brought {
            times.push(&call.response);
        }
    }
    for tanker in &draft.tankers {
        times.push(&tanker.call.response);
        times.extend(tanker.handling.each().map(|(_, time)| time));
    }
    for site in &draft.fill_sites {
        times.extend([&site.ready, &site.out.time, &site.back.time]);
    }
    times.extend(draft.one_lanes.iter().map(|lane| &lane.crossing));
    let breakdowns = (draft.tankers.iter()).any(|tanker| tanker.breakdown_per_trip > 0.0);
    breakdowns || draft.shares_luck() || times.iter().any(|time| time.has_spread())
}
