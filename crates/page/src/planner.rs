//! The one file: page, engine and scenario put together.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::json;
use sha2::{Digest, Sha256};

/// The compiled engine, packed with gzip: `crates/page/build` makes it.
const ENGINE: &[u8] = include_bytes!("../built/engine.wasm.gz");
/// The browser's side of the calls, made with it.
const BINDINGS: &str = include_str!("../built/engine.js");

/// The licenses of what the engine is built with, packed with gzip.
const NOTICES: &[u8] = include_bytes!("../built/notices.txt.gz");

const PAGE: &str = include_str!("../web/page.html");
const STYLE: &str = concat!(include_str!("../web/page.css"), include_str!("../web/print.css"));
const WORKER: &str = include_str!("../web/base/worker.js");

/// The page's modules, each after those it uses when it is read: they become one script.
const MODULES: [&str; 33] = [
    include_str!("../web/base/dom.js"),
    include_str!("../web/told/numbers.js"),
    include_str!("../web/told/words.js"),
    include_str!("../web/plan/units.js"),
    include_str!("../web/plan/references.js"),
    include_str!("../web/plan/plan.js"),
    include_str!("../web/base/engine.js"),
    include_str!("../web/plan/rows.js"),
    include_str!("../web/plan/slots.js"),
    include_str!("../web/plan/fields.js"),
    include_str!("../web/plan/variants.js"),
    include_str!("../web/plan/usual.js"),
    include_str!("../web/whole/undone.js"),
    include_str!("../web/plan/options.js"),
    include_str!("../web/plan/listed.js"),
    include_str!("../web/plan/sentences.js"),
    include_str!("../web/told/told.js"),
    include_str!("../web/plan/marks.js"),
    include_str!("../web/told/answer.js"),
    include_str!("../web/told/aid.js"),
    include_str!("../web/told/sites.js"),
    include_str!("../web/told/questions.js"),
    include_str!("../web/told/paper.js"),
    include_str!("../web/fire/placed.js"),
    include_str!("../web/fire/story.js"),
    include_str!("../web/fire/line.js"),
    include_str!("../web/fire/clock.js"),
    include_str!("../web/whole/keep.js"),
    include_str!("../web/whole/remarks.js"),
    include_str!("../web/whole/follow.js"),
    include_str!("../web/whole/tools.js"),
    include_str!("../web/whole/printed.js"),
    include_str!("../web/main.js"),
];

/// The page with a scenario in it: one file that fetches nothing and that nothing can be fetched from.
///
/// - Given: the text of a scenario, sound or not: the page says what is wrong with it.
pub fn planner(scenario: &str) -> String {
    let script = script();
    let scenario = json!({"text": scenario, "version": env!("CARGO_PKG_VERSION")}).to_string();
    let policy = format!(
        "default-src 'none'; script-src 'sha256-{}' 'wasm-unsafe-eval'; style-src 'sha256-{}'; worker-src blob:; \
         base-uri 'none'; form-action 'none'",
        digest(&script),
        digest(STYLE)
    );
    let worker = format!("{BINDINGS}\n{WORKER}");
    let engine = STANDARD.encode(ENGINE);
    // A name in the scenario may hold anything; within JSON an escape keeps it from ending the element.
    let scenario = scenario.replace('<', "\\u003c");
    let parts = [
        ("@POLICY@", policy.as_str()),
        ("@STYLE@", STYLE),
        ("@ENGINE@", &engine),
        ("@NOTICES@", &STANDARD.encode(NOTICES)),
        ("@WORKER@", &worker),
        ("@SCENARIO@", &scenario),
        ("@SCRIPT@", &script),
    ];
    put_in(PAGE, &parts)
}

/// The page with each mark replaced by its part, once and from the front, so that no part is looked into.
fn put_in(page: &str, parts: &[(&str, &str)]) -> String {
    let mut whole =
        String::with_capacity(page.len() + parts.iter().map(|part| part.1.len()).sum::<usize>());
    let mut rest = page;
    for (mark, part) in parts {
        if let Some((before, after)) = rest.split_once(mark) {
            whole.push_str(before);
            whole.push_str(part);
            rest = after;
        }
    }
    whole.push_str(rest);
    whole
}

/// The modules as one: what they take from each other stands in the same text.
fn script() -> String {
    let mut script = String::new();
    for module in MODULES {
        for line in module.lines() {
            if line.starts_with("import ") {
                continue;
            }
            script.push_str(line.strip_prefix("export ").unwrap_or(line));
            script.push('\n');
        }
    }
    script
}

fn digest(text: &str) -> String {
    STANDARD.encode(Sha256::digest(text.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scenario_cannot_end_the_element_that_holds_it() {
        let page = planner("{\"title\": \"</script><script>alert(1)</script><!-- @SCRIPT@\"}");
        let script_ends = page.matches("</script").count();
        assert_eq!(script_ends, planner("{}").matches("</script").count());
        assert_eq!(script_ends, 5, "engine, notices, worker, scenario, script");
        assert!(page.contains("\\u003c/script>\\u003cscript>alert(1)"));
        assert!(page.contains("@SCRIPT@"), "what a scenario says is left alone");
    }

    #[test]
    fn the_policy_names_the_script_and_the_style_that_are_there() {
        let page = planner("{}");
        let script = page
            .split("<script type=\"module\">")
            .nth(1)
            .and_then(|rest| rest.split("</script>").next());
        let style = page.split("<style>").nth(1).and_then(|rest| rest.split("</style>").next());
        for part in [script, style] {
            let digest = digest(part.expect("it is there"));
            assert!(page.contains(&format!("'sha256-{digest}'")), "{digest}");
        }
        assert!(!page.contains("import {") && !page.contains("\nexport "));
    }

    #[test]
    fn a_whole_page_weighs_less_than_1_2_mb() {
        // The engine is the only part that is packed and would not shrink again on its way.
        let page = planner(scenario_file::STARTER);
        assert!(page.len() < 2_000_000, "{} bytes", page.len());
        assert!(ENGINE.len() < 1_200_000, "{} bytes of engine", ENGINE.len());
    }
}
