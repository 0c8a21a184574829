use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::units::Units;

use super::*;
use crate::Reader;
use crate::question::request::figures::{ChangeFigures, UnitFigures};
use crate::question::request::sets::SetFigures;
use crate::shared::luck::SharedLuck;

const US: Reader = Reader { units: Units::Us, tender: false };

fn change(share: f64, verdict: Against) -> ChangeFigures {
    ChangeFigures {
        replications: 4096,
        interruption_probability: share,
        higher_by: Apart { by: 0.0, ci_low: 0.0, ci_high: 0.0, interval: Interval::AllAtOnce },
        verdict,
    }
}

/// A request of these units, of so many there are, beside so many own.
fn of(names: &[&str], there: usize, own: usize) -> RequestFigures {
    let unit = |(call, name): (usize, &&str)| UnitFigures {
        name: (*name).to_owned(),
        department: None,
        alarm: None,
        call,
        capacity_gal: 3000.0,
        requested_at_min: 0.0,
        response_min: 12.0,
        brings_drop_tank: false,
        brings_pump_to: Vec::new(),
        without_it: None,
    };
    RequestFigures {
        target: 0.05,
        meets_target: true,
        interruption_probability: 0.03,
        ci_low: 0.02,
        ci_high: 0.04,
        interval: Interval::AllAtOnce,
        own_tankers: own,
        aid_tankers: there,
        request: names.iter().enumerate().map(unit).collect(),
        pumps: Vec::new(),
        perhaps: None,
        sizes: Vec::new(),
        all_sets_tried: true,
        late: Vec::new(),
        all_come: None,
        one_more: Vec::new(),
        no_difference: Vec::new(),
        in_the_way: Vec::new(),
        doubt: None,
        shared_luck: SharedLuck::nothing(),
        spare: None,
        most_held: None,
        ask_instead: None,
    }
}

fn said(figures: &RequestFigures, ended_early: bool) -> String {
    let chances = Chances::of(figures.interruption_probability, 4096);
    US.put(&verdict(figures, chances, ended_early))
}

#[test]
fn one_two_several_and_nobody_are_asked_for_in_plain_words() {
    let then = "the lines run short in 3 fires of 100, under the target of 5%.";
    let rows = [
        (of(&["A"], 1, 0), "Ask for the one tanker there is: then "),
        (
            of(&["A", "B"], 2, 1),
            "Ask for both tankers there are, beside the one that comes anyway: then ",
        ),
        (
            of(&["A", "B", "C"], 3, 2),
            "Ask for all three tankers there are, beside the two that come anyway: then ",
        ),
        (
            of(&["A"], 4, 2),
            "Ask for one of the four tankers there are, beside the two that come anyway: then ",
        ),
        (of(&[], 4, 1), "Ask for nobody: with the one tanker that comes anyway "),
        (of(&[], 4, 2), "Ask for nobody: with the two tankers that come anyway "),
    ];
    for (figures, ask) in rows {
        assert_eq!(said(&figures, false), format!("{ask}{then}"));
    }
}

#[test]
fn where_no_request_is_enough_it_is_said_with_whom() {
    let rows: [(&[&str], &str); 3] = [
        (&["gpm mill tanker"], "gpm mill tanker"),
        (&["A", "B"], "both that could come"),
        (&["A", "B", "C"], "all three that could come"),
    ];
    for (names, whom) in rows {
        let mut figures = of(names, names.len(), 2);
        figures.meets_target = false;
        figures.interruption_probability = 0.71;
        let wanted = format!(
            "No request helps enough: even with {whom} the lines run short in 71 fires of 100. The target is \
             under 5%."
        );
        assert_eq!(said(&figures, false), wanted);
        assert_eq!(said(&figures, true), "Ended before it was clear whom to ask for.");
    }
}

#[test]
fn too_few_fires_are_said_to_be_too_few() {
    let mut figures = of(&["A", "B"], 2, 0);
    figures.meets_target = false;
    figures.perhaps = Some(1);
    figures.sizes = vec![SetFigures {
        units: 1,
        sets: 2,
        names: vec!["A".to_owned()],
        replications: 600,
        interruption_probability: 0.05,
        ci_low: 0.03,
        ci_high: 0.07,
        interval: Interval::AllAtOnce,
        verdict: Side::NotClear,
    }];
    assert_eq!(
        said(&figures, false),
        "Asking for one tanker is too close to tell: the lines run short in 5 fires of 100, and the target \
         is under 5%. More fires (--runs) would tell."
    );
}

#[test]
fn what_one_fewer_does_is_told_where_it_is_not_enough() {
    let mut figures = of(&["A", "Tender 3,000 gal"], 2, 0);
    let row = |units: usize, names: &[&str], verdict| SetFigures {
        units,
        sets: 1,
        names: names.iter().map(|name| (*name).to_owned()).collect(),
        replications: 64,
        interruption_probability: 0.5,
        ci_low: 0.3,
        ci_high: 0.7,
        interval: Interval::AllAtOnce,
        verdict,
    };
    figures.sizes = vec![row(1, &["Tender 3,000 gal"], Side::Above)];
    let told = one_fewer(&figures).map(|told| US.put(&told));
    let wanted =
        "with one fewer, at best Tender 3,000 gal, the lines run short in 50 fires of 100.";
    assert_eq!(told.as_deref(), Some(wanted));
    figures.sizes = vec![row(1, &[], Side::CannotWork)];
    let told = one_fewer(&figures).map(|told| US.put(&told));
    assert_eq!(told.as_deref(), Some("with one fewer no water can reach the engine."));
    figures.sizes = vec![row(1, &["A"], Side::NotClear)];
    assert_eq!(one_fewer(&figures), None);
}

#[test]
fn later_is_told_in_one_breath() {
    let by = |shares: [f64; 3], verdict| -> Vec<LateFigures> {
        [5.0, 10.0, 15.0]
            .into_iter()
            .zip(shares)
            .map(|(later_by_min, share)| LateFigures {
                later_by_min,
                change: change(share, verdict),
            })
            .collect()
    };
    let said = |late: &[LateFigures]| super::late(late).map(|told| US.put(&told));
    assert_eq!(
        said(&by([0.22, 0.78, 0.996], Against::HigherChance)).as_deref(),
        Some("all asked for 5 minutes later: 22 fires of 100; 10 later: 78; 15 later: over 99.")
    );
    assert_eq!(
        said(&by([0.96; 3], Against::NotToldApart)).as_deref(),
        Some("asking up to 15 minutes later makes no difference to speak of.")
    );
    assert_eq!(said(&[]), None);
}

#[test]
fn what_failing_to_turn_out_costs_is_told_where_some_may() {
    let mut figures = of(&["A"], 2, 1);
    let said = |figures: &RequestFigures| {
        turnout(figures, Chances::of(0.03, 4096)).map(|told| US.put(&told))
    };
    assert_eq!(said(&figures), None);
    figures.all_come = Some(change(0.01, Against::LowerChance));
    assert_eq!(
        said(&figures).as_deref(),
        Some("were every unit sure to come, short in 1 fire of 100 instead of 3 fires of 100.")
    );
    figures.all_come = Some(change(0.03, Against::NotToldApart));
    // It is in the chance, and nothing is to be done about it.
    assert_eq!(said(&figures), None);
}

#[test]
fn what_comes_together_is_one_line_of_the_card_and_one_loss() {
    let mut figures = of(&["A", "B", "C"], 4, 1);
    figures.request[1].call = 0;
    figures.request[2].call = 1;
    for unit in &mut figures.request {
        unit.without_it = Some(change(0.2, Against::HigherChance));
    }
    assert_eq!((figures.calls(), figures.of_call(0)), (2, vec!["A", "B"]));
    assert!(figures.leads_call(&figures.request[0]) && !figures.leads_call(&figures.request[1]));
    let without = tables::changes(&figures).expect("changes").rows;
    assert_eq!(without.len(), 2);
}
