//! `hold` in words, of figures made up for the purpose.

use shuttle_report::units::Units;

use shuttle_report::by_minute::{HeldBy, MinuteRow};
use shuttle_report::stepped_up::worth_telling;

use super::figures::{HeldFigures, SteppedUpFigures};
use crate::Reader;
use crate::shared::holding::{held_in_words, stepped_up_words};

/// What holds from these minutes, the first of them that of first water.
fn held(flows: &[(f64, f64)], not_clear_up_to_gpm: Option<f64>) -> HeldFigures {
    let row = |(minute, gpm): &(f64, f64)| MinuteRow {
        minute: *minute,
        held_gpm: Some(*gpm),
        not_clear_up_to_gpm,
        uneven: false,
        no_water_yet: false,
        first_loads_until_min: None,
        binds: None,
        replications: 100,
    };
    let rows: Vec<MinuteRow> = flows.iter().map(row).collect();
    // The first is that of first water.
    let mut rows = rows.into_iter();
    let (at_first_water, rows) = (rows.next(), rows.collect::<Vec<_>>());
    let steps = worth_telling(at_first_water.as_ref(), &rows);
    HeldFigures::of(&HeldBy {
        tankers: Vec::new(),
        steps,
        stepped_up: None,
        first_refill_min: None,
        at_first_water,
        rows,
    })
}

#[test]
fn the_flows_are_one_sentence() {
    let reader = Reader { units: Units::Us, tender: false };
    type Row = (&'static [(f64, f64)], Option<&'static str>);
    let rows: [Row; 6] = [
        (&[], None),
        (&[(12.0, 250.0)], Some("250 gpm from first water on")),
        (
            &[(12.0, 250.0), (20.0, 260.0), (30.0, 500.0), (45.0, 820.0)],
            Some(
                "250 gpm from first water on, or wait with all water until minute 30 for 500 gpm, until minute 45 for 820 \
                 gpm",
            ),
        ),
        (
            &[(12.0, 250.0), (30.0, 810.0), (45.0, 820.0)],
            Some(
                "250 gpm from first water on, or wait with all water until minute 30 for 810 gpm; 820 is all you can get",
            ),
        ),
        // The last is had long before the last minute asked about: 310 is less than 1.15 times 270 and so
        // is told at the end, from the minute at which the table first has it.
        (
            &[(14.0, 270.0), (15.0, 280.0), (20.0, 310.0), (30.0, 310.0), (45.0, 310.0)],
            Some(
                "270 gpm from first water on, or wait with all water until minute 20 for 310 gpm, the most you can get",
            ),
        ),
        (
            &[(12.0, 240.0), (15.0, 240.0), (30.0, 240.0)],
            Some("240 gpm from first water on, the most you can get"),
        ),
    ];
    for (flows, said) in rows {
        let told = held_in_words(&held(flows, None)).map(|told| reader.put(&told));
        assert_eq!(told.as_deref(), said);
    }
}

#[test]
fn all_there_is_to_get_is_not_said_where_more_is_too_close_to_tell() {
    let reader = Reader { units: Units::Us, tender: false };
    let flows = [(12.0, 240.0), (15.0, 240.0), (30.0, 240.0)];
    let told = |open| held_in_words(&held(&flows, open)).map(|told| reader.put(&told));
    assert_eq!(
        told(Some(300.0)).as_deref(),
        Some("240 gpm from first water on; up to 300 is too close to tell")
    );
    // A step of the search more is within what is meant by "all".
    assert_eq!(
        told(Some(250.0)).as_deref(),
        Some("240 gpm from first water on, the most you can get")
    );
}

#[test]
fn what_one_flow_after_the_other_does_is_said_as_advice() {
    let reader = Reader { units: Units::Us, tender: false };
    let told = |after_the_first_gpm| {
        let mut held = held(&[(12.0, 250.0), (30.0, 500.0)], None);
        held.stepped_up = Some(SteppedUpFigures {
            replications: 100,
            interruption_probability: 0.36,
            after_the_first_gpm,
        });
        stepped_up_words(&held).map(|told| reader.put(&told))
    };
    let going_up = "going up from one to the next, the lines run short in 36 fires of 100. Once you flow 250 gpm from \
                    first water on,";
    let higher = format!("{going_up} go no higher than 300 gpm, at minute 30.");
    assert_eq!(told(Some(300.0)), Some(higher));
    let stay = format!("{going_up} stay there: no more is shown to hold later.");
    assert_eq!(told(None), Some(stay));
    // It holds as it is told.
    assert_eq!(told(Some(500.0)), None);
}
