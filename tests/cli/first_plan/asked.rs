//! What the questions say and take beside the answers: help, the summary.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::first_plan::with_answers;
use super::{bucketline, folder};

/// The questions on the way through with one own tanker, nobody else and a pond.
const WAY_THROUGH: usize = 22;

/// What was said, however its lines are broken.
pub(super) fn on_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

pub(super) fn json_of(folder: &Path, file: &str) -> Value {
    let text = fs::read_to_string(folder.join(file)).expect("written");
    serde_json::from_str(&text).expect("JSON")
}

/// A chief who has a tanker, a pond and a name for the fire is at the summary after 22 answers, and through with one more.
#[test]
fn the_way_through_is_short() {
    let folder = folder();
    let mut answers = vec!["", "Shed, Mill Lane"];
    answers.extend([""; WAY_THROUGH - 1]);
    let said = with_answers(folder.path(), &["new", "short.json", "--ask"], &answers);
    let said = said.answered("new --ask");
    assert_eq!(said.matches("\n> ").count(), WAY_THROUGH + 1, "{said}");
    let told =
        "1 The fire: Shed, Mill Lane. The lines need 400 gpm, from first water on, for 120 min.";
    assert!(on_one_line(&said).contains(told), "{said}");
    assert!(said.lines().all(|line| line.chars().count() <= 100), "{said}");
    // One answer fewer, and nothing is written.
    let short = &answers[..WAY_THROUGH];
    let ended = with_answers(folder.path(), &["new", "none.json", "--ask"], short);
    assert!(ended.err.contains("nothing is written"), "{}", ended.err);
}

/// Several answers on one line are those answers one by one.
#[test]
fn several_answers_may_stand_on_one_line() {
    let folder = folder();
    let one_by_one = [
        "us",
        "Shed",
        "300",
        "",
        "Engine 4",
        "1,000 gal",
        "9",
        "",
        "",
        "Tanker 3",
        "2,500",
        "11",
        "Tanker 5",
        "2,000 gal",
        "14",
        "",
        "",
        "Pond",
        "",
        "",
        "",
        "2.4",
        "",
        "",
        "",
        "",
    ];
    with_answers(folder.path(), &["new", "one.json", "--ask"], &one_by_one).answered("one by one");
    let together = [
        "us; Shed; 300;",
        "Engine 4; 1,000 gal; 9;",
        "",
        "Tanker 3; 2,500; 11",
        "Tanker 5;2,000 gal;14",
        "",
        "",
        "Pond;;;;2.4;",
        "",
        "",
        "",
    ];
    let said = with_answers(folder.path(), &["new", "line.json", "--ask"], &together);
    said.answered("on one line");
    assert_eq!(json_of(folder.path(), "one.json"), json_of(folder.path(), "line.json"));
    // What is refused on the line takes the rest of it along.
    let slip = ["us; Shed; lots; 90", "300", "", "Engine 4"];
    let ended = with_answers(folder.path(), &["new", "slip.json", "--ask"], &slip);
    assert!(ended.out.contains("Not taken: it does not begin with a number"), "{}", ended.out);
    assert_eq!(ended.out.matches("For how long, from first water").count(), 1, "{}", ended.out);
}

/// `?` at every question, of a building too, says something of that question.
#[test]
fn every_question_has_help_of_its_own() {
    let folder = folder();
    for (arguments, answers) in [
        (
            vec!["new", "plan.json", "--ask"],
            vec![
                "",
                "Shed",
                "",
                "",
                "",
                "",
                "",
                "",
                "Engine 8",
                "",
                "",
                "",
                "",
                "",
                "Aid 1",
                "Creek",
                "",
                "",
                "",
                "",
                "",
                "",
                "Engine 12",
                "",
                "",
                "",
                "",
                "Tanker 1",
                "",
                "",
                // Everything of the fire, a tanker, one of the aid and the pond, then it is right.
                "1",
                "",
                "",
                "100",
                "5",
                "",
                "Tanker 1",
                "",
                "",
                "",
                "",
                "",
                "Aid 1",
                "",
                "",
                "",
                "",
                "yes",
                "",
                "",
                "second",
                "5",
                "Pond",
                "",
                "",
                "",
                "",
                "",
                "",
                "",
                "",
                "0.5",
                "",
                "",
                "",
            ],
        ),
        (
            vec!["new", "shed.json", "--building", "--ask"],
            vec![
                "", "Shed", "other", "4", "", "", "", "", "", "", "", "", "", "40", "", "", "", "",
            ],
        ),
    ] {
        let asked: Vec<&str> = answers.iter().flat_map(|answer| ["?", answer]).collect();
        let said = with_answers(folder.path(), &arguments, &asked).answered("with help");
        // Each question, from one prompt to the next: what stands above it, and what `?` said of it.
        let parts: Vec<&str> = said.split("\n> ?\n").collect();
        assert_eq!(parts.len() - 1, answers.len(), "{said}");
        let mut known: Vec<(String, String)> = Vec::new();
        for pair in parts.windows(2) {
            // Behind the answer to the one before it; the first one behind the introduction.
            let (_, behind) = pair[0].rsplit_once("\n> ").unwrap_or(("", pair[0]));
            let (_, question) = behind.split_once('\n').expect("a line behind the answer");
            // Of a summary what stands below it.
            let question = question.rsplit("\n\n").next().expect("a question");
            let question = on_one_line(question);
            let help = on_one_line(pair[1]);
            let (help, _) = help.split_once(" What can be answered").expect("how to answer");
            assert!(help.len() > 20, "{question}: {help}");
            let is_new = known.iter().all(|(other, told)| told != help || alike(other, &question));
            assert!(is_new, "{question} is told what another is: {help}");
            known.push((question, help.to_owned()));
        }
    }
    // The uses with their hazard classes, the contents with their kinds.
    let said = with_answers(
        folder.path(),
        &["new", "b.json", "--building", "--ask"],
        &["", "Shed", "?", "", "", "", "", "", "", "?", "", "?"],
    );
    for told in [
        "barn\": A commercial barn: class 4.",
        "ordinary\": Type III, masonry",
        "hay or straw in a barn",
    ] {
        assert!(said.out.contains(told), "{told}: {}", said.out);
    }
}

/// Questions that are the same but for who is asked about.
fn alike(one: &str, other: &str) -> bool {
    let begins = |text: &str| text.split_whitespace().take(3).collect::<Vec<_>>().join(" ");
    begins(one) == begins(other)
}

/// Everything that was answered or taken stands in the summary, and can be mended from there by number or by name.
#[test]
fn the_summary_tells_everything_and_mends_what_is_named() {
    let folder = folder();
    let answers = [
        "us; Elevator, Depot Street; 450; 90",
        "Engine 2; 750; 7; 200",
        "",
        "Tanker 6; 3,000; 10",
        "",
        "Creek 1; Creek; 2,500; 21",
        "",
        "",
        "Depot pond; 800; Engine 9; 14; 1.8; 28",
        "",
        "tanker 6; 3,000",
        "",
        // The flow was a slip; the pond has gravel; the tanker comes to four fires of five; one more tanker; it is right.
        "1; ; 350; ; ",
        "depot pond; ; ; 2; ; ; ; ; ; 0.4; 15; 60,000",
        "4; ; ; ; 4 in 5; 3",
        "own tanker",
        "Tanker 8; 1,800; 16",
        "all",
        "",
    ];
    let said = with_answers(folder.path(), &["new", "depot.json", "--ask"], &answers)
        .answered("new --ask");
    let said = on_one_line(&said);
    let told: Vec<&str> = said.split("The plan, as you said it:").collect();
    assert_eq!(
        told.len(),
        1 + 3,
        "after the last answer, with one more in it, and where it is wanted: {said}"
    );
    let last = told.last().expect("a summary");
    for expected in [
        "1 The fire: Elevator, Depot Street. The lines need 350 gpm, from first water on, for 90 min.",
        "2 Engine 2 pumps the attack lines. It is there 7 min after the alarm with 750 gal, of which 200 gal are kept for backing out.",
        "3 No supply engine: Engine 2 drafts itself.",
        "4 Tanker 6, your own: 3,000 gal, there 10 min after the alarm, comes to 80% of fires, dumps in 3 min.",
        "5 Tanker 8, your own: 1,800 gal, there 16 min after the alarm. 6",
        "6 Creek 1 of Creek, to be asked for: 2,500 gal, there 21 min after its call. 7",
        "7 Depot pond fills 2 tankers at once at 800 gpm, with Engine 9, which drives there to pump, from minute 14 after the alarm. 1.8 mi by road one way at 28 mph, 0.4 mi of it gravel at 15 mph; it holds 60,000 gal.",
        "8 Drop tank of Tanker 6: 3,000 gal; it is the one that is drafted from.",
        "Where nothing is said of it: your own come to every fire, others to 90% of fires and can be called at the alarm; other dumps are not timed, and no source runs dry.",
    ] {
        assert!(last.contains(expected), "{expected}\n{last}");
    }
    // After each that was mended it alone is told.
    let mended = told[1].split("Is it right?").nth(2).expect("the second");
    assert!(
        mended.contains("7 Depot pond fills 2") || mended.contains("6 Depot pond fills 2"),
        "{mended}"
    );
    assert!(!mended.contains("Tanker 6"), "{mended}");
    let made = json_of(folder.path(), "depot.json");
    assert_eq!(made["incident"]["attack_flow"], 350);
    assert_eq!(made["fill_sites"][0]["volume"], 60000);
    assert_eq!(made["tankers"][1]["name"], "Tanker 8");
    bucketline(folder.path(), &["check", "depot.json"]).answered("check");
}

/// From the summary a unit is taken out; what others rest on it is told and kept.
#[test]
fn the_summary_takes_out_what_is_not_there() {
    let folder = folder();
    let answers = [
        "us; Shed",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "Tanker 3;;",
        "Tanker 5;;",
        "",
        "Creek 1;;;",
        "",
        "",
        "Pond;;creek 1;;;",
        "",
        "Tanker 5;",
        "",
        // Tanker 5 brings the drop tank, Creek 1 the pump: taken out in turn. Renamed, what it brings is its own.
        "Tanker 5; none",
        "Tanker 7;;;;",
        "drop tank of tanker 7; none",
        "Tanker 7; none",
        "Creek 1; none",
        "Creek 2;;;;;;;",
        "",
    ];
    let said =
        with_answers(folder.path(), &["new", "out.json", "--ask"], &answers).answered("new --ask");
    let said = on_one_line(&said);
    assert!(said.contains("Not taken: Tanker 5 brings a drop tank"), "{said}");
    assert!(said.contains("Not taken: Creek 1 pumps at Pond"), "{said}");
    let made = json_of(folder.path(), "out.json");
    assert_eq!(made["tankers"].as_array().map(Vec::len), Some(1));
    assert_eq!(made["drop_tanks"].as_array().map(Vec::len), Some(0));
    assert_eq!(made["aid"][0]["name"], "Creek 2");
    assert_eq!(made["fill_sites"][0]["source_pump"]["brought_by"], "Creek 2");
}
