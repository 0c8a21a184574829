//! Whatever is printed with `--json` is one JSON value, and the schema the program prints holds for it: results
//! of every question on every scenario, and what is printed where there is no result.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use jsonschema::Validator;
use serde_json::Value;

use super::{
    CANNOT_READ, CANNOT_WRITE, WRONG_COMMAND, WRONG_SCENARIO, bucketline, folder, hay_barn,
    scenarios,
};

static SCHEMA: LazyLock<Validator> = LazyLock::new(|| {
    let printed = bucketline(folder().path(), &["schema", "--answers"]).answered("the schema");
    let schema: Value = serde_json::from_str(&printed).expect("the schema is JSON");
    jsonschema::validator_for(&schema).expect("a schema")
});

fn holds(text: &str, what: &str) -> Value {
    let result: Value =
        serde_json::from_str(text).unwrap_or_else(|e| panic!("{what}: {e}: {text}"));
    if let Err(error) = SCHEMA.validate(&result) {
        panic!("{what}: {error}");
    }
    result
}

#[test]
fn the_schema_holds_for_every_question_on_every_scenario() {
    let folder = folder();
    let mut answered = 0;
    for file in scenarios() {
        let path = file.to_string_lossy().into_owned();
        for question in [
            "check", "risk", "size", "hold", "lose", "levers", "grade", "replay", "compare",
            "request",
        ] {
            let mut call = vec![question, &path, "--json"];
            if !["check", "replay"].contains(&question) {
                call.extend(["--runs", "100"]);
            }
            let what = format!("{question} {path}");
            let ended = bucketline(folder.path(), &call);
            let result = holds(&ended.out, &what);
            assert_eq!(ended.err, "", "{what}");
            // A file with addresses has them graded one by one.
            let asked = match result["question"].as_str() {
                Some("grade_addresses") => "grade",
                other => other.unwrap_or_default(),
            };
            // A plan without options or aid has nothing to compare or to ask for.
            if ended.code == Some(0) {
                assert_eq!(asked, question, "{what}");
                answered += 1;
            } else {
                assert!(["compare", "request"].contains(&question), "{what}");
                assert_eq!(result["refused"], "scenario", "{what}");
            }
        }
    }
    assert!(answered > 7 * scenarios().len(), "{answered} answers");
}

#[test]
fn a_refusal_is_json_where_json_is_asked_for() {
    let folder = folder();
    let text = fs::read_to_string(hay_barn()).expect("the hay barn");
    let write = |name: &str, text: &str| {
        fs::write(folder.path().join(name), text).expect("the folder can be written to");
    };
    write("two.json", &text.replace("\"capacity\"", "\"capasity\""));
    write("no_json.json", "{\"title\": 'A'}");
    write("file", "no folder");
    let barn = hay_barn();
    let rows: [(&[&str], i32, &str); 6] = [
        (&["risk", "two.json", "--json"], WRONG_SCENARIO, "scenario"),
        (&["check", "no_json.json", "--json"], WRONG_SCENARIO, "scenario"),
        (&["risk", "not_there.json", "--json"], CANNOT_READ, "reading"),
        (&["risk", "two.json", "--json", "--rums", "5"], WRONG_COMMAND, "command"),
        (&["risk", &barn, "--json", "--runs", "9", "--out", "file"], CANNOT_WRITE, "writing"),
        (&["compare", &barn, "--json", "--runs", "9"], WRONG_SCENARIO, "scenario"),
    ];
    for (call, code, refused) in rows {
        let what = call.join(" ");
        let ended = bucketline(folder.path(), call);
        assert_eq!(ended.code, Some(code), "{what}: {}", ended.out);
        assert_eq!(ended.err, "", "{what}");
        let refusal = holds(&ended.out, &what);
        assert_eq!(refusal["refused"], refused, "{what}");
        assert_eq!(refusal["exit_code"], code, "{what}");
        assert_eq!(refusal["question_asked"], call[0], "{what}");
        // What it is about is named by itself, wherever a file is.
        let is_named =
            refusal["file"].as_str().is_some_and(|file| file.contains('.') || file == "file");
        assert_eq!(is_named, refused != "command", "{what}: {}", refusal["file"]);
    }
    // What of the command line is wrong is named, as it was typed.
    for (words, argument, cure) in
        [(["--runs", "x"], "--runs x", "--help"), (["--rums", "5"], "--rums", "--runs")]
    {
        let call = [&["risk", &barn, "--json"][..], &words].concat();
        let refusal = holds(&bucketline(folder.path(), &call).out, argument);
        let wrong = refusal["arguments"].as_array().expect("arguments");
        assert_eq!(wrong.len(), 1, "{refusal}");
        assert_eq!(wrong[0]["argument"], argument, "{refusal}");
        assert!(wrong[0]["cure"].as_str().is_some_and(|told| told.contains(cure)), "{refusal}");
    }
    let two = bucketline(folder.path(), &["risk", "two.json", "--json"]);
    assert_mistakes_are_those_of_the_text(&holds(&two.out, "two.json"), folder.path());
}

/// Every mistake the text tells stands in the JSON with its line and its cure.
fn assert_mistakes_are_those_of_the_text(refusal: &Value, folder: &Path) {
    let text = bucketline(folder, &["risk", "two.json"]).refused(WRONG_SCENARIO, "two.json");
    let mistakes = refusal["mistakes"].as_array().expect("mistakes");
    assert!(mistakes.len() > 1, "{refusal}");
    for mistake in mistakes {
        let place = format!("two.json:{}:{}", mistake["line"], mistake["column"]);
        assert!(text.contains(&place), "{place} is not in {text}");
        let cure = mistake["cure"].as_str().expect("a cure");
        assert!(text.contains(cure), "{cure} is not in {text}");
    }
}
