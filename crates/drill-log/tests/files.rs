//! Whole files: spreadsheets, and bytes of any kind, which never make it fail without saying where.

use std::path::Path;

use drill_log::{Course, CourseTanker, LogError, Site, measure, open, open_text, read};
use proptest::prelude::*;

fn course() -> Course {
    let tanker = |name: &str| CourseTanker { name: name.to_owned(), load: 2_700.0, site: None };
    Course {
        tankers: [
            "Tanker 3",
            "Tanker 5",
            "Maple Ford Tanker 2",
            "Birch Hill tanker 1",
            "Birch Hill tanker 2",
        ]
        .map(tanker)
        .to_vec(),
        sites: vec![Site { name: "Quarry pond".to_owned(), positions: 1, one_at_a_time: true }],
        dump_positions: 2,
    }
}

fn data(name: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(name)
}

/// The two books hold the same times, as times of the day, as a date with a time, and as text; they were written
/// by hand to the published formats (ECMA-376; OpenDocument 1.2).
#[test]
fn spreadsheets_are_read_as_text_is() {
    for name in ["log.xlsx", "log.ods"] {
        let table = open(&data(name)).expect("a table");
        let log = read(&table, &course()).expect("a log");
        let minutes: Vec<Vec<f64>> = log
            .trips
            .iter()
            .map(|trip| trip.at.iter().flatten().map(|one| (600.0 * one).round() / 600.0).collect())
            .collect();
        assert_eq!(minutes, [vec![0.0, 1.2, 4.5, 5.0], vec![1.0, 6.0, 9.0, 71.0]], "{name}");
        assert_eq!(log.trips[1].row, 4, "{name}");
    }
    let mut of_four = course();
    of_four.tankers.remove(1);
    let error =
        read(&open(&data("log.xlsx")).expect("a table"), &of_four).expect_err("no Tanker 5");
    assert!(error.to_string().contains("row 4, column 'tanker' (A4)"), "{error}");
}

#[test]
fn a_file_that_is_none_says_so() {
    for (name, expected) in [("nowhere.csv", "no such file"), ("", "it is a folder")] {
        let error = open(&data(name)).expect_err("no log");
        assert!(error.to_string().contains(expected), "{error}");
    }
}

/// Reads bytes as a log, as far as it goes: every refusal names a place.
fn goes_through(table: Result<drill_log::Table, LogError>) {
    let course = course();
    match table.and_then(|table| read(&table, &course)) {
        Ok(log) => {
            let measured = measure(&log, &course);
            assert!(
                measured.readings.iter().all(|one| one.minutes.is_finite() && one.minutes >= 0.0)
            );
            assert!(measured.waits.iter().all(|one| one.minutes.is_finite() && one.minutes > 0.0));
            let _ = drill_log::outliers(&measured.readings, &course, log.grain);
        }
        Err(LogError::Wrong(mistakes)) => {
            assert!(!mistakes.is_empty());
            for one in mistakes {
                assert!(one.at.row > 0 && one.to_string().starts_with("row "), "{one}");
                assert!(one.to_string().contains("cure: "), "{one}");
            }
        }
        Err(LogError::Unreadable { problem, cure }) => {
            assert!(!problem.is_empty() && !cure.is_empty());
        }
    }
}

const LOGS: [&[u8]; 2] = [
    include_bytes!("../../../scenarios/logs/spring_drill.csv"),
    include_bytes!("../../../scenarios/logs/night_drill.csv"),
];

#[test]
fn the_demo_logs_are_read() {
    for log in LOGS {
        let log = read(&open_text(log).expect("a table"), &course()).expect("a log");
        assert!(log.trips.len() > 20);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Demo logs with bytes changed, cut and doubled.
    #[test]
    fn no_bytes_make_it_panic(
        which in 0..2_usize,
        edits in proptest::collection::vec((any::<u16>(), any::<u8>(), 0..4_u8), 1..12),
    ) {
        let mut bytes = LOGS[which].to_vec();
        for (place, byte, kind) in edits {
            if bytes.is_empty() {
                break;
            }
            let at = usize::from(place) % bytes.len();
            match kind {
                0 => bytes[at] = byte,
                1 => { bytes.remove(at); }
                2 => bytes.insert(at, b",;:.\n\t\"0"[usize::from(byte) % 8]),
                _ => {
                    let line = bytes[at..].iter().take(usize::from(byte)).copied().collect::<Vec<u8>>();
                    bytes.splice(at..at, line);
                }
            }
        }
        goes_through(open_text(&bytes));
    }

    /// Anything at all.
    #[test]
    fn nothing_that_is_no_log_makes_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        goes_through(open_text(&bytes));
    }

    /// A spreadsheet with bytes changed.
    #[test]
    fn no_broken_spreadsheet_makes_it_panic(
        which in 0..2_usize,
        edits in proptest::collection::vec((any::<u16>(), any::<u8>()), 1..6),
    ) {
        let name = ["log.xlsx", "log.ods"][which];
        let mut bytes = std::fs::read(data(name)).expect("there");
        for (place, byte) in edits {
            let at = usize::from(place) % bytes.len();
            bytes[at] = byte;
        }
        let folder = std::env::temp_dir().join(format!("drill_log_{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let path = folder.join(name);
        std::fs::write(&path, &bytes).expect("a file");
        goes_through(open(&path));
    }
}
