//! The evidence sheet of a grading, with blanks for what a scenario does not state.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::evidence::{Drill, Evidence, Figure, Source, Timed};
use shuttle_report::grade::{GradeAnswer, SiteGrade};

use super::words_of_tightest;
use crate::answer::Block;
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, name};

/// Stands where the scenario does not state a figure.
const BLANK: &str = "____";

/// What a survey asks for, as far as the scenario knows it; null is what it does not state.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct EvidenceFigures {
    /// The scenario's title.
    pub title: String,
    /// The engine that drafts at the fire.
    pub pumping_engine: String,
    /// What its pump gives at the lift stated.
    pub pump_at_lift_gpm: Option<f64>,
    /// Capacities of the drop tanks.
    pub drop_tanks_gal: Vec<f64>,
    /// Road from the station to the fire.
    pub station_to_fire_mi: Option<f64>,
    /// The fill sites.
    pub sources: Vec<SourceFigures>,
    /// The tankers.
    pub tankers: Vec<TankerFigures>,
    /// Times that were measured.
    pub drills: Vec<DrillFigures>,
}

/// A fill site.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SourceFigures {
    /// Its name.
    pub name: String,
    /// Road from the fire.
    pub from_fire_mi: Option<f64>,
    /// Flow for all tankers filling at once.
    pub rate_gpm: f64,
    /// Tankers hooked up at once.
    pub positions: u32,
    /// Water to be had.
    pub quantity_gal: Option<f64>,
    /// What runs into it.
    pub recharge_gpm: Option<f64>,
}

/// A tanker.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerFigures {
    /// Its name.
    pub name: String,
    /// Its tank.
    pub tank_gal: f64,
    /// Rate into a drop tank.
    pub discharge_gpm: FigureStated,
    /// Greatest rate at which it fills.
    pub fill_gpm: FigureStated,
    /// Share of a load that is lost.
    pub waste: FigureStated,
}

/// A figure, and whether it is assumed because the scenario does not state it.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct FigureStated {
    /// Its value.
    pub value: f64,
    /// Whether it is assumed.
    pub assumed: bool,
}

/// Measured times.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DrillFigures {
    /// What was timed.
    pub timed: &'static str,
    /// The fill site it is about, if it is about one.
    pub fill_site: Option<String>,
    /// How often.
    pub times: usize,
    /// Mean.
    pub mean_min: f64,
}

impl EvidenceFigures {
    /// From a sheet.
    pub fn new(sheet: &Evidence) -> EvidenceFigures {
        let stated = |figure: Figure| FigureStated { value: figure.value, assumed: figure.assumed };
        EvidenceFigures {
            title: sheet.title.clone(),
            pumping_engine: sheet.pumping_engine.clone(),
            pump_at_lift_gpm: sheet.pump_at_lift_gpm,
            drop_tanks_gal: sheet.drop_tanks_gal.clone(),
            station_to_fire_mi: sheet.station_to_fire_miles,
            sources: (sheet.sources.iter())
                .map(|source| SourceFigures {
                    name: source.name.clone(),
                    from_fire_mi: source.from_fire_miles,
                    rate_gpm: source.rate_gpm,
                    positions: source.positions,
                    quantity_gal: source.quantity_gal,
                    recharge_gpm: source.recharge_gpm,
                })
                .collect(),
            tankers: (sheet.tankers.iter())
                .map(|tanker| TankerFigures {
                    name: tanker.name.clone(),
                    tank_gal: tanker.tank_gal,
                    discharge_gpm: stated(tanker.discharge_gpm),
                    fill_gpm: stated(tanker.fill_gpm),
                    waste: stated(tanker.waste),
                })
                .collect(),
            drills: sheet.drills.iter().map(drill_figures).collect(),
        }
    }
}

fn drill_figures(drill: &Drill) -> DrillFigures {
    let (timed, fill_site) = match &drill.what {
        Timed::DraftSetup => ("draft_setup", None),
        Timed::Reprime => ("reprime", None),
        Timed::SupplyEngineSetup => ("supply_engine_setup", None),
        Timed::DropTankSetup => ("drop_tank_setup", None),
        Timed::DriveTo(site) => ("drive_to", Some(site.clone())),
        Timed::DriveBack(site) => ("drive_back", Some(site.clone())),
        Timed::SiteReady(site) => ("site_ready", Some(site.clone())),
        Timed::FillConnect => ("fill_connect", None),
        Timed::FillDisconnect => ("fill_disconnect", None),
        Timed::DumpPosition => ("dump_position", None),
        Timed::DumpClear => ("dump_clear", None),
        Timed::NurseConnect => ("nurse_connect", None),
        Timed::NurseDisconnect => ("nurse_disconnect", None),
    };
    DrillFigures { timed, fill_site, times: drill.times, mean_min: drill.mean_min }
}

/// The sheet of one scenario, the `place`-th of the answer.
pub fn sheet(sheet: &Evidence, place: usize, found: &GradeAnswer) -> Vec<Block> {
    let heading = say![
        "evidence for ",
        name(&sheet.title),
        ": ",
        BLANK,
        " is what the scenario does not state.",
    ];
    let mut blocks = vec![
        Block::Paragraph(heading),
        Block::Table(what_is_known(sheet)),
        Block::Gap,
        Block::Table(tankers(sheet)),
    ];
    let alone: Vec<&SiteGrade> = (sheet.sources.iter())
        .filter_map(|source| {
            found.ranked.iter().find(|one| {
                one.scenario == place && one.sites.len() == 1 && one.sites[0] == source.name
            })
        })
        .collect();
    if !alone.is_empty() {
        blocks.extend([Block::Gap, Block::Table(credits(&alone))]);
    }
    blocks
}

fn what_is_known(sheet: &Evidence) -> Table {
    let mut table = Table::new(vec![(say![""], Align::Left), (say![""], Align::Left)]);
    let pump = match sheet.pump_at_lift_gpm {
        Some(gpm) => say!["rated ", BLANK, ", gives ", Piece::Flow(gpm), " at its lift"],
        None => say!["rated ", BLANK],
    };
    table.row(vec![say!["pump"], say![name(&sheet.pumping_engine), " at the drop tanks: ", pump]]);
    let tanks: Vec<Sentence> =
        sheet.drop_tanks_gal.iter().map(|gal| say![Piece::Volume(*gal)]).collect();
    let tanks = if tanks.is_empty() { say!["none"] } else { joined(tanks, ", ", ", ") };
    table.row(vec![say!["drop tanks"], tanks]);
    let road = match sheet.station_to_fire_miles {
        Some(miles) => say![Piece::Distance(miles)],
        None => say![BLANK, " ", Piece::DistanceSign],
    };
    table.row(vec![say!["station"], say![road, " to the fire"]]);
    for source in &sheet.sources {
        table.row(vec![say!["source"], told(source)]);
    }
    let mut drills: Vec<Sentence> = (sheet.drills.iter())
        .map(|drill| {
            let mean = Piece::Number(drill.mean_min, 1);
            let times = Piece::Number(drill.times as f64, 0);
            say![timed(&drill.what), ": ", times, " timed, mean ", mean, " min"]
        })
        .collect();
    if drills.is_empty() {
        drills.push(say![BLANK]);
    }
    drills.push(say!["flow held in a drill: ", BLANK]);
    table.row(vec![say!["drills"], joined(drills, "; ", "; ")]);
    table
}

fn timed(what: &Timed) -> Sentence {
    match what {
        Timed::DraftSetup => say!["set up the draft"],
        Timed::Reprime => say!["prime again"],
        Timed::SupplyEngineSetup => say!["set up the supply engine"],
        Timed::DropTankSetup => say!["set up a drop tank"],
        Timed::DriveTo(site) => say!["drive to ", name(site)],
        Timed::DriveBack(site) => say!["drive back from ", name(site)],
        Timed::SiteReady(site) => say!["make ", name(site), " ready"],
        Timed::FillConnect => say!["connect at the fill site"],
        Timed::FillDisconnect => say!["disconnect at the fill site"],
        Timed::DumpPosition => say!["get into place at the drop tank"],
        Timed::DumpClear => say!["pull clear of the drop tank"],
        Timed::NurseConnect => say!["connect to the engine"],
        Timed::NurseDisconnect => say!["disconnect from the engine"],
    }
}

fn told(source: &Source) -> Sentence {
    let road = match source.from_fire_miles {
        Some(miles) => say![Piece::Distance(miles)],
        None => say![BLANK, " ", Piece::DistanceSign],
    };
    let quantity = match (source.quantity_gal, source.recharge_gpm) {
        (Some(gal), Some(more)) if more > 0.0 => {
            say![Piece::Volume(gal), " and ", Piece::Flow(more), " running in"]
        }
        (Some(gal), _) => say![Piece::Volume(gal)],
        (None, _) => say![BLANK, " ", Piece::VolumeSign],
    };
    say![
        name(&source.name),
        ": ",
        road,
        " from the fire; rate ",
        Piece::Flow(source.rate_gpm),
        " through ",
        Piece::Number(f64::from(source.positions), 0),
        if source.positions == 1 { " position" } else { " positions" },
        "; quantity ",
        quantity,
        "; all year and in a 50-year drought ",
        BLANK,
    ]
}

/// Tank and rates of each.
fn tankers(sheet: &Evidence) -> Table {
    let mut table = Table::new(vec![
        (say![Piece::Tanker], Align::Left),
        (say!["tank, ", Piece::VolumeSign], Align::Right),
        (say!["discharge, ", Piece::FlowSign], Align::Right),
        (say!["fills, ", Piece::FlowSign], Align::Right),
        (say!["waste"], Align::Right),
    ]);
    // A figure is followed by an `a` where it is assumed.
    let marked = |figure: Figure, told: Sentence| {
        if figure.assumed { say![told, "a"] } else { told }
    };
    for tanker in &sheet.tankers {
        let flow = |figure: Figure| marked(figure, say![Piece::BareFlow(figure.value)]);
        let waste = say![Piece::Number(100.0 * tanker.waste.value, 0), "%"];
        table.row(vec![
            say![name(&tanker.name)],
            say![Piece::BareVolume(tanker.tank_gal)],
            flow(tanker.discharge_gpm),
            flow(tanker.fill_gpm),
            marked(tanker.waste, waste),
        ]);
    }
    let assumed = (sheet.tankers.iter())
        .flat_map(|one| [one.discharge_gpm, one.fill_gpm, one.waste])
        .any(|figure| figure.assumed);
    if assumed {
        table.feet.push(say![
            "a assumed, not stated: the format's usual rates; for waste what NFPA 1142 allows.",
        ]);
    }
    table
}

/// The hand credit of each tanker at each fill site alone, and what counts of their sum.
fn credits(alone: &[&SiteGrade]) -> Table {
    let mut table = Table::new(vec![
        (say!["fill site"], Align::Left),
        (say![Piece::Tanker], Align::Left),
        (say!["cycle, min"], Align::Right),
        (say!["credit, ", Piece::FlowSign], Align::Right),
    ]);
    for one in alone {
        let mut site = say![joined(one.sites.iter().map(|site| say![name(site)]), " + ", " + ")];
        for credit in &one.credits {
            table.row(vec![
                std::mem::take(&mut site),
                say![name(&credit.name)],
                say![Piece::Number(credit.cycle_min, 1)],
                say![Piece::BareFlow(credit.credit_gpm)],
            ]);
        }
        let mut row = |what: Sentence, gpm: Sentence| {
            table.row(vec![say![""], what, say![""], gpm]);
        };
        row(say!["together"], say![Piece::BareFlow(one.hand_gpm)]);
        match &one.tightest {
            Some((place, cap)) => row(
                say!["most that passes ", words_of_tightest(place, one)],
                say![Piece::BareFlow(*cap)],
            ),
            None => row(say!["most that passes"], say!["no limit"]),
        }
        row(say!["counts by hand: the lesser"], say![Piece::BareFlow(one.counts_gpm)]);
    }
    table.feet.push(say!["Credit: (tank less 10%) / cycle, with mean times."]);
    table
}
