//! The figures of `check`.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::worksheet::{HAND_ALLOWANCE, TankerSheet};

use super::ByHand;
use crate::question::flow::RuleKey;
use crate::shared::hose::HoseFigures;
use crate::shared::people::PeopleFigures;
use crate::shared::station::CapFigures;
use crate::shared::sums::{SumPart, comes_to, sum};

/// The figures of `check`. Times count from the alarm.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CheckFigures {
    /// Whether the scenario may run; it is refused with its mistakes where it may not.
    pub sound: bool,
    /// The plan by hand.
    pub worksheet: WorksheetFigures,
    /// One fire with every duration at its mean.
    pub planned: PlannedFigures,
    /// People for the water.
    pub people: PeopleFigures,
    /// Hose in place of tankers, from each source whose distance is known.
    pub hose_instead: Vec<HoseFigures>,
    /// Sources that hold a stated volume.
    #[serde(rename = "limited_sources")]
    pub sources: Vec<SourceFigures>,
    /// Values worked out from facts.
    pub from_facts: Vec<FactFigures>,
}

/// The plan by hand: mean times, nobody waits, nothing breaks down.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WorksheetFigures {
    /// Greatest attack flow.
    pub peak_flow_gpm: f64,
    /// Sum of the tankers' rates by the hand formula: capacity less 10% over the cycle.
    pub hand_gpm: f64,
    /// Sum of their rates with the plan's own waste and residual.
    pub plan_gpm: f64,
    /// What the fill sites pass of the hand rates, each with the tankers assigned to it.
    pub passes_gpm: f64,
    /// What counts: the same, no more than passes at the scene.
    pub counts_gpm: f64,
    /// How much more that is than the greatest attack flow, as a share of it; below 0 where it is less.
    pub to_spare_share: f64,
    /// Whether every assignment of tankers to sites was weighed; else it was searched for.
    pub assignment_exact: bool,
    /// One a tanker.
    #[serde(rename = "tankers_by_hand")]
    pub tankers: Vec<TankerByHand>,
    /// One a fill site: what it passes of what its tankers make.
    #[serde(rename = "sites_by_hand")]
    pub sites: Vec<SiteByHand>,
    /// What each place passes on at most.
    pub caps: Vec<CapFigures>,
    /// The tightest of them, fill sites taken together.
    pub tightest: Option<CapFigures>,
    /// Tankers like the average one that reach the tightest cap; more add nothing.
    pub knee: Option<f64>,
    /// Tankers that it keeps busy throughout.
    pub knee_full_tankers: Option<u32>,
    /// What share of its water one more would bring.
    pub knee_one_more_brings: Option<f64>,
    /// Deliverable water on wheels.
    pub on_wheels_gal: f64,
    /// The same as minutes of the greatest attack flow.
    pub on_wheels_min: f64,
    /// The attack engine's own tank.
    pub engine_tank_gal: f64,
    /// The same as minutes of the greatest attack flow.
    pub engine_tank_min: f64,
    /// Usable water of full drop tanks as minutes of the greatest attack flow.
    pub drop_tanks_min: f64,
    /// Water wanted over the watch.
    pub wanted_gal: f64,
}

/// One fill site by hand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SiteByHand {
    /// Its name.
    pub name: String,
    /// Tankers assigned to it; 0: it is left unused.
    #[serde(rename = "tanker_count")]
    pub tankers: usize,
    /// The sum of their hand rates.
    pub made_gpm: f64,
    /// Fill positions they keep busy: the sum of service / cycle.
    pub busy_positions: f64,
    /// What it passes.
    pub passes_gpm: f64,
}

/// One tanker by hand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerByHand {
    /// Its name.
    pub name: String,
    /// The fill site it is assigned to.
    pub fill_site: String,
    /// Minutes by part of the cycle, in order.
    pub parts: Vec<PartByHand>,
    /// Their sum.
    #[serde(rename = "whole_cycle_min")]
    pub cycle_min: f64,
    /// Its tank.
    pub tank_gal: f64,
    /// By the hand formula: that less 10% over the cycle.
    pub hand_gpm: f64,
    /// With the plan's own waste and residual.
    pub plan_gpm: f64,
    /// What a whole load delivers.
    pub load_gal: f64,
}

/// A part of a cycle.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PartByHand {
    /// The part, as `cycle_min` of `risk` has it.
    #[schemars(schema_with = "crate::shared::closed_words::part")]
    pub part: &'static str,
    /// Its mean.
    pub mean_min: f64,
}

/// One fire with every duration at its mean.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PlannedFigures {
    /// First water, minutes after the alarm.
    pub first_water_min: f64,
    /// The flow the lines need, step by step, by the alarm's clock.
    pub flow_steps: Vec<FlowStepFigures>,
    /// Supply established, minutes after the alarm; null: never.
    pub established_min: Option<f64>,
    /// When the lines first run short, minutes after the alarm; null: never.
    pub first_short_min: Option<f64>,
    /// Why they do.
    #[schemars(schema_with = "crate::shared::closed_words::cause_or_null")]
    pub first_short_cause: Option<&'static str>,
    /// Minutes short in all.
    pub short_min: f64,
}

/// A flow from a minute on.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct FlowStepFigures {
    /// From when, minutes after the alarm.
    pub from_min: f64,
    /// The flow.
    pub flow_gpm: f64,
}

/// A source that holds a stated volume.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SourceFigures {
    /// Its name.
    pub name: String,
    /// What it holds.
    pub holds_gal: f64,
    /// That with what runs in over the watch, as times of what is wanted.
    pub times_wanted: f64,
}

/// A value worked out from facts.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FactFigures {
    /// Path of keys of the facts in the file.
    #[serde(rename = "field")]
    pub place: String,
    /// Of a building: the rule that counts.
    pub rule: Option<RuleKey>,
    /// What the facts give.
    pub gives: SumPart,
    /// How that is worked out, part by part.
    pub how: Vec<SumPart>,
}

impl CheckFigures {
    /// From the hand calculation.
    pub(super) fn new(scenario: &Scenario, by_hand: &ByHand) -> CheckFigures {
        let facts = scenario.plan.facts();
        let (sheet, planned) = (&by_hand.sheet, &by_hand.planned);
        let first = planned.interruptions.first();
        let wanted = sheet.wanted_gal;
        CheckFigures {
            sound: true,
            worksheet: WorksheetFigures {
                peak_flow_gpm: sheet.peak_flow_gpm,
                hand_gpm: sheet.hand_gpm,
                plan_gpm: sheet.plan_gpm,
                passes_gpm: sheet.passes_gpm,
                counts_gpm: sheet.counts().0,
                to_spare_share: sheet.counts().0 / sheet.peak_flow_gpm - 1.0,
                assignment_exact: sheet.exact,
                tankers: sheet.tankers.iter().map(tanker).collect(),
                sites: (facts.fill_sites.iter().zip(&sheet.site_credits))
                    .map(|(site, credit)| SiteByHand {
                        name: site.name.clone(),
                        tankers: credit.tankers,
                        made_gpm: credit.made_gpm,
                        busy_positions: credit.busy,
                        passes_gpm: credit.gpm,
                    })
                    .collect(),
                caps: sheet
                    .fill_caps
                    .iter()
                    .chain(&sheet.other_caps)
                    .map(CapFigures::new)
                    .collect(),
                tightest: (sheet.tightest_station.as_ref())
                    .map(|(station, gpm)| CapFigures::among(sheet, station, *gpm)),
                knee: sheet.knee,
                knee_full_tankers: sheet.knee.map(|knee| knee.floor() as u32),
                knee_one_more_brings: sheet.knee.map(f64::fract),
                on_wheels_gal: sheet.on_wheels_gal,
                on_wheels_min: sheet.on_wheels_min,
                engine_tank_gal: facts.attack_engine.tank,
                engine_tank_min: sheet.engine_tank_min,
                drop_tanks_min: sheet.drop_tanks_min,
                wanted_gal: wanted,
            },
            planned: PlannedFigures {
                first_water_min: planned.first_water,
                flow_steps: (facts.incident.attack_flow.iter())
                    .map(|step| FlowStepFigures {
                        from_min: planned.first_water + step.from,
                        flow_gpm: step.flow,
                    })
                    .collect(),
                established_min: planned.established,
                first_short_min: first.map(|one| one.start),
                first_short_cause: first.map(|one| one.cause.key()),
                short_min: planned.minutes_short.iter().sum(),
            },
            people: by_hand.people,
            hose_instead: by_hand.hose.iter().map(HoseFigures::new).collect(),
            sources: (facts.fill_sites.iter())
                .filter_map(|site| {
                    let holds_gal = site.volume?;
                    let in_all = holds_gal + site.recharge * facts.incident.duration;
                    let times_wanted = in_all / wanted;
                    Some(SourceFigures { name: site.name.clone(), holds_gal, times_wanted })
                })
                .collect(),
            from_facts: (scenario.derived.iter())
                .map(|one| FactFigures {
                    place: one.place.clone(),
                    rule: one.rule.map(RuleKey::from),
                    gives: comes_to(one.value, one.unit),
                    how: sum(&one.how),
                })
                .collect(),
        }
    }
}

fn tanker(one: &TankerSheet) -> TankerByHand {
    TankerByHand {
        name: one.name.clone(),
        fill_site: one.fill_site.clone(),
        parts: (one.parts.iter())
            .map(|(part, mean)| PartByHand { part: part.key(), mean_min: *mean })
            .collect(),
        cycle_min: one.cycle_min,
        tank_gal: one.hand_gpm * one.cycle_min / (1.0 - HAND_ALLOWANCE),
        hand_gpm: one.hand_gpm,
        plan_gpm: one.plan_gpm,
        load_gal: one.load_gal,
    }
}
