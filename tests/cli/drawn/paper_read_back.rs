//! Every page of card, report and handout read back: within its margins, in the reader's units and words, with one
//! figure for one thing.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use super::paper::{made, poppler, whole};
use super::{bucketline, folder, scenario};

/// Points from the edge that stay blank at least: the narrowest margin of any page.
const MARGIN: f64 = 20.0;

/// A plan that is hard to print: 30 tankers of long names, two departments that come whole, long roads.
fn crowded(to: &Path) -> String {
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("read");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    let one = plan["tankers"][0].clone();
    plan["tankers"] = (1..=30)
        .map(|number| {
            let mut tanker = one.clone();
            if number > 1 {
                tanker["name"] =
                    json!(format!("Tamarack County Second Mutual Aid Division No. {number}"));
            }
            tanker
        })
        .collect();
    plan["drop_tanks"].as_array_mut().expect("drop tanks").truncate(1);
    plan.as_object_mut().expect("an object").remove("aid");
    let file = to.join("crowded.json");
    fs::write(&file, plan.to_string()).expect("written");
    file.display().to_string()
}

/// The words of every page with the box that Poppler finds around each, pt.
fn boxes(pdf: &Path) -> Vec<(f64, f64, Vec<[f64; 4]>)> {
    let text = poppler("pdftotext", &["-bbox", &pdf.display().to_string(), "-"]);
    let value = |line: &str, name: &str| -> f64 {
        let after = line.split(&format!(" {name}=\"")).nth(1).expect("the attribute");
        after.split('"').next().and_then(|number| number.parse().ok()).expect("a number")
    };
    let mut pages = Vec::new();
    for line in text.lines().map(|line| format!(" {}", line.trim())) {
        if line.contains("<page ") {
            pages.push((value(&line, "width"), value(&line, "height"), Vec::new()));
        } else if line.contains("<word ") {
            let word = ["xMin", "yMin", "xMax", "yMax"].map(|name| value(&line, name));
            pages.last_mut().expect("a page").2.push(word);
        }
    }
    pages
}

fn text_of(pdf: &Path) -> String {
    let text = poppler("pdftotext", &["-layout", &pdf.display().to_string(), "-"]);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn nothing_runs_over_the_margin_of_any_page_whoever_comes() {
    let folder = folder();
    let crowded = crowded(folder.path());
    for (file, of_card, more) in [
        (scenario("orchard_metric"), 2, &[][..]),
        (scenario("sawmill_two_fill_sites"), 2, &["--tender", "--paper", "a4"]),
        // Thirty whose names fill lines too.
        (crowded, 2, &["--tender"]),
    ] {
        let of = folder.path().join(Path::new(&file).file_stem().expect("a name"));
        fs::create_dir(&of).expect("a folder");
        for (question, many) in [("card", Some(of_card)), ("handout", Some(5)), ("report", None)] {
            let (_, pdf) = made(question, &file, &of, more);
            let pages = boxes(&pdf);
            assert!(
                many.is_none_or(|many| pages.len() == many),
                "{file} {question}: {}",
                pages.len()
            );
            for (place, (wide, tall, words)) in pages.iter().enumerate() {
                assert!(words.len() > 20, "{file} {question} page {}", place + 1);
                for [left, top, right, bottom] in words {
                    let within = *left >= MARGIN
                        && *top >= MARGIN
                        && *right <= wide - MARGIN
                        && *bottom <= tall - MARGIN;
                    assert!(
                        within,
                        "{file} {question} page {}: {left} {top} {right} {bottom}",
                        place + 1
                    );
                }
            }
        }
    }
}

#[test]
fn a_metric_plan_is_metric_on_every_page_and_none_shows_keys_flags_or_folders() {
    let folder = folder();
    for question in ["card", "handout", "report"] {
        let (_, pdf) = made(question, &scenario("orchard_metric"), folder.path(), &[]);
        let text = text_of(&pdf);
        for word in text.split([' ', ',', ';', '(', ')', ':']) {
            let word = word.trim_end_matches('.');
            assert!(
                !["gal", "gpm", "mi", "mph", "ft", "psi"].contains(&word),
                "{question}: {word}: {text}"
            );
        }
        assert!(!text.contains("91.4"), "{question}: a US constant turned into metres: {text}");
        for key in
            ["fill_sites[", "`request`", "`turnout`", "`hose.", "--runs", "--spare", "--all-aid"]
        {
            assert!(!text.contains(key), "{question}: {key}: {text}");
        }
        let place = Path::new(&scenario("orchard_metric")).parent().expect("a folder").to_owned();
        assert!(!text.contains(&place.display().to_string()), "{question}: {text}");
    }
    let (_, pdf) = made("report", &scenario("orchard_metric"), folder.path(), &[]);
    let text = text_of(&pdf);
    assert!(text.contains("Canal weir, the road out: 60 / 55 km/h x 3.6 km"), "{text}");
    assert!(text.contains("bucketline replay orchard_metric.json --run"), "{text}");
}

/// First water is one figure on all pages: the sum of the means of the file, by hand 9 + 1.5 minutes.
#[test]
fn first_water_is_one_minute_on_every_page() {
    let folder = folder();
    let file = scenario("sawmill_two_fill_sites");
    let text = fs::read_to_string(&file).expect("read");
    let plan: Value = serde_json::from_str(&text).expect("JSON");
    let mean = |value: &Value| value["mean"].as_f64().or(value.as_f64()).expect("a mean");
    let engine = &plan["attack_engine"];
    let by_hand = mean(&engine["response"]) + mean(&engine["water_on"]);
    let minute = format!("minute {:.0}", (by_hand + 1e-9).round());
    // At a flow that the plan holds: one that fails gets no orders, and with them no clock.
    for (question, flow) in [("card", &["--flow", "250"][..]), ("report", &[])] {
        let (_, pdf) = made(question, &file, folder.path(), flow);
        let text = text_of(&pdf);
        let mut told = 0;
        for start in ["first water at ", "first water about ", "first water, "] {
            for (at, found) in text.match_indices(start) {
                // Water by hose is another water.
                let before = &text[..at];
                let is_a_moment = text[at + found.len()..].starts_with("minute ");
                if before.ends_with("fill it; ") || !is_a_moment {
                    continue;
                }
                let rest = &text[at + found.len()..];
                assert!(rest.starts_with(&minute), "{question}: {found}{}", &rest[..20]);
                told += 1;
            }
        }
        assert!(told >= 1, "{question}: {text}");
    }
}

#[test]
fn the_card_says_how_far_away_each_unit_is_and_what_to_do_when_a_tanker_is_lost() {
    let folder = folder();
    // At flows that the plans hold: a plan that fails gets no orders.
    for (name, wanted, unit, per_gallon) in
        [("feed_mill_mutual_aid", "150", "gpm", "gpm"), ("orchard_metric", "800", "L/min", "lpm")]
    {
        let of = folder.path().join(name);
        fs::create_dir(&of).expect("a folder");
        let (answer, pdf) = made("card", &scenario(name), &of, &["--flow", wanted]);
        let text = text_of(&pdf);
        for one in answer["who_comes"].as_array().expect("who comes") {
            let minutes = one["response_min"].as_f64().expect("minutes");
            let name = one["name"].as_str().expect("a name");
            let at = text.find(name).unwrap_or_else(|| panic!("{name}: {text}"));
            let within = text[at..].split(')').next().expect("a parenthesis");
            assert!(within.ends_with(&format!("{minutes:.0} min away")), "{name}: {within}");
        }
        let lost = &answer["if_tanker_lost"];
        let key = format!("gate_down_to_{per_gallon}");
        let flow = lost[&key].as_f64().unwrap_or_else(|| panic!("{key}: {lost}"));
        let told = format!("gate down to {} {unit}", whole(flow));
        assert!(text.contains(&told), "{told}: {text}");
        // What holds is shown to: the upper end of its interval is no more than is allowed.
        let gated = &lost["gated_down"];
        let number = |value: &Value| value.as_f64().expect("a number");
        assert!(number(&gated["ci_high"]) <= number(&lost["allowed_share"]), "{lost}");
        assert!(number(&gated["ran_short"]) < number(&lost["nothing_done"]["ran_short"]), "{lost}");
    }
}

/// The card of a plan that fails is not to be used: every strip says so, nobody is ticked off, and whom to ask for is what
/// `request` finds.
#[test]
fn the_card_of_a_failing_plan_says_so_on_every_strip_and_asks_for_what_request_finds() {
    let folder = folder();
    let file = scenario("feed_mill_mutual_aid");
    let (answer, pdf) = made("card", &file, folder.path(), &[]);
    let front = poppler("pdftotext", &["-l", "1", "-layout", &pdf.display().to_string(), "-"]);
    let front = front.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(front.matches("DO NOT USE THIS CARD").count(), 3, "{front}");
    assert!(!front.contains("ans. __") && !front.contains("ASK AT"), "nothing to tick: {front}");
    let alone = ["request", &file, "--runs", "1000", "--no-charts", "--json"];
    let alone = bucketline(folder.path(), &alone).answered("request");
    let alone: Value = serde_json::from_str(&alone).expect("JSON");
    assert_eq!(answer["instead"]["ask_for"], alone["ask_for"]);
    for unit in alone["ask_for"].as_array().expect("a request") {
        let name = unit["name"].as_str().expect("a name");
        assert!(front.contains(name), "{name}: {front}");
    }
    let write = "bucketline request feed_mill_mutual_aid.json --write CARD.json";
    assert!(front.contains(write), "{front}");
}

/// Ticked off, each with its minutes and room for the answer; those of a later alarm together under its name.
#[test]
fn a_later_alarm_is_called_by_its_name_and_minute() {
    let folder = folder();
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("read");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    plan["alarms"] = json!({"second": 4});
    for one in plan["aid"].as_array_mut().expect("aid") {
        one["alarm"] = json!("second");
        one.as_object_mut().expect("an object").remove("requested_at");
    }
    plan["incident"]["attack_flow"] = json!([{"from": 0, "flow": 100}]);
    let file = folder.path().join("alarms.json");
    fs::write(&file, plan.to_string()).expect("written");
    let (answer, pdf) = made("card", &file.display().to_string(), folder.path(), &["--all-aid"]);
    assert!(answer["instead"].is_null(), "it keeps the target: {answer}");
    let text = text_of(&pdf);
    assert!(text.contains("SECOND ALARM (MINUTE 4), ALL TOGETHER"), "{text}");
    assert!(!text.contains("both or neither") && !text.contains("all or none"), "{text}");
    let units = answer["who_comes"].as_array().expect("who comes").len();
    assert_eq!(text.matches("min away) ans. __").count(), units, "{text}");
    assert_eq!(answer["deadline"]["everyone_called_by_min"], 4.0);
    let late = "Each call at its minute; every later call 5 minutes late: short in";
    assert!(text.contains(late), "{text}");
}

/// The cost of late calls is that of separate runs of the plan with `--late`: the difference there, put to the chance of all
/// fires.
#[test]
fn late_calls_cost_what_the_plan_asked_late_shows() {
    let folder = folder();
    let asked = ["request", &scenario("feed_mill_mutual_aid"), "--runs", "2000", "--no-charts"];
    bucketline(folder.path(), &[&asked[..], &["--write", "asked.json"]].concat()).answered("asked");
    let asked = folder.path().join("asked.json").display().to_string();
    for file in [asked, scenario("chapel_late_mutual_aid")] {
        let json = |words: &[&str]| -> Value {
            let told = bucketline(folder.path(), &[words, &["--json"]].concat()).answered(&file);
            serde_json::from_str(&told).expect("JSON")
        };
        let card = json(&["card", &file, "--runs", "4000"]);
        let later = card["deadline"]["called_later"].as_array().expect("late calls");
        let short = |words: &[&str]| {
            let told = json(&[&["risk", &file, "--no-charts"], words].concat());
            told["interruption_probability"].as_f64().expect("a number")
        };
        let stands = short(&["--runs", "4000"]);
        let fires = later[0]["fires"].to_string();
        let on_time = short(&["--runs", &fires]);
        assert_eq!(later.len(), 2, "{card}");
        for (late, told) in ["5", "10"].iter().zip(later) {
            let wanted = stands + short(&["--runs", &fires, "--late", late]) - on_time;
            let told = told["ran_short"].as_f64().expect("a number");
            assert!((told - wanted.clamp(0.0, 1.0)).abs() < 1e-9, "{file} {late}: {told} {wanted}");
            assert!(told > stands, "{file} {late}: {told} {stands}");
        }
    }
}

#[test]
fn the_card_says_when_a_tanker_is_overdue_how_long_each_level_lasts_and_what_holds_without_a_source()
 {
    let folder = folder();
    let flow = ["--flow", "250"];
    let (answer, pdf) = made("card", &scenario("sawmill_two_fill_sites"), folder.path(), &flow);
    let text = text_of(&pdf);
    let number = |value: &Value| value.as_f64().expect("a number");
    let first = &answer["turns"][0];
    // Those that carry as much and are away as long are told together, from the first to the last, with the longest of their
    // times; and source by source, for nobody is told where to go and one is farther away.
    let together = || {
        let turns = answer["turns"].as_array().expect("turns").iter();
        turns.filter(|turn| turn["capacity_gal"] == first["capacity_gal"])
    };
    let longest = |key: &str| {
        together().map(|turn| number(&turn["by_fill_site"][0][key])).fold(0.0, f64::max)
    };
    let row = format!(
        " {:.0} min after leaving for {} (usual {:.0}; {} gal last {:.1})",
        longest("overdue_after_min"),
        first["by_fill_site"][0]["fill_site"].as_str().expect("a name"),
        longest("back_within_min"),
        whole(number(&first["capacity_gal"])),
        number(&first["load_lasts_min"]),
    );
    let before = text.split(&row).next().filter(|before| before.len() < text.len());
    let name = first["name"].as_str().expect("a name");
    let who = before.and_then(|before| before.rsplit("OVERDUE ").next());
    assert!(who.is_some_and(|who| who.starts_with(name) && who.len() < 60), "{row}: {text}");
    // By hand: a load over the greatest flow.
    let cells = answer["trip_wires"]["table"].as_array().expect("levels");
    let greatest = cells.iter().map(|cell| number(&cell["level_gal"])).fold(0.0, f64::max);
    let lasts = (cells.iter().find(|cell| number(&cell["level_gal"]) == greatest))
        .map(|cell| number(&cell["lasts_min"]));
    let told = format!("{} gal {:.1} min", whole(greatest), lasts.expect("a level"));
    assert!(text.split("LASTS").nth(1).is_some_and(|line| line.contains(&told)), "{told}: {text}");
    let gone = answer["if_tanker_lost"]["gone_from_start"].as_array().expect("losses");
    let (away, gone): (Vec<&Value>, Vec<&Value>) =
        gone.iter().partition(|one| one["lost"]["kind"] == "one_tanker_of");
    assert_eq!(gone.len(), 3, "two sources and the first drop tank: {gone:?}");
    // Who never comes is told by what holds then, the worst first.
    let least =
        (away.iter().filter_map(|one| one["gate_down_to_gpm"].as_f64())).fold(f64::MAX, f64::min);
    let line = text.split("ONE DOES NOT COME").nth(1).expect("the line");
    let line = line.split_whitespace().take(12).collect::<Vec<_>>().join(" ");
    assert!(line.contains(&format!("hold {least} gpm")), "{least}: {line}");
    let told = text.split("IF LOST").nth(1).expect("the line");
    for one in gone.iter().filter(|one| one["lost"]["name"].is_string()) {
        assert!(told.contains(one["lost"]["name"].as_str().expect("a name")), "{told}");
    }
}

#[test]
fn who_brings_the_pump_of_a_source_is_told_to_whoever_calls() {
    let folder = folder();
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("read");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    let site = plan["fill_sites"][0].as_object_mut().expect("a fill site");
    site.remove("ready");
    site.insert("source_pump".into(), json!({"brought_by": "Tanker 7", "setup": 8}));
    let pond = site["name"].as_str().expect("a name").to_owned();
    let file = folder.path().join("pump.json");
    fs::write(&file, plan.to_string()).expect("written");
    let (answer, pdf) = made("card", &file.display().to_string(), folder.path(), &["--all-aid"]);
    for unit in answer["who_comes"].as_array().expect("who comes") {
        let brings = if unit["name"] == "Tanker 7" { json!([pond]) } else { json!([]) };
        assert_eq!(unit["brings_pump_to"], brings, "{unit}");
    }
    let told = format!("the pump for {pond}");
    assert!(text_of(&pdf).contains(&told), "{told}: {}", text_of(&pdf));
    // By hand: it is asked at the alarm, comes, and sets up for 8 minutes; nobody fills there before.
    let comes = answer["who_comes"].as_array().and_then(|units| {
        units.iter().find(|unit| unit["name"] == "Tanker 7")?["response_min"].as_f64()
    });
    let draws = comes.expect("minutes") + 8.0;
    assert_eq!(answer["sources"][0]["ready_min"], draws, "{}", answer["sources"][0]);
    let told = format!("from minute {draws:.0}");
    let fill = text_of(&pdf).split(&format!("FILL AT {pond}")).nth(1).map(str::to_owned);
    assert!(fill.is_some_and(|line| line.contains(&told)), "{told}: {}", text_of(&pdf));
}

#[test]
fn who_comes_only_with_others_says_so_once() {
    let folder = folder();
    let text = fs::read_to_string(scenario("feed_mill_mutual_aid")).expect("read");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    let department = "Maple Ford";
    for place in 0..2 {
        plan["aid"][place]["department"] = json!(department);
    }
    plan["aid"][0]["comes_whole"] = json!(true);
    let file = folder.path().join("whole.json");
    fs::write(&file, plan.to_string()).expect("written");
    let (answer, pdf) = made("card", &file.display().to_string(), folder.path(), &["--all-aid"]);
    let of_it: Vec<&Value> = (answer["who_comes"].as_array().expect("who comes").iter())
        .filter(|one| one["department"] == department)
        .collect();
    assert_eq!(of_it.len(), 2, "{answer}");
    assert_eq!(of_it[0]["comes_only_with"], json!([of_it[1]["name"]]));
    let text = text_of(&pdf);
    let told = format!("both or neither: with {}", of_it[1]["name"].as_str().expect("a name"));
    assert_eq!(text.matches("both or neither").count(), 1, "{text}");
    assert!(text.contains(&told), "{told}: {text}");
}
