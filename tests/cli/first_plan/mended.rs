//! What is mended at the summary, where more than one figure hangs on it or it is not taken.

use std::path::Path;

use serde_json::{Value, json};

use super::first_plan::with_answers;
use super::first_plan_asked::{json_of, on_one_line};
use super::first_plan_opened::{differences, made, put, two_that_draft};
use super::{bucketline, folder};

/// What the file says of a pump is of the engine whose pump it is.
#[test]
fn what_is_kept_of_drafting_goes_with_the_engine_it_was_of() {
    let folder = folder();
    for (answers, told, engine, limit) in [
        // The pump that both had moves twice as much as one.
        (vec!["Engine 8 name Engine 9", "", "yes"], None, json!("Engine 9"), 2000),
        (
            vec!["Engine 8 name none", "", "yes"],
            Some(
                "Engine 8 drafts no more, and what the file says of its pump goes with it (`supply/draft_limit`, \
                 `supply/failure`): as usual Engine 3 drafts 1,000 gpm at most. Your notes stay: see whether one tells of it.",
            ),
            Value::Null,
            1000,
        ),
        (
            vec!["Engine 8 name none", "supply engine", "Engine 9", "", "yes"],
            None,
            json!("Engine 9"),
            1000,
        ),
    ] {
        let before = two_that_draft(folder.path());
        let said = with_answers(folder.path(), &["new", "two.json", "--ask"], &answers);
        let said = on_one_line(&said.answered("mended"));
        let after = json_of(folder.path(), "two.json");
        let supply = &after["supply"];
        assert_eq!(
            (&supply["engine"]["name"], &supply["draft_limit"]),
            (&engine, &json!(limit)),
            "{said}"
        );
        // The repair of one pump, judgement as in the starter; before, the other engine was hooked up in its place.
        let is_kept = limit == 2000;
        let repair = if is_kept {
            &before["supply"]["failure"]["repair"]
        } else {
            &json!({"low": 5, "likely": 10, "high": 30})
        };
        assert_eq!(supply["failure"]["repair"], *repair, "{said}");
        assert_eq!(said.contains("drafts no more"), !is_kept, "{said}");
        assert!(told.is_none_or(|told| said.contains(told)), "{said}");
    }
}

/// A beginning is less than the whole: what is said the other way round is refused with what is likely meant.
#[test]
fn a_beginning_of_more_than_all_is_refused() {
    let folder = folder();
    let whole = json!(300);
    let steps =
        |first: i64, all: i64| json!([{"from": 0, "flow": first}, {"from": 10, "flow": all}]);
    let likely = "a beginning is less; write `300, beginning with 200` if that is meant";
    let less = "a beginning is less; write less, or `none`";
    for (answer, expected) in [
        ("200, beginning with 300", Err(likely)),
        ("200 starting at 300", Err(likely)),
        ("start with 300, then 200", Err(likely)),
        ("300 at first, then 200", Err(likely)),
        ("300 to begin with, 200 later", Err(likely)),
        ("200 later, 300 at first", Err(likely)),
        ("300, then 200", Err(likely)),
        (
            "300, beginning with 300",
            Err("the lines cannot begin with 300 where all of them together need 300"),
        ),
        (
            "300 gpm, beginning with 2000 L/min",
            Err("cannot begin with 2,000 L/min where all of them together need 300 gpm"),
        ),
        ("300, beginning with 200", Ok(steps(200, 300))),
        ("200 to begin with, 300 later", Ok(steps(200, 300))),
        ("first 200, then 300", Ok(steps(200, 300))),
        ("300, 200 at first", Ok(steps(200, 300))),
        ("200 first, 300", Ok(steps(200, 300))),
        ("300, first 200", Ok(steps(200, 300))),
    ] {
        let answers =
            [vec!["us", "Shed", answer], vec!["300"; usize::from(expected.is_err())], vec![""; 25]]
                .concat();
        let said = with_answers(folder.path(), &["new", "shed.json", "--ask", "--force"], &answers);
        let said = on_one_line(&said.answered("new --ask"));
        let flow = &json_of(folder.path(), "shed.json")["incident"]["attack_flow"];
        match expected {
            Ok(expected) => assert_eq!(*flow, expected, "{answer}: {said}"),
            Err(told) => {
                assert_eq!(*flow, whole, "{answer}: {said}");
                assert!(
                    said.contains(&format!("> {answer} Not taken: ")) && said.contains(told),
                    "{answer}: {said}"
                );
            }
        }
    }
    let said = with_answers(
        folder.path(),
        &["new", "shed.json", "--ask"],
        &["start", "301", "none", "", "yes"],
    );
    let said = on_one_line(&said.answered("mended"));
    assert!(
        said.contains("cannot begin with 301 where all of them together need 300")
            && said.contains(less),
        "{said}"
    );
}

/// What differs once the plan is mended with these answers, and what was said.
fn mended(folder: &Path, answers: &[&str]) -> (Vec<String>, String) {
    let before = made(folder);
    let said = with_answers(folder, &["new", "mine.json", "--ask"], answers);
    let said = on_one_line(&said.answered("mended"));
    let mut found = Vec::new();
    differences(&before, &json_of(folder, "mine.json"), "", &mut found);
    (found, said)
}

/// A value that is not taken leaves one where it was said: what is typed next is no answer to another question.
#[test]
fn a_value_that_is_not_taken_leads_back_to_the_plan() {
    let folder = folder();
    for (answers, told, changed) in [
        // The number of another sentence, and its value.
        (
            vec!["7 minutes soon", "6 minutes 22", "", "yes"],
            "Not taken: it does not begin with a number; write a number, such as 2,000, or one with its unit: 11,000 L. That one \
             is as it was; what was changed before stays. Is it right?",
            vec!["/aid/0/response/mean"],
        ),
        (vec!["Tanker 6 0.5 gal; 4", "yes"], "Not taken: 0.5 gal is out of range", vec![]),
        (vec!["Creek 2 alarm perhaps", "yes"], "Nothing was changed", vec![]),
        (vec!["Tanker 6 name none", "yes"], "Not taken: Tanker 6 brings a drop tank", vec![]),
        // Asked for without a value, the question stays.
        (
            vec!["7 minutes", "soon", "22", "", "yes"],
            "[24] > soon Not taken: it does not begin with a number; write a number, such as 2,000, or one with its unit: 11,000 \
             L. How many minutes after its call is Creek 2 there [24] > 22",
            vec!["/aid/1/response/mean"],
        ),
        // So it does behind a value that is taken.
        (
            vec!["start 150; soon", "12", "", "yes"],
            "How many minutes after first water is the whole flow wanted [10] > 12",
            vec!["/incident/attack_flow"],
        ),
        // What was not taken is no step to go back to, and not taken again.
        (
            vec!["7 minutes 23", "6 minutes soon", "4 minutes 12", "back", "10", "", "yes"],
            "Is it right?",
            vec!["/aid/1/response/mean"],
        ),
    ] {
        let (found, said) = mended(folder.path(), &answers);
        assert_eq!(found, changed, "{answers:?}: {said}");
        assert!(said.contains(told), "{answers:?}: {said}");
    }
    bucketline(folder.path(), &["new", "barn.json", "--building"]).answered("new --building");
    let answers = ["length soon", "width 41", "", "yes"];
    let said = with_answers(folder.path(), &["new", "barn.json", "--building", "--ask"], &answers);
    let said = on_one_line(&said.answered("mended"));
    assert!(said.contains("what was changed before stays. Is it right?"), "{said}");
    assert_eq!(json_of(folder.path(), "barn.json")["building"]["width"], 41, "{said}");
}

/// What can be no load is minutes, and its sentence says so; what can be either is refused with both. Tankers carry 1,000 gal
/// or more: common practice.
#[test]
fn a_number_alone_behind_a_tanker_is_its_minutes() {
    let folder = folder();
    for (answer, told, changed) in [
        (
            "Tanker 8 15",
            "5 Tanker 8, your own: 2,000 gal, there 15 min after the alarm.",
            vec!["/tankers/1/response/mean"],
        ),
        (
            "7 31",
            "7 Creek 2 of Creek, to be asked for: 1,800 gal, there 31 min after its call.",
            vec!["/aid/1/response/mean"],
        ),
        ("creek 2: 7.5", "1,800 gal, there 7.5 min after its call.", vec!["/aid/1/response/mean"]),
        (
            "Tanker 8 240",
            "Not taken: 240 can be its minutes or its water; write `Tanker 8 minutes 240` or `Tanker 8 240 gal`.",
            vec![],
        ),
        ("Tanker 8 2,500", "write `Tanker 8 minutes 2,500` or `Tanker 8 2,500 gal`.", vec![]),
        // Of what is no tanker it says nothing.
        (
            "Engine 2 15",
            "Not taken: what can be mended there: name, water, minutes, reserve",
            vec![],
        ),
        ("Tanker 8 -5", "Not taken: what can be mended there: name, water, minutes", vec![]),
    ] {
        let (found, said) = mended(folder.path(), &[answer, "", "yes"]);
        assert_eq!(found, changed, "{answer}: {said}");
        assert!(said.contains(told), "{answer}: {said}");
    }
    let answers = [vec!["metric", "Shed"], vec![""; 21]].concat();
    with_answers(folder.path(), &["new", "metric.json", "--ask"], &answers).answered("new --ask");
    let said = with_answers(
        folder.path(),
        &["new", "metric.json", "--ask"],
        &["Tanker 1 15", "Tanker 1 900", "", "yes"],
    );
    let said = on_one_line(&said.answered("mended"));
    for told in [
        "4 Tanker 1, your own: 8,000 L, there 15 min after the alarm.",
        "write `Tanker 1 minutes 900` or `Tanker 1 900 L`.",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
}

/// Of a request that was made a plan those of others come with your own: whose they are and that they come whole is mended
/// there as it is of aid.
#[test]
fn those_of_others_who_were_asked_are_mended_as_aid_is() {
    let folder = folder();
    let asked_for = || {
        let mut plan = made(folder.path());
        let aid = plan["aid"].as_array_mut().expect("aid");
        let asked = std::mem::take(aid);
        plan["tankers"].as_array_mut().expect("tankers").extend(asked);
        put(folder.path(), "asked.json", &plan);
        plan
    };
    for (answers, changed) in [
        (vec!["Creek 2 department Fox Creek"], vec!["/tankers/3/department"]),
        (vec!["Creek 2 comes whole"], vec!["/tankers/3/comes_whole"]),
        (vec!["Creek comes whole"], vec!["/tankers/2/comes_whole"]),
        (vec!["Creek comes whole", "Creek 2 whole no"], vec![]),
        // All of one on a line, as of aid: name, department, water, minutes, all or none, how often.
        (
            vec!["Creek 1; ; Fox Creek; 2,600; 23; yes; 3 in 4;"],
            vec!["capacity", "comes_whole", "department", "response/mean", "turnout"],
        ),
        // Your own is of nobody else.
        (vec!["Tanker 8 department Fox Creek"], vec![]),
    ] {
        let before = asked_for();
        let all = [answers.clone(), vec!["", "yes"]].concat();
        let said = with_answers(folder.path(), &["new", "asked.json", "--ask"], &all);
        let said = on_one_line(&said.answered("mended"));
        let mut found = Vec::new();
        differences(&before, &json_of(folder.path(), "asked.json"), "", &mut found);
        let found: Vec<&str> = match found.len() {
            5 => found.iter().map(|at| at.trim_start_matches("/tankers/2/")).collect(),
            _ => found.iter().map(String::as_str).collect(),
        };
        assert_eq!(found, changed, "{answers:?}: {said}");
    }
    asked_for();
    let answers = ["Tanker 8 department Fox Creek", "Creek 1 comes whole", "", "yes"];
    let said = with_answers(folder.path(), &["new", "asked.json", "--ask"], &answers);
    let said = on_one_line(&said.answered("mended"));
    for told in [
        "Not taken: what can be mended there: name, water, minutes, often, dump;",
        "6 Creek 1 of Creek, of others, asked for: 2,500 gal, there 21 min after the alarm. All of its department come or none.",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
}
