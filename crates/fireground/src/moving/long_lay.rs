//! Hose instead of tankers: what a long lay from the source asks for, when it gives water, and how far it is
//! worth laying.

use crate::fact_checks::{more_than_zero, zero_or_more};
use crate::hose::water_in_hose;
use crate::relay::{Relay, RelayPlan, relay};
use crate::told::{Part, Unit, given_bare, given_of, told};
use crate::{FactError, Told, Worked};

/// A lay from the source to the fire and how fast it is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LongLay {
    /// The hose, the flow, the distance and the engines.
    pub relay: Relay,
    /// Minute at which laying begins, 0 or more.
    pub starts_at_min: f64,
    /// Length laid in a minute, couplings and bends included, ft, more than 0. Parallel lines are laid at
    /// once.
    pub laid_ft_a_min: f64,
    /// Connecting both ends and getting the engines to pump, once the hose lies, minutes, 0 or more.
    pub hookup_min: f64,
    /// Flow at which the dry hose is filled, gpm, more than 0: what source and pump give, whatever the fire
    /// then takes.
    pub fill_gpm: f64,
}

/// A long lay worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct LongLayPlan {
    /// Hose in all its lines, ft.
    pub hose_ft: f64,
    /// Engines and their spacing.
    pub engines: RelayPlan,
    /// Water to fill the hose, gal.
    pub fill: Worked,
    /// When the first water comes out of it, minutes.
    pub first_water: Worked,
}

/// What is on hand for a lay; `None` where it is unknown or no limit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OnHand {
    /// Hose, ft, 0 or more, all lines together.
    pub hose_ft: Option<f64>,
    /// Engines that can be spared to pump.
    pub engines: Option<u32>,
    /// Minute by which the lay must give water to be worth it, 0 or more.
    pub water_by_min: Option<f64>,
}

/// What limits a lay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// The hose on hand.
    Hose,
    /// The engines on hand.
    Engines,
    /// The time by which it must give water.
    Time,
}

/// How far a lay is worth making.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// The greatest distance, ft.
    pub distance: Worked,
    /// What limits it there.
    pub ends: Ends,
}

const SOURCE: &str =
    "arithmetic: length / laying speed + hook-up + water in the hose / filling flow";

/// What a long lay asks for and when it gives water.
///
/// - Given: the lay, in [`LongLay`].
/// - Returns: hose, engines, water to fill it and the minute of first water ([`LongLayPlan`]): start + length /
///   laying speed + hook-up + water in the hose / filling flow.
/// - Errors: as [`relay`]; not finite, negative or zero values.
/// - Source: arithmetic on pump operator texts.
/// - Limits: engines and crews are there when the hose is laid; no leak, no burst length, no closed road. A
///   lay across a road closes it to tankers unless it is bridged.
pub fn long_lay(lay: &LongLay) -> Result<LongLayPlan, FactError> {
    let engines = relay(&lay.relay)?;
    let start = zero_or_more("starts_at_min", lay.starts_at_min)?;
    let speed = more_than_zero("laid_ft_a_min", lay.laid_ft_a_min)?;
    let hookup = zero_or_more("hookup_min", lay.hookup_min)?;
    let fill_gpm = more_than_zero("fill_gpm", lay.fill_gpm)?;
    let length = lay.relay.length_ft;
    let fill = water_in_hose(lay.relay.size, length, lay.relay.lines)?;
    let laying = length / speed;
    let filling = fill.value / fill_gpm;
    let minute = start + laying + hookup + filling;
    let how = told![
        "start ",
        Part::Number(start, 1),
        " + ",
        Part::Of(length, Unit::Feet, 0),
        " / ",
        given_of(speed, Unit::Feet),
        " a min + hook-up ",
        given_bare(hookup, Unit::Minutes),
        " + ",
        Part::Of(fill.value, Unit::Gallons, 0),
        " / ",
        Part::Of(fill_gpm, Unit::Gpm, 0),
        " = minute ",
        Part::Number(minute, 1),
    ];
    Ok(LongLayPlan {
        hose_ft: length * f64::from(lay.relay.lines),
        engines,
        fill,
        first_water: Worked::new(minute, "min", how, SOURCE)?,
    })
}

/// The greatest distance over which a lay like this one can be made with what is on hand, on the same
/// slope.
///
/// - Given: the lay, of any length; what there is, in [`OnHand`].
/// - Returns: the distance and what ends it ([`Reach`]), or `None` where nothing known limits it. 0 ft
///   where even no length would give water in time. By hose: hose / lines; by engines: engines x greatest
///   spacing; by time: (minute - start - hook-up) / (1 / laying speed + gal a ft / filling flow).
/// - Errors: as [`long_lay`].
/// - Source: arithmetic on pump operator texts.
pub fn reach(lay: &LongLay, on_hand: &OnHand) -> Result<Option<Reach>, FactError> {
    let plan = long_lay(lay)?;
    let length = lay.relay.length_ft;
    let mut ends: Vec<(f64, Ends, Told)> = Vec::new();
    if let Some(hose) = on_hand.hose_ft {
        let lines = lay.relay.lines;
        let distance = zero_or_more("hose_ft", hose)? / f64::from(lines);
        let how =
            told![given_of(hose, Unit::Feet), " of hose / ", Part::Number(f64::from(lines), 0),];
        ends.push((distance, Ends::Hose, how));
    }
    if let Some(count) = on_hand.engines {
        let spacing = plan.engines.greatest_spacing.value;
        let how = told![Part::Number(f64::from(count), 0), " x ", Part::Of(spacing, Unit::Feet, 0)];
        // Where the fall makes up for the friction, one engine suffices for any length on that slope.
        if !plan.engines.downhill_pays {
            ends.push((f64::from(count) * spacing, Ends::Engines, how));
        }
    }
    if let Some(minute) = on_hand.water_by_min {
        let left = zero_or_more("water_by_min", minute)? - lay.starts_at_min - lay.hookup_min;
        let a_foot = 1.0 / lay.laid_ft_a_min + plan.fill.value / length / lay.fill_gpm;
        let how = told![
            "(",
            Part::Number(minute, 1),
            " - ",
            Part::Number(lay.starts_at_min, 1),
            " - ",
            given_bare(lay.hookup_min, Unit::Minutes),
            ") min / (1 / ",
            given_of(lay.laid_ft_a_min, Unit::Feet),
            " a min + ",
            Part::Of(plan.fill.value, Unit::Gallons, 0),
            " / ",
            Part::Of(length, Unit::Feet, 0),
            " / ",
            Part::Of(lay.fill_gpm, Unit::Gpm, 0),
            ")",
        ];
        ends.push(((left / a_foot).max(0.0), Ends::Time, how));
    }
    let Some((distance, ends, how)) = ends.into_iter().min_by(|a, b| a.0.total_cmp(&b.0)) else {
        return Ok(None);
    };
    let how = how.and(told![" = ", Part::Of(distance, Unit::Feet, 0)]);
    Ok(Some(Reach { distance: Worked::new(distance, "ft", how, SOURCE)?, ends }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hose::HoseSize;

    const LAY: LongLay = LongLay {
        relay: Relay {
            size: HoseSize::Five,
            measured_coefficient: None,
            lines: 1,
            length_ft: 3000.0,
            elevation_ft: 0.0,
            flow_gpm: 500.0,
            rated_gpm: 1250.0,
            discharge_psi: 185.0,
            intake_psi: 20.0,
            appliance_loss_psi: 0.0,
        },
        starts_at_min: 10.0,
        laid_ft_a_min: 300.0,
        hookup_min: 5.0,
        fill_gpm: 500.0,
    };

    #[test]
    fn a_lay_gives_water_when_it_is_laid_hooked_up_and_full() {
        let plan = long_lay(&LAY).unwrap();
        // pi x 2.5^2 x 12 / 231 = 1.02 gal a ft (geometry): 3,060 gal, 6.12 min at 500 gpm.
        let gallons = std::f64::consts::PI * 2.5 * 2.5 * 12.0 / 231.0 * 3000.0;
        assert!((plan.fill.value - gallons).abs() < 1e-6);
        assert!((plan.first_water.value - (10.0 + 10.0 + 5.0 + gallons / 500.0)).abs() < 1e-9);
        // 165 psi / (0.08 x 25 psi a 100 ft) = 8,250 ft (pump operator texts).
        assert!((plan.engines.greatest_spacing.value - 8250.0).abs() < 1e-6);
        assert_eq!((plan.engines.pumping_engines, plan.hose_ft), (1, 3000.0));
    }

    #[test]
    fn a_lay_as_long_as_its_reach_gives_water_just_in_time() {
        let on_hand = OnHand { water_by_min: Some(31.0), ..OnHand::default() };
        let reach = reach(&LAY, &on_hand).unwrap().unwrap();
        assert_eq!(reach.ends, Ends::Time);
        let relay = Relay { length_ft: reach.distance.value, ..LAY.relay };
        let minute = long_lay(&LongLay { relay, ..LAY }).unwrap().first_water.value;
        assert!((minute - 31.0).abs() < 1e-9, "{minute}");
    }

    #[test]
    fn whatever_is_short_first_ends_the_lay() {
        let all = OnHand { hose_ft: Some(2000.0), engines: Some(1), water_by_min: Some(60.0) };
        let told = |on_hand: OnHand| {
            let reach = reach(&LAY, &on_hand).unwrap().unwrap();
            (reach.ends, reach.distance.value.round())
        };
        assert_eq!(told(all), (Ends::Hose, 2000.0));
        assert_eq!(
            told(OnHand { hose_ft: Some(9000.0), water_by_min: None, ..all }),
            (Ends::Engines, 8250.0)
        );
        assert_eq!(told(OnHand { water_by_min: Some(12.0), ..all }), (Ends::Time, 0.0));
        assert_eq!(reach(&LAY, &OnHand::default()).unwrap(), None);
        let two = LongLay { relay: Relay { lines: 2, ..LAY.relay }, ..LAY };
        let hose = reach(&two, &OnHand { hose_ft: Some(2000.0), ..OnHand::default() });
        assert_eq!(hose.unwrap().unwrap().distance.value, 1000.0);
    }

    #[test]
    fn a_fall_that_pays_for_the_friction_is_not_ended_by_engines() {
        let down = LongLay { relay: Relay { elevation_ft: -600.0, ..LAY.relay }, ..LAY };
        let one = OnHand { engines: Some(1), ..OnHand::default() };
        assert_eq!(reach(&down, &one).unwrap(), None);
        // A foot of fall does not make up for it: 165 psi over 2 psi a 100 ft less 0.434 psi in 3,000 ft
        // (pump operator texts).
        let level = LongLay { relay: Relay { elevation_ft: -1.0, ..LAY.relay }, ..LAY };
        let end = reach(&level, &one).unwrap().expect("an end");
        assert_eq!(end.ends, Ends::Engines);
        let expected = 165.0 / (0.02 - 0.434 / 3000.0);
        assert!((end.distance.value - expected).abs() < 0.1, "{}", end.distance.value);
    }

    #[test]
    fn a_smaller_flow_is_not_later_for_the_hose_being_filled() {
        let relay = Relay { flow_gpm: 150.0, ..LAY.relay };
        let small = long_lay(&LongLay { relay, ..LAY }).unwrap().first_water.value;
        assert_eq!(small, long_lay(&LAY).unwrap().first_water.value);
    }

    #[test]
    fn no_laying_speed_is_refused() {
        let still = LongLay { laid_ft_a_min: 0.0, ..LAY };
        assert!(matches!(
            long_lay(&still),
            Err(FactError::NotPositive { field: "laid_ft_a_min", .. })
        ));
    }
}
