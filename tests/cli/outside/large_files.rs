//! Large files and long runs stay within the memory and time of a desk.

use std::time::{Duration, Instant};

use serde_json::json;

use super::{ANSWERED, Ended, PROGRAM, WRONG_SCENARIO, bucketline, folder, write_changed};

/// Fifty options of a file of three megabytes, within 130 MB of memory: all fifty changed files at once would
/// take more.
#[cfg(unix)]
#[test]
fn the_options_of_a_large_file_take_the_memory_of_one() {
    let folder = folder();
    write_changed(&folder.path().join("large.json"), |value| {
        value["notes"] = vec!["木".repeat(9_999); 99].into();
        value["options"] = (0..50)
            .map(|number| {
                let flow =
                    json!({"op": "replace", "path": "/fill_sites/0/flow", "value": 900 + number});
                json!({"name": format!("option {number}"), "changes": [flow]})
            })
            .collect();
    });
    let ended = std::process::Command::new("sh")
        .args(["-c", "ulimit -v 130000; exec \"$0\" check large.json"])
        .arg(&*PROGRAM)
        .current_dir(folder.path())
        .output();
    let ended = Ended::of(ended.expect("the shell starts"));
    assert_eq!(ended.code, Some(ANSWERED), "{}", ended.err);
}

#[test]
fn a_run_without_end_is_refused_at_once() {
    let folder = folder();
    write_changed(&folder.path().join("endless.json"), |value| {
        value["incident"]["duration"] = 100_000.into();
        value["tankers"][1]["count"] = 900.into();
    });
    let began = Instant::now();
    let said =
        bucketline(folder.path(), &["check", "endless.json"]).refused(WRONG_SCENARIO, "check");
    assert!(said.contains("incident.duration: the tankers would make about "), "{said}");
    assert!(said.contains("cure: watch a shorter time"), "{said}");
    assert!(began.elapsed() < Duration::from_secs(5), "{:?}", began.elapsed());
}

#[test]
fn measured_times_of_many_tankers_are_limited_together() {
    let folder = folder();
    write_changed(&folder.path().join("measured.json"), |value| {
        value["handling"]["fill_connect"] = json!({"samples": vec![1.5; 10_000]});
        value["tankers"][1]["count"] = 100.into();
    });
    let said =
        bucketline(folder.path(), &["check", "measured.json"]).refused(WRONG_SCENARIO, "check");
    assert!(said.contains("too many measured times") && said.contains("200,000"), "{said}");
}

/// Values that nobody means are asked about whatever is asked, and the answer is still given.
#[test]
fn every_command_asks_about_a_value_that_nobody_means() {
    let folder = folder();
    write_changed(&folder.path().join("barn.json"), |value| {
        value["fill_sites"][0]["flow"] = "20 L/min".into();
        value["options"] = json!([{"name": "as it was", "changes":
            [{"op": "replace", "path": "/fill_sites/0/flow", "value": 900}]}]);
        value["aid"] = json!([{"name": "Aid 1", "capacity": 2000, "response": 20}]);
    });
    let runs = ["--runs", "100"];
    for command in [
        "check", "risk", "size", "compare", "request", "lose", "levers", "grade", "reach", "replay",
    ] {
        let mut arguments = vec![command, "barn.json"];
        if !["check", "replay"].contains(&command) {
            arguments.extend(runs);
        }
        if !["check", "grade"].contains(&command) {
            arguments.push("--no-charts");
        }
        let ended = bucketline(folder.path(), &arguments);
        assert_eq!(ended.code, Some(ANSWERED), "{command}: {}", ended.err);
        let said = format!("{}{}", ended.out, ended.err);
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            said.contains("garden hose gives (common practice: at least 30 gpm): is 20 L/s meant?"),
            "{command}: {said}"
        );
        assert!(said.contains("Note line "), "{command}: {said}");
    }
}
