//! What may stand on one line of the questions, and what is asked where a line leaves it open.

use serde_json::{Value, json};

use super::first_plan::with_answers;
use super::first_plan_asked::{json_of, on_one_line};
use super::folder;

/// The questions up to the aid, with two own tankers.
const OWN: [&str; 10] = [
    "",
    "Hog barn",
    "300",
    "",
    "Engine 1; 1,000; 9",
    "",
    "",
    "Tanker 3; 2,000; 12",
    "Tanker 4; 1,500; 15; dumps in 4",
    "",
];

fn asked(name: &str, of: &[&str]) -> (Value, String) {
    let folder = folder();
    let answers = [&OWN[..], of].concat();
    let said = with_answers(folder.path(), &["new", "barn.json", "--ask"], &answers);
    let said = on_one_line(&said.answered(name));
    (json_of(folder.path(), "barn.json"), said)
}

/// Alarms and their minutes, how often, the dump, and the minute at which a pump that a unit brings draws.
#[test]
fn a_line_says_the_alarm_the_dump_and_the_minute_of_a_pump() {
    let (plan, said) = asked(
        "lines",
        &[
            "Tanker 41; Ash Gap; 2,000; 30; second alarm 15; 2 in 3",
            "Tanker 42; Ash Gap; 1,200; 30; 2nd alarm",
            "Tanker 51; Harl; 3,500; 35; third alarm",
            // Nobody was on it: its minute is asked.
            "25",
            "Tanker 21; Dunmarrow; 3,000; 22",
            "",
            // From which minute the others can be called: not those on an alarm.
            "5",
            "River; 450; Tanker 4; 24; 1.9; 30",
            "",
            "",
            "yes",
        ],
    );
    assert!(
        said.contains("At which minute after the alarm can the third alarm be struck"),
        "{said}"
    );
    assert_eq!(plan["alarms"], json!({"second": 15, "third": 25}), "{said}");
    let of_aid = |key: &str| -> Vec<Value> {
        plan["aid"].as_array().expect("aid").iter().map(|one| one[key].clone()).collect()
    };
    assert_eq!(of_aid("alarm"), [json!("second"), json!("second"), json!("third"), Value::Null]);
    assert_eq!(of_aid("requested_at"), [Value::Null, Value::Null, Value::Null, json!(5)]);
    assert_eq!(of_aid("turnout")[0], json!(2.0 / 3.0));
    // 1,500 gal in 4 minutes.
    assert_eq!(plan["tankers"][1]["dump_rate"], json!(375), "{plan:#}");
    // There at minute 15, drawing at minute 24.
    let pump = &plan["fill_sites"][0]["source_pump"];
    assert_eq!((&pump["brought_by"], &pump["setup"]["mean"]), (&json!("Tanker 4"), &json!(9)));
    assert!(said.contains("9 min after it is there (minute 24 after the alarm)"), "{said}");
}

/// What no plan may have is refused as it is said, and the unit stays without it.
#[test]
fn what_a_line_may_not_say_is_refused() {
    for (line, why) in [
        ("Tanker 41; Ash Gap; 2,000; 30; dumps in 0", "Not taken: "),
        ("Tanker 41; Ash Gap; 2,000; 30; second alarm 99,999", "Not taken: "),
    ] {
        let (plan, said) =
            asked("refused", &[line, "", "", "River; 450; nobody; 9; 1.9; 30", "", "", "yes"]);
        assert_eq!(said.matches(why).count(), 1, "{line}: {said}");
        let one = &plan["aid"][0];
        assert_eq!((&one["alarm"], &one["dump_rate"]), (&Value::Null, &Value::Null), "{line}");
    }
}

/// A pump cannot draw before the unit is there that brings it; shown alone, the question takes minutes after that.
#[test]
fn a_pump_that_is_brought_draws_after_its_unit_is_there() {
    let (plan, said) =
        asked("pump", &["", "River; 450; Tanker 4; 12; 1.9; 30", "13", "1.9", "30", "", "", "yes"]);
    let why = "Tanker 4 is at the fire at minute 15 after the alarm, and its pump draws after that, not at minute 12";
    assert!(said.contains(why), "{said}");
    assert_eq!(plan["fill_sites"][0]["source_pump"]["setup"]["mean"], json!(13), "{said}");
}

/// At the summary: an alarm with its minute, or asked for it; an engine that pumps, and from when.
#[test]
fn an_alarm_and_a_pump_are_mended_with_their_minutes() {
    let aid = ["Tanker 41; Ash Gap; 2,000; 30", "", ""];
    let source = ["River; 450; nobody; 9; 1.9; 30", "", ""];
    let mended =
        |name: &str, mends: &[&str]| asked(name, &[&aid[..], &source, mends, &["yes"]].concat());
    for (mends, minute) in [
        (&["Tanker 41 second alarm 15"][..], 15),
        (&["Tanker 41 alarm second 15"], 15),
        (&["Tanker 41 on the second alarm at minute 15"], 15),
        (&["Tanker 41 second alarm", "12"], 12),
    ] {
        let (plan, said) = mended("alarm", mends);
        assert_eq!(plan["alarms"], json!({"second": minute}), "{mends:?}: {said}");
        assert_eq!(plan["aid"][0]["alarm"], json!("second"), "{mends:?}");
    }
    // How often, as on a line.
    let (plan, said) = mended("often", &["Tanker 41 3 in 4"]);
    assert_eq!(plan["aid"][0]["turnout"], json!(0.75), "{said}");
    let (plan, said) = mended("pump", &["River pumped by Engine 12", "16"]);
    let pump = &plan["fill_sites"][0]["source_pump"];
    assert_eq!(pump["name"], json!("Engine 12"), "{said}");
    assert!(said.contains("with Engine 12, which drives there to pump, from minute 16"), "{said}");
}
