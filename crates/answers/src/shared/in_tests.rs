//! What tests of several answers begin with.

use std::path::Path;

use scenario_file::{STARTER, Scenario, read};
use serde_json::{Value, json};

use crate::answer::{Block, Label, Told};
use crate::reader::Reader;

/// The starter, as it is handed out.
pub(crate) fn starter() -> Scenario {
    read(Path::new("starter.json"), STARTER).expect("the starter is sound")
}

/// The sentence that has this label, in a reader's units.
pub(crate) fn point(told: &Told, wanted: Label, reader: &Reader) -> Option<String> {
    told.points.iter().find_map(|block| match block {
        Block::Point(label, sentence) if *label == wanted => Some(reader.put(sentence)),
        _ => None,
    })
}

/// One tanker of 2,000 gal, a drop tank and a pond of 1,500 gpm that is 4 minutes out and 5 back; no time varies and
/// nothing is lost.
///
/// - Given: what is otherwise.
pub(crate) fn one_tanker(change: impl FnOnce(&mut Value)) -> Scenario {
    let mut plan = json!({
        "title": "Shed", "units": "us",
        "incident": {"duration": 60, "attack_flow": [{"from": 0, "flow": 200}], "reserve": 0, "tolerance": 0.1},
        "attack_engine": {"name": "Engine 3", "tank": 1000, "response": 8, "water_on": 1,
            "intakes": 1, "tank_refill": 500},
        "supply": {"nurse": false, "setup": 3, "draft_limit": 1000, "reprime": 1},
        "drop_tanks": [{"capacity": 3000, "unusable": 200, "brought_by": "Tanker 5",
            "setup": 3, "dump_positions": 1}],
        "tankers": [{"name": "Tanker 5", "capacity": 2000, "response": 12, "dump_rate": 1000,
            "pump_off": 500, "fill_limit": 1000, "waste": 0.0, "residual": 0.0}],
        "fill_sites": [{"name": "Pond", "flow": 1500, "positions": 1, "ready": 5,
            "out": {"minutes": 4}, "back": {"minutes": 5}}],
        "handling": {"nurse_connect": 1, "nurse_disconnect": 1, "dump_position": 1,
            "dump_clear": 0.2, "fill_connect": 1, "fill_disconnect": 1}
    });
    change(&mut plan);
    read(Path::new("shed.json"), &plan.to_string()).expect("a sound scenario")
}
