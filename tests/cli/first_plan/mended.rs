//! What is mended at the summary, where more than one figure hangs on it or it is not taken.

use serde_json::{Value, json};

use super::first_plan::with_answers;
use super::first_plan_asked::{json_of, on_one_line};
use super::first_plan_opened::two_that_draft;
use super::folder;

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
