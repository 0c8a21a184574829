//! `new`, `schema`, `completions`, `man` and the help.

use std::fs;

use serde_json::Value;

use super::{CANNOT_WRITE, WRONG_COMMAND, bucketline, folder, names_in, scenarios};

/// Every command.
const COMMANDS: [&str; 17] = [
    "check",
    "risk",
    "size",
    "replay",
    "grade",
    "reach",
    "new",
    "import",
    "flow",
    "schema",
    "completions",
    "man",
    "compare",
    "request",
    "lose",
    "levers",
    "page",
];

#[test]
fn the_page_is_one_file_with_the_scenario_in_it_or_nothing() {
    let folder = folder();
    let said = bucketline(folder.path(), &["page"]).answered("page");
    assert!(said.starts_with("out/starter/planner.html is written."), "{said}");
    let starter =
        fs::read_to_string(folder.path().join("out/starter/planner.html")).expect("a page");
    let barn = super::hay_barn();
    bucketline(folder.path(), &["page", &barn, "--out", "here"]).answered("page");
    assert_eq!(names_in(&folder.path().join("here")), ["planner.html"]);
    let page = fs::read_to_string(folder.path().join("here/planner.html")).expect("a page");
    let held = |page: &str| {
        let from = page.split_once("id=\"scenario-data\">").expect("a scenario").1;
        let held: Value =
            serde_json::from_str(from.split_once("</script>").expect("its end").0).expect("JSON");
        held["text"].as_str().expect("a text").to_owned()
    };
    assert_eq!(held(&page), fs::read_to_string(&barn).expect("the scenario"));
    assert_eq!(held(&starter), scenario_file::STARTER);
    // What is fetched would be named by an address; SVG and HTML name their standards by one.
    for address in ["src=\"http", "href=\"http", "url(http", "@import"] {
        assert!(!page.contains(address), "{address}");
    }
    fs::write(folder.path().join("wrong.json"), "{}").expect("the folder can be written to");
    let said = bucketline(folder.path(), &["page", "wrong.json", "--out", "none"])
        .refused(super::WRONG_SCENARIO, "page");
    assert!(said.contains("title"), "{said}");
    assert!(!folder.path().join("none").exists());
}

#[test]
fn new_writes_a_scenario_that_runs() {
    let folder = folder();
    let said = bucketline(folder.path(), &["new", "barn.json"]).answered("new");
    assert!(said.starts_with("barn.json is written."), "{said}");
    assert_eq!(names_in(folder.path()), ["barn.json"]);
    for arguments in [
        ["check", "barn.json", "--json", "--tender"].as_slice(),
        &["risk", "barn.json", "--runs", "300", "--json"],
        &["size", "barn.json", "--runs", "600", "--json"],
        &["replay", "barn.json", "--json"],
    ] {
        let text = bucketline(folder.path(), arguments).answered(arguments[0]);
        let json: Value = serde_json::from_str(&text).expect("JSON");
        assert_eq!(json["title"], "Hay barn, Quarry Lane", "{}", arguments[0]);
    }
}

#[test]
fn new_never_writes_over_a_file_unasked() {
    let folder = folder();
    let file = folder.path().join("mine.json");
    fs::write(&file, "my own work").expect("the folder can be written to");
    let said = bucketline(folder.path(), &["new", "mine.json"]).refused(CANNOT_WRITE, "new");
    assert!(said.contains("mine.json is already there") && said.contains("--force"), "{said}");
    assert_eq!(fs::read_to_string(&file).expect("the file"), "my own work");
    bucketline(folder.path(), &["new", "mine.json", "--force"]).answered("new --force");
    bucketline(folder.path(), &["check", "mine.json"]).answered("check");
    assert_eq!(names_in(folder.path()), ["mine.json"]);
}

/// Whatever stands at the top of a scenario that runs is in the schema, which allows nothing else.
#[test]
fn the_schema_names_every_key() {
    let folder = folder();
    let text = bucketline(folder.path(), &["schema"]).answered("schema");
    let schema: Value = serde_json::from_str(&text).expect("JSON");
    // JSON Schema 2020-12, core, 8.1.1: `$schema` names the dialect.
    assert!(schema["$schema"].as_str().is_some_and(|name| name.contains("json-schema.org")));
    let properties = schema["properties"].as_object().expect("properties");
    for key in [
        "title",
        "notes",
        "units",
        "incident",
        "attack_engine",
        "supply",
        "drop_tanks",
        "tankers",
        "fill_sites",
        "handling",
    ] {
        assert!(properties.contains_key(key), "no {key}");
    }
    assert_eq!(schema["additionalProperties"], false);
    for file in scenarios() {
        let text = fs::read_to_string(&file).expect("the scenario is there");
        let scenario: Value = serde_json::from_str(&text).expect("JSON");
        for key in scenario.as_object().expect("an object").keys() {
            assert!(properties.contains_key(key), "{}: no {key}", file.display());
        }
        for key in schema["required"].as_array().expect("required") {
            let key = key.as_str().expect("a key");
            assert!(scenario.get(key).is_some(), "{}: no {key}", file.display());
        }
    }
}

#[test]
fn completions_and_the_manual_page_name_every_command() {
    let folder = folder();
    let tells = [
        ("bash", "complete -F _bucketline"),
        ("zsh", "#compdef bucketline"),
        ("fish", "complete -c bucketline"),
    ];
    for (shell, telling) in tells {
        let script = bucketline(folder.path(), &["completions", shell]).answered(shell);
        assert!(script.contains(telling), "{shell}");
        for command in COMMANDS {
            assert!(script.contains(command), "{shell}: no {command}");
        }
    }
    let page = bucketline(folder.path(), &["man"]).answered("man");
    // A manual page in the man macros opens its title with .TH and its sections with .SH (man(7)).
    assert!(page.contains(".TH bucketline 1") && page.contains(".SH NAME"), "{page}");
    for command in COMMANDS {
        assert!(page.contains(command), "man: no {command}");
    }
}

#[test]
fn the_help_shows_examples_and_exit_codes() {
    let folder = folder();
    let help = bucketline(folder.path(), &["--help"]).answered("--help");
    for telling in ["Examples:\n  bucketline new barn.json", "Exit codes:\n  0  it answered"] {
        assert!(help.contains(telling), "{telling}: {help}");
    }
    for command in COMMANDS {
        assert!(help.contains(&format!("\n  {command} ")), "no {command} in {help}");
        let own = bucketline(folder.path(), &[command, "--help"]).answered(command);
        assert!(own.contains(&format!("\n  bucketline {command}")), "{command}: {own}");
    }
    let version = bucketline(folder.path(), &["--version"]).answered("--version");
    assert!(version.starts_with("bucketline "), "{version}");
}

#[test]
fn a_wrong_command_line_is_told_and_ends_with_its_number() {
    let folder = folder();
    let calls: [(&[&str], &str); 9] = [
        (&[], "Usage:"),
        (&["rsik", "a.json"], "'risk'"),
        (&["risk"], "<FILE>"),
        (&["risk", "a.json", "--runs", "0"], "1..=1000000000"),
        (&["risk", "a.json", "--runs", "many"], "invalid value 'many'"),
        (&["risk", "a.json", "--seed=-1"], "invalid value '-1'"),
        (&["risk", "a.json", "--threads", "0"], "1..=1024"),
        (&["replay", "a.json", "--planned", "--run", "2"], "cannot be used with"),
        (&["completions", "abacus"], "bash"),
    ];
    for (arguments, telling) in calls {
        let said =
            bucketline(folder.path(), arguments).refused(WRONG_COMMAND, &format!("{arguments:?}"));
        assert!(said.contains(telling), "{arguments:?}: {said}");
    }
    assert_eq!(names_in(folder.path()), [""; 0]);
}
