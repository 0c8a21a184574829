//! Cards: one sheet, cut at the same heights, that says whether its plan holds.

use super::*;
use crate::layout::set::Kind;
use crate::layout::sheet::Format;
use crate::pages::card;
use answers::question::{check, hold};
use resvg::usvg::roxmltree;
use shuttle_report::losses::Lost;

#[test]
fn a_card_is_one_sheet_with_two_sides_whoever_comes() {
    let scenarios = [
        text("hay_barn_two_tankers"),
        text("feed_mill_mutual_aid"),
        text("grass_fire_nursing_only"),
        text("orchard_metric"),
        text("sawmill_two_fill_sites"),
        crowded(),
    ];
    for of in &scenarios {
        let scenario = read(of);
        let answer = card_of(&scenario);
        for (format, tender) in [(Format::Letter, false), (Format::A4, true)] {
            let pages = card(&answer, format, &made(&scenario, tender));
            assert_eq!(pages.len(), 2, "{}", answer.title);
            all_within(&pages, &answer.title);
            let told: String = pages
                .iter()
                .flat_map(|page| &page.placed)
                .map(|one| one.block.says.as_str())
                .collect();
            for unit in answer.figures.units.iter().filter_map(|unit| unit.name.as_ref()) {
                assert!(told.contains(unit.as_str()), "{unit} is on no side");
            }
        }
    }
}

#[test]
fn no_letters_on_a_card_are_smaller_than_fourteen_points() {
    let scenario = read(&text("feed_mill_mutual_aid"));
    let pages = card(&card_of(&scenario), Format::Letter, &made(&scenario, false));
    let read = (pages.iter().flat_map(|page| &page.placed))
        .filter(|placed| !matches!(placed.block.kind, Kind::Ornament | Kind::CutLine));
    let mut letters = 0;
    for placed in read {
        let document = roxmltree::Document::parse(&placed.block.svg).expect("XML");
        for node in document.descendants().filter(|node| node.has_tag_name("text")) {
            let size: f64 = node.attribute("font-size").expect("a size").parse().expect("a number");
            assert!(size >= 14.0, "{size}: {:?}", node.text());
            letters += 1;
        }
    }
    assert!(letters > 40, "{letters}");
}

/// What is written on a strip stays with it when it is cut off: its back is behind it.
#[test]
fn a_card_is_cut_at_the_same_heights_on_both_sides() {
    for of in [text("hay_barn_two_tankers"), text("sawmill_two_fill_sites"), text("orchard_metric")]
    {
        let scenario = read(&of);
        let pages = card(&card_of(&scenario), Format::Letter, &made(&scenario, false));
        let cuts = |page: &Page| -> Vec<f64> {
            let cuts = page.placed.iter().filter(|one| one.block.kind == Kind::CutLine);
            cuts.map(|one| one.y.round()).collect()
        };
        assert_eq!(cuts(&pages[0]).len(), 2, "{}", scenario.plan.facts().title);
        assert_eq!(cuts(&pages[0]), cuts(&pages[1]));
        let headings = |page: &Page| -> Vec<(bool, bool, String)> {
            let cuts = cuts(page);
            (page.placed.iter().filter(|one| one.block.kind == Kind::Heading))
                .map(|one| (one.y > cuts[0], one.y > cuts[1], one.block.says.clone()))
                .collect()
        };
        let expected = |end: &str| {
            [
                (false, false, "DISPATCH"),
                (true, false, "TANKER BOSS"),
                (true, true, "PUMP OPERATOR"),
            ]
            .map(|(below, lower, says)| (below, lower, format!("{says}{end}, 2026-03-01")))
        };
        // Behind whose strip it is, and of which day, stands of which plan.
        let whose = |page: &Page| -> Vec<_> {
            (headings(page).into_iter())
                .map(|(below, lower, says)| {
                    (below, lower, says.split(": ").next().unwrap_or_default().to_owned())
                })
                .collect()
        };
        assert_eq!(whose(&pages[0]), expected(""));
        assert_eq!(whose(&pages[1]), expected(", back"));
    }
}

/// Thirty tankers with long names are more than strips hold: the sheet says that it is to stay whole.
#[test]
fn a_card_that_is_more_than_strips_hold_is_not_cut() {
    let scenario = read(&crowded());
    for page in card(&card_of(&scenario), Format::Letter, &made(&scenario, false)) {
        assert!(page.placed.iter().all(|one| one.block.kind != Kind::CutLine));
        assert!(page.placed[0].block.says.starts_with("Leave this sheet whole"));
    }
}

/// Whoever reads only the card knows whether the plan holds, and whether it is the file's.
#[test]
fn a_card_says_how_often_its_plan_fails() {
    let mut never = text("hay_barn_two_tankers");
    never["tankers"].as_array_mut().expect("tankers").truncate(1);
    let mut holds = text("hay_barn_two_tankers");
    holds["incident"]["attack_flow"] = json!([{"from": 0, "flow": 150}, {"from": 8, "flow": 240}]);
    for (of, told) in [
        (never, "DO NOT USE THIS CARD: short in every one of"),
        (text("hay_barn_two_tankers"), "DO NOT USE THIS CARD: short in "),
        (holds, "Short of water in "),
    ] {
        let scenario = read(&of);
        let answer = card_of(&scenario);
        let front = &card(&answer, Format::Letter, &made(&scenario, false))[0];
        let says: Vec<&str> = front.placed.iter().map(|one| one.block.says.as_str()).collect();
        let head = &says[..3];
        let chance = answer.figures.interruption_probability;
        assert!(head.iter().any(|one| one.contains(told)), "{chance} {says:?}");
    }
}

#[test]
fn what_is_higher_than_a_page_goes_on_on_the_next() {
    let scenario = read(&crowded());
    let mut answer = card_of(&scenario);
    let one = answer.figures.units.last().expect("a unit").clone();
    answer.figures.units.extend((0..120).map(|_| one.clone()));
    all_within(
        &card(&answer, Format::Letter, &made(&scenario, false)),
        "a hundred and fifty units",
    );
}

fn words_of(pages: &[Page]) -> String {
    pages.iter().flat_map(|page| &page.placed).map(|one| format!("{}\n", one.block.says)).collect()
}

/// With several sources the boss's strip says who goes where: by the plan where it is told, and for the others the rule of
/// the model with its minutes.
#[test]
fn the_boss_is_told_who_fills_where() {
    let mut plan = sawmill_that_holds();
    let free = read(&plan);
    let front = |scenario: &Scenario| {
        words_of(&card(&card_of(scenario), Format::A4, &made(scenario, false))[..1])
    };
    let told = front(&free);
    let rule = "Each tanker goes where it is back first: Town hydrant ";
    assert!(
        told.contains(rule) && told.contains(" more for each ahead there; Log pond "),
        "{told}"
    );
    // By hand: the mean of the tankers' minutes there and back and at the source, which does not wait for anybody.
    let facts = free.plan.facts();
    for site in &facts.fill_sites {
        let away = facts.tankers.iter().map(|tanker| {
            let handling = &tanker.handling;
            let at_source = handling.fill_connect.mean()
                + tanker.fill() / tanker.fill_limit.unwrap_or(site.flow).min(site.flow)
                + handling.fill_disconnect.mean();
            site.out.time.mean() + at_source + site.back.time.mean()
        });
        let away = away.sum::<f64>() / facts.tankers.len() as f64;
        assert!(told.contains(&format!("{} {away:.0} min, ", site.name)), "{away}: {told}");
    }
    plan["tankers"][0]["fill_site"] = json!("Log pond");
    let told = front(&read(&plan));
    assert!(told.contains("By the plan Tanker 3 at Log pond; any other goes where"), "{told}");
    for place in 0..plan["tankers"].as_array().expect("tankers").len() {
        plan["tankers"][place]["fill_site"] = json!("Town hydrant");
    }
    let told = front(&read(&plan));
    assert!(told.contains(" at Town hydrant.") && !told.contains("back first"), "{told}");
    let one = read(&text("hay_barn_two_tankers"));
    assert!(!front(&one).contains("WHO FILLS WHERE"));
}

/// A plan that fails looks like no orders: nothing to tick, what its units hold, and where its file lists nobody a line for
/// whom to ask.
#[test]
fn a_plan_that_fails_is_told_and_not_ticked() {
    let scenario = read(&text("hay_barn_two_tankers"));
    let budget = Budget { replications: 1_000, ..BUDGET };
    let answer = of_card::card(&scenario, budget, &Control::default());
    assert!(answer.figures.is_not_to_be_used());
    let told = words_of(&card(&answer, Format::Letter, &made(&scenario, false))[..1]);
    assert!(!told.contains("ans. __") && !told.contains("ASK AT"), "{told}");
    assert!(told.contains("WANTED, NOT HELD 150 gpm"), "{told}");
    for words in ["AS PLANNED, NOT ENOUGH at alarm Engine 3 (attack", "ASK ALSO FOR"] {
        assert!(told.contains(words), "{words}: {told}");
    }
    // As `hold` finds it.
    let asked = hold::Asked { minutes: Vec::new(), share: 0.95 };
    let held = hold::hold(&scenario, &asked, budget, &Control::default()).figures.as_it_stands;
    let step = held.steps.first().expect("a flow holds");
    assert!(step.at_first_water, "{step:?}");
    let holds = format!("; holds {:.0} gpm from first water on.", step.flow_gpm);
    assert_eq!(told.matches(&holds).count(), 1, "{holds}: {told}");
    let on_every_strip = format!("; holds {:.0} gpm", step.flow_gpm);
    assert_eq!(told.matches(&on_every_strip).count(), 3, "{told}");
    // What keeps its target says none of that.
    let mut holds = text("hay_barn_two_tankers");
    holds["incident"]["attack_flow"] = json!([{"from": 0, "flow": 150}]);
    let scenario = read(&holds);
    let answer = of_card::card(&scenario, budget, &Control::default());
    assert!(answer.figures.can_be_held.is_none(), "{}", answer.figures.interruption_probability);
    let told = words_of(&card(&answer, Format::Letter, &made(&scenario, false))[..1]);
    assert!(told.contains("ans. __") && !told.contains("NOT ENOUGH"), "{told}");
}

/// The sawmill with a flow that its units hold.
fn sawmill_that_holds() -> Value {
    let mut plan = text("sawmill_two_fill_sites");
    plan["incident"]["attack_flow"] = json!([{"from": 0, "flow": 250}]);
    plan
}

/// Orders that are printed are followed, whatever stands over them: a plan that fails has none of them on any side, and on
/// each strip what its units do hold. Of the same file with less flow they all stand there.
#[test]
fn a_plan_that_fails_has_no_orders_on_any_strip() {
    let orders = [
        "LOADS A load",
        "first water at minute",
        "FIRST LOADS ",
        "IF LOST ",
        "DROP TANKS ",
        "WHO FILLS WHERE ",
        "FILL AT ",
        "OVERDUE ",
        "GATE DOWN",
        "PUMP Engine",
    ];
    let told = |plan: &Value| {
        let scenario = read(plan);
        words_of(&card(&card_of(&scenario), Format::Letter, &made(&scenario, false)))
    };
    let holds = told(&sawmill_that_holds());
    for order in orders {
        assert!(holds.contains(order), "{order}: {holds}");
    }
    assert!(!holds.contains("NO ORDERS"), "{holds}");
    for name in ["sawmill_two_fill_sites", "feed_mill_mutual_aid", "hay_barn_two_tankers"] {
        let fails = told(&text(name));
        for order in orders {
            assert!(!fails.contains(order), "{name}: {order}: {fails}");
        }
        // The boss's strip and the operator's; what each holds stands on all three; where the water is, behind.
        assert_eq!(fails.matches("NO ORDERS ").count(), 2, "{name}: {fails}");
        // The dispatcher reads it in the line at the head where room is short.
        assert!(fails.matches("CAN BE HELD ").count() >= 2, "{name}: {fails}");
        assert!(fails.contains("WATER AT ") && fails.contains("RESERVE "), "{name}: {fails}");
    }
    // Whom else to ask stands on every strip.
    let scenario = read(&text("feed_mill_mutual_aid"));
    let answer = card_of(&scenario);
    let fails = words_of(&card(&answer, Format::Letter, &made(&scenario, false))[..1]);
    for unit in &answer.figures.instead.as_ref().expect("the file lists aid").ask_for {
        assert_eq!(fails.matches(unit.name.as_str()).count(), 3, "{}: {fails}", unit.name);
    }
}

/// Where a trip to one source takes longer than to another, a tanker that is told none is overdue later from there; one that
/// is told where to go has one time.
#[test]
fn a_tanker_is_overdue_by_the_source_it_went_to() {
    let mut plan = sawmill_that_holds();
    let back = |scenario: &Scenario| {
        words_of(&card(&card_of(scenario), Format::Letter, &made(scenario, false))[1..])
    };
    let free = read(&plan);
    let first = card_of(&free).figures.turns[0].clone();
    let [near, far] = first.by_fill_site.as_slice() else { panic!("two sources: {first:?}") };
    assert_ne!(near.overdue_after_min.round(), far.overdue_after_min.round());
    let told = back(&free);
    for words in [" min after leaving for Town hydrant (usual ", " for Log pond (usual "] {
        assert!(told.contains(words), "{words}: {told}");
    }
    for tanker in plan["tankers"].as_array_mut().expect("tankers") {
        tanker["fill_site"] = json!("Town hydrant");
    }
    let assigned = read(&plan);
    assert!(card_of(&assigned).figures.turns.iter().all(|turn| turn.by_fill_site.is_empty()));
    assert!(back(&assigned).contains(" min after leaving (usual "));
}

/// People who do not suffice stand on the dispatcher's strip, as `check` counts them.
#[test]
fn people_who_are_too_few_stand_on_the_card() {
    let mut plan = text("hay_barn_two_tankers");
    for (on_hand, is_told) in [(3, true), (60, false)] {
        plan["crew"] = json!({"on_hand": on_hand});
        let scenario = read(&plan);
        let answer = card_of(&scenario);
        let needed = check::check(&scenario).figures.people.total;
        assert_eq!(answer.figures.people.total, needed);
        let told = words_of(&card(&answer, Format::Letter, &made(&scenario, false))[..1]);
        let words =
            format!("PEOPLE {needed} for the water; 3 are on hand: {} too few.", needed - 3);
        assert_eq!(told.contains(&words), is_told, "{words}: {told}");
    }
}

/// How often units come, and lines for phones, stand on a sheet that is not cut as on strips.
#[test]
fn a_sheet_that_stays_whole_says_how_often_they_come_and_has_lines_for_phones() {
    let mut plan = crowded();
    for tanker in plan["tankers"].as_array_mut().expect("tankers") {
        tanker["turnout"] = json!(0.9);
    }
    let scenario = read(&plan);
    let pages = card(&card_of(&scenario), Format::Letter, &made(&scenario, false));
    assert_eq!(pages.len(), 2);
    let told = words_of(&pages);
    for words in
        ["Leave this sheet whole", "HOW OFTEN THEY COME each tanker 90% of fires", "phones"]
    {
        assert!(told.contains(words), "{words}: {told}");
    }
    // Where the file names departments their phones are asked for by name.
    let mut plan = text("hay_barn_two_tankers");
    let engine = json!("Quarry Lane");
    plan["tankers"][0]["department"] = engine;
    let scenario = read(&plan);
    let told = words_of(&card(&card_of(&scenario), Format::Letter, &made(&scenario, false)));
    assert!(told.contains("Quarry Lane, phone, Others"), "{told}");
}

/// A long title is broken, not cut: on A4, the narrower sheet, as on letter.
#[test]
fn the_title_of_a_plan_is_whole_on_every_strip() {
    let mut plan = text("hay_barn_two_tankers");
    let title = "Hay barn and machine shed at the second crossing of Quarry Lane: two tankers";
    plan["title"] = json!(title);
    let scenario = read(&plan);
    let answer = card_of(&scenario);
    for format in [Format::Letter, Format::A4] {
        let pages = card(&answer, format, &made(&scenario, false));
        let heads = pages.iter().flat_map(|page| &page.placed);
        let heads = heads.filter(|one| one.block.kind == Kind::Heading).map(|one| &one.block.says);
        let with_title = heads.filter(|says| says.ends_with(title)).count();
        assert_eq!(with_title, 5, "two fronts and three backs: the first front has it above");
    }
}

/// Who is to be asked for is not among those who are not on the card; everybody else of the aid is.
#[test]
fn whom_to_ask_for_is_not_told_as_not_asked() {
    let scenario = read(&text("feed_mill_mutual_aid"));
    let answer = card_of(&scenario);
    let pages = card(&answer, Format::Letter, &made(&scenario, false));
    let instead = answer.figures.instead.as_ref().expect("the plan fails");
    let told = words_of(&pages[1..]);
    let left = told.lines().find(|line| line.starts_with("NOT ASKED")).unwrap_or_default();
    assert!(!answer.figures.aid_not_asked.is_empty());
    for name in &answer.figures.aid_not_asked {
        let is_asked = instead.ask_for.iter().any(|unit| unit.name == *name);
        assert_eq!(left.contains(name.as_str()), !is_asked, "{name}: {left}");
    }
}

/// A department that comes whole or not at all: what holds without it stands on the dispatcher's strip, in figures of the
/// answer.
#[test]
fn what_holds_without_a_whole_department_is_on_the_dispatchers_strip() {
    let card_with = |comes_whole: bool| {
        let mut plan = text("feed_mill_mutual_aid");
        let mut aid = plan["aid"].as_array().expect("aid").clone();
        aid.truncate(3);
        for unit in &mut aid {
            unit["department"] =
                json!(if unit["requested_at"].is_null() { "Maple Ford" } else { "Birch Hill" });
            unit["comes_whole"] = json!(comes_whole);
        }
        plan["tankers"].as_array_mut().expect("tankers").extend(aid);
        plan.as_object_mut().expect("an object").remove("aid");
        let scenario = read(&plan);
        let answer = card_of(&scenario);
        let pages = card(&answer, Format::Letter, &made(&scenario, false));
        all_within(&pages, &answer.title);
        (words_of(&pages), answer)
    };
    let (told, answer) = card_with(true);
    let gone = &answer.figures.tanker_lost.as_ref().expect("tankers come").gone;
    let of_it: Vec<_> = (gone.iter())
        .filter(|one| matches!(&one.lost, Lost::Department { comes_whole: true, .. }))
        .collect();
    assert!(!of_it.is_empty(), "{gone:?}");
    let mut seen = 0;
    for one in of_it {
        let Lost::Department { name, .. } = &one.lost else { continue };
        let flow = one.gate_down_to_gpm.expect("a flow holds");
        let line = told.lines().find(|line| line.starts_with("ONE DOES NOT COME"));
        let says = line.is_some_and(|line| {
            line.to_lowercase().contains(&format!("all of {name}: hold {flow} gpm").to_lowercase())
        });
        // The worst are told.
        let is_left_out = line.is_some_and(|line| line.contains("more cost less"));
        let costs = flow < answer.figures.peak_flow_gpm;
        assert!(says == costs || (costs && is_left_out), "{name}, {flow}: {line:?}");
        seen += usize::from(says);
    }
    assert!(seen > 0, "{told}");
    let (told, answer) = card_with(false);
    assert!(!told.contains("All of "), "{told}");
    let gone = &answer.figures.tanker_lost.as_ref().expect("tankers come").gone;
    assert!(!gone.iter().any(|one| matches!(one.lost, Lost::Department { .. })), "{gone:?}");
}

/// A plan whose lines are opened only later counts on that: the card says so wherever it says what flows.
#[test]
fn a_card_says_that_no_water_flows_before() {
    let mut later = text("hay_barn_two_tankers");
    later["incident"]["attack_flow"] = json!([{"from": 7, "flow": 150}]);
    let scenario = read(&later);
    let answer =
        of_card::card(&scenario, Budget { replications: 500, ..BUDGET }, &Control::default());
    let told = words_of(&card(&answer, Format::Letter, &made(&scenario, false))[..1]);
    let says =
        "NO WATER before 7 minutes after first water; 150 gpm from 7 minutes after first water";
    assert!(told.contains(says), "{told}");
    later["incident"]["attack_flow"] = json!(150);
    let scenario = read(&later);
    let answer =
        of_card::card(&scenario, Budget { replications: 500, ..BUDGET }, &Control::default());
    let told = words_of(&card(&answer, Format::Letter, &made(&scenario, false))[..1]);
    assert!(!told.contains("NO WATER"), "{told}");
}
