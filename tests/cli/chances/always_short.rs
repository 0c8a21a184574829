//! Where every fire runs short: how long, what makes it shorter, and the fire in the middle; each held against separate runs.

use serde_json::{Value, json};

use super::{WRONG_COMMAND, bucketline, folder, scenario};

/// A kind of change, and the same change written into a file.
type Case<'c> = (&'c str, &'c dyn Fn(&mut Value));

fn answer(arguments: &[&str]) -> Value {
    let folder = folder();
    let text = bucketline(folder.path(), arguments).answered(arguments[0]);
    serde_json::from_str(&text).expect("JSON")
}

/// The plan that is always short at this flow, with a change written into its file.
fn changed(folder: &std::path::Path, change: impl FnOnce(&mut Value)) -> String {
    let text = std::fs::read_to_string(scenario("hay_barn_what_to_buy")).expect("a scenario");
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    file["incident"]["attack_flow"] = json!(900);
    change(&mut file);
    let path = folder.join("changed.json");
    std::fs::write(&path, file.to_string()).expect("a file");
    path.display().to_string()
}

#[test]
fn what_makes_it_shorter_does_so_in_separate_runs_of_a_changed_file() {
    let folder = folder();
    let stands = changed(folder.path(), |_| ());
    let risk = |file: &str, runs: &str, seed: &str| {
        answer(&["risk", file, "--runs", runs, "--seed", seed, "--json", "--no-charts"])
    };
    let told = risk(&stands, "4000", "1");
    assert_eq!(told["interruption_probability"], 1.0);
    assert_eq!(told["would_help"], json!([]), "no chance can be lowered by what is tried");
    let shortens = told["would_shorten"].as_array().expect("a list");
    // Each on other luck, in a file that was changed by hand; the errors of both add up, and of the difference.
    let cases: [Case; 2] = [
        ("one_more_drop_tank", &|file| {
            let tank = file["drop_tanks"][0].clone();
            file["drop_tanks"].as_array_mut().expect("drop tanks").push(tank);
        }),
        ("dump_positions", &|file| file["drop_tanks"][0]["dump_positions"] = json!(2)),
    ];
    for (kind, change) in cases {
        let row = shortens
            .iter()
            .find(|row| row["change"]["kind"] == kind || row["change"]["input"]["kind"] == kind)
            .unwrap_or_else(|| panic!("{kind} is told"));
        let file = changed(folder.path(), change);
        let apart = risk(&file, "4000", "7");
        let minutes = |from: &Value| from["interrupted_minutes_mean"].as_f64().expect("minutes");
        let se = apart["interrupted_minutes_se"].as_f64().expect("an error");
        let half = (row["fewer_by"]["ci_high"].as_f64().expect("an end")
            - row["fewer_by"]["ci_low"].as_f64().expect("an end"))
            / 2.0;
        let off = (minutes(row) - minutes(&apart)).abs();
        assert!(off < 4.0 * se + half, "{kind}: {} told, {}", minutes(row), minutes(&apart));
        assert!(minutes(&apart) < minutes(&told) - 1.0, "{kind} shortens");
    }
}

#[test]
fn the_sentence_says_how_long_and_how_much_of_the_water_comes() {
    let folder = folder();
    let file = changed(folder.path(), |_| ());
    let told = answer(&["risk", &file, "--runs", "500", "--json", "--no-charts"]);
    let figure = |key: &str| told[key].as_f64().expect("a figure");
    // 900 gpm over 2 h are 108,000 gal.
    assert!((figure("wanted_gal") - 108_000.0).abs() < 1e-6);
    let comes = (figure("wanted_gal") - figure("unmet_gal_mean")).round();
    let comes = format!("{},{:03}", comes as u64 / 1000, comes as u64 % 1000);
    let says = told["told"]["verdict"].as_str().expect("a sentence");
    let minutes = format!("for {:.1} minutes on average", figure("interrupted_minutes_mean"));
    assert!(says.contains(&minutes), "{says}");
    assert!(says.contains(&format!("{comes} gal of 108,000 gal get there")), "{says}");
}

#[test]
fn a_typical_fire_is_a_fire_of_the_batch() {
    let file = scenario("chapel_late_mutual_aid");
    let typical = answer(&["replay", &file, "--typical", "--json", "--no-charts"]);
    let run = typical["run"].as_u64().expect("its number").to_string();
    let same = answer(&["replay", &file, "--run", &run, "--json", "--no-charts"]);
    assert_eq!(typical, same);
    // Some of the batch go better and some go worse.
    let short = |run: u64| {
        let fire = answer(&["replay", &file, "--run", &run.to_string(), "--json", "--no-charts"]);
        fire["short_min"].as_f64().expect("minutes")
    };
    let all: Vec<f64> = (1..=25).map(short).collect();
    let middle = typical["short_min"].as_f64().expect("minutes");
    assert!(all.iter().any(|one| *one < middle), "{middle}: {all:?}");
    assert!(all.iter().any(|one| *one > middle), "{middle}: {all:?}");
    let folder = folder();
    bucketline(folder.path(), &["replay", &file, "--typical", "--run", "3"])
        .refused(WRONG_COMMAND, "one or the other");
}

#[test]
fn of_tankers_that_nobody_lists_it_is_told_how_far_those_they_are_like_are() {
    let told = |file: &str| answer(&["size", file, "--runs", "600", "--json", "--no-charts"]);
    // The district tankers are there 15 minutes after the alarm, Tanker 1 after 11.
    let late = told(&scenario("orchard_metric"));
    assert_eq!(late["beyond_arrive_min"], 15.0);
    let points = late["told"].to_string();
    assert!(
        points.contains("like District tanker 3, there at minute 15: nearer ones do more"),
        "{points}"
    );
    // Both of the barn's are there after about as long.
    assert_eq!(told(&scenario("hay_barn_two_tankers"))["beyond_arrive_min"], Value::Null);
}
