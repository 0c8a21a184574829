//! What `reach` says at its edges: one tanker, enough of them, none, ended early.

use shuttle_report::demand::Demand;
use shuttle_report::reach::{DistanceRow, ReachAnswer, ReachCell, ReachRow};
use shuttle_report::units::Units;

use super::told::told;
use crate::answer::{Block, Label, Told};
use crate::reader::Reader;
use crate::shared::in_tests::starter;

const US: Reader = Reader { units: Units::Us, tender: true };

fn cell(tankers: usize, held_gpm: Option<f64>) -> ReachCell {
    ReachCell {
        broken_at_the_start: 0.0,
        tankers,
        hand_gpm: 500.0,
        held_gpm,
        not_clear_up_to_gpm: None,
        can_work: true,
        binds: None,
        replications: 100,
    }
}

fn found(rows: Vec<ReachRow>, wanted_gpm: Option<f64>, distances: Vec<DistanceRow>) -> ReachAnswer {
    ReachAnswer {
        tanks_and_fills: Vec::new(),
        title: "Barn".to_owned(),
        site: "gpm mill".to_owned(),
        tankers: vec!["12".to_owned()],
        share: 0.95,
        site_cap_gpm: None,
        demand: Demand { minimum: 250.0, minimum_from: 5.0, full_from: 15.0, minutes: 120.0 },
        rows,
        wanted_gpm,
        distances,
        ended_early: false,
        seed: 1,
    }
}

fn said(found: &ReachAnswer) -> Told {
    told(&starter(), found, None)
}

#[test]
fn one_tanker_holds_and_the_first_minutes_are_told_where_they_ask_for_less() {
    let of = |held| {
        let row = ReachRow { miles: 2.0, cells: vec![cell(1, Some(held))], enough: None };
        US.put(&said(&found(vec![row], None, Vec::new())).verdict)
    };
    let start = "At 2.0 mi one way one tender holds";
    assert_eq!(of(200.0), format!("{start} 200 gpm for 2 hours in at least 95% of fires."));
    assert_eq!(
        of(290.0),
        format!(
            "{start} 290 gpm for 2 hours in at least 95% of fires, from minute 15 after the first engine's \
             arrival; until then 250 gpm."
        )
    );
}

#[test]
fn beyond_enough_tankers_another_brings_its_first_load_only() {
    let cells = vec![cell(1, Some(200.0)), cell(2, Some(210.0))];
    let row = ReachRow { miles: 2.5, cells, enough: Some(1) };
    let told = said(&found(vec![row], None, Vec::new()));
    let more = "at 2.5 mi another beyond one tender adds no more than its first load.";
    assert!(told.points.iter().any(|block| matches!(
        block,
        Block::Point(Label::More, sentence) if US.put(sentence) == more
    )));
}

#[test]
fn where_nothing_holds_it_is_not_called_a_flow() {
    let row = |held| ReachRow { miles: 2.0, cells: vec![cell(1, held)], enough: None };
    let told = said(&found(vec![row(None)], None, Vec::new()));
    assert!(US.put(&told.verdict).starts_with("No flow surely holds in 95% of fires"));
    let mut early = found(Vec::new(), None, Vec::new());
    early.ended_early = true;
    assert_eq!(US.put(&said(&early).verdict), "Ended before anything was clear.");
}

#[test]
fn a_distance_at_the_end_of_the_grid_may_go_on() {
    let row = DistanceRow {
        tankers: 3,
        hand_miles: Some(12.0),
        held_miles: Some(12.0),
        not_clear_up_to_miles: None,
        at_the_end: true,
        binds: None,
        replications: 100,
    };
    let told = said(&found(Vec::new(), Some(250.0), vec![row]));
    assert_eq!(
        US.put(&told.verdict),
        "250 gpm holds up to 12.0 mi from water with three tenders, in at least 95% of fires, and perhaps \
         beyond: it is the farthest tried."
    );
}
