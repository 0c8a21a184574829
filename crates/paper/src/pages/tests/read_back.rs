//! Pages read back from their drawings: letters large enough, sums that come out as they stand there, answers apart.

use answers::question::handout::{self, DrillQuestion};
use answers::question::report;
use answers::question::{Budget, card, check};
use resvg::usvg::roxmltree;
use shuttle_report::batch::Control;

use super::{BUDGET, crowded, made, read, text};
use crate::layout::set::{Kind, SetBlock};
use crate::layout::sheet::{Format, Page};
use crate::pages::*;

fn says(page: &Page) -> String {
    page.placed.iter().map(|one| format!("{}\n", one.block.says)).collect()
}

/// Sizes of the letters of a block as they are printed, pt: a drawing may stand smaller than it was drawn.
fn sizes(block: &SetBlock) -> Vec<(f64, String)> {
    let document = roxmltree::Document::parse(&block.svg).expect("XML");
    let root = document.root_element();
    let drawn = root.attribute("viewBox").expect("a size").split_whitespace().nth(2).expect("wide");
    let scale = block.width / drawn.parse::<f64>().expect("a number");
    (document.descendants().filter(|node| node.has_tag_name("text")))
        .map(|node| {
            let size: f64 = node.attribute("font-size").expect("a size").parse().expect("a number");
            (scale * size, node.text().unwrap_or_default().to_owned())
        })
        .collect()
}

/// 9 pt is the smallest that is read without a glass (common practice of print).
fn none_smaller_than_nine_points(pages: &[Page], about: &str) {
    for placed in pages.iter().flat_map(|page| &page.placed) {
        for (size, words) in sizes(&placed.block) {
            assert!(size >= 9.0 - 0.01, "{about}: {size:.2} pt: {words}");
        }
    }
}

#[test]
fn no_letters_of_report_or_handout_are_smaller_than_nine_points() {
    let few = Budget { replications: 64, ..BUDGET };
    for of in [text("sawmill_two_fill_sites"), text("orchard_metric"), crowded()] {
        let scenario = read(&of);
        let made = made(&scenario, false);
        for format in [Format::Letter, Format::A4] {
            let asked = report::Asked { target: 0.05 };
            let found = report::report(&scenario, asked, few, &Control::default());
            let pages = report(&found, format, &made).expect("pages");
            none_smaller_than_nine_points(&pages, &found.whole.title);
            let answer = handout::handout(&scenario, few, &Control::default());
            let pages = handout(&answer, format, &made).expect("pages");
            none_smaller_than_nine_points(&pages, &answer.title);
        }
    }
}

/// Whoever adds up the column finds the answer to the last digit, and so with what is divided: by hand, from what is
/// printed.
#[test]
fn the_sums_of_a_handout_come_out_from_what_stands_on_its_first_side() {
    for (name, unit) in [
        ("hay_barn_two_tankers", "gpm"),
        ("sawmill_two_fill_sites", "gpm"),
        ("orchard_metric", "L/min"),
    ] {
        let scenario = read(&text(name));
        let answer = handout::handout(&scenario, BUDGET, &Control::default());
        let pages = handout(&answer, Format::Letter, &made(&scenario, false)).expect("pages");
        let table = pages[0].placed.iter().find(|one| one.block.kind == Kind::Table);
        let rows = &table.expect("the cycle").block.says;
        // To the decimal places that stand there, and to a tenth the minutes that the report has.
        let parts: Vec<&str> = (rows.split("; ").skip(1))
            .filter_map(|row| row.split(", ").nth(1).filter(|part| part.parse::<f64>().is_ok()))
            .collect();
        let minutes: f64 = parts.iter().filter_map(|part| part.parse::<f64>().ok()).sum();
        let decimals = parts[0].split('.').nth(1).map_or(0, str::len);
        let trainer = says(&pages[4]);
        let sum = format!("{} = {minutes:.decimals$}", parts.join(" + "));
        assert!(trainer.contains(&sum), "{sum}: {rows} {trainer}");
        let exact = answer.figures.cycles[0].cycle_min;
        assert_eq!(format!("{minutes:.1}"), format!("{exact:.1}"), "{name}");
        // "A load brings 2,793 gal. How often must one come in to keep up 285 gpm?"
        let number = |words: &str| -> f64 {
            let digits: String = words.chars().filter(|one| one.is_ascii_digit()).collect();
            digits.parse().expect("a number")
        };
        let front = says(&pages[0]);
        let load = front.split("A load brings ").nth(1).expect("a load");
        let (load, rest) = load.split_once(". How often").expect("a question");
        let flow = rest.split("keep up ").nth(1).and_then(|rest| rest.split('?').next());
        let every = number(load) / number(flow.expect("a flow"));
        assert!(trainer.contains(&format!("Every {every:.1} minutes")), "{every}: {trainer}");
        // "its 3,000 gal less a tenth, over that cycle"
        let tank = front.split("bring a minute: its ").nth(1).expect("a tank");
        let brings = 0.9 * number(tank.split(" less").next().expect("a tank")) / minutes;
        let told = trainer.split(&format!("over {minutes:.decimals$} minutes that is ")).nth(1);
        let told = told.and_then(|told| told.split(&format!(" {unit}")).next()).expect("a flow");
        assert!((number(told) - brings).abs() <= 0.005 * brings, "{told} {brings}: {trainer}");
        // The others' flow stands in the question, and with it the sum is what every page says that all bring.
        let asked = front.split("over that cycle? The other ").nth(1).expect("the others");
        let others = asked.split_once(" bring").map(|(_, rest)| rest);
        let others = number(others.and_then(|rest| rest.split(unit).next()).expect("the others"));
        let all = trainer.split("All tankers: ").nth(1).and_then(|sum| sum.split(" = ").nth(1));
        let all = number(all.and_then(|all| all.split(unit).next()).expect("the sum"));
        assert_eq!(number(told) + others, all, "{trainer}");
        let by_hand = check::check(&scenario);
        let reader = made(&scenario, false).reader;
        let verdict = reader.put(&by_hand.told.verdict);
        let all = format!("{} {unit}", shuttle_report::units::whole(all));
        assert!(verdict.contains(&all), "{all}: {verdict}");
        // Each place that may pass least stands in the question; the least of them is the answer.
        for cap in &by_hand.figures.worksheet.caps {
            let gpm = reader.put(&answers::say![answers::shown::flow(cap.cap_gpm)]);
            assert!(front.contains(&gpm), "{gpm}: {front}");
        }
    }
}

/// The last question is worked out from the table that stands under it: the highest level with half or more, and by hand
/// (level - what no pump reaches) / flow.
#[test]
fn the_level_to_gate_down_at_is_read_from_the_table_on_the_trainees_sheet() {
    let number = |words: &str| -> f64 {
        let digits: String = words.chars().filter(char::is_ascii_digit).collect();
        digits.parse().expect("a number")
    };
    for (name, sign) in [
        ("sawmill_two_fill_sites", "gal"),
        ("orchard_metric", "L"),
        ("grass_fire_nursing_only", "gal"),
        ("hay_barn_two_tankers", "gal"),
    ] {
        let scenario = read(&text(name));
        let budget = Budget { replications: 1_000, ..BUDGET };
        let answer = handout::handout(&scenario, budget, &Control::default());
        let pages = handout(&answer, Format::Letter, &made(&scenario, false)).expect("pages");
        let mut tables = pages[0].placed.iter().filter(|one| one.block.kind == Kind::Table);
        let table = &tables.next_back().expect("the levels").block.says;
        let (levels, shares) = table.split_once("; ").expect("two rows");
        // A thousand has a comma of its own, without a space behind it.
        let levels: Vec<f64> = (levels.split(", "))
            .filter(|cell| cell.chars().all(|one| one.is_ascii_digit() || one == ','))
            .map(number)
            .collect();
        let shares: Vec<f64> =
            shares.split(", ").filter(|cell| cell.ends_with('%')).map(number).collect();
        assert_eq!(levels.len(), shares.len(), "{table}");
        let front = says(&pages[0]);
        let asked = front.split("do you say").nth(1).expect("the question");
        let flow = number(
            asked.split("last at ").nth(1).and_then(|at| at.split(" if").next()).expect("a flow"),
        );
        let kept =
            number(asked.split("last ").nth(2).and_then(|at| at.split(sign).next()).expect("kept"));
        let trainer = says(&pages[4]);
        let found = levels.iter().zip(&shares).find(|(_, share)| **share >= 50.0);
        let level = found.map_or(*levels.last().expect("a level"), |(level, _)| *level);
        let whole = shuttle_report::units::whole;
        let told = match found {
            Some(_) => format!("At {} {sign} ", whole(level)),
            None => "At none of them".to_owned(),
        };
        assert!(trainer.contains(&told), "{told}: {table} {trainer}");
        let lasts = format!("{:.1}", (level - kept) / flow);
        let lasts = format!("= {} minute", lasts.trim_end_matches(".0"));
        assert!(trainer.contains(&lasts), "{lasts}: {trainer}");
    }
}

/// What is printed on both sides is printed so: no answer stands on a sheet that a trainee or the recorder has.
#[test]
fn the_answers_of_a_handout_are_on_a_sheet_of_their_own() {
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = handout::handout(&scenario, BUDGET, &Control::default());
    let pages = handout(&answer, Format::Letter, &made(&scenario, false)).expect("pages");
    let with_answers: Vec<usize> = (0..pages.len())
        .filter(|page| says(&pages[*page]).contains("For the trainer: answers"))
        .collect();
    // The first side of the third sheet, and the last page.
    assert_eq!(with_answers, [4]);
    assert_eq!(pages.len(), 5);
    let reader = made(&scenario, false).reader;
    for question in &answer.figures.questions {
        let told = reader.put(&answers::question::handout::answer_words(question));
        assert!(says(&pages[4]).contains(&told), "{told}");
        assert!(pages[..4].iter().all(|page| !says(page).contains(&told)), "{told}");
    }
    assert!(matches!(answer.figures.questions[0], DrillQuestion::Cycle { .. }));
}

/// On the first page, beside the chance: of which fires it is a share, when more flow is wanted, which source runs dry.
/// The pond holds 40,000 gal, half of what is wanted (the file).
#[test]
fn the_first_page_says_of_which_fires_it_speaks_and_what_may_run_dry() {
    let scenario = read(&text("sawmill_two_fill_sites"));
    let asked = report::Asked { target: 0.05 };
    let found = report::report(&scenario, asked, BUDGET, &Control::default());
    let pages = report(&found, Format::Letter, &made(&scenario, false)).expect("pages");
    let first = says(&pages[0]);
    let at = |told: &str| first.find(told).unwrap_or_else(|| panic!("{told}: {first}"));
    assert!(at("The lines run short in ") < at("Of the fires the file describes: whole fires"));
    assert!(at("Of the fires the file describes") < at("short in ") + first.len());
    for told in ["none as a guess", "Log pond runs dry in ", "750 gpm from minute 26"] {
        at(told);
    }
}

/// A card says where to fill when a source fails, and from which minute on its losses count.
#[test]
fn a_card_names_the_source_to_go_to_and_the_minute_its_losses_count_from() {
    // With a flow that its units hold: a plan that fails gets no orders.
    let mut plan = text("sawmill_two_fill_sites");
    plan["incident"]["attack_flow"] = serde_json::json!([{"from": 0, "flow": 250}]);
    let scenario = read(&plan);
    let answer = card::card(&scenario, BUDGET, &Control::default());
    let front = says(&card(&answer, Format::Letter, &made(&scenario, false))[0]);
    for told in ["Town hydrant: go to Log pond", "Log pond: go to Town hydrant"] {
        assert!(front.contains(told), "{told}: {front}");
    }
    let lost = answer.figures.tanker_lost.as_ref().expect("a tanker is lost");
    assert!(front.contains(&format!("IF LOST FROM MINUTE {:.0} ON", lost.from_min)), "{front}");
    // With one source there is none to go to.
    let scenario = read(&text("hay_barn_two_tankers"));
    let answer = card::card(&scenario, BUDGET, &Control::default());
    let front = says(&card(&answer, Format::Letter, &made(&scenario, false))[0]);
    assert!(!front.contains("go to"), "{front}");
}
