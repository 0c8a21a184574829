//! The trip wires of a card hold on fires that did not make them.

use std::path::Path;

use shuttle_report::batch::Control;
use shuttle_report::statistics::binomial::exact_interval;
use shuttle_report::units::Units;

use super::*;
use crate::shared::in_tests::one_tanker;

fn of(name: &str, seed: u64) -> Answer<CardFigures> {
    let scenarios = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
    let scenario = scenario_file::load(&scenarios.join(name).with_extension("json"));
    let budget = Budget { replications: 3_000, seed, threads: 2 };
    card(&scenario.expect("a sound scenario"), budget, &Control::default())
}

/// Clopper and Pearson 1934 for the intervals; 99.9% since a table is compared cell by cell.
#[test]
fn trip_wires_hold_on_fresh_fires() {
    for name in ["hay_barn_two_tankers", "feed_mill_mutual_aid", "grass_fire_nursing_only"] {
        let [made, fresh] = [1, 77].map(|seed| of(name, seed).figures.trip_wires);
        let mut compared = 0;
        for (one, other) in made.table.iter().zip(&fresh.table) {
            assert_eq!(
                (one.level_gal, one.no_load_within_min),
                (other.level_gal, other.no_load_within_min)
            );
            let (Some(share), Some(again)) = (one.ran_short, other.ran_short) else { continue };
            let hits = |share: f64, fires: u64| (share * fires as f64).round() as u64;
            let (low, high) = exact_interval(hits(share, one.fires), one.fires, 0.999);
            let (other_low, other_high) =
                exact_interval(hits(again, other.fires), other.fires, 0.999);
            assert!(low <= other_high && other_low <= high, "{name}: {one:?} and {other:?}");
            compared += 1;
        }
        assert!(compared > 5, "{name}: {compared} cells compared");
        // What is told as a level to gate down at still calls for it.
        for wire in made.wires.iter().filter_map(|wire| wire.gate_down) {
            let again = (fresh.table.iter())
                .find(|cell| {
                    cell.level_gal == wire.level_gal
                        && cell.no_load_within_min == wire.no_load_within_min
                })
                .expect("the same cell");
            assert!(
                again.ci_high >= made.gate_down_from_share,
                "{name}: {wire:?}, fresh {again:?}"
            );
        }
    }
}

#[test]
fn less_water_with_a_longer_wait_is_never_safer() {
    let wires = of("hay_barn_two_tankers", 5).figures.trip_wires;
    for minutes in wires.wires.iter().map(|wire| wire.no_load_within_min) {
        let column: Vec<_> =
            wires.table.iter().filter(|cell| cell.no_load_within_min == minutes).collect();
        for pair in column.windows(2) {
            let (Some(_), Some(_)) = (pair[0].ran_short, pair[1].ran_short) else { continue };
            assert!(pair[0].level_gal > pair[1].level_gal);
            assert!(pair[0].ci_low <= pair[1].ci_high, "{:?} and {:?}", pair[0], pair[1]);
        }
    }
}

#[test]
fn levels_are_round_in_the_readers_units() {
    for (name, units) in [("hay_barn_two_tankers", Units::Us), ("orchard_metric", Units::Metric)] {
        let table = of(name, 1).figures.trip_wires.table;
        assert!(!table.is_empty());
        for cell in table {
            let level = units.volume(cell.level_gal);
            assert!((level / 50.0 - (level / 50.0).round()).abs() < 1e-9, "{name}: {level}");
        }
    }
}

/// Where no level warns, the verdict says it, and no table of dashes beside it.
#[test]
fn that_no_level_warns_is_said_once() {
    for (name, warns) in
        [("schoolhouse_three_fill_sites", false), ("grass_fire_nursing_only", true)]
    {
        let answer = of(name, 1);
        let wires = &answer.figures.trip_wires.wires;
        assert_eq!(wires.iter().any(|wire| wire.ask.is_some() || wire.gate_down.is_some()), warns);
        let tables = answer.told.points.iter().filter(|one| matches!(one, crate::Block::Table(_)));
        assert_eq!(tables.count(), usize::from(warns), "{name}");
    }
}

/// By hand: three places that load one at a time, 2,000 gal at 1,000 gpm, 1 minute to connect and 1 to leave: each ahead
/// keeps the next waiting for its 2 minutes of water; with one place for all 4.
#[test]
fn each_tanker_ahead_costs_its_turn_or_its_water() {
    let plan =
        |positions: u32| one_tanker(|plan| plan["fill_sites"][0]["positions"] = positions.into());
    for (positions, each) in [(1, 4.0), (3, 2.0)] {
        let scenario = plan(positions);
        let source = &sources::sources(scenario.plan.facts())[0];
        let near = |found: Option<f64>, by_hand: f64| {
            found.is_some_and(|found| (found - by_hand).abs() < 1e-3)
        };
        assert!(near(source.away_min, 13.0) && near(source.each_ahead_min, each), "{source:?}");
    }
}
