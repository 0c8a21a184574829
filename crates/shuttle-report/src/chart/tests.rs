//! What must hold for every chart: labels are readable, and no input breaks it.

use std::collections::BTreeMap;

use resvg::usvg::roxmltree::Document;
use shuttle_sim::Trace;

use super::chance_by_tankers::{FleetPoint, Who};
use super::demo::{self, SHEET, checked, draft, story, summary};
use super::{ChartError, chance_by_tankers, cycle, first_interruption, levels, png, timeline};
use crate::chart::drawn::{areas, assert_texts_are_apart, lines, texts};
use crate::units::Units;

/// The words for a truck that carries water: one, several.
const TANKERS: [&str; 2] = ["tanker", "tankers"];

fn assert_is_png(what: &str, svg: &str) {
    let picture = png(svg, 500).unwrap_or_else(|error| panic!("{what}: {error}"));
    // Signature and width: W3C PNG specification, 5.2 and 11.2.1.
    assert_eq!(&picture[..8], b"\x89PNG\r\n\x1a\n", "{what}");
    assert_eq!(picture[16..20], 500u32.to_be_bytes(), "{what}");
}

fn fleet(count: usize, probability: impl Fn(usize) -> f64) -> Vec<FleetPoint> {
    (1..=count)
        .map(|tankers| FleetPoint {
            tankers,
            label: format!("Tamarack County Mutual Aid Tanker {tankers}"),
            who: if tankers > count / 2 { Who::Invented } else { Who::Own },
            minutes_short: 30.0 * probability(tankers),
            runs: if tankers == 1 && count > 2 { 0 } else { 20_000 },
            probability: probability(tankers),
            low: (probability(tankers) - 0.01).max(0.0),
            high: (probability(tankers) + 0.01).min(1.0),
        })
        .collect()
}

/// All charts of one plan, with their names.
fn all_charts(plan: &shuttle_sim::Plan, runs: u64, units: Units) -> Vec<(&'static str, String)> {
    let figures = summary(plan, runs);
    let (run, trace) = story(plan);
    vec![
        ("level", levels::chart(&figures, plan, None, units, &SHEET).expect("levels")),
        ("starts", first_interruption::chart(&figures, plan, &SHEET).expect("starts")),
        ("cycle", cycle::chart(&figures, &SHEET).expect("cycle")),
        (
            "timeline",
            timeline::chart(&trace, plan, units, (run.first_water, run.end), &SHEET)
                .expect("timeline"),
        ),
    ]
}

#[test]
fn no_text_lies_on_another_for_any_size_of_plan() {
    let units = [Units::Us, Units::Metric];
    for (case, (tankers, duration, drop_tanks)) in
        [(1, 20.0, 1), (2, 33.3, 0), (3, 120.0, 1), (6, 240.0, 2), (20, 480.0, 4)]
            .into_iter()
            .enumerate()
    {
        let plan = demo::plan(tankers, duration, drop_tanks);
        for (name, svg) in all_charts(&plan, 32, units[case % 2]) {
            let what =
                format!("{name}, {tankers} tankers, {duration} min, {drop_tanks} drop tanks");
            assert_texts_are_apart(&what, &svg);
            assert_is_png(&what, &svg);
        }
    }
    for count in [0, 1, 3, 8, 20, 40] {
        for target in [None, Some(0.0), Some(0.05), Some(1.0)] {
            let rows = fleet(count, |tankers| 0.9 / tankers as f64);
            let svg = chance_by_tankers::chart(&rows, (target, Some(3)), TANKERS, &SHEET)
                .expect("a chart");
            let what = format!("risk, {count} rows, target {target:?}");
            assert_texts_are_apart(&what, &svg);
            assert_is_png(&what, &svg);
        }
    }
}

#[test]
fn long_names_and_titles_are_cut_to_their_room() {
    let mut draft = draft(4, 90.0, 2);
    // The longest name that the check allows.
    draft.title = "Barn fire far up Tamarack County. ".repeat(6)[..200].to_owned();
    draft.attack_engine.name =
        "Tamarack County Rural Fire Protection District Engine 31 ".repeat(4)[..200].to_owned();
    for (place, tanker) in draft.tankers.iter_mut().enumerate() {
        tanker.name =
            format!("{place} Tamarack County Rural Fire Protection District <Tanker> & \"Crew\" ")
                .repeat(2);
    }
    let plan = checked(draft);
    for (name, svg) in all_charts(&plan, 16, Units::Us) {
        assert_texts_are_apart(name, &svg);
        assert_is_png(name, &svg);
        // The chart of first shortfalls has no names of its own.
        let is_cut = texts(&svg).iter().any(|text| text.contains('…'));
        assert!(is_cut || name == "starts", "{name}");
    }
}

#[test]
fn chances_of_none_and_all_are_drawn() {
    for probability in [0.0, 1.0] {
        let svg = chance_by_tankers::chart(
            &fleet(2, |_| probability),
            (Some(probability), None),
            TANKERS,
            &SHEET,
        )
        .expect("a chart");
        assert_texts_are_apart("risk", &svg);
        assert_is_png("risk", &svg);
    }
    let calm = {
        let mut draft = draft(3, 60.0, 1);
        draft.incident.reserve = 0.0;
        for step in &mut draft.incident.attack_flow {
            step.flow = 5.0;
        }
        checked(draft)
    };
    let figures = summary(&calm, 32);
    assert_eq!(figures.interruption_probability, 0.0);
    let words = texts(&first_interruption::chart(&figures, &calm, &SHEET).expect("a chart"));
    assert!(words.iter().any(|text| text == "no fire is short"), "{words:?}");
    for (name, svg) in all_charts(&calm, 32, Units::Us) {
        assert_is_png(name, &svg);
        if name == "timeline" {
            assert!(texts(&svg).iter().any(|text| text == "never short"));
        }
    }
    let thirsty = {
        let mut draft = draft(1, 60.0, 0);
        for step in &mut draft.incident.attack_flow {
            step.flow = 1_500.0;
        }
        checked(draft)
    };
    assert_eq!(summary(&thirsty, 32).interruption_probability, 1.0);
    for (name, svg) in all_charts(&thirsty, 32, Units::Metric) {
        assert_texts_are_apart(name, &svg);
        assert_is_png(name, &svg);
    }
}

/// A lane without bars would look like a tanker that stood by all night.
#[test]
fn the_lane_of_a_tanker_that_never_came_says_so() {
    let mut draft = draft(3, 60.0, 1);
    draft.tankers[1].call.turnout = 0.0;
    // Beyond the end of the watch.
    draft.tankers[2].call.requested_at = 70.0;
    let plan = checked(draft);
    let (run, trace) = story(&plan);
    let svg = timeline::chart(&trace, &plan, Units::Us, (run.first_water, run.end), &SHEET);
    let svg = svg.expect("a chart");
    let words = texts(&svg);
    for (told, many) in [("asked for, does not come", 1), ("not there before the end", 1)] {
        assert_eq!(words.iter().filter(|text| *text == told).count(), many, "{told}: {words:?}");
    }
    let stays_away = format!("{}: ", plan.facts().tankers[1].name);
    assert!(areas(&svg).iter().all(|area| !area.says.starts_with(&stays_away)));
    assert_texts_are_apart("timeline", &svg);
}

#[test]
fn nothing_to_show_is_still_a_chart() {
    let plan = demo::plan(2, 60.0, 1);
    let mut figures = summary(&plan, 0);
    figures.cycle_min = BTreeMap::new();
    figures.tankers.clear();
    figures.first_interruption_by_alarm_minute.clear();
    figures.short_by_alarm_minute.clear();
    figures.established_min_mean = None;
    for svg in [
        levels::chart(&figures, &plan, None, Units::Us, &SHEET).expect("levels"),
        first_interruption::chart(&figures, &plan, &SHEET).expect("starts"),
        cycle::chart(&figures, &SHEET).expect("cycle"),
        timeline::chart(&Trace::default(), &plan, Units::Us, (10.5, 70.5), &SHEET)
            .expect("timeline"),
        chance_by_tankers::chart(&[], (None, None), TANKERS, &SHEET).expect("risk"),
    ] {
        assert_texts_are_apart("empty", &svg);
        assert_is_png("empty", &svg);
    }
}

#[test]
fn every_chart_defers_to_the_ground_and_says_where_its_figures_come_from() {
    let plan = demo::plan(3, 60.0, 1);
    let mut charts = all_charts(&plan, 40, Units::Us);
    charts.push((
        "risk",
        chance_by_tankers::chart(&fleet(2, |_| 0.1), (None, None), TANKERS, &SHEET)
            .expect("a chart"),
    ));
    for (name, svg) in charts {
        let words = texts(&svg);
        let said = words.join(" ");
        for part in
            [SHEET.answer, SHEET.shows, SHEET.foot, super::elements::heading_and_foot::CAUTION]
        {
            assert!(said.contains(part), "{name}: no {part:?} in {said}");
        }
        let document = Document::parse(&svg).expect("XML");
        let of = |element: &str| {
            let mut children = document.root_element().children();
            let node = children.find(|child| child.has_tag_name(element));
            node.and_then(|node| node.text()).map(str::to_owned)
        };
        assert_eq!(of("title").as_deref(), Some(SHEET.answer), "{name}");
        assert!(
            of("desc").is_some_and(|desc| desc.contains(SHEET.shows) && desc.contains(SHEET.foot))
        );
    }
}

#[test]
fn a_png_says_its_answer_and_prints_at_200_dots_an_inch() {
    let plan = demo::plan(2, 60.0, 1);
    let figures = summary(&plan, 16);
    let svg = cycle::chart(&figures, &SHEET).expect("a chart");
    let picture = super::png_at(&svg, 200.0 / 96.0).expect("a picture");
    // Read back with another crate than the one that encodes by hand: the decoder of `png`.
    let reader = png::Decoder::new(std::io::Cursor::new(picture)).read_info().expect("a PNG");
    let info = reader.info();
    let said: Vec<(String, String)> = (info.utf8_text.iter())
        .map(|chunk| (chunk.keyword.clone(), chunk.get_text().expect("text")))
        .collect();
    assert_eq!(said[0], ("Title".to_owned(), SHEET.answer.to_owned()));
    assert!(said[1].0 == "Description" && said[1].1.contains(SHEET.foot), "{said:?}");
    let dots = info.pixel_dims.expect("a size");
    // 200 dots in 25.4 mm.
    assert!(dots.xppu.abs_diff(7_874) <= 4, "{} dots a metre", dots.xppu);
    assert!(info.width.abs_diff(1_417) <= 1, "{} px", info.width);
}

#[test]
fn a_wall_chart_is_the_same_chart_on_a3() {
    let plan = demo::plan(2, 60.0, 1);
    let figures = summary(&plan, 16);
    let wall = super::Sheet { size: super::Size::Wall, ..SHEET };
    let (sheet, wall) = (cycle::chart(&figures, &SHEET), cycle::chart(&figures, &wall));
    let (sheet, wall) = (sheet.expect("a chart"), wall.expect("a chart"));
    assert_eq!(texts(&sheet), texts(&wall));
    let width = |svg: &str| {
        let document = Document::parse(svg).expect("XML");
        document.root_element().attribute("width").map(str::to_owned)
    };
    assert_eq!(width(&sheet).as_deref(), Some("680"));
    let millimetres = width(&wall).and_then(|text| text.strip_suffix("mm")?.parse::<f64>().ok());
    assert!(millimetres.is_some_and(|wide| (250.0..=390.0).contains(&wide)), "{millimetres:?}");
}

#[test]
fn the_timeline_tells_the_shortfalls_of_its_run() {
    let plan = demo::plan(2, 120.0, 1);
    let (run, trace) = story(&plan);
    assert!(!run.interruptions.is_empty(), "this run is short of water");
    let svg = timeline::chart(&trace, &plan, Units::Us, (run.first_water, run.end), &SHEET)
        .expect("a chart");
    let words = texts(&svg);
    // The run's own sums, kept apart from its story.
    let short = format!("short {:.1} min", run.minutes_short[0] + run.minutes_short[1]);
    assert!(words.iter().any(|text| text.starts_with(&short)), "{short} is missing in {words:?}");
    assert!(
        words.iter().any(|text| *text == format!("first water: minute {:.1}", run.first_water))
    );
    for (tanker, record) in plan.facts().tankers.iter().zip(&run.tankers) {
        assert!(words.contains(&tanker.name));
        let loads =
            if record.trips == 1 { "1 load".to_owned() } else { format!("{} loads", record.trips) };
        assert!(words.contains(&loads), "{loads} is missing in {words:?}");
    }
}

#[test]
fn the_timeline_draws_every_tank_by_its_own_levels() {
    let plan = demo::plan(4, 90.0, 2);
    let (run, trace) = story(&plan);
    let svg = timeline::chart(&trace, &plan, Units::Us, (run.first_water, run.end), &SHEET)
        .expect("a chart");
    // In the story the drop tanks come first and the attack engine last.
    let rows = [
        ("Engine 3 (attack engine)", 2, 1_250.0),
        ("Drop tank 1, brought by Tamarack Tanker 1", 0, 2_500.0),
        ("Drop tank 2, brought by Engine 8", 1, 2_500.0),
    ];
    for (name, column, capacity) in rows {
        let drawn = &lines(&svg, name)[0];
        assert_eq!(drawn.len(), trace.course.len(), "{name}");
        let floor = drawn.iter().zip(&trace.course).map(|(point, (_, levels))| {
            // A panel is 84 px high and leaves 4 of them above the full level.
            point.1 + levels[column] * (84.0 - 4.0) / capacity
        });
        let floor: Vec<f64> = floor.collect();
        assert!(floor.iter().all(|at| (at - floor[0]).abs() < 0.15), "{name}: {floor:?}");
    }
}

#[test]
fn numbers_that_cannot_be_drawn_are_refused_by_name() {
    let plan = demo::plan(2, 60.0, 1);
    let words = |error: Result<String, ChartError>| error.expect_err("a mistake").to_string();
    let timeline = timeline::chart(&Trace::default(), &plan, Units::Us, (f64::NAN, 60.0), &SHEET);
    assert_eq!(
        words(timeline),
        "the minute of first water is NaN: it must be a finite number, zero or more"
    );
    let mut figures = summary(&plan, 8);
    figures.first_interruption_by_alarm_minute = vec![0.0, 0.0, 0.0, 1.5];
    assert!(
        words(first_interruption::chart(&figures, &plan, &SHEET))
            .starts_with("the share of fires first short in minute 3 is 1.5")
    );
    figures.tankers[0].cycle_min.insert("fill", f64::INFINITY);
    assert!(words(cycle::chart(&figures, &SHEET)).contains("\"fill\" of Tamarack Tanker 1 is inf"));
}

#[test]
fn a_png_has_letters_a_white_ground_and_a_sane_width() {
    let svg = chance_by_tankers::chart(&fleet(2, |_| 0.1), (None, None), TANKERS, &SHEET)
        .expect("a chart");
    assert_eq!(png(&svg, 0), Err(ChartError::PngWidth { width: 0 }));
    assert_eq!(png(&svg, 8_001), Err(ChartError::PngWidth { width: 8_001 }));
    assert!(matches!(png("no chart", 100), Err(ChartError::Png(_))));
    let tall = "<svg xmlns='http://www.w3.org/2000/svg' width='1' height='100000'/>";
    assert!(matches!(png(tall, 100), Err(ChartError::PngHeight { .. })));
    // The same chart without its texts is another picture: the letters are drawn.
    let picture = png(&svg, 400).expect("a picture");
    let mute =
        png(&svg.replace("<text", "<desc").replace("</text", "</desc"), 400).expect("a picture");
    assert_ne!(picture, mute);
    let pixels = resvg::tiny_skia::Pixmap::decode_png(&picture).expect("a PNG");
    assert_eq!(pixels.pixel(0, 0).map(|pixel| (pixel.red(), pixel.alpha())), Some((255, 255)));
}
