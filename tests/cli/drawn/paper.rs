//! Pages read back by Poppler (`pdftotext`, `pdfinfo`, `pdffonts`, `pdftoppm`): figures, title, order, fonts, ink.

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};

use super::{WRONG_COMMAND, bucketline, folder, scenario};

const DAY: &str = "2026-03-01";

/// What a tool of Poppler prints about a file.
pub(super) fn poppler(tool: &str, arguments: &[&str]) -> String {
    let ran = Command::new(tool).args(arguments).output();
    let ran = ran.unwrap_or_else(|error| panic!("{tool}: {error}; install poppler-utils"));
    assert!(ran.status.success(), "{tool} {arguments:?}: {}", String::from_utf8_lossy(&ran.stderr));
    String::from_utf8_lossy(&ran.stdout).into_owned()
}

fn words(pdf: &Path, page: usize) -> String {
    let page = page.to_string();
    let file = pdf.display().to_string();
    let text = poppler("pdftotext", &["-f", &page, "-l", &page, "-layout", &file, "-"]);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The answer as JSON and its PDF.
pub(super) fn made(
    question: &str,
    file: &str,
    out: &Path,
    more: &[&str],
) -> (Value, std::path::PathBuf) {
    let folder = out.display().to_string();
    let mut arguments =
        vec![question, file, "--runs", "1000", "--date", DAY, "--out", &folder, "--json"];
    arguments.extend(more);
    let text = bucketline(out, &arguments).answered(question);
    let pdf = out.join(format!("{question}.pdf"));
    assert!(pdf.is_file() && pdf.with_extension("html").is_file(), "{question}");
    (serde_json::from_str(&text).expect("JSON"), pdf)
}

pub(super) fn whole(number: f64) -> String {
    let digits = format!("{:.0}", number.round());
    match digits.len() {
        4.. => format!("{},{}", &digits[..digits.len() - 3], &digits[digits.len() - 3..]),
        _ => digits,
    }
}

#[test]
fn every_figure_of_the_card_is_that_of_the_answer() {
    let folder = folder();
    // At flows that the plans hold: a plan that fails gets no orders.
    for (name, flow, unit, per_gallon) in [
        ("feed_mill_mutual_aid", "100", "gal", 1.0),
        ("sawmill_two_fill_sites", "250", "gal", 1.0),
        ("orchard_metric", "600", "L", 3.785_411_784),
    ] {
        let of = folder.path().join(name);
        fs::create_dir(&of).expect("a folder");
        let (answer, pdf) = made("card", &scenario(name), &of, &["--flow", flow]);
        let front = words(&pdf, 1);
        let back = words(&pdf, 2);
        let key =
            |us: &str| if per_gallon == 1.0 { us.to_owned() } else { us.replace("_gal", "_l") };
        let volume = |value: &Value| format!("{} {unit}", whole(value.as_f64().expect("a volume")));
        let wires = answer["trip_wires"]["wires"].as_array().expect("wires");
        let in_sight = wires.iter().filter(|wire| wire["no_load_within_min"] == 2.0);
        let first = in_sight.chain(wires).find(|wire| wire["gate_down"].is_object());
        let short = answer["interruption_probability"].as_f64().expect("a chance");
        match first {
            Some(wire) => {
                let level = volume(&wire["gate_down"][key("level_gal")]);
                assert!(front.contains(&format!("GATE DOWN at {level}")), "{level}: {front}");
            }
            None => assert!(front.contains("Watch the road, and ask early"), "{name}: {front}"),
        }
        let warned = front.matches("DO NOT USE THIS CARD").count();
        assert_eq!(warned, if short > 0.05 { 3 } else { 0 }, "{name}: {front}");
        for told in [volume(&answer[key("reserve_gal")]), volume(&answer[key("load_gal")])] {
            assert!(front.contains(&told), "{told}: {front}");
        }
        let every = answer["load_every_min"].as_f64().expect("minutes");
        let every = format!("{every:.1}");
        assert!(front.contains(every.trim_end_matches(".0")), "{every}: {front}");
        let clock = answer["clock"]["first_water_min"].as_f64().expect("a minute");
        assert!(front.contains(&format!("first water at minute {:.0}", clock.round())), "{front}");
        let ticked = answer["instead"].is_null();
        let all = if ticked { &answer["who_comes"] } else { &answer["instead"]["ask_for"] };
        for one in all.as_array().expect("who is asked for") {
            let name = one["name"].as_str().expect("a name");
            assert!(front.contains(name), "{name}: {front}");
        }
        assert!(
            back.contains("1,000 simulated fires, luck number 1") && back.contains(DAY),
            "{back}"
        );
    }
}

#[test]
fn a_card_has_title_language_fonts_and_an_order_to_read_it_in() {
    let folder = folder();
    let (answer, pdf) = made("card", &scenario("hay_barn_two_tankers"), folder.path(), &[]);
    let file = pdf.display().to_string();
    let info = poppler("pdfinfo", &[&file]);
    let title = answer["title"].as_str().expect("a title");
    for told in [title, "Tagged:          yes", "Pages:           2", "612 x 792", DAY_OF_INFO] {
        assert!(info.contains(told), "{told}: {info}");
    }
    let fonts = poppler("pdffonts", &[&file]);
    for font in fonts.lines().skip(2) {
        assert!(
            font.contains("Inter") && font.contains(" yes yes yes"),
            "embedded, with its letters: {fonts}"
        );
    }
    let order = poppler("pdfinfo", &["-struct-text", &file]);
    let at = |told: &str| order.find(told).unwrap_or_else(|| panic!("{told} is not read: {order}"));
    assert!(at("DISPATCH") < at("TANKER BOSS") && at("TANKER BOSS") < at("PUMP OPERATOR"));
    assert!(order.contains("H1") && order.contains("H2"), "{order}");
    let bytes = fs::read(&pdf).expect("read");
    let catalog = String::from_utf8_lossy(&bytes);
    assert!(catalog.replace(' ', "").contains("/Lang(en)"), "the language is set");
    // A4 on request.
    let (_, pdf) =
        made("card", &scenario("hay_barn_two_tankers"), folder.path(), &["--paper", "a4"]);
    let info = poppler("pdfinfo", &[&pdf.display().to_string()]);
    assert!(info.contains("595.276 x 841.89"), "{info}");
}

const DAY_OF_INFO: &str = "2026";

#[test]
fn pages_are_the_same_bytes_for_the_same_day() {
    let folder = folder();
    let file = scenario("hay_barn_two_tankers");
    let (_, pdf) = made("card", &file, folder.path(), &[]);
    let first = fs::read(&pdf).expect("read");
    let (_, pdf) = made("card", &file, folder.path(), &["--threads", "1"]);
    assert!(first == fs::read(&pdf).expect("read"), "on one thread as on all");
    let wrong = ["card", &file, "--runs", "100", "--date", "2026-02-30"];
    let told = bucketline(folder.path(), &wrong).refused(WRONG_COMMAND, "a day there is not");
    assert!(told.contains("no such day"), "{told}");
}

/// Ink on the page, and none on its rim: by the picture that Poppler makes of it.
#[test]
fn a_crowded_card_leaves_its_rim_blank() {
    let folder = folder();
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
    let file = folder.path().join("crowded.json");
    fs::write(&file, plan.to_string()).expect("written");
    let (_, pdf) = made("card", &file.display().to_string(), folder.path(), &["--tender"]);
    let (file, root) =
        (pdf.display().to_string(), folder.path().join("page").display().to_string());
    poppler("pdftoppm", &["-r", "60", "-gray", &file, &root]);
    for page in [1, 2] {
        let bytes = fs::read(format!("{root}-{page}.pgm")).expect("a picture");
        let (wide, tall, pixels) = gray(&bytes);
        let is_ink = |x: usize, y: usize| pixels[y * wide + x] < 128;
        let ink = (0..tall).flat_map(|y| (0..wide).map(move |x| (x, y)));
        let ink: Vec<(usize, usize)> = ink.filter(|(x, y)| is_ink(*x, *y)).collect();
        assert!(ink.len() > 5_000, "page {page}: {} dark points", ink.len());
        // A quarter of an inch, at 60 to the inch.
        let on_rim =
            |(x, y): &(usize, usize)| *x < 15 || *y < 15 || *x >= wide - 15 || *y >= tall - 15;
        assert_eq!(ink.iter().filter(|at| on_rim(at)).count(), 0, "page {page}");
    }
    assert!(words(&pdf, 2).contains("Division No. 30"), "who is not on the front is on the back");
    assert!(words(&pdf, 1).contains("Leave this sheet whole"), "strips would tear its lists apart");
    assert!(words(&pdf, 1).contains("TENDER BOSS"));
}

/// Width, height and points of a picture in the portable graymap format (binary, 8 bits).
fn gray(bytes: &[u8]) -> (usize, usize, &[u8]) {
    let mut numbers = Vec::new();
    let mut at = 2;
    while numbers.len() < 3 {
        while bytes[at].is_ascii_whitespace() {
            at += 1;
        }
        let end = at + bytes[at..].iter().take_while(|byte| byte.is_ascii_digit()).count();
        numbers.push(String::from_utf8_lossy(&bytes[at..end]).parse::<usize>().expect("a number"));
        at = end;
    }
    (numbers[0], numbers[1], &bytes[at + 1..])
}

#[test]
fn the_handout_and_the_report_say_what_their_answers_do() {
    let folder = folder();
    let (answer, pdf) = made("handout", &scenario("hay_barn_two_tankers"), folder.path(), &[]);
    let trainer = words(&pdf, 5);
    for question in answer["questions"].as_array().expect("questions") {
        if let Some(cycle) = question["whole_cycle_min"].as_f64() {
            assert!(trainer.contains(&format!("{cycle:.1} minutes")), "{cycle}: {trainer}");
        }
        if let Some(every) = question["load_every_min"].as_f64() {
            assert!(trainer.contains(&format!("Every {every:.1} minutes")), "{every}: {trainer}");
        }
    }
    let form = words(&pdf, 3);
    assert!(form.contains("started dump") && form.contains("Recorder"), "the form: {form}");

    let folder = self::folder();
    let (answer, pdf) =
        made("report", &scenario("feed_mill_mutual_aid"), folder.path(), &["--target", "5%"]);
    let first = words(&pdf, 1);
    let short = answer["risk"]["interruption_probability"].as_f64().expect("a chance");
    let told = match short {
        1.0 => "every one of 1,000 fires".to_owned(),
        some => format!("{:.0} fires of 100", 100.0 * some),
    };
    assert!(first.contains(&told), "{short}: {first}");
    let sheet = &answer["check"]["worksheet"];
    for flow in ["hand_gpm", "peak_flow_gpm"] {
        let told = format!("{} gpm", whole(sheet[flow].as_f64().expect("a flow")));
        assert!(first.contains(&told), "{flow} {told}: {first}");
    }
    // The clock: who comes when, as the answer has it.
    for moment in answer["moments"].as_array().expect("moments") {
        if let Some(name) = moment["name"].as_str() {
            assert!(first.contains(name), "{name}: {first}");
        }
    }
    for water in ["first_water_min_mean", "established_min_mean"] {
        let told =
            format!("minute {:.0}", answer["risk"][water].as_f64().expect("a minute").round());
        assert!(first.contains(&told), "{told}: {first}");
    }
    // Tables are told cell by cell, their heads as such.
    let order = poppler("pdfinfo", &["-struct-text", &pdf.display().to_string()]);
    let of = |tag: &str| {
        order
            .lines()
            .filter(|line| {
                line.trim() == tag
                    || line.trim().starts_with(&format!("{tag} "))
                    || line.trim() == format!("{tag}:")
            })
            .count()
    };
    let (tables, rows) = (of("Table"), of("TR"));
    assert!(tables > 5 && rows > 4 * tables, "{tables} tables, {rows} rows: {order}");
    assert!(of("TH") >= tables && of("TD") > of("TH"), "{order}");
    // PDF/UA-1 is claimed in the metadata, and the title stands in the window's bar.
    let info = poppler("pdfinfo", &["-meta", &pdf.display().to_string()]);
    assert!(info.contains("pdfuaid:part"), "{info}");
    // The same question, the same answer.
    let file = scenario("feed_mill_mutual_aid");
    let alone = ["request", &file, "--runs", "1000", "--no-charts", "--json"];
    let alone = bucketline(folder.path(), &alone).answered("request");
    let alone: Value = serde_json::from_str(&alone).expect("JSON");
    assert_eq!(answer["request"]["ask_for"], alone["ask_for"]);
    let second = words(&pdf, 2);
    for unit in answer["request"]["ask_for"].as_array().expect("a request") {
        let name = unit["name"].as_str().expect("a name");
        assert!(second.contains(name), "{name}: {second}");
    }
}
