//! The figures of `request`.

use scenario_file::Alarm;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::request::{AidChange, Around, RequestAnswer, Unit};
use shuttle_sim::{FlowStep, Plan};

use super::losses::{SpareFigures, spare};
use super::sets::{SetFigures, set};
use crate::question::hold::HeldFigures;
use crate::say::Chances;
use crate::shared::against::Against;
use crate::shared::asked::FlowFigures;
use crate::shared::bottleneck::Bottleneck;
use crate::shared::doubt::DoubtFigures;
use crate::shared::held_back::{CauseShare, cause_shares};
use crate::shared::luck::SharedLuck;

/// The figures of `request`.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RequestFigures {
    /// Chance that the lines run short to stay below.
    pub target: f64,
    /// Whether a set is shown to be below it.
    pub meets_target: bool,
    /// Share of fires in which the lines run short with the request.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, for all sets that were tried at once.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// What the 95% of that interval are of.
    pub interval: Interval,
    /// Tankers that come anyway.
    pub own_tankers: usize,
    /// Tankers that could be asked for.
    pub aid_tankers: usize,
    /// Whom to ask for, in the order to ask; everyone there is where no set is enough.
    #[serde(rename = "ask_for")]
    pub request: Vec<UnitFigures>,
    /// Pumps that come to a fill site by themselves, in the order to ask: without them nobody fills there.
    pub pumps: Vec<PumpFigures>,
    /// A smaller number that may already do, where the fires simulated did not tell.
    pub perhaps: Option<usize>,
    /// By number of units asked for, from none: the best set of each.
    pub sizes: Vec<SetFigures>,
    /// Whether every set up to the size of the request was tried; if not, units were added one by one.
    pub all_sets_tried: bool,
    /// The request asked for later.
    pub late: Vec<LateFigures>,
    /// Every unit sure to come, own ones too; null where all are.
    pub all_come: Option<ChangeFigures>,
    /// The request with one call more.
    pub one_more: Vec<OneMoreFigures>,
    /// Names of units whose coming makes no difference that shows.
    pub no_difference: Vec<String>,
    /// Names of units whose coming makes it worse.
    pub in_the_way: Vec<String>,
    /// How far the chance with the request can be trusted; none where every input is taken as known.
    pub doubt: Option<DoubtFigures>,
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
    /// What it takes to stand the loss of any one unit or source; null where that was not asked, or no set meets the
    /// target.
    pub spare: Option<SpareFigures>,
    /// Share of fires in which the water kept for backing out is touched with the request.
    #[serde(rename = "reserve_touched_share")]
    pub reserve_touched: f64,
    /// Where no request meets the target: why the lines first run short with all there are; empty elsewhere.
    pub held_back_by: Vec<CauseShare>,
    /// Where no request meets the target: what passes at most by hand with all there are, where that is little; null elsewhere.
    pub bottleneck: Option<Bottleneck>,
    /// Where no request meets the target: what all there are can hold; null elsewhere.
    pub most_held: Option<HeldFigures>,
    /// Where no request meets the target and something can be held: the flow to ask for in its place, step by step;
    /// null elsewhere.
    pub ask_instead: Option<Vec<FlowFigures>>,
    /// Whom to ask for then; null where no request for that flow is shown to be below the target either.
    pub request_instead: Option<Box<RequestFigures>>,
    /// Where that does not stand the loss of any one unit or source: a flow, step by step, for which a request does; null
    /// where none of a hand line or more does, and elsewhere.
    pub any_one_lost_flow: Option<Vec<FlowFigures>>,
}

/// A later step that is less than this times the first is no order worth giving. Judgement.
const WORTH_A_STEP: f64 = 1.1;

/// The flow to ask for where the one wanted cannot be had: what surely holds, in steps where those hold one after the
/// other.
///
/// - Given: first water, by means, minutes after the alarm; the greatest flow that is wanted; from which minute after the
///   alarm how much more than the first holds after it.
pub(super) fn instead(
    held: &HeldFigures,
    first_water_min: f64,
    wanted_gpm: f64,
    later: Option<(f64, f64)>,
) -> Option<Vec<FlowFigures>> {
    let first = held.steps.first()?;
    // Nobody asked for more than the wish.
    let flow = |gpm: f64| gpm.min(wanted_gpm);
    let after = |from_min: f64| (from_min - first_water_min).ceil().max(0.0);
    let begins = if first.at_first_water { 0.0 } else { after(first.from_min) };
    let step =
        |from_first_water_min, gpm| FlowFigures { from_first_water_min, flow_gpm: flow(gpm) };
    let later = later.map(|(from_min, gpm)| step(after(from_min), gpm));
    let is_worth_it = |later: &FlowFigures| {
        later.flow_gpm >= WORTH_A_STEP * flow(first.flow_gpm) && later.from_first_water_min > begins
    };
    let first = step(begins, first.flow_gpm);
    Some([first].into_iter().chain(later.filter(is_worth_it)).collect())
}

/// What is wanted, begun with less.
pub(super) fn begun_lower(wanted: &[FlowStep], first_gpm: f64) -> Vec<FlowFigures> {
    let steps = wanted.iter().enumerate().map(|(place, step)| FlowFigures {
        from_first_water_min: step.from,
        flow_gpm: if place == 0 { first_gpm } else { step.flow },
    });
    steps.collect()
}

/// A unit to ask for.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct UnitFigures {
    /// Its name.
    pub name: String,
    /// Its department; null where the scenario names none.
    pub department: Option<String>,
    /// The alarm it is on: `first` to `fifth`; null where the scenario names none.
    #[schemars(schema_with = "crate::shared::closed_words::alarm_or_null")]
    pub alarm: Option<&'static str>,
    /// The call that brings it, in the order to ask; a result counts it from 1; units of one call come together or not at all.
    #[serde(serialize_with = "crate::shared::closed_words::from_one")]
    pub call: usize,
    /// Its tank.
    pub capacity_gal: f64,
    /// When it is asked for, minutes after the alarm.
    pub requested_at_min: f64,
    /// How long it takes to come, minutes, mean.
    pub response_min: f64,
    /// Share of calls to which it comes.
    pub comes_share: f64,
    /// Whether it brings a drop tank.
    pub brings_drop_tank: bool,
    /// The names of the fill sites whose pump it brings.
    pub brings_pump_to: Vec<String>,
    /// The request without it and those that come with it, or without one like it, where that was tried.
    pub without_it: Option<ChangeFigures>,
}

/// A pump or engine that comes to a fill site by itself.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct PumpFigures {
    /// Its name.
    pub name: String,
    /// The name of the fill site it pumps at.
    pub fill_site: String,
    /// When it is asked for, minutes after the alarm.
    pub requested_at_min: f64,
    /// How long it takes to come, minutes, mean.
    pub response_min: f64,
}

/// The request changed a little.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ChangeFigures {
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// How much higher that is than with the request; the intervals hold for all changes at once.
    pub higher_by: Apart,
    /// What can be said of it.
    #[serde(rename = "effect")]
    pub verdict: Against,
}

/// The request asked for later.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LateFigures {
    /// By so many minutes.
    pub later_by_min: f64,
    /// What that does.
    #[serde(rename = "outcome")]
    pub change: ChangeFigures,
}

/// The request with one call more.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct OneMoreFigures {
    /// The names of those it brings.
    pub names: Vec<String>,
    /// What that does.
    #[serde(rename = "outcome")]
    pub change: ChangeFigures,
}

impl PumpFigures {
    /// Those of a plan that come by themselves, in the order to ask.
    pub fn of(plan: &Plan) -> Vec<PumpFigures> {
        let mut pumps: Vec<PumpFigures> = (plan.facts().fill_sites.iter())
            .filter_map(|site| {
                let pump = site.source_pump.as_ref()?;
                let call = pump.call()?;
                Some(PumpFigures {
                    name: pump.name.clone(),
                    fill_site: site.name.clone(),
                    requested_at_min: call.requested_at,
                    response_min: call.response.mean(),
                })
            })
            .collect();
        pumps.sort_by(|a, b| a.requested_at_min.total_cmp(&b.requested_at_min));
        pumps
    }
}

impl RequestFigures {
    /// From what was found out, with the tankers that come anyway and those that could be asked for, the
    /// department and the alarm of a unit by its name, how far the chance can be trusted, and what a fire was taken to share.
    pub fn new(
        found: &RequestAnswer,
        (own_tankers, aid_tankers): (usize, usize),
        pumps: Vec<PumpFigures>,
        called: impl Fn(&str) -> (Option<String>, Option<Alarm>),
        doubt: Option<DoubtFigures>,
        shared_luck: SharedLuck,
    ) -> RequestFigures {
        RequestFigures {
            doubt,
            shared_luck,
            target: found.target,
            meets_target: found.meets_target,
            interruption_probability: found.interruption_probability,
            ci_low: found.ci_low,
            ci_high: found.ci_high,
            interval: Interval::AllAtOnce,
            own_tankers,
            aid_tankers,
            request: by_department(found.request.iter().map(|one| unit(one, &called)).collect()),
            pumps,
            perhaps: found.perhaps,
            sizes: found.sizes.iter().map(|row| set(row, found)).collect(),
            all_sets_tried: found.all_sets_tried,
            late: (found.late.iter())
                .filter_map(|around| match around.change {
                    AidChange::Later(later_by_min) => {
                        Some(LateFigures { later_by_min, change: change(around) })
                    }
                    _ => None,
                })
                .collect(),
            all_come: found.all_come.as_ref().map(change),
            one_more: (found.one_more.iter())
                .filter_map(|around| match &around.change {
                    AidChange::OneMore(names) => {
                        Some(OneMoreFigures { names: names.clone(), change: change(around) })
                    }
                    _ => None,
                })
                .collect(),
            no_difference: found.add_nothing.clone(),
            in_the_way: found.in_the_way.clone(),
            spare: found.spare.as_ref().map(spare),
            reserve_touched: found.reserve_touched,
            held_back_by: cause_shares(&found.held_back_by),
            bottleneck: None,
            most_held: None,
            ask_instead: None,
            request_instead: None,
            any_one_lost_flow: None,
        }
    }

    /// The request that is worth telling: where no request is enough, that for what can be held.
    pub fn told_of(&self) -> &RequestFigures {
        self.request_instead.as_deref().unwrap_or(self)
    }

    /// The names of those that one call brings.
    pub fn of_call(&self, call: usize) -> Vec<&str> {
        let brought = self.request.iter().filter(|unit| unit.call == call);
        brought.map(|unit| unit.name.as_str()).collect()
    }

    /// Whether a unit is the first that is told of its call.
    pub fn leads_call(&self, unit: &UnitFigures) -> bool {
        self.of_call(unit.call).first() == Some(&unit.name.as_str())
    }

    /// Every fire is lost whatever is asked: changes to the request say nothing.
    pub fn is_hopeless(&self) -> bool {
        !self.meets_target && self.interruption_probability >= 1.0
    }

    /// Calls of the request.
    pub fn calls(&self) -> usize {
        self.request.iter().filter(|unit| self.leads_call(unit)).count()
    }

    /// The best set of this size, if that size was tried.
    pub fn of_size(&self, units: usize) -> Option<&SetFigures> {
        self.sizes.iter().find(|row| row.units == units)
    }
}

impl ChangeFigures {
    /// How often the lines then run short.
    pub fn chances(&self) -> Chances {
        Chances::of(self.interruption_probability, self.replications)
    }
}

/// One call brings all of a department that are asked for at one minute: they stand together, where the first of them does,
/// and the calls are numbered anew.
fn by_department(units: Vec<UnitFigures>) -> Vec<UnitFigures> {
    let is_with = |a: &UnitFigures, b: &UnitFigures| {
        a.requested_at_min == b.requested_at_min
            && a.alarm == b.alarm
            && (a.call == b.call || a.department.is_some() && a.department == b.department)
    };
    let mut ordered: Vec<UnitFigures> = Vec::new();
    for unit in units {
        let behind = ordered.iter().rposition(|one| is_with(one, &unit));
        ordered.insert(behind.map_or(ordered.len(), |place| place + 1), unit);
    }
    let mut calls: Vec<usize> = Vec::new();
    for unit in &mut ordered {
        let number = calls.iter().position(|call| *call == unit.call).unwrap_or_else(|| {
            calls.push(unit.call);
            calls.len() - 1
        });
        unit.call = number;
    }
    ordered
}

fn unit(unit: &Unit, called: impl Fn(&str) -> (Option<String>, Option<Alarm>)) -> UnitFigures {
    let (department, alarm) = called(&unit.name);
    UnitFigures {
        name: unit.name.clone(),
        department,
        alarm: alarm.map(Alarm::key),
        call: unit.call,
        capacity_gal: unit.capacity_gal,
        requested_at_min: unit.requested_at_min,
        response_min: unit.response_min,
        comes_share: unit.turnout,
        brings_drop_tank: unit.brings_drop_tank,
        brings_pump_to: unit.brings_pump_to.clone(),
        without_it: unit.without_it.as_ref().map(change),
    }
}

fn change(around: &Around) -> ChangeFigures {
    ChangeFigures {
        replications: around.replications,
        interruption_probability: around.interruption_probability,
        higher_by: around.higher_by,
        verdict: around.told.into(),
    }
}
