//! What is changed in a plan, in words: inputs, quantities, and the changes that commonly help.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::changes::input::{Change, Habit, Input, Quantity, Way};

use crate::say;
use crate::say::{Piece, Sentence, name};

/// What is moved: "flow at Quarry pond".
pub fn input_words(input: &Input) -> Sentence {
    let number = |place: &usize| Piece::Number((place + 1) as f64, 0);
    let tank = |tank: &usize, of: &usize| {
        if *of == 1 { say!["the drop tank"] } else { say!["drop tank ", number(tank)] }
    };
    match input {
        Input::FillConnect => say!["connecting at the fill site"],
        Input::FillDisconnect => say!["disconnecting at the fill site"],
        Input::DumpPosition => say!["positioning at the drop tank"],
        Input::DumpClear => say!["clearing the drop tank"],
        Input::NurseConnect => say!["connecting a nurse ", Piece::Tanker],
        Input::NurseDisconnect => say!["disconnecting a nurse ", Piece::Tanker],
        Input::TankersArrive => say!["arrival of every ", Piece::Tanker],
        Input::SupplyEngineArrives { engine } => say!["arrival of ", name(engine)],
        Input::DropTanksArrive => say!["arrival of drop tanks on their own"],
        Input::FirstDropTankSetup => say!["setting up the first drop tank"],
        Input::DraftSetup => say!["hooking up the draft"],
        Input::Reprime => say!["priming again"],
        Input::Drive { site } => say!["drive to ", name(site), ", each way"],
        Input::SpeedOnAllRoads => say!["driving on all roads"],
        Input::SiteFlow { site } => say!["flow at ", name(site)],
        Input::FillPositions { site } => say!["fill positions at ", name(site)],
        Input::SiteReady { site } => say![name(site), " ready"],
        Input::DropTankSize { tank: at, of } => say!["size of ", tank(at, of)],
        Input::DumpPositions { tank: at, of } => say!["dump positions at ", tank(at, of)],
        Input::DumpRate => say!["dump rate of every ", Piece::Tanker],
        Input::FillRate => say!["fill rate every ", Piece::Tanker, " takes"],
        Input::PumpOffRate => say!["pump-off rate when nursing"],
        Input::Waste => say!["load spilled or not filled"],
        Input::PumpAndLay => say!["flow through pump and lay"],
        Input::LowWater => say!["pump operator at low water"],
        Input::RestartLevel => say!["level at which the pump draws"],
        Input::Demand => say!["flow the lines need at most"],
        Input::EngineTank => say!["attack engine's own tank"],
        Input::Intakes => say!["intakes of the attack engine"],
        Input::Reserve => say!["reserve kept in the attack engine"],
    }
}

/// "900 gpm", "4.5 min", "1", "5%", "gates down".
pub fn quantity_words(of: Quantity) -> Sentence {
    match of {
        Quantity::Minutes(minutes) => say![Piece::Number(minutes, 1), " min"],
        Quantity::Gpm(gpm) => say![Piece::Flow(gpm)],
        Quantity::Gallons(gallons) => say![Piece::Volume(gallons)],
        Quantity::Count(count) => say![Piece::Number(f64::from(count), 0)],
        Quantity::Share(share) => say![Piece::Number(100.0 * share, 0), "%"],
        Quantity::LowWater(Habit::GatesDown) => say!["gates down"],
        Quantity::LowWater(Habit::DrawsOn) => say!["never gates down"],
    }
}

/// By how much something is moved, in a sentence: "5 minutes", "250 gpm".
fn by_words(by: Quantity) -> Sentence {
    match by {
        Quantity::Minutes(minutes) => say![Piece::Minutes(minutes)],
        other => quantity_words(other),
    }
}

/// What to do: "a second fill position at Quarry pond", "250 gpm more at Quarry pond".
pub fn change_words(change: &Change) -> Sentence {
    match change {
        Change::Moved { input, now, way, by } => moved_words(input, *now, *way, *by),
        Change::AidAtTheAlarm { latest_min } => {
            say!["all aid asked for at the alarm, not as late as ", Piece::Clock(*latest_min)]
        }
        Change::OneMoreTanker { like } => say!["one more ", Piece::Tanker, " like ", name(like)],
        Change::AllToOneSite { site } => say!["all ", Piece::Tankers, " to ", name(site)],
        Change::SiteReadyAtTheAlarm { site } => say![name(site), " ready from the alarm on"],
        Change::LoadOneByOne { site } => say!["connect two, load one at ", name(site)],
        Change::OneMoreDropTank => say!["one more drop tank like the first"],
        Change::NurseUntilTheDraft => say!["nursing the engine until the draft is hooked up"],
        Change::SparePump => say!["a second pump that stands by to draft"],
        Change::GateDown => say!["the pump operator gating down before prime is lost"],
    }
}

fn moved_words(input: &Input, now: Quantity, way: Way, by: Quantity) -> Sentence {
    match (input, now, way) {
        (Input::FillPositions { site }, Quantity::Count(there), Way::More) => {
            say![one_more(there), " fill position at ", name(site)]
        }
        (Input::DumpPositions { .. }, Quantity::Count(there), Way::More) => {
            say![one_more(there), " dump position"]
        }
        (Input::Intakes, Quantity::Count(there), Way::More) => {
            say![one_more(there), " intake on the attack engine"]
        }
        // No more speed is advised: what is sooner is called sooner, what is shorter is nearer.
        (Input::TankersArrive, _, Way::Less) => {
            say![
                "every ",
                Piece::Tanker,
                " there ",
                by_words(by),
                " sooner, by an earlier call or from nearer"
            ]
        }
        (Input::Drive { site }, _, Way::Less) => say![
            "a nearer source or a better road than to ",
            name(site),
            ", ",
            by_words(by),
            " less each way"
        ],
        (Input::SupplyEngineArrives { engine }, _, Way::Less) => {
            say![name(engine), " there ", by_words(by), " sooner"]
        }
        (Input::DraftSetup, _, Way::Less) => {
            say!["hooking up the draft ", by_words(by), " quicker"]
        }
        (Input::SiteFlow { site }, _, Way::More) => {
            say![by_words(by), " more at ", name(site)]
        }
        (Input::PumpAndLay, _, Way::More) => {
            say![by_words(by), " more through pump and lay"]
        }
        (input, _, way) => {
            let way = match way {
                Way::More => " more",
                Way::Less => " less",
                Way::Instead => "",
            };
            say![input_words(input), ", ", by_words(by), way]
        }
    }
}

/// "a second" for one that there is, "a third" for two.
fn one_more(there_are: u32) -> Sentence {
    match there_are {
        0 => say!["a"],
        1 => say!["a second"],
        2 => say!["a third"],
        3 => say!["a fourth"],
        more => say!["one more than ", Piece::Number(f64::from(more), 0)],
    }
}

/// A quantity as a result has it: one of these, by its kind.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, JsonSchema)]
pub struct QuantityFigures {
    /// A time.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time_min: Option<f64>,
    /// A flow.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub flow_gpm: Option<f64>,
    /// A volume.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub volume_gal: Option<f64>,
    /// So many.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// A share, between 0 and 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub share: Option<f64>,
    /// What the pump operator does at low water.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low_water: Option<Habit>,
}

impl From<Quantity> for QuantityFigures {
    fn from(of: Quantity) -> QuantityFigures {
        let none = QuantityFigures::default();
        match of {
            Quantity::Minutes(minutes) => QuantityFigures { time_min: Some(minutes), ..none },
            Quantity::Gpm(gpm) => QuantityFigures { flow_gpm: Some(gpm), ..none },
            Quantity::Gallons(gallons) => QuantityFigures { volume_gal: Some(gallons), ..none },
            Quantity::Count(count) => QuantityFigures { count: Some(count), ..none },
            Quantity::Share(share) => QuantityFigures { share: Some(share), ..none },
            Quantity::LowWater(habit) => QuantityFigures { low_water: Some(habit), ..none },
        }
    }
}

/// A change as a result has it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum ChangeFigures {
    /// An input moved by an amount.
    Moved {
        /// Which.
        input: Input,
        /// What it is now.
        now: QuantityFigures,
        /// Which way it is moved.
        way: Way,
        /// By how much.
        #[serde(rename = "moved_by")]
        by: QuantityFigures,
    },
    /// All aid asked for at the alarm.
    AidAtTheAlarm {
        /// The latest that any is asked for as planned, minutes after the alarm.
        latest_min: f64,
    },
    /// One more tanker.
    OneMoreTanker {
        /// The name of the one it is like.
        like: String,
    },
    /// All tankers to one of the fill sites.
    AllToOneSite {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// A site ready from the alarm on.
    SiteReadyAtTheAlarm {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// Tankers connect beside each other and load one by one.
    LoadOneByOne {
        /// The site's name.
        #[serde(rename = "fill_site")]
        site: String,
    },
    /// One more drop tank like the first.
    OneMoreDropTank,
    /// Nursing the engine until the draft is hooked up.
    NurseUntilTheDraft,
    /// The pump operator gates down before prime is lost.
    GateDown,
    /// A second pump that stands by for the one that drafts.
    SparePump,
}

impl From<Change> for ChangeFigures {
    fn from(of: Change) -> ChangeFigures {
        match of {
            Change::Moved { input, now, way, by } => {
                ChangeFigures::Moved { input, now: now.into(), way, by: by.into() }
            }
            Change::AidAtTheAlarm { latest_min } => ChangeFigures::AidAtTheAlarm { latest_min },
            Change::OneMoreTanker { like } => ChangeFigures::OneMoreTanker { like },
            Change::AllToOneSite { site } => ChangeFigures::AllToOneSite { site },
            Change::SiteReadyAtTheAlarm { site } => ChangeFigures::SiteReadyAtTheAlarm { site },
            Change::LoadOneByOne { site } => ChangeFigures::LoadOneByOne { site },
            Change::OneMoreDropTank => ChangeFigures::OneMoreDropTank,
            Change::NurseUntilTheDraft => ChangeFigures::NurseUntilTheDraft,
            Change::GateDown => ChangeFigures::GateDown,
            Change::SparePump => ChangeFigures::SparePump,
        }
    }
}

/// What to do, from what a result has of it.
pub fn told_change(of: &ChangeFigures) -> Sentence {
    let change = match of.clone() {
        ChangeFigures::Moved { input, now, way, by } => {
            let (Some(now), Some(by)) = (now.quantity(), by.quantity()) else {
                return input_words(&input);
            };
            Change::Moved { input, now, way, by }
        }
        ChangeFigures::AidAtTheAlarm { latest_min } => Change::AidAtTheAlarm { latest_min },
        ChangeFigures::OneMoreTanker { like } => Change::OneMoreTanker { like },
        ChangeFigures::AllToOneSite { site } => Change::AllToOneSite { site },
        ChangeFigures::SiteReadyAtTheAlarm { site } => Change::SiteReadyAtTheAlarm { site },
        ChangeFigures::LoadOneByOne { site } => Change::LoadOneByOne { site },
        ChangeFigures::OneMoreDropTank => Change::OneMoreDropTank,
        ChangeFigures::NurseUntilTheDraft => Change::NurseUntilTheDraft,
        ChangeFigures::GateDown => Change::GateDown,
        ChangeFigures::SparePump => Change::SparePump,
    };
    change_words(&change)
}

impl QuantityFigures {
    /// The quantity; nothing where none is given.
    fn quantity(self) -> Option<Quantity> {
        (self.time_min.map(Quantity::Minutes))
            .or(self.flow_gpm.map(Quantity::Gpm))
            .or(self.volume_gal.map(Quantity::Gallons))
            .or(self.count.map(Quantity::Count))
            .or(self.share.map(Quantity::Share))
            .or(self.low_water.map(Quantity::LowWater))
    }
}
