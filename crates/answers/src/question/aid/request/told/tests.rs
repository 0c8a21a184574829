use shuttle_report::losses::Lost;
use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::request::Cure;
use shuttle_report::units::Units;

use super::*;
use crate::Reader;
use crate::question::request::figures::{ChangeFigures, LateFigures, UnitFigures};
use crate::question::request::losses::{
    CureFigures, LossFigures, NotMadeUpForFigures, SpareFigures, ThenHoldsFigures,
};
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
        comes_share: 1.0,
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
        reserve_touched: 0.0,
        held_back_by: Vec::new(),
        bottleneck: None,
        most_held: None,
        ask_instead: None,
        request_instead: None,
        any_one_lost_flow: None,
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

fn loss(lost: Lost, share: f64, verdict: Side) -> LossFigures {
    LossFigures { lost, replications: 1000, interruption_probability: share, verdict }
}

fn tanker(name: &str, drop_tanks: usize) -> Lost {
    Lost::OneTankerOf { names: vec![vec![name.to_owned()]], drop_tanks }
}

fn department(name: &str, comes_whole: bool) -> Lost {
    let tankers = vec![format!("{name} 1"), format!("{name} 2")];
    Lost::Department { name: name.to_owned(), tankers, comes_whole, drop_tanks: 0 }
}

fn with_losses(stands: bool, losses: Vec<LossFigures>) -> RequestFigures {
    let mut figures = of(&["A", "B"], 2, 2);
    figures.spare = Some(SpareFigures {
        stands,
        bare: vec!["A".to_owned(), "B".to_owned()],
        bare_interruption_probability: 0.03,
        bare_replications: 1000,
        losses,
        departments: Vec::new(),
        not_made_up_for: Vec::new(),
    });
    figures
}

#[test]
fn losses_that_are_too_close_to_tell_are_counted() {
    let said = |losses| spare(&with_losses(false, losses)).map(|told| US.put(&told));
    let (above, close) = (Side::Above, Side::NotClear);
    let a = || loss(tanker("A", 1), 0.3, above);
    let [b, c, d] = ["B", "C", "D"].map(|name| loss(tanker(name, 0), 0.05, close));
    let below = loss(tanker("E", 0), 0.01, Side::Below);
    assert_eq!(
        said(vec![a(), b.clone(), c.clone(), below.clone()]).as_deref(),
        Some(
            "with all that could be asked for it does not stand the loss of A, with the drop tank it brings: then \
             short in 30 fires of 100. Of two other losses it is too close to tell: --more."
        )
    );
    assert_eq!(
        said(vec![b.clone(), c, d, below.clone()]).as_deref(),
        Some(
            "with all that could be asked for it is too close to tell whether it stands the loss of B: then short in \
             5 fires of 100; or two other losses: --more."
        )
    );
    assert_eq!(
        said(vec![b, below]).as_deref(),
        Some(
            "with all that could be asked for it is too close to tell whether it stands the loss of B: then short in \
             5 fires of 100."
        )
    );
    assert_eq!(
        said(vec![a(), a(), a()]).as_deref(),
        Some(
            "with all that could be asked for it does not stand the loss of A, with the drop tank it brings: then \
             short in 30 fires of 100; nor two other losses: --more."
        )
    );
}

#[test]
fn departments_are_one_loss_where_they_come_whole_and_told_beside_where_they_do_not() {
    let whole = with_losses(true, vec![loss(department("Maple Ford", true), 0.02, Side::Below)]);
    let said = spare(&whole).map(|told| US.put(&told));
    assert_eq!(
        said.as_deref(),
        Some(
            "it stands the loss of any one unit, source or whole department; at worst all of \
             Maple Ford, short in 2 fires of 100."
        )
    );
    assert_eq!(departments(&whole), None);
    let mut named = with_losses(true, vec![loss(tanker("A", 0), 0.02, Side::Below)]);
    let of_it = named.spare.as_mut().expect("losses");
    of_it.departments = vec![
        loss(department("Maple Ford", false), 0.09, Side::Above),
        loss(department("Birch Hill", false), 0.01, Side::Below),
    ];
    assert_eq!(
        departments(&named).map(|told| US.put(&told)).as_deref(),
        Some(
            "if all of Maple Ford stay home, short in 9 fires of 100. They do not come as one, so that is more than \
             one loss."
        )
    );
    let losses = tables::losses(&named).expect("losses");
    assert_eq!(losses.rows.len(), 3);
    assert_eq!(US.put(&losses.rows[0][0]), "all of Maple Ford");
}

#[test]
fn what_no_request_makes_up_for_is_told_with_what_does_or_the_flow_that_then_holds() {
    let cure = |cure: Cure, share: f64, verdict, helps| CureFigures {
        cure,
        replications: 1000,
        interruption_probability: share,
        verdict,
        helps,
    };
    let on_b = || Cure::DropTankOn { tanker: "B".to_owned() };
    let holds = || {
        Some(ThenHoldsFigures {
            flow_gpm: 400.0,
            replications: 2000,
            interruption_probability: 0.01,
        })
    };
    let said = |tried, holds| {
        let mut figures = with_losses(true, Vec::new());
        let loss = loss(tanker("A", 1), 0.51, Side::Above);
        let one = NotMadeUpForFigures { loss, tried, holds };
        figures.spare.as_mut().expect("losses").not_made_up_for = vec![one];
        super::spare::cure(&figures).map(|told| US.put(&told)).expect("told")
    };
    let lost = "no request makes up for A (lost, short in 51 fires of 100; ";
    assert_eq!(
        said(vec![cure(on_b(), 0.02, Side::Below, true)], holds()),
        format!("{lost}with a drop tank like its own on B in 2 fires of 100).")
    );
    assert_eq!(
        said(vec![cure(on_b(), 0.09, Side::Above, true)], holds()),
        format!(
            "{lost}with a drop tank like its own on B still in 9 fires of 100; else 400 gpm holds throughout)."
        )
    );
    assert_eq!(
        said(vec![cure(on_b(), 0.50, Side::Above, false)], holds()),
        format!("{lost}nothing that was tried helps; then 400 gpm holds throughout).")
    );
    assert_eq!(
        said(Vec::new(), None),
        format!("{lost}nothing that was tried helps; then no flow is shown to hold).")
    );
}
