//! Cards: one sheet, cut at the same heights, that says whether its plan holds.

use super::*;
use crate::layout::set::Kind;
use crate::layout::sheet::Format;
use crate::pages::card;
use resvg::usvg::roxmltree;

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
