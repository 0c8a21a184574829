//! What is allowed but odd: a plan that runs and that an experienced reader would ask about.

use std::fmt;

use super::facts::{Brought, Call, FillSite, Handling, LowWater, PlanDraft, Tanker};
use super::limits::{plain, with_unit};
use super::time_taken::TimeTaken;

/// Something in a plan that is allowed but odd.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Oddity {
    /// Where, as a path with the keys of the scenario file, like `Mistake`'s.
    pub place: String,
    /// What is odd and what follows from it.
    pub text: String,
}

impl fmt::Display for Oddity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.text)
    }
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
        note(
            &mut odd,
            "title",
            "no duration has any spread: every run is the same, so a chance comes out as 0% or 100%"
                .to_string(),
        );
    }
    odd
}

fn note(odd: &mut Vec<Oddity>, place: &str, text: String) {
    let oddity = Oddity { place: place.to_string(), text };
    // The tankers of a group share one place and say the same.
    if !odd.contains(&oddity) {
        odd.push(oddity);
    }
}

fn greatest_flow(draft: &PlanDraft) -> f64 {
    (draft.incident.attack_flow.iter()).fold(0.0, |most, step| most.max(step.flow))
}

fn incident(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let incident = &draft.incident;
    if incident.reserve == draft.attack_engine.tank {
        let text = "the reserve is the attack engine's whole tank: it is touched whenever the lines \
                    draw on the tank at all";
        note(odd, "incident.reserve", text.to_string());
    }
    if incident.tolerance > LONG_TOLERANCE {
        let text = format!(
            "lines short of water for less than {} do not count as interrupted",
            with_unit(incident.tolerance, "min")
        );
        note(odd, "incident.tolerance", text);
    }
    for (index, step) in incident.attack_flow.iter().enumerate() {
        if step.from >= incident.duration {
            let text = format!(
                "this step begins at {} and the watch ends at {}: it never counts",
                with_unit(step.from, "min"),
                with_unit(incident.duration, "min")
            );
            note(odd, &format!("incident.attack_flow[{index}].from"), text);
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
            let text = format!(
                "without a drop tank at most {} can come in at once ({intakes} x intake, by the \
                 tankers' pump_off), less than the attack flow of {}",
                with_unit(nursed, "gpm"),
                with_unit(wanted, "gpm")
            );
            note(odd, "attack_engine.intakes", text);
        }
        if draft.supply.engine.is_some() {
            let text = "without a drop tank the supply engine has nothing to draft from";
            note(odd, "supply.engine", text.to_string());
        }
    } else if limit < wanted {
        let text = format!(
            "the draft can give at most {}, less than the attack flow of {}",
            with_unit(limit, "gpm"),
            with_unit(wanted, "gpm")
        );
        note(odd, "supply", text);
    }
    if draft.supply.low_water == LowWater::LosePrime && draft.drop_tanks.is_empty() {
        let text = "without a drop tank there is no draft, and no prime to lose";
        note(odd, "supply.low_water", text.to_string());
    }
}

fn drop_tanks(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let Some(greatest) = (draft.tankers.iter()).max_by(|a, b| a.load().total_cmp(&b.load())) else {
        return;
    };
    for (index, tank) in draft.drop_tanks.iter().enumerate() {
        let place = format!("drop_tanks[{index}]");
        if tank.capacity < greatest.load() {
            let then = if index == 0 {
                "such a load is dumped when nobody else is at it, and what does not fit waits aboard \
                 until water is drawn"
            } else {
                "such a load is dumped into it only when it is as good as empty, and what does not fit \
                 waits aboard"
            };
            let text = format!(
                "it holds {}, less than the {} that {} delivers: {then}",
                with_unit(tank.capacity, "gal"),
                with_unit(greatest.load().round(), "gal"),
                greatest.name
            );
            note(odd, &format!("{place}.capacity"), text);
        }
        if tank.unusable > tank.capacity / 2.0 {
            let text = format!(
                "more than half of the drop tank cannot be drawn ({} of {})",
                with_unit(tank.unusable, "gal"),
                with_unit(tank.capacity, "gal")
            );
            note(odd, &format!("{place}.unusable"), text);
        }
    }
}

fn tankers(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    let first_water = draft.attack_engine.call.requested_at
        + draft.attack_engine.call.response.mean()
        + draft.attack_engine.water_on.mean();
    let end = first_water + draft.incident.duration;
    for tanker in &draft.tankers {
        let place = format!("tankers[{}]", tanker.listed);
        if tanker.capacity < SMALL_TANKER {
            let text = format!(
                "{} is small: the apparatus standard asks at least {} of a tanker",
                with_unit(tanker.capacity, "gal"),
                with_unit(SMALL_TANKER, "gal")
            );
            note(odd, &format!("{place}.capacity"), text);
        }
        if tanker.load() < tanker.capacity / 2.0 {
            let text = format!(
                "of {} it delivers only {} a load: waste and residual take the rest",
                with_unit(tanker.capacity, "gal"),
                with_unit(tanker.load().round(), "gal")
            );
            note(odd, &format!("{place}.waste"), text);
        }
        if tanker.breakdown_per_trip > FREQUENT_BREAKDOWN {
            let text = format!(
                "it breaks down after {}% of its trips",
                plain(tanker.breakdown_per_trip * 100.0)
            );
            note(odd, &format!("{place}.breakdown_per_trip"), text);
        }
        if arrival(&tanker.call) >= end {
            let text = format!(
                "it arrives at about minute {} after the alarm, when the watch is over (minute {})",
                plain(arrival(&tanker.call).round()),
                plain(end.round())
            );
            note(odd, &format!("{place}.response"), text);
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
        let (key, which) = match tanker.fill_site {
            Some(site) => ("fill_site", format!("{}, when full,", draft.fill_sites[site].name)),
            None => ("capacity", "every fill site, when full,".to_string()),
        };
        let text = format!(
            "{which} holds less than half of its {}: after its first load it stands by for good",
            with_unit(tanker.capacity, "gal")
        );
        note(odd, &format!("tankers[{}].{key}", tanker.listed), text);
    }
}

fn arrival(call: &Call) -> f64 {
    call.requested_at + call.response.mean()
}

fn handling(odd: &mut Vec<Oddity>, draft: &PlanDraft) {
    for tanker in &draft.tankers {
        if takes_no_time(&tanker.handling, !draft.drop_tanks.is_empty()) {
            let text = format!(
                "{} handles hoses and positions in no time: a real crew takes some minutes a trip",
                tanker.name
            );
            note(odd, &format!("tankers[{}].handling", tanker.listed), text);
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
        let text = format!(
            "the fill sites together can put at most {} into the shuttle after waste, less than the \
             attack flow of {}: tankers without end would not keep up",
            with_unit(together.floor(), "gpm"),
            with_unit(wanted, "gpm")
        );
        note(odd, "fill_sites", text);
    }
    for (index, site) in draft.fill_sites.iter().enumerate() {
        let place = format!("fill_sites[{index}]");
        let mut users = draft.tankers.iter().filter(|tanker| uses(tanker, index));
        match users.next() {
            None => note(
                odd,
                &place,
                "every tanker is assigned to another fill site: nobody comes here".to_string(),
            ),
            Some(first) => {
                let least = users.fold(first.capacity, |least, other| least.min(other.capacity));
                if let Some(volume) = site.volume.filter(|volume| *volume < least / 2.0) {
                    let text = format!(
                        "it holds {}, less than half of any tanker assigned to it or free to choose: \
                         nobody fills here",
                        with_unit(volume, "gal")
                    );
                    note(odd, &format!("{place}.volume"), text);
                }
            }
        }
        for (key, leg) in [("out", &site.out), ("back", &site.back)] {
            let Some(miles) = leg.miles else { continue };
            let mph = miles / leg.time.mean() * 60.0;
            if !(SLOW..=FAST).contains(&mph) {
                let speed = if mph > FAST { "fast" } else { "slow" };
                let text = format!(
                    "{} in {} is {} mph on average, {speed} for a tanker",
                    with_unit(miles, "mi"),
                    with_unit((leg.time.mean() * 10.0).round() / 10.0, "min"),
                    plain(mph.round())
                );
                note(odd, &format!("{place}.{key}"), text);
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
    breakdowns || times.iter().any(|time| time.has_spread())
}
