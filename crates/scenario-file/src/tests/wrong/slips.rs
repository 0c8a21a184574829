//! Slips that people make, each with the cure that fits: texts that are not JSON, numbers written for people,
//! the wrong file, a unit that was taken out.

use std::path::Path;

use crate::tests::{EXAMPLE, changed, mistakes};
use crate::{ScenarioError, load_building, read};

/// Every kind of error that the parser gives for strict JSON (RFC 8259), and those that the stricter parser
/// adds: text, part of the problem, part of the cure.
///
/// Kinds that the parser keeps for looser JSON cannot come up; the match over all kinds has no other arm.
const SYNTAX: [(&str, &str, &str); 41] = [
    ("", "holds nothing", "bucketline new"),
    ("{\"a\": .5}", "decimal points", "0.5"),
    ("{\"a\": 5.}", "decimal points", "5.0"),
    ("{\"a\": 5} // five", "comments", "`notes`"),
    ("{\"a\": 5 /* five", "unterminated comment", "`notes`"),
    ("{\"a\" 5}", "expected colon", "colon and a value"),
    ("{\"a\":", "expected value", "value after the colon"),
    ("{\"a\": 1e+}", "expected digit", "write the number out"),
    ("{\"a\": 1e}", "expected plus, minus, or digit", "write the number out"),
    ("{\"a\": -}", "following negative sign", "minus stands right before"),
    ("{a: 5}", "expected string for object property", "put the key into quotes"),
    ("{\"a\": 0x10}", "hexadecimal", "decimal digits"),
    ("{\"a\": 5 \"b\": 6}", "expected comma", "add a comma"),
    ("{\"a\": 5}}", "more than one", "take this bracket out"),
    ("{\"a\": 5} {\"a\": 5}", "more than one", "one scenario"),
    ("{\"a\": -Infinity}", "infinity and NaN", "leave the key out"),
    ("{\"a\": Infinity }", "unexpected word", "leave the key out"),
    ("{'a': 5}", "single-quoted", "write \" for '"),
    ("{\"a\": \"five}", "unterminated string", "closing \""),
    ("{\"a\": \"\\u00g0\"}", "four hex digits", "the character itself"),
    ("{\"a\": \"\\ud800\"}", "unicode", "the character itself"),
    ("{\"a\": \"\\d\"}", "invalid escape", "\\\\ for a backslash"),
    ("{\"a\": \"don\\'t\"}", "invalid escape", "' as it is"),
    ("{\"a\": 5,}", "trailing commas", "remove the comma"),
    ("{\"a\": +5}", "unary plus", "without the +"),
    ("{\"a\": }", "unexpected close brace", "a value before the }"),
    ("{\"a\": ]", "unexpected close bracket", "a value before the ]"),
    ("{\"a\": : 5}", "unexpected colon", "between a key and its value"),
    ("{\"a\": [1,, 2]}", "unexpected comma", "take the comma out"),
    ("{\"a\": 5]", "unexpected token in object", "close the object with }"),
    ("{\"a\": 5,, \"b\": 6}", "unexpected token in object", "take one comma out"),
    ("{\"a\": 5, [6]}", "unexpected token in object", "give it its key"),
    ("{\"a\": 5, \"b\": five#}", "unexpected token", "text into quotes"),
    ("{\"a\": five }", "unexpected word", "text into quotes"),
    ("title: Hay barn", "unexpected word", "begins with {"),
    ("# Hay barn", "unexpected token", "begins with {"),
    ("{\"a\": [1, 2", "unterminated array", "closing ]"),
    ("{\"a\": 5", "unterminated object", "closing }"),
    ("{\"a\": True}", "unexpected token", "write true"),
    ("{\"a\": 10%}", "unexpected token", "\"10%\""),
    ("{\"a\": 1800 gal }", "expected comma", "\"1800 gal\""),
];

#[test]
fn every_error_of_syntax_has_the_cure_that_fits() {
    for (text, problem, cure) in SYNTAX {
        let found = mistakes(text);
        assert_eq!(found.len(), 1, "{text}: {found:?}");
        assert!(found[0].problem.in_file().contains(problem), "{text}: {}", found[0].problem);
        assert!(found[0].cure.in_file().contains(cure), "{text}: {}", found[0].cure);
    }
    let deep = &mistakes(&"[".repeat(1_000))[0];
    assert!(
        deep.problem.in_file().contains("nesting")
            && deep.cure.in_file().contains("close the brackets"),
        "{deep:?}"
    );
}

/// What the parser with positions takes and strict JSON does not.
#[test]
fn what_only_the_stricter_parser_refuses_has_its_cure() {
    let nested = format!("{}1{}", "[".repeat(200), "]".repeat(200));
    let option = format!(
        "\"options\": [{{\"name\": \"a\", \"changes\": [{{\"op\": \"add\", \"path\": \"/a\", \"value\": {nested}}}]}}], \"handling\""
    );
    let rows = [
        (changed("\"handling\"", &option), "recursion limit", "lies so deep"),
        (changed("\"units\": \"us\",", "\"units\": \"us\",\u{a0}"), "key must be", "(U+00A0)"),
        (changed("\"units\": \"us\",", "\"notes\": \"a\tb\","), "control character", "\\n"),
    ];
    for (text, problem, cure) in rows {
        let found = mistakes(&text);
        assert!(found[0].problem.in_file().contains(problem), "{found:?}");
        assert!(found[0].cure.in_file().contains(cure), "{found:?}");
    }
}

/// A word processor's quotes, a number and a cost as they are written for people, a clock.
#[test]
fn what_is_written_for_people_is_told_as_the_file_would_have_it() {
    let rows = [
        ("\"title\"", "“title”", "\" for “"),
        ("\"Hay barn, Quarry Lane\"", "„Hay barn“", "\" for „"),
        ("\"units\": \"us\"", "\"units\": ‘us’", "\" for ‘"),
        ("\"units\": \"us\"", "\"units\": \"us”", "line"),
        ("\"capacity\": 1800", "\"capacity\": 2,000", "write 2000"),
        ("\"capacity\": 1800", "\"capacity\": 1 800", "write 1800"),
        ("\"capacity\": 1800", "\"capacity\": 1'800", "write 1800"),
        ("\"capacity\": 1800", "\"capacity\": \"2,000\"", "write 2000 without quotes"),
        ("\"capacity\": 1800", "\"capacity\": \"2.000.000 L\"", "write \"2000000 L\""),
        ("\"miles\": 2.4, \"mph\": 35", "\"miles\": 2,4, \"mph\": 35", "write 2.4"),
        ("\"miles\": 2.4, \"mph\": 35", "\"miles\": \"2,4 mi\", \"mph\": 35", "write \"2.4 mi\""),
        ("\"waste\": 0.05", "\"waste\": \"7,5%\"", "write \"7.5%\""),
        ("\"response\": 11", "\"response\": 1:10", "\"70 s\""),
        ("\"response\": 11", "\"response\": \"1:10\"", "\"70 min\""),
        ("\"response\": 11", "\"response\": \"1:10 min\"", "\"70 s\""),
        ("\"reserve\": 500", "\"reserve\": $2,400", "plain number: 2400"),
        ("\"reserve\": 500", "\"reserve\": €300", "plain number: 300"),
    ];
    for (from, to, cure) in rows {
        let found = mistakes(&changed(from, to));
        assert_eq!(found.len(), 1, "{to}: {found:?}");
        assert!(found[0].cure.in_file().contains(cure), "{to}: {}", found[0].cure);
    }
    let option = |cost: &str| {
        let change = "{\"op\": \"remove\", \"path\": \"/supply/reprime\"}";
        let option = format!(
            "\"options\": [{{\"name\": \"a\", \"cost\": {cost}, \"changes\": [{change}]}}]"
        );
        mistakes(&changed("\"handling\"", &format!("{option}, \"handling\"")))
    };
    for cost in ["$2,400", "\"$2,400\""] {
        let found = option(cost);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].cure.in_file().contains("2400") && !found[0].cure.in_file().contains("0.1"),
            "{found:?}"
        );
    }
}

/// A closing quote left out shows up lines later; the cure stands where the text begins.
#[test]
fn a_missing_quote_is_told_where_the_text_begins() {
    let found = mistakes(&changed("Quarry Lane\",", "Quarry Lane,"));
    assert_eq!((found[0].line, found[0].column), (2, 12), "{found:?}");
    assert!(found[0].cure.in_file().contains("closing \""), "{found:?}");
}

#[test]
fn a_table_given_as_a_scenario_is_called_one() {
    for text in [
        "name,capacity,response\nTanker 3,1800,11\n",
        "\"name\",\"capacity\"\n\"Tanker 3\",1800\n",
        "name;capacity\nTanker 3;1800\n",
        "name\tcapacity\nTanker 3\t1800\n",
        "1,2\n3,4\n",
    ] {
        let found = mistakes(text);
        assert!(found[0].problem.in_file().contains("a table"), "{text}: {found:?}");
        assert!(found[0].cure.in_file().contains("(CSV)"), "{text}: {found:?}");
    }
    let found = mistakes("{\"a\": 1,\n\"b\": 2,\n}");
    assert!(!found[0].problem.in_file().contains("a table"), "{found:?}");
}

/// A tanker taken out leaves its drop tank behind; another tanker of a similar name is no misspelling of it.
#[test]
fn a_drop_tank_whose_bringer_is_gone_is_not_sent_to_another_tanker() {
    let text = changed("\"name\": \"Tanker 3\"", "\"name\": \"Tanker 2\"");
    let found = mistakes(&text);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].place, "drop_tanks[0].brought_by");
    assert!(found[0].cure.in_file().contains("its own `response`"), "{found:?}");
    assert!(!found[0].cure.in_file().contains("Tanker 2"), "{found:?}");
    // A slip of the finger is still called one.
    let slip =
        &mistakes(&changed("\"brought_by\": \"Tanker 3\"", "\"brought_by\": \"Tnaker 3\""))[0];
    assert!(slip.cure.in_file().contains("\"Tanker 3\""), "{slip:?}");
}

#[test]
fn the_wrong_file_is_told_as_one_thing_with_the_way_out() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("file.json");
    let of_flow = |text: &str| {
        std::fs::write(&path, text).unwrap();
        match load_building(&path) {
            Err(ScenarioError::Wrong(wrong)) => wrong.list,
            other => panic!("{text}: {other:?}"),
        }
    };
    // Neither building nor scenario: one finding, not all that a scenario has.
    let found = of_flow("{\"title\": \"Hay barn\", \"units\": \"us\"}");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].cure.in_file().contains("add \"building\": {"), "{found:?}");
    // The building's facts one level too high, or its key misspelt.
    for (text, cure) in [
        (
            "{\"title\": \"Hay barn\", \"length\": 60, \"width\": 40}",
            "add \"building\": The building",
        ),
        ("{\"title\": \"Hay barn\", \"buildng\": {}}", "`building`"),
    ] {
        let found = of_flow(text);
        assert!(found.iter().any(|one| one.cure.in_file().contains(cure)), "{text}: {found:?}");
        assert!(
            !found.iter().any(|one| one.problem.in_file().contains("scenario")),
            "{text}: {found:?}"
        );
        let found = mistakes(text);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].cure.in_file().contains("bucketline flow plan.json"), "{found:?}");
    }
    // A scenario without a building behind its flow.
    let found = of_flow(EXAMPLE);
    assert!(found[0].cure.in_file().contains("--write"), "{found:?}");
    assert!(read(Path::new("plan.json"), EXAMPLE).is_ok());
}
