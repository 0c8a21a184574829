//! What is allowed and likely a slip is told, and taken all the same.

use super::first_plan::with_answers;
use super::first_plan_asked::{json_of, on_one_line};
use super::{bucketline, folder};

/// A figure where a name is asked is told in the summary, and said back at once where a line has it out of step.
#[test]
fn a_name_that_is_a_number_is_told() {
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
        "Tanker 3; 2,000; 11",
        "22; 1,800; 14",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
    ];
    let said = with_answers(folder.path(), &["new", "named.json", "--ask"], &answers);
    let said = on_one_line(&said.answered("new --ask"));
    for told in [
        "> 22; 1,800; 14 22, your own: 1,800 gal, there 14 min after the alarm.",
        "Careful: 22 is a name that is a number alone: what it is called, or a figure meant for another question?",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
    assert!(!said.contains("looks like a slip"), "it may be called so: {said}");
}

/// A slip is told with what is likely meant: a unit, a comma, a time in seconds.
#[test]
fn a_value_that_no_shuttle_has_is_told_when_it_is_given() {
    let folder = folder();
    let answers = [
        "us; Shed", "", "", "", "", "", "", "", "Tanker 3", "", "1,500", "", "", "Pond", "0.2",
        "500", "", "", "400", "90", "", "", "Tanker 3", "", "", "11", "", "1,500", "", "", "no",
        "", "yes",
    ];
    let said = with_answers(folder.path(), &["new", "slips.json", "--ask"], &answers)
        .answered("new --ask");
    let said = on_one_line(&said);
    for expected in [
        // 1,500 minutes on the road.
        "Careful: 1,500 min is very long to get there (common practice: at most 480 min): is 1,500 s meant? (or is 1.5 meant?) (it is taken; `back` mends it)",
        "Not taken: 0.2 gpm is out of range; from 1 to 100,000 gpm. Check it for missing digits, and its unit (is 200 meant?).",
        "Careful: 400 mi is very far to haul water (common practice: at most 15 mi): is 400 ",
        "an average of 90 mph is more than a laden tanker should count on",
        // 2,000 gal in 1,500 minutes are 1.3 gpm; in 1.5 minutes they are 1,333 gpm.
        "Careful: 1,500 min to dump 2,000 gal is 1.333 gpm, which no tanker takes (common practice: 1 to 10 min a load) (or is 1.5 meant?)",
    ] {
        assert!(said.contains(expected), "{expected}\n{said}");
    }
    // Enter does not write it then.
    assert!(
        said.contains("things look like slips (Careful, above): write it all the same?"),
        "{said}"
    );
    assert_eq!(said.matches("This one needs an answer.").count(), 1, "{said}");
    let last = said.split("The plan, as you said it:").last().expect("a summary");
    assert!(
        last.contains("Careful: 400 mi is very far")
            && last.contains("1.333 gpm, which no tanker takes"),
        "{last}"
    );
    let checked = bucketline(folder.path(), &["check", "slips.json"]).answered("check");
    let checked = checked.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        checked.contains("400 mi is very far to haul water (common practice: at most 15 mi)"),
        "{checked}"
    );
}

/// What stands behind the usual answers on a line is taken where it says more of the tanker, and nothing is named by it.
#[test]
fn how_often_and_all_or_none_may_stand_on_the_line() {
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
        "Tanker 3; 2,000; 11; 99%",
        "",
        "Elk 1; Elk Prairie; 2,000; 22; 3 in 4; all or none",
        "Elk 2; Elk Prairie; 1,800; 24",
        "Fox 1; Fox; 2,500; 30; 3 in 4",
        "3 in 4",
        "yes",
        "",
        "8",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "Fox comes whole",
        "Elk Prairie whole no",
        "",
        "",
    ];
    let said = with_answers(folder.path(), &["new", "line.json", "--ask"], &answers);
    let said = on_one_line(&said.answered("new --ask"));
    for told in [
        "Tanker 3, your own: 2,000 gal, there 11 min after the alarm, comes to 99% of fires.",
        "Elk 1 of Elk Prairie, to be asked for: 2,000 gal, there 22 min after its call, comes to 75% of fires. All of its \
         department come or none.",
        "Not taken: 3 in 4 is no name",
        "Not taken: yes is no name",
        "Fox 1 of Fox, to be asked for: 2,500 gal, there 30 min after its call, comes to 75% of fires. It can be called from \
         minute 8 after the alarm on. All of its department come or none.",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
    let made = json_of(folder.path(), "line.json");
    assert_eq!(made["aid"].as_array().map(Vec::len), Some(3), "{said}");
    assert_eq!(made["aid"][0]["comes_whole"], serde_json::Value::Null, "{said}");
    assert_eq!(made["aid"][2]["comes_whole"], true, "{said}");
}

/// An own tanker that comes later than own ones do and than all that could be asked for is told at the end. Own tankers come
/// within half an hour: common practice.
#[test]
fn an_own_tanker_later_than_all_aid_is_told() {
    let folder = folder();
    let told = "Careful: Tanker 5 is your own and there 51 min after the alarm, later than all that you could ask for (the last \
                of them after 29 min); own ones usually come within 30 min (common practice)";
    for (minutes, aid, called_at, is_told) in [
        ("51", "Elk 1; Elk; 2,000; 21", "8", true),
        ("15", "Elk 1; Elk; 2,000; 21", "8", false),
        // Within half an hour, and before one that is called late.
        ("30", "Elk 1; Elk; 2,000; 21", "8", false),
        ("51", "Elk 1; Elk; 2,000; 21", "31", false),
        ("51", "Elk 1; Elk; 2,000; 1 h", "0", false),
        // Two are no slip.
        ("51; Tanker 7; 2,000; 48", "Elk 1; Elk; 2,000; 21", "8", false),
        // Nobody to hold it against.
        ("51", "", "", false),
    ] {
        let own = format!("Tanker 5; 2,000; {minutes}");
        let mut answers =
            vec!["us; Shed", "", "", "", "", "", "", "", "Tanker 3; 2,000; 11", &own, ""];
        answers.extend(if aid.is_empty() { vec![""] } else { vec![aid, "", called_at] });
        answers.extend([""; 12]);
        let said = with_answers(folder.path(), &["new", "late.json", "--ask", "--force"], &answers);
        let said = on_one_line(&said.answered("new --ask"));
        assert_eq!(said.contains(told), is_told, "{minutes}, {aid}, {called_at}: {said}");
        assert_eq!(said.contains("is your own and there"), is_told, "{minutes}, {aid}: {said}");
    }
}
