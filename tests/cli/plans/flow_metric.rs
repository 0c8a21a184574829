//! `flow` in metres and litres.

use super::bucketline;
use super::flow::{house, on_one_line};

/// A barn in metres, with nothing said of how much of it burns.
#[test]
fn a_metric_worksheet_has_one_figure_for_the_flow_and_no_nonsense_digits() {
    let (folder, file) = house(|value| {
        *value = serde_json::json!({
            "title": "Barn", "units": "metric", "rule": "area",
            "building": {
                "length": "80 ft", "width": 12.2, "height": 4.9, "ridge": 3.7, "use": "barn",
                "construction": "wood frame", "exposures": [{"distance": 12.2, "area": 100}]
            }
        });
    });
    let text = bucketline(folder.path(), &["flow", &file, "--more"]).answered("flow");
    let said = on_one_line(&text);
    // 80 x 40.03 / 3 + 25% of it is 1,334 gpm (National Fire Academy), 5,050 L/min to the nearest 10.
    for telling in [
        "24.4 m x 12.2 m, 1 story, 4.9 m to the eaves.",
        // Beyond the 1,000 gpm that the rule is made for.
        "the 5,050 L/min that it works out to are no attack flow to plan by.",
        "for the 5,050 L/min wanted",
        "12.2 m away a hazard",
        "the space under the roof is not in it",
        "a building stands within 12.2 m",
        // 13.58 L/min a m2 is a gpm for 3 ft2.
        "24.4 x 12.2 m x 13.58 L/min a m2 x 100% involved",
    ] {
        assert!(said.contains(telling), "no {telling}: {said}");
    }
    // 1,334 gpm over 2 hours are 606 m3; the supply, 39,908 gal, 151 m3. A master stream of 500 gpm, 1,890 L/min (common practice).
    for telling in
        ["3 master streams at 1,890 L/min =", "would be 606,000 L;", "supply, 151,000 L in all"]
    {
        assert!(said.contains(telling), "no {telling}: {said}");
    }
    for nonsense in [
        "5,04",
        "5,051",
        "946.4",
        "1,276 kPa",
        "40.0262",
        " in ",
        " ft ",
        " gpm",
        " gal ",
        " psi",
        "Btu",
    ] {
        let allowed = [" in it", " in all", " in the ", " in reserve"];
        let rest = allowed.iter().fold(said.clone(), |text, words| text.replace(words, " "));
        assert!(!rest.contains(nonsense), "{nonsense}: {said}");
    }
    let first = said.split("Lines ").next().expect("the first paragraphs");
    assert!(first.contains("the whole building as burning") && first.contains("up to about half"));
}

#[test]
fn a_metric_worksheet_has_hose_and_nozzles_in_metric() {
    let (folder, file) = house(|value| {
        value["units"] = "metric".into();
        for key in ["length", "width", "height", "ridge"] {
            let feet = value["building"][key].as_f64().expect("a size");
            value["building"][key] = format!("{feet} ft").into();
        }
        value["rule"] = "area".into();
        value["hose"] =
            serde_json::json!({"diameter": 75, "lines": 2, "distance": 400, "on_hand": 900});
    });
    let text = bucketline(folder.path(), &["flow", &file, "--more"]).answered("flow");
    let said = on_one_line(&text);
    // 100 gpm are 379 L/min, the 150 of one line 568; two lines of 400 m and 76.2 mm inside hold 3,650 L.
    for telling in [
        "1 x 45 mm at 568 L/min = 568 L/min for the 379 L/min wanted.",
        "these lines flow 568 L/min, not 379: supply that",
        "379 L/min by 2 parallel 75 mm (65 mm couplings) lines take 800 m of hose",
        " and 3,650 L to fill it",
    ] {
        assert!(said.contains(telling), "no {telling}: {said}");
    }
}

/// In a metric file every sum is in metric units.
#[test]
fn metric_sums_are_metric() {
    let (folder, file) = house(|value| {
        value["units"] = "metric".into();
        value["building"] = serde_json::json!({
            "length": 40, "width": 30, "height": 6, "ridge": 3, "use": "barn", "construction": "wood frame",
            "contents": "free burning", "involved": 1.0,
            "exposures": [{"distance": 8, "area": 200}, {"distance": 40, "area": 200}]
        });
        value["rule"] = "insurance-canada".into();
    });
    let said = on_one_line(&bucketline(folder.path(), &["flow", &file, "--more"]).answered("flow"));
    // 220 x 1.5 x sqrt(1,200) = 11,432 -> 11,000; x 1.15 x 1.25 = 15,813 -> 16,000 L/min, worked by hand.
    assert!(said.contains("the attack flow is 16,000 L/min"), "{said}");
    assert!(said.contains("220 x 1.5 x sqrt(1,200)"), "{said}");
    for us in [" gpm", " gal ", " ft ", " ft2", " psi"] {
        assert!(!said.contains(us), "{us}: {said}");
    }
}
