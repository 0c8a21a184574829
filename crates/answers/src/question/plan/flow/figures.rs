//! The figures of `flow`.

use fireground::attack_lines::Stream;
use fireground::side_by_side::Rule;
use scenario_file::WaterWanted;
use schemars::JsonSchema;
use serde::Serialize;

use super::{Sheet, Written, counts, sheet};
use crate::shared::hose::HoseFigures;
use crate::shared::people::{self, PeopleFigures};

/// The figures of `flow`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FlowFigures {
    /// The building.
    pub building: BuildingFigures,
    /// Its enclosed volume.
    pub volume_ft3: f64,
    /// What every rule asks for; how, the text tells under `more`.
    pub rules: Vec<RuleFigures>,
    /// The least that any of them asks for.
    pub least_gpm: f64,
    /// The most.
    pub greatest_gpm: f64,
    /// The most over the least.
    pub greatest_over_least: f64,
    /// The rule that counts, as `--standard` has it.
    pub standard: &'static str,
    /// What it asks for.
    pub attack_flow_gpm: f64,
    /// Whether the file says how much of the building burns; where it does not, all of it counts.
    pub says_what_burns: bool,
    /// The lines that carry it.
    pub attack_lines: LinesFigures,
    /// Whether that flow is beyond what any tanker shuttle is known to have fed.
    pub beyond_any_shuttle: bool,
    /// If the building is given up: the flow that keeps the fire from those beside it; null where no building near
    /// counts as an exposure hazard.
    pub exposures_only_gpm: Option<f64>,
    /// What two crews with a small hand line each put on.
    pub two_crews_gpm: f64,
    /// The same with large hand lines.
    pub two_crews_most_gpm: f64,
    /// How long it is wanted.
    pub duration_min: f64,
    /// Water for it over that time.
    pub total_water_gal: f64,
    /// The minimum supply.
    pub minimum_supply_gal: f64,
    /// Buildings near.
    pub exposures: Vec<ExposureFigures>,
    /// Heat that the flow takes up with half of it to steam, megawatts.
    pub heat_megawatts: f64,
    /// Constants of water as the trade has them: in the units named, whatever the reader's.
    pub constants: Vec<ConstantFigures>,
    /// Hose in place of tankers.
    pub hose_instead: Vec<HoseFigures>,
    /// People for the water, where the file is a scenario.
    pub people: Option<PeopleFigures>,
    /// The scenario it was written into, if one.
    pub written: Option<WrittenFigures>,
}

/// The building's sizes.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct BuildingFigures {
    /// Length.
    pub length_ft: f64,
    /// Width.
    pub width_ft: f64,
    /// Stories.
    pub stories: u32,
    /// Height to the eaves, all stories together.
    pub eaves_ft: f64,
}

/// What one rule asks for.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RuleFigures {
    /// The rule, as `--standard` has it.
    pub rule: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// What it asks for.
    pub flow_gpm: f64,
    /// Where it comes from.
    pub source: &'static str,
    /// Whether it is the one that counts.
    pub counts: bool,
}

/// Attack lines.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LinesFigures {
    /// By size, large ones first.
    pub groups: Vec<LineFigures>,
    /// What all of them flow with every nozzle open.
    pub carried_gpm: f64,
}

/// Attack lines of one kind.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct LineFigures {
    /// How many.
    pub count: u32,
    /// Whether they are master streams, and not hand lines.
    pub master_stream: bool,
    /// Inside diameter of a hand line's hose; null of a master stream.
    pub hose_diameter_inches: Option<f64>,
    /// What each flows with its nozzle fully open.
    pub flow_each_gpm: f64,
}

/// A building near.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct ExposureFigures {
    /// Distance to it.
    pub distance_ft: f64,
    /// Its ground area.
    pub area_ft2: f64,
    /// Whether it counts as an exposure hazard.
    pub hazard: bool,
}

/// A constant as the trade has it.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct ConstantFigures {
    /// What it is.
    pub name: &'static str,
    /// Its value.
    pub value: f64,
    /// In this unit.
    pub unit: &'static str,
}

/// A scenario that the building was written into.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WrittenFigures {
    /// The file.
    pub file: String,
    /// Path of keys of what was replaced.
    pub place: String,
    /// The flow that stood there.
    pub before_gpm: f64,
    /// The flow that the building asks for.
    pub after_gpm: f64,
}

/// The rule's word in files and for `--standard`.
pub fn rule_key(rule: Rule) -> &'static str {
    match rule {
        Rule::Area => "area",
        Rule::Volume => "volume",
        Rule::MinimumSupply => "minimum-supply",
        Rule::Insurance => "insurance",
        Rule::CanadianInsurance => "insurance-canada",
    }
}

impl FlowFigures {
    /// From the sheet of the rule that counts.
    pub(super) fn new(wanted: &WaterWanted, of: &Sheet, written: Option<&Written>) -> FlowFigures {
        /// Joules in a Btu (international table, NIST Special Publication 811).
        const JOULES_PER_BTU: f64 = 1_055.056;
        let building = wanted.building();
        let (least_gpm, greatest_gpm) = sheet::range(wanted);
        FlowFigures {
            building: BuildingFigures {
                length_ft: building.length_ft,
                width_ft: building.width_ft,
                stories: building.stories,
                eaves_ft: building.eaves_ft,
            },
            volume_ft3: of.volume.value,
            rules: (wanted.flow.rows.iter())
                .map(|row| RuleFigures {
                    rule: rule_key(row.rule),
                    name: row.name(),
                    flow_gpm: row.flow.value,
                    source: row.flow.source,
                    counts: counts(row, of),
                })
                .collect(),
            least_gpm,
            greatest_gpm,
            greatest_over_least: greatest_gpm / least_gpm,
            standard: rule_key(of.rule),
            attack_flow_gpm: of.flow,
            says_what_burns: wanted.says_what_burns(),
            attack_lines: LinesFigures {
                groups: (of.lines.groups.iter())
                    .map(|group| LineFigures {
                        count: group.count,
                        master_stream: group.stream == Stream::Master,
                        hose_diameter_inches: match group.stream {
                            Stream::HandLine(size) => Some(size.diameter_in()),
                            Stream::Master => None,
                        },
                        flow_each_gpm: group.flow_each_gpm,
                    })
                    .collect(),
                carried_gpm: of.lines.carried_gpm,
            },
            beyond_any_shuttle: of.is_beyond_any_shuttle(),
            exposures_only_gpm: of.exposures_only.as_ref().map(|flow| flow.value),
            two_crews_gpm: of.two_crews_gpm().0,
            two_crews_most_gpm: of.two_crews_gpm().1,
            duration_min: wanted.duration,
            total_water_gal: of.total.value,
            minimum_supply_gal: of.supply.value,
            exposures: (of.near.iter())
                .map(|near| ExposureFigures {
                    distance_ft: near.distance_ft,
                    area_ft2: near.area_ft2,
                    hazard: near.hazard,
                })
                .collect(),
            heat_megawatts: of.heat.value * JOULES_PER_BTU / 60.0 / 1e6,
            constants: (of.constants.iter())
                .map(|one| ConstantFigures { name: one.name, value: one.value, unit: one.unit })
                .collect(),
            hose_instead: of.hose.iter().map(HoseFigures::new).collect(),
            people: wanted.scenario.as_ref().map(people::needed),
            written: written.map(|written| WrittenFigures {
                file: written.path.display().to_string(),
                place: written.replaced.place.clone(),
                before_gpm: written.replaced.before,
                after_gpm: written.replaced.after,
            }),
        }
    }
}
