//! The figures of `risk`: MODEL.md names those at the top.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::cures::cures;
use shuttle_report::options_compared::Apart;
use shuttle_report::summary::{Band, Chance, Spread, Summary};
use shuttle_report::what_would_help::{CountsOn, Help};
use shuttle_sim::Plan;

use super::middle_half;
use crate::shared::Whom;
use crate::shared::asked::FlowFigures;
use crate::shared::changes::ChangeFigures;
use crate::shared::doubt::DoubtFigures;
use crate::shared::luck::SharedLuck;

/// The figures of `risk`. Keys carry their units; times count from the alarm.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RiskFigures {
    /// Share of fires in which the lines run short at least once.
    pub interruption_probability: f64,
    /// Lower end of its exact binomial 95% interval.
    pub ci_low: f64,
    /// Upper end of that interval.
    pub ci_high: f64,
    /// The same for shortfalls that begin before the supply is established.
    pub before_supply: Chance,
    /// The same for those that begin after.
    pub after_supply: Chance,
    /// The same for the reserve being touched.
    pub reserve_touched: Chance,
    /// Interruptions a fire, mean.
    pub interruptions_mean: f64,
    /// Minutes short a fire, every shortfall counted: mean.
    pub interrupted_minutes_mean: f64,
    /// Its standard error.
    pub interrupted_minutes_se: f64,
    /// Half of its 95% interval.
    pub interrupted_minutes_plus_or_minus: f64,
    /// Minutes short before the supply is established, mean.
    pub interrupted_minutes_before_mean: f64,
    /// Minutes short after it, mean.
    pub interrupted_minutes_after_mean: f64,
    /// Minutes short that only 5% of fires exceed.
    pub interrupted_minutes_worst_5_percent: Option<f64>,
    /// Water wanted and not delivered, mean.
    pub unmet_gal_mean: f64,
    /// Its standard error.
    pub unmet_gal_se: f64,
    /// Water delivered, mean.
    pub delivered_gal_mean: f64,
    /// Its standard error.
    pub delivered_gal_se: f64,
    /// Water delivered that only 5% of fires stay below.
    pub delivered_gal_worst_5_percent: Option<f64>,
    /// Water wanted over the watch.
    pub wanted_gal: f64,
    /// The flow the lines need, step by step.
    pub attack_flow: Vec<FlowFigures>,
    /// The greatest of them.
    pub peak_flow_gpm: f64,
    /// How long it is wanted, from first water.
    pub duration_min: f64,
    /// Water kept in the attack engine for backing out.
    pub reserve_gal: f64,
    /// The attack engine's own tank.
    pub engine_tank_gal: f64,
    /// Water below the strainer's reach in the first drop tank; null where there is none.
    pub unusable_gal: Option<f64>,
    /// The minutes after the alarm between which the middle half of the first shortfalls begin; null where there were
    /// none.
    pub watch_from_min: Option<f64>,
    /// The last of them.
    pub watch_to_min: Option<f64>,
    /// First water, minutes after the alarm, mean.
    pub first_water_min_mean: f64,
    /// When the supply was established, minutes after the alarm: mean over the fires where it was.
    pub established_min_mean: Option<f64>,
    /// Share of fires where it was.
    pub established_share: f64,
    /// Minute after first water of the first shortfall, over fires that run short.
    pub first_interruption_min: Option<Spread>,
    /// The same by minutes after the alarm.
    pub first_interruption_alarm_min: Option<Spread>,
    /// Lowest level of the attack engine's tank.
    pub lowest_engine_gal: Spread,
    /// Lowest level of the first drop tank since the pump first drew.
    pub lowest_drop_tank_gal: Option<Spread>,
    /// Share of first interruptions by cause; empty if there were none.
    #[schemars(schema_with = "crate::shared::closed_words::by_cause")]
    pub causes: BTreeMap<&'static str, f64>,
    /// Whom or what those are about, where it is one: greatest share first.
    pub causes_about: Vec<CauseAbout>,
    /// What held within the causes, where it can be told further, in the order in which it is asked about.
    pub causes_of_which: Vec<CauseOfWhich>,
    /// First interruptions by whole minute after first water, share of fires.
    pub first_interruption_by_minute: Vec<f64>,
    /// The same by whole minute after the alarm, up to the last in which there is one.
    pub first_interruption_by_alarm_minute: Vec<f64>,
    /// Share of fires short at some time within each whole minute after the alarm, up to the last in which one is.
    pub short_by_alarm_minute: Vec<f64>,
    /// Minutes of a cycle by part, mean over all whole cycles; empty if there were none.
    #[schemars(schema_with = "crate::shared::closed_words::by_part")]
    pub cycle_min: BTreeMap<&'static str, f64>,
    /// The sum of them.
    pub whole_cycle_min: f64,
    /// Of which, by part.
    pub cycle_of_which_min: CycleOfWhich,
    /// How busy each place is.
    pub busy: Busy,
    /// By tanker.
    pub tankers: Vec<TankerFigures>,
    /// Water taken by fill site.
    pub taken: Vec<Taken>,
    /// Levels over time, where they were kept.
    pub level: Option<LevelFigures>,
    /// The fire with most minutes short, as `replay --run` counts; none if none ran short.
    pub worst_run: Option<u64>,
    /// What would help, best first; every change was run.
    pub would_help: Vec<HelpFigures>,
    /// Everything that was tried, whatever it does; a cure of one cause only where that came up.
    pub tried: Vec<TriedFigures>,
    /// What a pump operator who never gates down would cost; none where the plan has that operator already,
    /// nobody drafts, it surely costs nothing, or it was not tried.
    pub never_gating_down: Option<HarmFigures>,
    /// How far the chance can be trusted; none where every input is taken as known.
    pub doubt: Option<DoubtFigures>,
    /// What a whole fire was taken to share.
    pub shared_luck: SharedLuck,
}

/// Share of the time watched by place.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Busy {
    /// Fill positions.
    pub fill_positions: Vec<BusyPlace>,
    /// Dump positions.
    pub dump_positions: Vec<BusyTank>,
    /// The attack engine's intakes.
    pub intakes: f64,
}

/// First interruptions of one cause that are about one unit or source.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CauseAbout {
    /// The cause.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
    pub cause: &'static str,
    /// Whom or what it is about.
    pub about: Whom,
    /// Share of all first interruptions.
    pub share: f64,
}

/// First interruptions of one cause in which the same thing held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CauseOfWhich {
    /// The cause.
    #[schemars(schema_with = "crate::shared::closed_words::cause")]
    pub cause: &'static str,
    /// What held; `intake_free`: a loaded tanker waited, or stood at a full drop tank, while an intake of the attack
    /// engine was free.
    #[serde(rename = "of_which")]
    #[schemars(schema_with = "crate::shared::closed_words::of_which")]
    pub kind: &'static str,
    /// Share of all first interruptions.
    pub share: f64,
}

/// What parts of a cycle are made of.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct CycleOfWhich {
    /// Of `dump`: held up by a full drop tank, beyond what the load takes at its own rate.
    pub dump_held_up: f64,
}

/// Share of the time watched that a place was held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BusyPlace {
    /// Its name.
    pub name: String,
    /// The share.
    pub share: f64,
}

/// Share of the time watched that a drop tank's dump positions were held.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BusyTank {
    /// The drop tank's place in the list, from 1.
    pub number: usize,
    /// The share.
    pub share: f64,
}

/// One tanker's means.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TankerFigures {
    /// Its name.
    pub name: String,
    /// Loads brought in a fire.
    pub trips_mean: f64,
    /// Water delivered in a fire.
    pub delivered_gal_mean: f64,
    /// Minutes of a cycle by part.
    #[schemars(schema_with = "crate::shared::closed_words::by_part")]
    pub cycle_min: BTreeMap<&'static str, f64>,
    /// Of which, by part.
    pub cycle_of_which_min: CycleOfWhich,
}

/// Water taken at a fill site.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Taken {
    /// Its name.
    pub name: String,
    /// In a fire, mean.
    pub taken_gal_mean: f64,
}

/// Levels over time, where at least half of the fires are being watched.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LevelFigures {
    /// Minutes after the alarm, one a mark.
    pub minute: Vec<f64>,
    /// One a drop tank.
    pub drop_tanks_gal: Vec<BandFigures>,
    /// The attack engine's tank.
    pub attack_engine_gal: BandFigures,
}

/// Five quantiles of a level, one of each a mark.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct BandFigures {
    /// 5%.
    pub p5: Vec<f64>,
    /// 25%.
    pub p25: Vec<f64>,
    /// 50%.
    pub p50: Vec<f64>,
    /// 75%.
    pub p75: Vec<f64>,
    /// 95%.
    pub p95: Vec<f64>,
}

/// A change and what it does.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HelpFigures {
    /// What is changed.
    pub change: ChangeFigures,
    /// Fires simulated with it: the first of those of the plan.
    pub replications: u64,
    /// The chance with it.
    pub interruption_probability: f64,
    /// Lower end of its 95% interval, by itself.
    pub ci_low: f64,
    /// Upper end.
    pub ci_high: f64,
    /// How much higher the chance is than as it stands, on the fires that both had; its 95% interval holds for
    /// all changes at once.
    pub higher_by: Apart,
}

/// A change that was tried.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TriedFigures {
    /// The change and what it does.
    #[serde(flatten)]
    pub tried: HelpFigures,
    /// The causes that it is a cure of.
    #[schemars(schema_with = "crate::shared::closed_words::some_causes")]
    pub cures: Vec<&'static str>,
    /// Whether it makes no difference in any fire: not whether the lines run short, nor for how long, nor in what
    /// they get or how low the attack engine runs.
    pub never_binds: bool,
}

/// A change that hurts.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct HarmFigures {
    /// Fires simulated with it.
    pub replications: u64,
    /// The chance with it.
    pub interruption_probability: f64,
    /// How much higher the chance is, on the fires that both had, with its 95% interval.
    pub higher_by: Apart,
}

impl RiskFigures {
    /// From the plan's batch in figures, the changes that help, what the plan counts on, and how far the chance can
    /// be trusted.
    pub fn new(
        plan: &Plan,
        summary: Summary,
        (helps, tried): (&[Help], &[Help]),
        counts_on: Option<CountsOn>,
        doubt: Option<DoubtFigures>,
    ) -> RiskFigures {
        let facts = plan.facts();
        let steps = &facts.incident.attack_flow;
        let watch = summary.first_interruption_min.map(|_| middle_half(&summary));
        RiskFigures {
            doubt,
            shared_luck: SharedLuck::of(plan),
            interruption_probability: summary.interruption_probability,
            ci_low: summary.ci_low,
            ci_high: summary.ci_high,
            before_supply: summary.before_supply,
            after_supply: summary.after_supply,
            reserve_touched: summary.reserve_touched,
            interruptions_mean: summary.interruptions_mean,
            interrupted_minutes_mean: summary.interrupted_minutes_mean,
            interrupted_minutes_se: summary.interrupted_minutes_se,
            interrupted_minutes_plus_or_minus: 1.96 * summary.interrupted_minutes_se,
            interrupted_minutes_before_mean: summary.interrupted_minutes_before_mean,
            interrupted_minutes_after_mean: summary.interrupted_minutes_after_mean,
            interrupted_minutes_worst_5_percent: summary.interrupted_minutes_worst_5_percent,
            unmet_gal_mean: summary.unmet_gal_mean,
            unmet_gal_se: summary.unmet_gal_se,
            delivered_gal_mean: summary.delivered_gal_mean,
            delivered_gal_se: summary.delivered_gal_se,
            delivered_gal_worst_5_percent: summary.delivered_gal_worst_5_percent,
            wanted_gal: summary.wanted_gal,
            attack_flow: (steps.iter())
                .map(|step| FlowFigures { from_first_water_min: step.from, flow_gpm: step.flow })
                .collect(),
            peak_flow_gpm: steps.iter().fold(0.0, |most: f64, step| most.max(step.flow)),
            duration_min: facts.incident.duration,
            reserve_gal: facts.incident.reserve,
            engine_tank_gal: facts.attack_engine.tank,
            unusable_gal: facts.drop_tanks.first().map(|tank| tank.unusable),
            watch_from_min: watch.map(|(from, _)| from),
            watch_to_min: watch.map(|(_, to)| to),
            first_water_min_mean: summary.first_water_min_mean,
            established_min_mean: summary.established_min_mean,
            established_share: summary.established_share,
            first_interruption_min: summary.first_interruption_min,
            first_interruption_alarm_min: summary.first_interruption_alarm_min,
            lowest_engine_gal: summary.lowest_engine_gal,
            lowest_drop_tank_gal: summary.lowest_drop_tank_gal,
            causes: summary.causes,
            causes_about: (summary.causes_about.into_iter())
                .map(|(cause, about, share)| CauseAbout {
                    cause: cause.key(),
                    about: Whom::new(about, plan),
                    share,
                })
                .collect(),
            causes_of_which: (summary.causes_of_which.into_iter())
                .map(|(kind, share)| CauseOfWhich {
                    cause: kind.cause().key(),
                    kind: kind.key(),
                    share,
                })
                .collect(),
            first_interruption_by_minute: summary.first_interruption_by_minute,
            first_interruption_by_alarm_minute: summary.first_interruption_by_alarm_minute,
            short_by_alarm_minute: summary.short_by_alarm_minute,
            whole_cycle_min: summary.cycle_min.values().sum(),
            cycle_min: summary.cycle_min,
            cycle_of_which_min: CycleOfWhich { dump_held_up: summary.held_up_min },
            busy: Busy {
                fill_positions: (summary.busy.fill_positions.into_iter())
                    .map(|(name, share)| BusyPlace { name, share })
                    .collect(),
                dump_positions: (summary.busy.dump_positions.into_iter().enumerate())
                    .map(|(place, share)| BusyTank { number: place + 1, share })
                    .collect(),
                intakes: summary.busy.intakes,
            },
            tankers: (summary.tankers.into_iter())
                .map(|tanker| TankerFigures {
                    name: tanker.name,
                    trips_mean: tanker.trips_mean,
                    delivered_gal_mean: tanker.delivered_gal_mean,
                    cycle_min: tanker.cycle_min,
                    cycle_of_which_min: CycleOfWhich { dump_held_up: tanker.held_up_min },
                })
                .collect(),
            taken: (summary.taken_gal_mean.into_iter())
                .map(|(name, taken_gal_mean)| Taken { name, taken_gal_mean })
                .collect(),
            level: summary.level.map(|levels| LevelFigures {
                minute: levels.minute,
                drop_tanks_gal: levels.drop_tanks.into_iter().map(band).collect(),
                attack_engine_gal: band(levels.attack_engine),
            }),
            worst_run: summary.worst_run,
            would_help: helps.iter().map(help_figures).collect(),
            tried: (tried.iter())
                .map(|one| TriedFigures {
                    tried: help_figures(one),
                    cures: cures(&one.change).iter().map(|cause| cause.key()).collect(),
                    never_binds: one.never_binds,
                })
                .collect(),
            never_gating_down: counts_on.map(|never| HarmFigures {
                interruption_probability: never.interruption_probability,
                replications: never.replications,
                higher_by: never.higher_by,
            }),
        }
    }
}

fn help_figures(help: &Help) -> HelpFigures {
    HelpFigures {
        change: help.change.clone().into(),
        replications: help.replications,
        interruption_probability: help.interruption_probability,
        ci_low: help.ci_low,
        ci_high: help.ci_high,
        higher_by: Apart {
            by: -help.lower_by,
            ci_low: -help.lower_by_ci.1,
            ci_high: -help.lower_by_ci.0,
        },
    }
}

fn band(of: Band) -> BandFigures {
    BandFigures { p5: of.p5, p25: of.p25, p50: of.p50, p75: of.p75, p95: of.p95 }
}
