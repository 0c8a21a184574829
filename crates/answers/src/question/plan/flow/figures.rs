//! The figures of `flow`.

use fireground::Worked;
use fireground::attack_lines::Stream;
use fireground::side_by_side::Rule;
use scenario_file::WaterWanted;
use schemars::JsonSchema;
use serde::Serialize;

use super::{Sheet, Written, counts, sheet};
use crate::shared::hose::HoseFigures;
use crate::shared::people::{self, PeopleFigures};
use crate::shared::sums::{SumPart, sum};

/// The figures of `flow`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FlowFigures {
    /// The building.
    pub building: BuildingFigures,
    /// Its enclosed volume.
    pub volume_ft3: f64,
    /// What every rule asks for.
    #[serde(rename = "flow_rules")]
    pub rules: Vec<RuleFigures>,
    /// The least that any of them asks for.
    pub least_gpm: f64,
    /// The most.
    pub greatest_gpm: f64,
    /// The most over the least.
    pub greatest_over_least: f64,
    /// The rule that counts.
    pub standard: RuleKey,
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
    /// How that is worked out, part by part; empty where none counts.
    pub exposures_only_how: Vec<SumPart>,
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
    /// The constants of water that stand behind it.
    pub constants: ConstantFigures,
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
    /// The rule.
    pub rule: RuleKey,
    /// What it is called.
    pub name: &'static str,
    /// What it asks for.
    pub flow_gpm: f64,
    /// What it is made for and where it ends.
    pub made_for: Vec<SumPart>,
    /// How that is worked out, part by part.
    pub how: Vec<SumPart>,
    /// What to know before relying on it.
    pub careful: Vec<Vec<SumPart>>,
    /// Whether it is used beyond the range it is made for.
    pub beyond_range: bool,
    /// Where it comes from.
    pub reference: &'static str,
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
    /// How that is worked out, part by part.
    pub how: Vec<SumPart>,
    /// What to know before relying on it.
    pub careful: Vec<Vec<SumPart>>,
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

/// Constants of water as the trade has them.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct ConstantFigures {
    /// Temperature of the water at the nozzle, degrees Celsius whatever the reader's units.
    pub water_celsius: f64,
    /// Share of it that turns to steam. Judgement.
    pub share_to_steam: f64,
    /// What water weighs.
    pub weight_lb_per_gal: f64,
    /// Heat to boil it off.
    pub heat_to_boil_btu_per_lb: f64,
    /// Heat from that temperature to steam.
    pub heat_to_steam_btu_per_gal: f64,
    /// Pressure under a column of it.
    pub head_psi_per_ft: f64,
}

/// A scenario that the building was written into.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WrittenFigures {
    /// The file.
    pub file: String,
    /// Path of keys of what was replaced.
    pub field: String,
    /// The flow that stood there.
    pub before_gpm: f64,
    /// The flow that the building asks for.
    pub after_gpm: f64,
}

/// A rule for the attack flow; `--standard` has the same words with hyphens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RuleKey {
    /// Area / 3.
    Area,
    /// Volume / 100.
    Volume,
    /// The minimum supply.
    MinimumSupply,
    /// The insurers' flow.
    Insurance,
    /// The Canadian insurers' flow.
    InsuranceCanada,
}

impl From<Rule> for RuleKey {
    fn from(rule: Rule) -> RuleKey {
        match rule {
            Rule::Area => RuleKey::Area,
            Rule::Volume => RuleKey::Volume,
            Rule::MinimumSupply => RuleKey::MinimumSupply,
            Rule::Insurance => RuleKey::Insurance,
            Rule::CanadianInsurance => RuleKey::InsuranceCanada,
        }
    }
}

impl FlowFigures {
    /// From the sheet of the rule that counts.
    pub(super) fn new(wanted: &WaterWanted, of: &Sheet, written: Option<&Written>) -> FlowFigures {
        /// Joules in a Btu (international table, NIST Special Publication 811).
        const JOULES_PER_BTU: f64 = 1_055.056;
        let building = wanted.building();
        let sum_of = |worked: &Worked| sum(&worked.how);
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
                    rule: row.rule.into(),
                    name: row.name(),
                    flow_gpm: row.flow.value,
                    made_for: sum(&row.limits),
                    how: sum(&row.flow.how),
                    careful: row.flow.warnings.iter().map(sum).collect(),
                    beyond_range: row.flow.is_beyond_range,
                    reference: row.flow.source,
                    counts: counts(row, of),
                })
                .collect(),
            least_gpm,
            greatest_gpm,
            greatest_over_least: greatest_gpm / least_gpm,
            standard: of.rule.into(),
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
                how: sum(&of.lines.how),
                careful: of.lines.warnings.iter().map(sum).collect(),
            },
            beyond_any_shuttle: of.is_beyond_any_shuttle(),
            exposures_only_gpm: of.exposures_only.as_ref().map(|flow| flow.value),
            exposures_only_how: of.exposures_only.as_ref().map(sum_of).unwrap_or_default(),
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
            constants: ConstantFigures {
                water_celsius: (of.water.fahrenheit - 32.0) / 1.8,
                share_to_steam: of.water.share_to_steam,
                weight_lb_per_gal: of.water.pounds_a_gallon,
                heat_to_boil_btu_per_lb: of.water.btu_to_boil_a_pound,
                heat_to_steam_btu_per_gal: of.water.btu_to_steam_a_gallon,
                head_psi_per_ft: of.water.psi_a_foot,
            },
            hose_instead: of.hose.iter().map(HoseFigures::new).collect(),
            people: wanted.scenario.as_ref().map(people::needed),
            written: written.map(|written| WrittenFigures {
                file: written.path.display().to_string(),
                field: written.replaced.place.clone(),
                before_gpm: written.replaced.before,
                after_gpm: written.replaced.after,
            }),
        }
    }
}
