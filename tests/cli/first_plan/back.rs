//! Steps back through the questions.

use serde_json::json;

use super::first_plan::with_answers;
use super::first_plan_asked::json_of;
use super::folder;

/// Back over several questions, what was answered there stands in the brackets and Enter takes it again.
#[test]
fn a_step_back_keeps_what_was_answered() {
    let folder = folder();
    let back = vec!["back"; 5];
    let answers = [
        vec!["us; Shed, Mill Lane; 300; 60", "Engine 4; 1,250; 7"],
        // To the flow, which was a slip; then Enter alone, to the reserve.
        back,
        vec!["350", "", "", "", ""],
        vec!["200", "", "Tanker 3; 2,500; 11; Tanker 5; 1,800; 14"],
        // To the name of the second tanker, which is another, and has the same water.
        vec!["back", "back", "back", "Tanker 7", "", "16"],
        vec!["", "Creek 1; Creek; 3,000; 19"],
        // One more own tanker: what was said of the aid is not taken for it, and is not lost.
        vec!["back"; 5],
        vec!["Tanker 9", "", "", "", "", "", "", ""],
        vec![""; 15],
    ]
    .concat();
    let said = with_answers(folder.path(), &["new", "kept.json", "--ask"], &answers);
    let said = said.answered("new --ask");
    let made = json_of(folder.path(), "kept.json");
    for (place, value) in [
        ("/incident/attack_flow", json!(350)),
        ("/incident/duration", json!(60)),
        ("/incident/reserve", json!(200)),
        ("/attack_engine/name", json!("Engine 4")),
        ("/attack_engine/tank", json!(1250)),
        ("/attack_engine/response/mean", json!(7)),
        ("/tankers/0/capacity", json!(2500)),
        ("/tankers/1/name", json!("Tanker 7")),
        ("/tankers/1/capacity", json!(1800)),
        ("/tankers/1/response/mean", json!(16)),
        ("/tankers/2/name", json!("Tanker 9")),
        ("/tankers/2/capacity", json!("2000 gal")),
        ("/aid/0/name", json!("Creek 1")),
        ("/aid/0/department", json!("Creek")),
        ("/aid/0/capacity", json!(3000)),
        ("/aid/0/response/mean", json!(19)),
    ] {
        assert_eq!(made.pointer(place), Some(&value), "{place}: {said}");
    }
    // In other units a bare number is another amount: the flow is asked anew, in litres.
    let answers =
        [vec!["us; Shed; 300"], vec!["back"; 3], vec!["metric", "Shed"], vec![""; 25]].concat();
    with_answers(folder.path(), &["new", "units.json", "--ask"], &answers).answered("new --ask");
    assert_eq!(json_of(folder.path(), "units.json")["incident"]["attack_flow"], "1500 L/min");
}
