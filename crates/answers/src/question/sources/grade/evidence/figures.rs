//! What a survey asks for, as figures.

mod of_drills;

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::evidence::{Evidence, Figure};

use self::of_drills::{DrillFigures, HeldDrillFigures, drill_figures, held_drill};
use crate::question::grade::figures::{AidKey, aid_key};
use crate::shared::brings::BringsFigures;

/// What a survey asks for, as far as the scenario knows it; null is what it does not state.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct EvidenceFigures {
    /// The scenario's title.
    pub title: String,
    /// The edition the grading body works by.
    pub edition: Option<String>,
    /// The first engine.
    pub first_engine: String,
    /// Its own tank.
    pub first_engine_tank_gal: f64,
    /// Its pump at 150 psi.
    pub first_engine_pump_gpm: Option<f64>,
    /// The engine that drafts at the fire.
    pub pumping_engine: String,
    /// The rating of its pump.
    pub pumping_engine_rated_gpm: Option<f64>,
    /// Its lift.
    pub pumping_engine_lift_ft: Option<f64>,
    /// What its pump gives at the lift stated.
    pub pump_at_lift_gpm: Option<f64>,
    /// The drop tanks.
    #[serde(rename = "surveyed_drop_tanks")]
    pub drop_tanks: Vec<DropTankFigures>,
    /// Road from the station to the fire.
    pub station_to_fire_mi: Option<f64>,
    /// From the fire to the nearest creditable suction point.
    pub suction_point_ft: Option<f64>,
    /// Whether a procedure for large hose is shown.
    pub large_hose_shown: Option<bool>,
    /// People, training, papers.
    #[serde(rename = "people_and_papers")]
    pub department: DepartmentFigures,
    /// Everyone who comes or could, with when they arrive.
    pub arrivals: Vec<ArrivalFigures>,
    /// Drills that were held.
    pub drills_held: Vec<HeldDrillFigures>,
    /// The fill sites.
    #[serde(rename = "surveyed_sources")]
    pub sources: Vec<SourceFigures>,
    /// The tankers.
    #[serde(rename = "surveyed_tankers")]
    pub tankers: Vec<TankerFigures>,
    /// Times that were measured.
    pub drills: Vec<DrillFigures>,
}

/// A drop tank.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DropTankFigures {
    /// What it holds as it stands.
    pub capacity_gal: f64,
    /// What the strainer reaches of it.
    pub usable_gal: f64,
    /// Who brings it.
    pub brought_by: BringsFigures,
    /// Setting it up, mean.
    pub setup_min: f64,
}

/// People, training and papers of a department; null is what the scenario does not state.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct DepartmentFigures {
    /// Firefighters who respond, on average.
    pub firefighters: Option<f64>,
    /// People on apparatus that hauls water, not counted among them.
    pub people_on_water: Option<f64>,
    /// Structural training of each in a year.
    pub training_hours: Option<f64>,
    /// Share of buildings in reach.
    pub buildings_in_reach: Option<f64>,
    /// Share of all credit earned.
    pub credit_share: Option<f64>,
    /// Points for receiving and handling alarms.
    pub alarm_credit: Option<f64>,
    /// From the brake set to water shown.
    pub water_shown_min: Option<f64>,
    /// Years since the accreditation was renewed.
    pub renewed_years: Option<f64>,
    /// Written procedures for piped and hauled areas.
    pub procedures: Option<String>,
    /// Agreements for aid.
    pub agreements: Option<String>,
    /// Training with those on automatic aid.
    pub joint_training: Option<String>,
    /// How outside apparatus is alarmed.
    pub alarm_handling: Option<String>,
    /// How it talks on the fireground.
    pub communications: Option<String>,
}

/// When a unit arrives.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ArrivalFigures {
    /// Its name.
    pub name: String,
    /// Whose it is.
    pub aid: AidKey,
    /// When it is asked for, after the alarm.
    pub asked_at_min: f64,
    /// From then to the scene, mean.
    pub response_min: f64,
}

/// A fill site.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SourceFigures {
    /// Its name.
    pub name: String,
    /// Road from the fire.
    pub from_fire_mi: Option<f64>,
    /// The drive there, mean.
    pub out_min: f64,
    /// The drive back, mean.
    pub back_min: f64,
    /// The speed out, from start to stop; null where the distance is not stated.
    pub out_mph: Option<f64>,
    /// The speed back.
    pub back_mph: Option<f64>,
    /// Flow for all tankers filling at once.
    pub rate_gpm: f64,
    /// Tankers hooked up at once.
    pub positions: u32,
    /// Water to be had.
    pub quantity_gal: Option<f64>,
    /// What runs into it.
    pub recharge_gpm: Option<f64>,
    /// Whether it is there all year and in a 50-year drought.
    pub all_year: Option<bool>,
    /// Who certifies that.
    pub drought_certificate: Option<String>,
    /// When its flow was tested.
    pub flow_test: Option<String>,
    /// Who saw the test.
    pub flow_test_witness: Option<String>,
    /// What a hydrant's flow test found.
    pub flow_tested: Option<FlowTestedFigures>,
    /// When it was last inspected.
    pub inspected: Option<String>,
    /// The owner's agreement.
    pub agreement: Option<String>,
    /// How long the main gives its flow.
    pub main_lasts_hours: Option<f64>,
    /// The pump that fills there.
    pub pump_rated_gpm: Option<f64>,
    /// Its lift.
    pub pump_lift_ft: Option<f64>,
    /// From it to the water.
    pub pump_to_water_ft: Option<f64>,
}

/// A hydrant's flow test.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct FlowTestedFigures {
    /// Static pressure.
    pub static_psi: f64,
    /// Residual pressure while the flow ran.
    pub residual_psi: f64,
    /// The flow that ran.
    pub flow_gpm: f64,
    /// The residual pressure that the site's flow is worked out for.
    pub at_psi: f64,
}

/// A tanker.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerFigures {
    /// Its name.
    pub name: String,
    /// Whose it is.
    pub aid: AidKey,
    /// Whether that is stated; else it is taken to be the department's own.
    pub aid_is_stated: bool,
    /// The department that sends it.
    pub department: Option<String>,
    /// Whether its tank is sealed and fills and empties by vacuum.
    pub vacuum: bool,
    /// Its tank.
    pub tank_gal: f64,
    /// Rate into a drop tank.
    pub discharge_gpm: FigureStated,
    /// Greatest rate at which it fills.
    #[serde(rename = "fill_limit_gpm")]
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

impl EvidenceFigures {
    /// From a sheet.
    pub fn new(sheet: &Evidence) -> EvidenceFigures {
        let survey = &sheet.survey;
        let stated = |figure: Figure| FigureStated { value: figure.value, assumed: figure.assumed };
        EvidenceFigures {
            title: sheet.title.clone(),
            edition: survey.edition.clone(),
            first_engine: sheet.first_engine.clone(),
            first_engine_tank_gal: sheet.first_engine_tank_gal,
            first_engine_pump_gpm: survey.first_engine_pump_gpm,
            pumping_engine: sheet.pumping_engine.clone(),
            pumping_engine_rated_gpm: survey.drafting_pump_gpm,
            pumping_engine_lift_ft: survey.drafting_lift_ft,
            pump_at_lift_gpm: sheet.pump_at_lift_gpm,
            drop_tanks: (sheet.drop_tanks.iter())
                .map(|tank| DropTankFigures {
                    capacity_gal: tank.capacity_gal,
                    usable_gal: tank.usable_gal,
                    brought_by: match &tank.brought_by {
                        Some(name) => BringsFigures::Unit { name: name.clone() },
                        None => BringsFigures::Itself,
                    },
                    setup_min: tank.setup_min,
                })
                .collect(),
            station_to_fire_mi: survey.station_miles,
            suction_point_ft: survey.suction_point_ft,
            large_hose_shown: survey.large_hose_shown,
            department: DepartmentFigures {
                firefighters: survey.firefighters,
                people_on_water: survey.people_on_water,
                training_hours: survey.training_hours,
                buildings_in_reach: survey.buildings_in_reach,
                credit_share: survey.credit_share,
                alarm_credit: survey.alarm_credit,
                water_shown_min: survey.water_shown_min,
                renewed_years: survey.renewed_years,
                procedures: survey.procedures.clone(),
                agreements: survey.agreements.clone(),
                joint_training: survey.joint_training.clone(),
                alarm_handling: survey.alarm_handling.clone(),
                communications: survey.communications.clone(),
            },
            arrivals: (sheet.arrivals.iter())
                .map(|one| ArrivalFigures {
                    name: one.name.clone(),
                    aid: aid_key(one.aid),
                    asked_at_min: one.asked_at_min,
                    response_min: one.response_min,
                })
                .collect(),
            drills_held: survey.drills.iter().map(held_drill).collect(),
            sources: (sheet.sources.iter())
                .map(|source| SourceFigures {
                    name: source.name.clone(),
                    from_fire_mi: source.from_fire_miles,
                    out_min: source.out_min,
                    back_min: source.back_min,
                    out_mph: speed(source.out_miles, source.out_min),
                    back_mph: speed(source.back_miles, source.back_min),
                    rate_gpm: source.rate_gpm,
                    positions: source.positions,
                    quantity_gal: source.quantity_gal,
                    recharge_gpm: source.recharge_gpm,
                    all_year: source.survey.all_year,
                    drought_certificate: source.survey.drought_certificate.clone(),
                    flow_test: source.survey.flow_test.clone(),
                    flow_test_witness: source.survey.flow_test_witness.clone(),
                    flow_tested: source.survey.flow_tested.map(|test| FlowTestedFigures {
                        static_psi: test.static_psi,
                        residual_psi: test.residual_psi,
                        flow_gpm: test.flow_gpm,
                        at_psi: test.at_psi,
                    }),
                    inspected: source.survey.inspected.clone(),
                    agreement: source.survey.agreement.clone(),
                    main_lasts_hours: source.survey.main_lasts_hours,
                    pump_rated_gpm: source.survey.pump_rated_gpm,
                    pump_lift_ft: source.survey.pump_lift_ft,
                    pump_to_water_ft: source.survey.pump_to_water_ft,
                })
                .collect(),
            tankers: (sheet.tankers.iter())
                .map(|tanker| TankerFigures {
                    name: tanker.name.clone(),
                    aid: aid_key(tanker.survey.aid),
                    aid_is_stated: tanker.survey.aid_is_stated,
                    department: tanker.department.clone(),
                    vacuum: tanker.survey.vacuum,
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

/// The mean speed from start to stop, mph.
fn speed(miles: Option<f64>, minutes: f64) -> Option<f64> {
    miles.filter(|_| minutes > 0.0).map(|miles| 60.0 * miles / minutes)
}
