//! Every mistake is named with its row and column, all at once; what is odd is asked about and not refused.

use drill_log::{
    Course, CourseTanker, Guess, LogError, Site, Stamp, Step, Zero, measure, open_text, read,
};

fn course() -> Course {
    let tanker = |name: &str| CourseTanker { name: name.to_owned(), load: 2_700.0, site: None };
    Course {
        tankers: vec![tanker("Tanker 3"), tanker("Tanker 5")],
        sites: vec![Site { name: "Quarry pond".to_owned(), positions: 1, one_at_a_time: true }],
        dump_positions: 1,
    }
}

fn mistakes(text: &str) -> String {
    let table = open_text(text.as_bytes()).expect("a table");
    match read(&table, &course()) {
        Err(error @ LogError::Wrong(_)) => error.to_string(),
        other => panic!("no mistake in {text}: {other:?}"),
    }
}

const HEADS: &str = "tanker,trip,arrived at fill,connected,full,left fill,arrived at scene\n";

#[test]
fn each_mistake_names_its_row_and_column_and_a_cure() {
    for (rows, expected) in [
        (
            "Tanker 3,1,12.34,13:01,13:04,13:05,",
            "row 2, column 'arrived at fill': '12.34' has a point",
        ),
        ("Tanker 3,1,12.34,13:01,13:04,13:05,", "cure: write 12:34"),
        (
            "Tanker 3,1,13:00,13:75,13:04,13:05,",
            "row 2, column 'connected': no clock shows '13:75'",
        ),
        (
            "Tanker 3,1,13:00,soon,13:04,13:05,",
            "row 2, column 'connected': 'soon' is no clock time",
        ),
        ("Tanker 3,one,13:00,13:01,13:04,13:05,", "row 2, column 'trip': 'one' is no number"),
        (
            "Tnaker 3,1,13:00,13:01,13:04,13:05,",
            "row 2, column 'tanker': the scenario has no tanker 'Tnaker 3'",
        ),
        ("Tnaker 3,1,13:00,13:01,13:04,13:05,", "did you mean 'Tanker 3'?"),
        (",1,13:00,13:01,13:04,13:05,", "row 2, column 'tanker': the row has times and no tanker"),
        ("Tanker 3,1,,,,,", "row 2: the row has no time in a column that is understood"),
        (
            "Tanker 3,1,13:00,13:04,13:03,13:05,13:09",
            "row 2, column 'connected': '13:04' is later than '13:03' (row 2, column 'full')",
        ),
        (
            "Tanker 3,1,13:00,13:01,13:04,13:05,13:09\nTanker 3,1,13:20,13:21,13:24,13:25,13:29",
            "row 3: trip 1 of this tanker is in row 2 already",
        ),
        (
            "Tanker 3,1,13:00,13:01,13:04,13:05,13:09\nTanker 3,2,13:00,13:01,13:04,13:05,13:09",
            "row 3: the row says the same as row 2",
        ),
    ] {
        let told = mistakes(&format!("{HEADS}{rows}\n"));
        assert!(told.contains(expected), "{expected} is not in\n{told}");
    }
}

/// Trips of ten minutes one behind the other, the first at `from` minutes after midnight.
fn trips(from: &[u32]) -> String {
    let clock = |minute: u32| format!("{:02}:{:02}", minute / 60, minute % 60);
    let row = |(number, from): (usize, &u32)| {
        let at: Vec<String> = [0, 2, 5, 6, 8].iter().map(|after| clock(from + after)).collect();
        format!("Tanker 3,{},{}\n", number + 1, at.join(","))
    };
    from.iter().enumerate().map(row).collect()
}

#[test]
fn one_slip_of_the_hand_is_one_mistake() {
    // The third row an hour early; morning for evening; full and left swapped in their headings; another drill.
    let hour = mistakes(&format!("{HEADS}{}", trips(&[760, 780, 740, 820])));
    assert!(
        hour.contains("row 4: the times of the row fit only if it is 60 minutes too early"),
        "{hour}"
    );
    let half = mistakes(&format!("{HEADS}{}", trips(&[1160, 1180, 480, 1220])));
    assert!(half.contains("row 4: the times of the row fit only twelve hours off"), "{half}");
    let heads = HEADS.replace("full,left fill", "left fill,full");
    let swapped = mistakes(&format!("{heads}{}", trips(&[780, 800, 820])));
    assert!(swapped.contains("'left fill' is earlier than 'full'"), "{swapped}");
    let other = trips(&[780, 800, 820]).replace("Tanker 3", "Engine 9");
    let other = mistakes(&format!("{HEADS}{other}"));
    assert!(
        other.contains("none of the tankers in the log is in the scenario: 'Engine 9'"),
        "{other}"
    );
    for told in [hour, half, swapped, other] {
        assert!(told.ends_with("1 mistake"), "{told}");
    }
}

#[test]
fn a_row_whose_times_stand_in_columns_not_understood_names_these() {
    let told = mistakes("tanker,connected,Blorp\nTanker 3,,13:05\n");
    assert!(told.contains("not understood: column 'Blorp'"), "{told}");
}

#[test]
fn all_mistakes_are_told_at_once_in_the_order_of_the_rows() {
    let told = mistakes(&format!(
        "{HEADS}Tanker 9,1,13.00,13:01,13:04,13:05,\n\nTanker 3,x,13:00,13:01,,13:66,\n"
    ));
    let rows: Vec<&str> = told.lines().filter(|line| line.starts_with("row")).collect();
    assert_eq!(rows.len(), 4, "{told}");
    assert!(rows[..2].iter().all(|line| line.starts_with("row 2")), "{told}");
    assert!(rows[2..].iter().all(|line| line.starts_with("row 4")), "{told}");
    assert!(told.ends_with("4 mistakes"), "{told}");
}

#[test]
fn a_table_without_what_a_log_needs_says_what() {
    for (text, expected) in [
        ("", "no row has headings that are known"),
        ("13:00,13:01\n13:02,13:03\n", "no row has headings that are known"),
        ("trip,connected\n1,13:00\n", "there is no column for tanker"),
        ("tanker,trip\nTanker 3,1\n", "there is no column of times"),
        ("tanker,connected\n", "there are headings and no rows below"),
        ("tanker,connected,hooked up\nTanker 3,13:00,13:01\n", "it is read as 'connected'"),
    ] {
        let told = mistakes(text);
        assert!(told.contains(expected) && told.contains("row 1"), "{expected} is not in\n{told}");
    }
}

#[test]
fn a_scenario_with_several_sites_wants_to_know_which() {
    let mut course = course();
    course.sites.push(Site { name: "Mill pond".to_owned(), positions: 1, one_at_a_time: true });
    let of = |text: &str| read(&open_text(text.as_bytes()).expect("a table"), &course);
    let error = of("tanker,connected\nTanker 3,13:00\n").expect_err("which site?");
    assert!(error.to_string().contains("add a column 'fill site'"), "{error}");
    let log = of("tanker,fill site,connected\nTanker 3,mill pond,13:00\n").expect("a log");
    assert_eq!(log.trips[0].site, Some(1));
    let error = of("tanker,fill site,connected\nTanker 3,,13:00\n").expect_err("which site?");
    assert!(error.to_string().contains("row 2, column 'fill site'"), "{error}");
}

#[test]
fn what_was_guessed_is_told() {
    let text = "tender,hooked,weather,comments\nT3,13:05,dry,flat tire\n";
    let log = read(&open_text(text.as_bytes()).expect("a table"), &course()).expect("a log");
    let told = |wanted: &Guess| assert!(log.guesses.contains(wanted), "{:?}", log.guesses);
    told(&Guess::Column {
        heading: "hooked".to_owned(),
        field: drill_log::Field::At(Stamp::Connected),
    });
    told(&Guess::Unused { heading: "weather".to_owned() });
    told(&Guess::Name { text: "T3".to_owned(), name: "Tanker 3".to_owned() });
    told(&Guess::RemarkAsBreakdown { row: 2, text: "flat tire".to_owned() });
    assert!(log.trips[0].breakdown);
}

#[test]
fn a_drill_goes_on_past_midnight_on_any_clock() {
    for (times, zero) in [
        (["23:50", "23:52", "23:59", "0:03", "0:11"], Zero::OfDay(85_800.0)),
        (["11:50 pm", "11:52 pm", "11:59 pm", "12:03 am", "12:11 am"], Zero::OfDay(85_800.0)),
        (["2350", "2352", "2359", "0003", "0011"], Zero::OfDay(85_800.0)),
        // Noon on a clock of 12 hours.
        (["11:50", "11:52", "11:59", "12:03", "12:11"], Zero::OfDay(42_600.0)),
    ] {
        let text = format!("{HEADS}Tanker 3,1,{}\n", times.join(","));
        let log = read(&open_text(text.as_bytes()).expect("a table"), &course()).expect("a log");
        let minutes: Vec<f64> = log.trips[0].at.iter().flatten().copied().collect();
        assert_eq!(minutes, [0.0, 2.0, 9.0, 13.0, 21.0], "{times:?}");
        assert_eq!(log.zero, zero);
    }
    let text = format!("{HEADS}Tanker 3,1,58:10,59:20,61:00,61:30,66:10\n");
    let log = read(&open_text(text.as_bytes()).expect("a table"), &course()).expect("a log");
    assert_eq!(log.zero, Zero::Stopwatch);
    assert!((log.trips[0].at[4].expect("a time") - (66.0 + 1.0 / 6.0)).abs() < 1e-9);
}

#[test]
fn waiting_is_no_work_and_two_at_one_place_are_asked_about() {
    // Tanker 5 comes while 3 fills: it begins when 3 leaves, at 13:05.
    let text = format!(
        "{HEADS}Tanker 3,1,13:00,13:01,13:04,13:05,\nTanker 5,1,13:02,13:07,13:10,13:11,\nTanker 3,2,13:30,13:31,13:34,13:40,\nTanker 5,2,13:31,13:35,13:38,13:39,\n"
    );
    let course = course();
    let log = read(&open_text(text.as_bytes()).expect("a table"), &course).expect("a log");
    let measured = measure(&log, &course);
    let connecting: Vec<(usize, f64)> = (measured.readings.iter())
        .filter(|one| one.step == Step::FillConnect)
        .map(|one| (one.row, one.minutes))
        .collect();
    assert_eq!(connecting, [(2, 1.0), (4, 1.0), (3, 2.0)]);
    assert_eq!((measured.waits[0].row, measured.waits[0].minutes), (3, 3.0));
    // Row 5 has it connected while row 4 still stands there.
    assert_eq!(measured.crowds[0].rows, [4, 5]);
}

#[test]
fn what_cannot_be_told_from_waiting_is_not_counted() {
    // When Tanker 3 left was not written: Tanker 5 may have waited or not.
    let text = format!(
        "{HEADS}Tanker 3,1,13:00,13:01,13:04,,13:12\nTanker 5,1,13:05,13:10,13:13,13:14,\n"
    );
    let course = course();
    let log = read(&open_text(text.as_bytes()).expect("a table"), &course).expect("a log");
    let measured = measure(&log, &course);
    assert!(measured.untold.iter().any(|one| one.step == Step::FillConnect && one.row == 3));
    assert!(!measured.readings.iter().any(|one| one.step == Step::FillConnect && one.row == 3));
}

#[test]
fn a_breakdown_is_out_of_its_step_and_counted_as_what_it_is() {
    let mut text = String::from("tanker,left fill,arrived at scene,breakdown\n");
    for trip in 0..6 {
        let late = if trip == 4 { 14 } else { 4 };
        let mark = if trip == 4 { "yes" } else { "" };
        text.push_str(&format!(
            "Tanker 3,13:{:02}:00,13:{:02}:{:02},{mark}\n",
            8 * trip,
            8 * trip + late % 8,
            10 * (late / 8)
        ));
    }
    // Row 6 took 6 min 10 s where 4 is usual; marked.
    let course = course();
    let log = read(&open_text(text.as_bytes()).expect("a table"), &course).expect("a log");
    let measured = measure(&log, &course);
    assert_eq!(measured.readings.len(), 5);
    let broken = &measured.breakdowns[0];
    assert_eq!(broken.row, 6);
    let (step, beyond) = broken.cost.expect("the drive took longer");
    assert!(step == Step::DriveBack && (beyond - 2.0 - 1.0 / 6.0).abs() < 1e-6, "{broken:?}");
}
