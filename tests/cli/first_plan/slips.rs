//! What is allowed and likely a slip is told, and taken all the same.

use super::first_plan::with_answers;
use super::first_plan_asked::on_one_line;
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
