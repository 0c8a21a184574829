//! The figures of `risk`: MODEL.md names those at the top.

mod parts;

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::cures::cures;
use shuttle_report::options_compared::Interval;
use shuttle_report::summary::{Chance, Spread, Summary};
use shuttle_report::what_would_help::{CountsOn, Help, Shortens};
use shuttle_sim::Plan;

pub use self::parts::{
    Busy, BusyPlace, BusyTank, CauseAbout, CauseOfWhich, CycleOfWhich, HarmFigures, HelpFigures,
    LevelFigures, ShortensFigures, Taken, TankerFigures, TriedFigures,
};
use self::parts::{band, help_figures};
use super::middle_half;
use crate::shared::Whom;
use crate::shared::asked::FlowFigures;
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
    /// What the 95% of that interval are of.
    pub interval: Interval,
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
    /// The last of them, minutes after the alarm.
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
    /// Where the lines run short in every fire: what makes it shorter, most first; empty elsewhere.
    pub would_shorten: Vec<ShortensFigures>,
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

impl RiskFigures {
    /// From the plan's batch in figures, the changes that help, what the plan counts on, and how far the chance can
    /// be trusted.
    pub fn new(
        plan: &Plan,
        summary: Summary,
        (helps, shortens, tried): (&[Help], &[Shortens], &[Help]),
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
            interval: Interval::Single,
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
            would_shorten: shortens.iter().map(ShortensFigures::new).collect(),
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
