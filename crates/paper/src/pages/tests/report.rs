//! Reports: a first page for the chief, with what helps and its price.

use answers::question::report as of_report;

use super::*;
use crate::layout::sheet::{Format, Page};
use crate::pages::report;

#[test]
fn a_report_begins_with_one_page_for_the_chief() {
    for (of, tender) in [
        (text("feed_mill_mutual_aid"), false),
        (text("orchard_metric"), true),
        (text("sawmill_two_fill_sites"), false),
        (text("grass_fire_nursing_only"), false),
        (crowded(), false),
    ] {
        let scenario = read(&of);
        let asked = of_report::Asked { target: 0.05 };
        let few = Budget { replications: 64, ..BUDGET };
        let found = of_report::report(&scenario, asked, few, &Control::default());
        let made = made(&scenario, tender);
        let pages = report(&found, Format::Letter, &made).expect("pages");
        all_within(&pages, &found.whole.title);
        let says = |page: &Page| -> String {
            page.placed.iter().map(|one| format!("{}\n", one.block.says)).collect()
        };
        let first = says(&pages[0]);
        assert!(
            first.contains("change, then short in") || first.contains("No single change"),
            "{first}"
        );
        for told in [
            "The clock",
            "What helps",
            "What cannot be spared",
            "Not known",
            "Prepared by",
            "The pinch",
        ] {
            assert!(first.contains(told), "{told}: {first}");
        }
        assert!(says(&pages[1]).starts_with("Whom to ask"), "{}", says(&pages[1]));
        let number = format!("page 2 of {}", pages.len());
        assert!(says(&pages[1]).contains(&number), "{number}: {}", says(&pages[1]));
    }
}

/// A greater flow that holds from a later minute does so where no water is used before: said where the chief reads it.
#[test]
fn a_report_says_on_its_first_page_what_holds_after_a_first_flow() {
    let mut all = text("feed_mill_mutual_aid");
    let aid = all.as_object_mut().expect("an object").remove("aid").expect("aid");
    let tankers = all["tankers"].as_array_mut().expect("tankers");
    tankers.extend(aid.as_array().expect("aid").iter().cloned());
    let scenario = read(&all);
    // As many as `hold` simulates.
    let budget = Budget { replications: 2_500, ..BUDGET };
    let asked = of_report::Asked { target: 0.05 };
    let found = of_report::report(&scenario, asked, budget, &Control::default());
    let stepped = found.hold.figures.as_it_stands.stepped_up.as_ref().expect("two flows");
    assert!(stepped.interruption_probability > 0.05, "one after the other they fail");
    let pages = report(&found, Format::Letter, &made(&scenario, false)).expect("pages");
    let first: String = pages[0].placed.iter().map(|one| one.block.says.as_str()).collect();
    assert!(first.contains("Going up from one to the next, the lines run short"), "{first}");
}

/// An option with its price is among what helps, as the file states it; what has none is left to fill in.
#[test]
fn what_helps_has_its_price_where_the_file_states_one() {
    let scenario = read(&text("hay_barn_what_to_buy"));
    let found = of_report::report(
        &scenario,
        of_report::Asked { target: 0.05 },
        BUDGET,
        &Control::default(),
    );
    let pages = report(&found, Format::Letter, &made(&scenario, false)).expect("pages");
    let table = (pages[0]
        .placed
        .iter()
        .filter_map(|one| one.block.table.as_ref().map(|_| &one.block.says)))
    .find(|says| says.starts_with("change"))
    .expect("what helps");
    let options = &found.compare.as_ref().expect("the file's options").told.advice;
    assert!(!options.is_empty());
    for option in options {
        let cost = option.cost.expect("every option has its price");
        let row = shuttle_report::units::whole(cost).to_string();
        assert!(table.contains(&row), "{row}: {table}");
    }
}

/// A request that helps and "no single change helps" do not stand side by side; each table of losses says what it is; few
/// people stand on the first page.
#[test]
fn a_report_says_what_helps_once_and_what_each_table_is() {
    let mut plan = text("feed_mill_mutual_aid");
    plan["crew"] = json!({"on_hand": 4});
    let scenario = read(&plan);
    let budget = Budget { replications: 1_000, ..BUDGET };
    let asked = of_report::Asked { target: 0.05 };
    let found = of_report::report(&scenario, asked, budget, &Control::default());
    assert!(found.request.as_ref().is_some_and(|one| one.figures.meets_target));
    assert!(found.risk.figures.would_help.is_empty());
    let pages = report(&found, Format::A4, &made(&scenario, false)).expect("pages");
    let of = |page: &Page| -> Vec<String> {
        page.placed.iter().map(|one| one.block.says.clone()).collect()
    };
    let all: Vec<String> = pages.iter().flat_map(of).collect();
    let none: Vec<&String> =
        all.iter().filter(|says| says.to_lowercase().contains("no single change")).collect();
    assert_eq!(none.len(), 1, "{none:?}");
    assert!(none[0].starts_with("In place of that request"), "{none:?}");
    assert!(
        of(&pages[0]).iter().any(|says| says.starts_with("People ") && says.contains("too few"))
    );
    // Over the second table of losses stands what it shows, on its page.
    let over = "The same losses, and how sure that is";
    let page = pages.iter().map(of).find(|page| page.iter().any(|says| says.starts_with(over)));
    let page = page.expect("the words");
    let at = page.iter().position(|says| says.starts_with(over)).expect("the words");
    assert!(page[at + 1].starts_with("lost, short in, points more"), "{page:?}");
}
