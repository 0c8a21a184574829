//! Hostile files: each gets a clear error, none causes a panic.

use std::path::Path;

use crate::tests::{EXAMPLE, changed, mistakes};
use crate::{ScenarioError, load, read};

fn error_of(text: &str) -> String {
    match read(Path::new("plan.json"), text) {
        Ok(_) => panic!("read without a mistake"),
        Err(error) => error.to_string(),
    }
}

#[test]
fn what_is_no_scenario_at_all_says_so() {
    let rows = [
        ("", "the file holds nothing"),
        (" \n\t", "the file holds nothing"),
        ("hello", "this is not JSON"),
        ("{", "unterminated object"),
        ("[]", "a list does not belong here"),
        ("null", "null does not belong here"),
        ("42", "a number does not belong here"),
        ("\"{}\"", "text does not belong here"),
        ("{}", "a scenario needs `title`"),
        ("{} {}", "more than one"),
        ("\0", "this is not JSON"),
        ("{\"\": 1}", "has no ``"),
    ];
    for (text, expected) in rows {
        let error = error_of(text);
        assert!(error.contains(expected), "{text:?}: {error}");
        assert!(error.contains("plan.json:"), "{error}");
    }
}

#[test]
fn deep_nesting_is_refused() {
    for open in ["[", "{\"a\":", "[[{\"a\":"] {
        let error = error_of(&open.repeat(1_000_000));
        assert!(error.contains("nesting"), "{error}");
    }
    let deep = format!("{}{}", "[".repeat(400), "]".repeat(400));
    let error = error_of(&changed("\"volume\": null", &format!("\"volume\": {deep}")));
    assert!(error.contains("a list does not belong here"), "{error}");
}

#[test]
fn a_million_tankers_are_refused() {
    let tankers = vec!["{}"; 1_000_000].join(",");
    let text = changed("\"tankers\": [", &format!("\"tankers\": [{tankers}, "));
    let error = error_of(&text);
    assert!(error.contains("1000002 entries"), "{error}");
    let error = error_of(&changed("\"count\": 2", "\"count\": 1000000"));
    assert!(error.contains("from 1 to 1,000"), "{error}");
    let error = error_of(&changed("\"count\": 2", "\"count\": 1000"));
    assert!(error.contains("1,001 tankers in all"), "{error}");
}

#[test]
fn after_many_mistakes_the_search_is_given_up() {
    let keys: Vec<String> = (0..200_000).map(|n| format!("\"key {n}\": {n}")).collect();
    let error = error_of(&format!("{{{}}}", keys.join(", ")));
    assert!(error.contains("mistakes and more"), "{error}");
    assert!(error.len() < 50_000);
}

#[test]
fn very_long_texts_are_told_short() {
    let long = "x".repeat(1_000_000);
    for text in [
        changed("\"units\": \"us\"", &format!("\"{long}\": 1")),
        changed("\"units\": \"us\"", &format!("\"units\": \"{long}\"")),
        changed("\"reserve\": 500", &format!("\"reserve\": \"{long}\"")),
        changed("\"reserve\": 500", &format!("\"reserve\": {}", "9".repeat(1_000_000))),
        changed("\"brought_by\": \"Tanker 3\"", &format!("\"brought_by\": \"{}\"", &long[..200])),
        changed("Hay barn", &long),
    ] {
        let error = error_of(&text);
        assert!(error.len() < 3_000, "{} bytes", error.len());
    }
}

#[test]
fn control_characters_do_not_reach_the_terminal() {
    for text in [
        changed("\"units\": \"us\"", "\"\u{1b}[31m\": 1"),
        changed("\"units\": \"us\"", "\"units\": \"\\u001b[31m\""),
        changed("Hay barn", "Hay\\u001b[31m"),
        changed("\"reserve\": 500", "\"reserve\": \"5 \\u001b[31m\""),
        changed("\"brought_by\": \"Tanker 3\"", "\"brought_by\": \"\\u001b[31m\""),
        // The name that is suggested comes from the file too.
        changed("\"name\": \"Tanker 3\"", "\"name\": \"T\\u202eanker 3\""),
    ] {
        let error = error_of(&text);
        assert!(!error.contains(['\u{1b}', '\u{202e}']), "{error:?}");
        for mistake in mistakes(&text) {
            let told = format!("{}{}{:?}", mistake.place, mistake.problem, mistake.cure);
            assert!(!told.contains(['\u{1b}', '\u{202e}']), "{told:?}");
        }
    }
}

#[test]
fn files_that_are_no_text_are_unreadable() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    std::fs::write(at("latin.json"), b"{\"title\":\n \"caf\xe9\"}").unwrap();
    std::fs::write(at("wide.json"), b"\xff\xfe{\0}\0").unwrap();
    std::fs::write(at("huge.json"), vec![b' '; 9 * 1024 * 1024]).unwrap();
    let rows = [
        (at("latin.json"), "not UTF-8 text (line 2)"),
        (at("wide.json"), "not UTF-8 text (line 1)"),
        (at("huge.json"), "larger than 8 MB"),
        (at("none.json"), "no such file"),
        (folder.path().to_path_buf(), "a directory"),
    ];
    for (path, expected) in rows {
        let error = load(&path).unwrap_err();
        assert!(matches!(error, ScenarioError::Unreadable { .. }));
        let error = error.to_string();
        assert!(error.contains(expected), "{error}");
        assert!(error.contains(&path.display().to_string()), "{error}");
    }
    assert!(read(Path::new("plan.json"), &" ".repeat(9 * 1024 * 1024)).is_err());
}

#[test]
fn a_text_cut_or_stirred_anywhere_is_read_or_refused() {
    for (at, character) in EXAMPLE.char_indices() {
        let rest = &EXAMPLE[at + character.len_utf8()..];
        // Any result will do as long as there is one.
        let _ = read(Path::new("plan.json"), &EXAMPLE[..at]);
        let _ = read(Path::new("plan.json"), rest);
        let _ = read(Path::new("plan.json"), &format!("{}{rest}", &EXAMPLE[..at]));
        let _ = read(Path::new("plan.json"), &format!("{}€{rest}", &EXAMPLE[..at]));
    }
}
