use super::*;
use shuttle_sim::Note;

fn story(notes: &[(f64, Happening)]) -> Trace {
    Trace {
        notes: notes
            .iter()
            .map(|(minute, happening)| Note { minute: *minute, happening: *happening })
            .collect(),
        ..Trace::default()
    }
}

#[test]
fn a_tankers_day_is_told_in_spans() {
    use Activity::*;
    let trace = story(&[
        (9.0, Happening::Tanker(0, Doing::WaitingAtScene)),
        (9.0, Happening::Tanker(0, Doing::Positioning(0))),
        (10.0, Happening::Tanker(0, Doing::Dumping(0))),
        (11.0, Happening::Tanker(1, Doing::Responding)),
        (12.0, Happening::Tanker(0, Doing::Clearing(0))),
        (12.5, Happening::Tanker(0, Doing::WaitingForRoad)),
        (13.0, Happening::Tanker(0, Doing::CrossingOneLane)),
        (14.0, Happening::Tanker(0, Doing::TravelingOut(0))),
        (19.0, Happening::Tanker(0, Doing::Filling(0))),
        (22.0, Happening::Tanker(0, Doing::CrossingOneLane)),
        (23.0, Happening::Tanker(0, Doing::TravelingBack)),
    ]);
    let told: Vec<(f64, f64, Activity)> = tanker_spans(&trace, 0, 2.0, 25.0, &[])
        .iter()
        .map(|(span, activity)| (span.from, span.to, *activity))
        .collect();
    let expected = [
        (2.0, 9.0, Responding),
        (9.0, 10.0, Handling),
        (10.0, 12.0, Giving),
        (12.0, 12.5, Handling),
        (12.5, 13.0, WaitingForRoad),
        (13.0, 19.0, TravelingOut),
        (19.0, 22.0, Filling),
        (22.0, 25.0, TravelingBack),
    ];
    assert_eq!(told, expected);
    assert_eq!(loads_given(&trace, 0), 1);
    let never_here = Span { from: 4.0, to: 25.0 };
    assert_eq!(tanker_spans(&trace, 2, 4.0, 25.0, &[]), [(never_here, Responding)]);
    assert_eq!(tanker_spans(&trace, 2, 30.0, 25.0, &[]), []);
    assert_eq!(tanker_spans(&story(&[]), 0, 0.0, 25.0, &[]), []);
}

#[test]
fn a_tanker_that_never_came_is_told_by_why() {
    let trace = story(&[
        (9.0, Happening::Tanker(0, Doing::Positioning(0))),
        (17.0, Happening::StaysAway(Subject::Tanker(1))),
    ]);
    let told = [0, 1, 2].map(|tanker| never_came(&trace, tanker));
    assert_eq!(told, [None, Some(NeverCame::StaysAway), Some(NeverCame::TooLate)]);
    assert_eq!(never_came(&story(&[]), 0), None);
    assert_eq!(tanker_spans(&trace, 1, 0.0, 25.0, &[]), []);
}

#[test]
fn waiting_at_a_full_drop_tank_is_no_dumping() {
    use Activity::*;
    let mut trace = story(&[
        (9.0, Happening::Tanker(0, Doing::Positioning(0))),
        (10.0, Happening::Tanker(0, Doing::Dumping(0))),
        (16.0, Happening::Tanker(0, Doing::Clearing(0))),
    ]);
    // The tank fills up at 12, is full until 14, is drawn down until 15, and full again from then on.
    trace.course = [(10.0, 0.0), (12.0, 2_000.0), (14.0, 2_000.0), (15.0, 1_500.0)]
        .into_iter()
        .chain([(15.5, 2_000.0), (17.0, 2_000.0)])
        .map(|(minute, level)| (minute, vec![level, 700.0]))
        .collect();
    let told: Vec<(f64, f64, Activity)> = tanker_spans(&trace, 0, 9.0, 17.0, &[2_000.0])
        .iter()
        .map(|(span, activity)| (span.from, span.to, *activity))
        .collect();
    let expected = [
        (9.0, 10.0, Handling),
        (10.0, 12.0, Giving),
        (12.0, 14.0, AtFullTank),
        (14.0, 15.5, Giving),
        (15.5, 16.0, AtFullTank),
        (16.0, 17.0, Handling),
    ];
    assert_eq!(told, expected);
}

#[test]
fn a_shortfall_still_open_ends_with_the_watch() {
    let trace = story(&[
        (15.0, Happening::ShortfallBegan(0.0)),
        (17.5, Happening::ShortfallEnded),
        (40.0, Happening::ShortfallBegan(0.0)),
    ]);
    let expected = [Span { from: 15.0, to: 17.5 }, Span { from: 40.0, to: 60.0 }];
    assert_eq!(shortfalls(&trace, 60.0), expected);
}

#[test]
fn the_draft_is_told_from_its_first_draw() {
    let trace = story(&[
        (20.0, Happening::HookedUp),
        (22.0, Happening::Primed),
        (30.0, Happening::PrimeLost),
        (33.0, Happening::Repriming),
        (34.5, Happening::PrimeBack),
    ]);
    let expected = [
        (Span { from: 22.0, to: 30.0 }, true),
        (Span { from: 30.0, to: 34.5 }, false),
        (Span { from: 34.5, to: 60.0 }, true),
    ];
    assert_eq!(draft_spans(&trace, 60.0), expected);
    assert_eq!(draft_spans(&story(&[]), 60.0), []);
}
