//! What a scenario states for a grading and the simulation has no use for.

use serde::Serialize;

use super::grading_rules::GradingRule;

/// Whose a tanker is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Aid {
    /// The department's own.
    #[default]
    Own,
    /// Sent by agreement with the first alarm.
    Automatic,
    /// Comes when it is asked for.
    Mutual,
}

/// What is stated of a tanker.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TankerSurvey {
    /// Whose it is.
    pub aid: Aid,
    /// A sealed vacuum tank, which fills and empties whole.
    pub vacuum: bool,
    /// Whether the scenario says whose it is; else it is taken to be the department's own.
    pub aid_is_stated: bool,
}

/// A hydrant's flow test (NFPA 291).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowTested {
    /// Static pressure, psi.
    pub static_psi: f64,
    /// Residual pressure while the flow ran, psi.
    pub residual_psi: f64,
    /// The flow that ran, gpm.
    pub flow_gpm: f64,
    /// The residual pressure that the flow is worked out for, psi.
    pub at_psi: f64,
}

/// What is stated of a fill site. Texts are the file's own words.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SiteSurvey {
    /// Whether it is there all year, day and night, and in a 50-year drought.
    pub all_year: Option<bool>,
    /// Who certifies that, and when.
    pub drought_certificate: Option<String>,
    /// When its flow was tested.
    pub flow_test: Option<String>,
    /// Who saw the test.
    pub flow_test_witness: Option<String>,
    /// When the access, pipe or hydrant was last inspected.
    pub inspected: Option<String>,
    /// The owner's agreement.
    pub agreement: Option<String>,
    /// How long the main gives its flow, hours.
    pub main_lasts_hours: Option<f64>,
    /// Whether it is a hydrant, by its flow: nobody lifts water there.
    pub is_hydrant: bool,
    /// What a flow test found there.
    pub flow_tested: Option<FlowTested>,
    /// From the pump that fills to the water, ft.
    pub pump_to_water_ft: Option<f64>,
    /// Rating of the pump that fills, gpm.
    pub pump_rated_gpm: Option<f64>,
    /// Its lift, ft.
    pub pump_lift_ft: Option<f64>,
}

/// A drill that was held.
#[derive(Debug, Clone, PartialEq)]
pub struct HeldDrill {
    /// When, in the file's own words.
    pub date: String,
    /// The flow that was held, gpm.
    pub flow_gpm: Option<f64>,
    /// For how long, minutes.
    pub minutes: Option<f64>,
    /// From the brake set to water shown, minutes.
    pub water_shown_min: Option<f64>,
    /// Road to the source, one way, miles.
    pub source_miles: Option<f64>,
    /// Who saw it.
    pub witness: Option<String>,
}

/// The road from an address to a fill site.
#[derive(Debug, Clone, PartialEq)]
pub struct AddressRoad {
    /// The fill site, by name.
    pub site: String,
    /// The road, taken to be the same both ways.
    pub leg: shuttle_sim::Leg,
}

/// A place to be graded with the units of the scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct Address {
    /// Its name.
    pub name: String,
    /// Road from the nearest station, miles.
    pub station_miles: Option<f64>,
    /// To the nearest creditable suction point, ft.
    pub suction_point_ft: Option<f64>,
    /// The roads to the sites that serve it.
    pub roads: Vec<AddressRoad>,
}

/// All that is stated; what is not stays `None`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Survey {
    /// Road from the fire to the nearest station, miles.
    pub station_miles: Option<f64>,
    /// From the fire to the nearest creditable suction point, ft.
    pub suction_point_ft: Option<f64>,
    /// Whether a procedure for large hose to a farther suction point is shown.
    pub large_hose_shown: Option<bool>,
    /// Rating of the first engine's pump at 150 psi, gpm.
    pub first_engine_pump_gpm: Option<f64>,
    /// Rating of the pump that drafts at the fire, gpm.
    pub drafting_pump_gpm: Option<f64>,
    /// Its lift, ft.
    pub drafting_lift_ft: Option<f64>,
    /// Firefighters who respond, on average.
    pub firefighters: Option<f64>,
    /// People on apparatus that hauls water, who are not counted among them.
    pub people_on_water: Option<f64>,
    /// Structural training a firefighter has in a year, hours.
    pub training_hours: Option<f64>,
    /// Share of buildings in reach.
    pub buildings_in_reach: Option<f64>,
    /// Credit earned of all there is, as a share.
    pub credit_share: Option<f64>,
    /// Credit for receiving and handling alarms, points.
    pub alarm_credit: Option<f64>,
    /// From the brake set to a drop tank deployed and water shown, minutes.
    pub water_shown_min: Option<f64>,
    /// Years since the accreditation was last renewed.
    pub renewed_years: Option<f64>,
    /// The edition the grading body works by.
    pub edition: Option<String>,
    /// Written procedures for piped and hauled areas.
    pub procedures: Option<String>,
    /// Agreements for automatic and mutual aid.
    pub agreements: Option<String>,
    /// Joint training with those who come on automatic aid.
    pub joint_training: Option<String>,
    /// How outside apparatus is alarmed.
    pub alarm_handling: Option<String>,
    /// How it talks on the fireground.
    pub communications: Option<String>,
    /// Drills that were held.
    pub drills: Vec<HeldDrill>,
    /// By entry of the file's `tankers`, those of `aid` behind them: as `Tanker::listed` counts.
    pub tankers: Vec<TankerSurvey>,
    /// Departments that send them, in the same order.
    pub departments: Vec<Option<String>>,
    /// By fill site.
    pub sites: Vec<SiteSurvey>,
    /// Rules of the scenario's own.
    pub rules: Vec<GradingRule>,
    /// Places to be graded.
    pub addresses: Vec<Address>,
}

impl Survey {
    /// What is stated of a tanker.
    pub fn of_tanker(&self, tanker: &shuttle_sim::Tanker) -> TankerSurvey {
        self.tankers.get(tanker.listed).copied().unwrap_or_default()
    }

    /// The department that sends a tanker, if the scenario says so.
    pub fn department_of(&self, tanker: &shuttle_sim::Tanker) -> Option<&String> {
        self.departments.get(tanker.listed)?.as_ref()
    }
}
