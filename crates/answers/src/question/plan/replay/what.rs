//! What happens in a fire, who it happens to, and where: as keys and in words.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_sim::{Doing, Happening, Note, Plan, Subject};

use super::who::Who;
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::quantities::{count, flow, volume};

/// What happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// What this fire multiplies driving, handling and responses by.
    WholeFire,
    /// What a tanker's crew multiplies its handling by.
    Crew,
    /// A unit should have come by now, and is known to stay away.
    StaysAway,
    /// The drafting pump has failed.
    PumpFailed,
    /// The drafting pump works again.
    PumpRepaired,
    /// A fill site has failed and gives nothing.
    FillSiteFailed,
    /// A fill site works again.
    FillSiteRepaired,
    /// The attack engine is on scene.
    AttackEngineArrived,
    /// The supply engine is on scene.
    SupplyEngineArrived,
    /// The attack begins.
    FirstWater,
    /// The lines need another flow from now on.
    FlowWanted,
    /// A drop tank is on scene and being set up.
    DropTankArrived,
    /// A drop tank is set up.
    DropTankReady,
    /// The pump is hooked up to draft.
    HookedUp,
    /// The pump draws for the first time.
    SupplyEstablished,
    /// The pump loses its prime.
    PrimeLost,
    /// The pump is priming again.
    Repriming,
    /// The pump draws again.
    PrimeBack,
    /// A fill site can serve.
    FillSiteReady,
    /// A fill site has gone dry.
    FillSiteDry,
    /// A tanker is on its way to the scene for the first time.
    Responding,
    /// In line at the scene.
    WaitingAtScene,
    /// In the line, its load kept for the lines.
    OnDeck,
    /// Connects to the attack engine.
    NurseConnecting,
    /// Pumps off into the attack engine.
    PumpingOff,
    /// Disconnects from the attack engine.
    NurseDisconnecting,
    /// Gets into place at a drop tank.
    Positioning,
    /// Dumps into a drop tank.
    Dumping,
    /// Pulls clear of a drop tank.
    Clearing,
    /// Gives up a drop tank's position to nurse.
    BreakingOff,
    /// Has broken down and is being repaired.
    InRepair,
    /// Is out of service for good.
    OutOfService,
    /// Stands by: no fill site can serve it.
    StandingBy,
    /// Waits for a one-lane stretch.
    WaitingForRoad,
    /// Is on a one-lane stretch.
    CrossingOneLane,
    /// Leaves for a fill site.
    TravelingOut,
    /// Is in line at a fill site.
    WaitingToFill,
    /// Connects at a fill site.
    Connecting,
    /// Takes water at a fill site.
    Filling,
    /// Disconnects at a fill site.
    Disconnecting,
    /// Drives back to the scene.
    TravelingBack,
    /// Can pour no more and keeps a rest aboard.
    RestAboard,
    /// The lines are short of water.
    ShortfallBegan,
    /// The lines have their flow again.
    ShortfallEnded,
    /// The watch is over.
    WatchEnded,
}

/// A place of the plan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum At {
    /// A fill site.
    FillSite {
        /// Its number in the file, from 1.
        number: usize,
        /// Its name.
        name: String,
    },
    /// A drop tank, which has no name.
    DropTank {
        /// Its number in the file, from 1.
        number: usize,
    },
}

/// One line of the story.
pub struct Line {
    /// Minutes after the alarm.
    pub minute: f64,
    /// What happens.
    pub what: What,
    /// To whom.
    pub who: Who,
    /// Where, if it has a place.
    pub at: Option<At>,
    /// The flow that is wanted from now on, gpm.
    pub flow_gpm: Option<f64>,
    /// The rest that stays aboard, gal.
    pub rest_gal: Option<f64>,
    /// What is multiplied by what.
    pub factors: Option<Factors>,
}

/// What a fire or a crew multiplies times by; none where it does not touch them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Factors {
    /// Every driving time.
    pub driving: Option<f64>,
    /// Every handling time.
    pub handling: f64,
    /// Every response.
    pub response: Option<f64>,
}

impl Line {
    /// The line of a note.
    pub fn new(plan: &Plan, note: &Note) -> Line {
        let facts = plan.facts();
        let site = |place: usize| At::FillSite {
            number: place + 1,
            name: facts.fill_sites[place].name.clone(),
        };
        let tank = |place: usize| At::DropTank { number: place + 1 };
        let one = |of: Subject| Who::one(of, plan);
        let engine = || one(Subject::AttackEngine);
        let pump = || match &facts.supply.engine {
            Some(_) => one(Subject::SupplyEngine),
            None => engine(),
        };
        let lines = || Who::AttackLines;
        let of_tank = |place: usize| one(Subject::DropTank(place));
        let of_site = |place: usize| one(Subject::FillSite(place));
        let of_tanker = |place: usize| one(Subject::Tanker(place));
        let (mut flow_gpm, mut rest_gal, mut factors) = (None, None, None);
        let (who, what, at) = match note.happening {
            Happening::WholeFire { driving, handling, response } => {
                factors =
                    Some(Factors { driving: Some(driving), handling, response: Some(response) });
                (Who::WholeFire, What::WholeFire, None)
            }
            Happening::Crew(place, handling) => {
                factors = Some(Factors { driving: None, handling, response: None });
                (of_tanker(place), What::Crew, None)
            }
            Happening::StaysAway(unit) => (one(unit), What::StaysAway, None),
            Happening::PumpFailed => (pump(), What::PumpFailed, None),
            Happening::PumpRepaired => (pump(), What::PumpRepaired, None),
            Happening::FillSiteFailed(place) => {
                (of_site(place), What::FillSiteFailed, Some(site(place)))
            }
            Happening::FillSiteRepaired(place) => {
                (of_site(place), What::FillSiteRepaired, Some(site(place)))
            }
            Happening::AttackEngineArrived => (engine(), What::AttackEngineArrived, None),
            Happening::SupplyEngineArrived => (pump(), What::SupplyEngineArrived, None),
            Happening::FirstWater => (lines(), What::FirstWater, None),
            Happening::FlowWanted(gpm) => {
                flow_gpm = Some(gpm);
                (lines(), What::FlowWanted, None)
            }
            Happening::DropTankArrived(place) => {
                (of_tank(place), What::DropTankArrived, Some(tank(place)))
            }
            Happening::DropTankReady(place) => {
                (of_tank(place), What::DropTankReady, Some(tank(place)))
            }
            Happening::HookedUp => (pump(), What::HookedUp, None),
            Happening::Primed => (pump(), What::SupplyEstablished, None),
            Happening::PrimeLost => (pump(), What::PrimeLost, None),
            Happening::Repriming => (pump(), What::Repriming, None),
            Happening::PrimeBack => (pump(), What::PrimeBack, None),
            Happening::FillSiteReady(place) => {
                (of_site(place), What::FillSiteReady, Some(site(place)))
            }
            Happening::FillSiteDry(place) => (of_site(place), What::FillSiteDry, Some(site(place))),
            Happening::Tanker(place, doing) => {
                let (what, at) = of_doing(doing, site, tank);
                (of_tanker(place), what, at)
            }
            Happening::RestAboard(place, rest) => {
                rest_gal = Some(rest);
                (of_tanker(place), What::RestAboard, None)
            }
            Happening::ShortfallBegan(gpm) => {
                flow_gpm = Some(gpm);
                (lines(), What::ShortfallBegan, None)
            }
            Happening::ShortfallEnded => (lines(), What::ShortfallEnded, None),
            Happening::WatchEnded => (Who::Watch, What::WatchEnded, None),
        };
        Line { minute: note.minute, what, who, at, flow_gpm, rest_gal, factors }
    }

    /// What happens, in words, with its place and its quantity.
    pub fn words(&self) -> Sentence {
        if let Some(factors) = self.factors {
            let times =
                |what: &'static str, by: Option<f64>| by.map(|by| say![what, Piece::Number(by, 2)]);
            return joined(
                [
                    times("driving x ", factors.driving),
                    times("handling x ", Some(factors.handling)),
                    times("responses x ", factors.response),
                ]
                .into_iter()
                .flatten(),
                ", ",
                ", ",
            );
        }
        match (self.flow_gpm, self.rest_gal) {
            (Some(gpm), _) if self.what == What::ShortfallBegan => match gpm < 0.5 {
                true => say!["SHORT OF WATER, nothing comes"],
                false => say!["SHORT OF WATER, ", flow(gpm), " comes"],
            },
            (Some(gpm), _) => say!["need ", flow(gpm)],
            (_, Some(gallons)) => say!["can pour no more, ", volume(gallons), " aboard"],
            _ => self.words_without_quantity(),
        }
    }

    /// The same where the quantity stands beside it.
    pub fn words_without_quantity(&self) -> Sentence {
        let at = match &self.at {
            Some(At::FillSite { name: site, .. }) => say![name(site)],
            Some(At::DropTank { number }) => say!["drop tank ", count(*number as u64)],
            None => Sentence::default(),
        };
        match self.what {
            What::WholeFire => say!["its own luck on all times"],
            What::Crew => say!["its crew's own pace"],
            What::StaysAway => say!["does not come"],
            What::PumpFailed => say!["PUMP FAILED"],
            What::PumpRepaired => say!["pump repaired"],
            What::FillSiteFailed => say!["FAILED"],
            What::FillSiteRepaired => say!["works again"],
            What::AttackEngineArrived | What::SupplyEngineArrived => say!["on scene"],
            What::FirstWater => say!["first water"],
            What::FlowWanted => say!["need another flow"],
            What::DropTankArrived => say!["on scene, being set up"],
            What::DropTankReady | What::FillSiteReady => say!["ready"],
            What::HookedUp => say!["hooked up to draft"],
            What::SupplyEstablished => say!["draws: supply established"],
            What::PrimeLost => say!["PRIME LOST"],
            What::Repriming => say!["priming again"],
            What::PrimeBack => say!["draws again"],
            What::FillSiteDry => say!["GONE DRY"],
            What::Responding => say!["responding"],
            What::WaitingAtScene => say!["in line at the scene"],
            What::OnDeck => say!["on deck, kept for the lines"],
            What::NurseConnecting => say!["connects to the engine"],
            What::PumpingOff => say!["pumps off into the engine"],
            What::NurseDisconnecting => say!["empty, disconnects"],
            What::Positioning => say!["positions at ", at],
            What::Dumping => say!["dumps into ", at],
            What::Clearing => say!["pulls clear of ", at],
            What::BreakingOff => say!["breaks off dumping into ", at, " to nurse"],
            What::InRepair => say!["BROKEN DOWN, being repaired"],
            What::OutOfService => say!["OUT OF SERVICE"],
            What::StandingBy => say!["stands by: no source can fill it"],
            What::WaitingForRoad => say!["waits for the one-lane road"],
            What::CrossingOneLane => say!["on the one-lane road"],
            What::TravelingOut => say!["leaves for ", at],
            What::WaitingToFill => say!["in line at ", at],
            What::Connecting => say!["connects at ", at],
            What::Filling => say!["fills at ", at],
            What::Disconnecting => say!["disconnects at ", at],
            What::TravelingBack => say!["drives back"],
            What::RestAboard => say!["can pour no more, a rest aboard"],
            What::ShortfallBegan => say!["SHORT OF WATER"],
            What::ShortfallEnded => say!["have their flow again"],
            What::WatchEnded => say!["ends"],
        }
    }
}

fn of_doing(
    doing: Doing,
    site: impl Fn(usize) -> At,
    tank: impl Fn(usize) -> At,
) -> (What, Option<At>) {
    match doing {
        Doing::Responding => (What::Responding, None),
        Doing::WaitingAtScene => (What::WaitingAtScene, None),
        Doing::OnDeck => (What::OnDeck, None),
        Doing::NurseConnecting => (What::NurseConnecting, None),
        Doing::PumpingOff => (What::PumpingOff, None),
        Doing::NurseDisconnecting => (What::NurseDisconnecting, None),
        Doing::Positioning(at) => (What::Positioning, Some(tank(at))),
        Doing::Dumping(at) => (What::Dumping, Some(tank(at))),
        Doing::Clearing(at) => (What::Clearing, Some(tank(at))),
        Doing::BreakingOff(at) => (What::BreakingOff, Some(tank(at))),
        Doing::InRepair => (What::InRepair, None),
        Doing::OutOfService => (What::OutOfService, None),
        Doing::StandingBy => (What::StandingBy, None),
        Doing::WaitingForRoad => (What::WaitingForRoad, None),
        Doing::CrossingOneLane => (What::CrossingOneLane, None),
        Doing::TravelingOut(at) => (What::TravelingOut, Some(site(at))),
        Doing::WaitingToFill(at) => (What::WaitingToFill, Some(site(at))),
        Doing::Connecting(at) => (What::Connecting, Some(site(at))),
        Doing::Filling(at) => (What::Filling, Some(site(at))),
        Doing::Disconnecting(at) => (What::Disconnecting, Some(site(at))),
        Doing::TravelingBack => (What::TravelingBack, None),
    }
}
