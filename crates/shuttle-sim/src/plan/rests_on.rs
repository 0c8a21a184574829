//! What an input rests on: readings, or a guess. The engine runs a plan as it is stated; who asks how far an
//! answer can be trusted draws the inputs anew and runs the plan under each draw.

use super::calls::Brought;
use super::facts::PlanDraft;
use super::fill_sites::Near;
use super::limits;
use super::place::Part;
use super::time_taken::TimeTaken;

/// What an input rests on, where it is not taken as known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RestsOn {
    /// So many readings: measured times, or a mean and cv of so many. At least 2.
    Readings(u32),
    /// A rough figure, from its value divided by this factor to its value times this factor in 80 of 100 cases.
    Guess(f64),
}

impl RestsOn {
    /// The factor of a guess that states none. Judgement.
    pub const GUESS: f64 = 1.25;
}

/// Inputs of a plan that rest on the same readings or guess, and so are off together.
#[derive(Debug, Clone, PartialEq)]
pub struct Unsure {
    /// What they belong to.
    pub of: Owner,
    /// Which facts of it; of a road that is guessed both ways, both.
    pub parts: Vec<Part>,
    /// What they rest on.
    pub rests_on: RestsOn,
}

/// What an input belongs to. It stays the same whoever else comes or stays away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Owner {
    /// The attack engine.
    AttackEngine,
    /// The supply: draft, pump, lay.
    Supply,
    /// The supply engine.
    SupplyEngine,
    /// The drop tank with this place in the scenario's list.
    DropTank(usize),
    /// Each tanker of this entry.
    Tankers {
        /// The entry's name: of a group, without the numbers.
        name: String,
        /// Its place in the scenario's list.
        listed: usize,
    },
    /// All tankers of these entries: handling they have in common.
    EveryTanker(Vec<usize>),
    /// The fill site of this name.
    FillSite(String),
    /// The one-lane stretch near the fill site of this name; `None`: near the scene.
    OneLane(Option<String>),
}

impl Unsure {
    /// The name of its draws: of two plans, inputs of the same name are off by the same.
    pub fn key(&self) -> String {
        let part = self.parts.first().map_or_else(String::new, |part| format!("{part:?}"));
        match &self.of {
            Owner::Tankers { name, .. } => format!("tanker {name} {part}"),
            Owner::EveryTanker(_) => format!("every tanker {part}"),
            Owner::FillSite(name) => format!("fill site {name} {part}"),
            Owner::OneLane(near) => format!("one-lane {} {part}", near.as_deref().unwrap_or("")),
            Owner::DropTank(listed) => format!("drop tank {listed} {part}"),
            Owner::AttackEngine => format!("attack engine {part}"),
            Owner::Supply => format!("supply {part}"),
            Owner::SupplyEngine => format!("supply engine {part}"),
        }
    }

    /// Changes every duration of these inputs by `time`, every number by `number`, and keeps what comes out
    /// within what a plan may state.
    ///
    /// - Returns: how many there were; 0 where nothing of the plan rests on it any more.
    pub fn redraw(
        &self,
        draft: &mut PlanDraft,
        time: impl Fn(&TimeTaken) -> TimeTaken,
        number: impl Fn(f64) -> f64,
    ) -> usize {
        let mut found = 0;
        for part in &self.parts {
            self.each_of(draft, *part, &mut |fact| {
                found += 1;
                match fact {
                    Fact::Time(minutes) => *minutes = limited(time(minutes)),
                    Fact::Leg(minutes) => {
                        let drawn = limited(time(minutes));
                        let least = limits::LEAST_LEG / drawn.mean().max(f64::MIN_POSITIVE);
                        *minutes = if least > 1.0 { drawn.scaled(least) } else { drawn };
                    }
                    Fact::Number(value, limit) => *value = limit.nearest(number(*value)),
                }
            });
        }
        found
    }

    /// The durations it is about, as the plan has them; none where nothing of the plan rests on it.
    pub fn times(&self, draft: &PlanDraft) -> Vec<TimeTaken> {
        let mut draft = draft.clone();
        let mut times = Vec::new();
        for part in &self.parts {
            self.each_of(&mut draft, *part, &mut |fact| match fact {
                Fact::Time(minutes) | Fact::Leg(minutes) => times.push(minutes.clone()),
                Fact::Number(..) => {}
            });
        }
        times
    }

    fn each_of(&self, draft: &mut PlanDraft, part: Part, see: &mut impl FnMut(Fact<'_>)) {
        match &self.of {
            Owner::AttackEngine => match part {
                Part::Response => see(Fact::Time(&mut draft.attack_engine.call.response)),
                Part::WaterOn => see(Fact::Time(&mut draft.attack_engine.water_on)),
                Part::TankRefill => {
                    see(Fact::Number(&mut draft.attack_engine.tank_refill, limits::FLOW));
                }
                _ => {}
            },
            Owner::Supply => of_supply(draft, part, see),
            Owner::SupplyEngine => {
                if let Some(engine) = &mut draft.supply.engine {
                    match part {
                        Part::Response => see(Fact::Time(&mut engine.call.response)),
                        Part::Setup => see(Fact::Time(&mut engine.setup)),
                        _ => {}
                    }
                }
            }
            Owner::DropTank(listed) => {
                for tank in draft.drop_tanks.iter_mut().filter(|tank| tank.listed == *listed) {
                    match (part, &mut tank.brought) {
                        (Part::Response, Brought::Itself(call)) => {
                            see(Fact::Time(&mut call.response));
                        }
                        (Part::Setup, _) => see(Fact::Time(&mut tank.setup)),
                        (Part::Transfer, _) => {
                            see(Fact::Number(&mut tank.transfer, limits::TRANSFER));
                        }
                        _ => {}
                    }
                }
            }
            Owner::Tankers { listed, .. } => of_tankers(draft, &[*listed], part, see),
            Owner::EveryTanker(listed) => of_tankers(draft, listed, part, see),
            Owner::FillSite(name) => {
                for site in draft.fill_sites.iter_mut().filter(|site| site.name == *name) {
                    match part {
                        Part::Flow => see(Fact::Number(&mut site.flow, limits::RATE)),
                        Part::Recharge => see(Fact::Number(&mut site.recharge, limits::FLOW)),
                        Part::Ready => see(Fact::Time(&mut site.ready)),
                        Part::Out => see(Fact::Leg(&mut site.out.time)),
                        Part::Back => see(Fact::Leg(&mut site.back.time)),
                        Part::Repair => {
                            let failure = site.failure.as_mut();
                            let repair = failure.and_then(|failure| failure.repair.as_mut());
                            repair.into_iter().for_each(|time| see(Fact::Time(time)));
                        }
                        _ => {}
                    }
                }
            }
            Owner::OneLane(near) => {
                let sites = &draft.fill_sites;
                let is_it = |lane: Near| match (lane, near) {
                    (Near::Scene, None) => true,
                    (Near::FillSite(site), Some(name)) => {
                        sites.get(site).is_some_and(|site| site.name == *name)
                    }
                    _ => false,
                };
                for lane in draft.one_lanes.iter_mut().filter(|lane| is_it(lane.near)) {
                    see(Fact::Leg(&mut lane.crossing));
                }
            }
        }
    }
}

/// A fact that may rest on something.
enum Fact<'d> {
    Time(&'d mut TimeTaken),
    /// A time on the road, which is never none.
    Leg(&'d mut TimeTaken),
    Number(&'d mut f64, limits::Limit),
}

fn of_supply(draft: &mut PlanDraft, part: Part, see: &mut impl FnMut(Fact<'_>)) {
    let supply = &mut draft.supply;
    match part {
        Part::Setup => see(Fact::Time(&mut supply.setup)),
        Part::Reprime => see(Fact::Time(&mut supply.reprime)),
        Part::Repair => {
            let repair = supply.failure.as_mut().and_then(|failure| failure.repair.as_mut());
            repair.into_iter().for_each(|time| see(Fact::Time(time)));
        }
        Part::DraftLimit => {
            let stated = |limit: &&mut super::facts::DraftLimit| {
                limit.reason == super::facts::DraftLimitReason::Stated
            };
            for limit in supply.draft_limits.iter_mut().filter(stated) {
                see(Fact::Number(&mut limit.flow, limits::RATE));
            }
        }
        _ => {}
    }
}

fn of_tankers(draft: &mut PlanDraft, listed: &[usize], part: Part, see: &mut impl FnMut(Fact<'_>)) {
    for tanker in draft.tankers.iter_mut().filter(|tanker| listed.contains(&tanker.listed)) {
        let handling = &mut tanker.handling;
        match part {
            Part::Response => see(Fact::Time(&mut tanker.call.response)),
            Part::Repair => tanker.repair.iter_mut().for_each(|time| see(Fact::Time(time))),
            Part::NurseConnect => see(Fact::Time(&mut handling.nurse_connect)),
            Part::NurseDisconnect => see(Fact::Time(&mut handling.nurse_disconnect)),
            Part::DumpPosition => see(Fact::Time(&mut handling.dump_position)),
            Part::DumpClear => see(Fact::Time(&mut handling.dump_clear)),
            Part::FillConnect => see(Fact::Time(&mut handling.fill_connect)),
            Part::FillDisconnect => see(Fact::Time(&mut handling.fill_disconnect)),
            Part::Capacity => see(Fact::Number(&mut tanker.capacity, limits::CAPACITY)),
            Part::DumpRate => see(Fact::Number(&mut tanker.dump_rate, limits::RATE)),
            Part::PumpOff => see(Fact::Number(&mut tanker.pump_off, limits::RATE)),
            Part::FillLimit => {
                let limit = tanker.fill_limit.as_mut();
                limit.into_iter().for_each(|limit| see(Fact::Number(limit, limits::RATE)));
            }
            Part::Waste => see(Fact::Number(&mut tanker.waste, limits::SHARE)),
            _ => {}
        }
    }
}

/// The duration with nothing above what a plan may state.
fn limited(time: TimeTaken) -> TimeTaken {
    let most = |minutes: f64| limits::MINUTES.nearest(minutes);
    match time {
        TimeTaken::Fixed(minutes) => TimeTaken::Fixed(most(minutes)),
        TimeTaken::Lognormal { mean, cv } => {
            TimeTaken::Lognormal { mean: most(mean), cv: limits::CV.nearest(cv) }
        }
        TimeTaken::Exponential { mean } => TimeTaken::Exponential { mean: most(mean) },
        TimeTaken::Triangular { low, likely, high } => {
            TimeTaken::Triangular { low: most(low), likely: most(likely), high: most(high) }
        }
        TimeTaken::Uniform { low, high } => TimeTaken::Uniform { low: most(low), high: most(high) },
        TimeTaken::Samples(mut samples) => {
            samples.iter_mut().for_each(|minutes| *minutes = most(*minutes));
            TimeTaken::Samples(samples)
        }
        TimeTaken::Weighted(mut weighted) => {
            weighted.iter_mut().for_each(|(minutes, _)| *minutes = most(*minutes));
            TimeTaken::Weighted(weighted)
        }
    }
}
