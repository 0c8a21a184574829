//! The clock of the plan: who is on scene and what is set up at which minute, every time at its mean.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_sim::{Happening, Luck, Shuttle};

/// What has come or is ready.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MomentKind {
    /// The attack engine is on scene.
    AttackEngine,
    /// The supply engine is on scene.
    SupplyEngine,
    /// A tanker is on scene with its first load.
    Tanker,
    /// A drop tank is set up.
    DropTank,
    /// A fill site can serve.
    FillSite,
}

/// A moment of the plan, every time at its mean.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MomentFigures {
    /// Minutes after the alarm.
    pub at_min: f64,
    /// What has come or is ready.
    #[serde(rename = "thing")]
    pub kind: MomentKind,
    /// Its name; null for a drop tank, which has none.
    pub name: Option<String>,
    /// Its place in its list, from 1; null for an engine.
    pub number: Option<usize>,
}

/// The moments in order of time; a place that serves from the alarm on is none.
pub(super) fn moments(scenario: &Scenario) -> Vec<MomentFigures> {
    let facts = scenario.plan.facts();
    let (_, trace) = Shuttle::new(&scenario.plan).run_traced(Luck::Planned);
    let mut is_here = vec![false; facts.tankers.len()];
    let mut moments = Vec::new();
    for note in &trace.notes {
        let (kind, name, place) = match note.happening {
            Happening::AttackEngineArrived => {
                (MomentKind::AttackEngine, Some(&facts.attack_engine.name), None)
            }
            Happening::SupplyEngineArrived => {
                let engine = facts.supply.engine.as_ref();
                (MomentKind::SupplyEngine, engine.map(|engine| &engine.name), None)
            }
            // A tanker's story begins when it is on scene.
            Happening::Tanker(place, _) if !std::mem::replace(&mut is_here[place], true) => {
                (MomentKind::Tanker, Some(&facts.tankers[place].name), Some(place))
            }
            Happening::DropTankReady(place) => (MomentKind::DropTank, None, Some(place)),
            Happening::FillSiteReady(place) if note.minute > 0.0 => {
                (MomentKind::FillSite, Some(&facts.fill_sites[place].name), Some(place))
            }
            _ => continue,
        };
        let number = place.map(|place| place + 1);
        moments.push(MomentFigures { at_min: note.minute, kind, name: name.cloned(), number });
    }
    moments
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    /// By hand, from the file: the minute of asking and the mean response; for what is set up, its set-up after it.
    #[test]
    fn the_clock_is_the_files_means() {
        let file =
            concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/feed_mill_mutual_aid.json");
        let scenario = scenario_file::load(Path::new(file)).expect("the demo is sound");
        let facts = scenario.plan.facts();
        let moments = moments(&scenario);
        let at = |kind, number: Option<usize>| {
            let of = moments.iter().filter(|one| one.kind == kind && one.number == number);
            let all: Vec<f64> = of.map(|one| one.at_min).collect();
            assert_eq!(all.len(), 1, "{kind:?} {number:?}: {moments:?}");
            all[0]
        };
        // Times are whole ticks of some microseconds.
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-3, "{a} and {b}");
        for (place, tanker) in facts.tankers.iter().enumerate() {
            let comes = tanker.call.requested_at + tanker.call.response.mean();
            near(at(MomentKind::Tanker, Some(place + 1)), comes);
        }
        let engine = &facts.attack_engine.call;
        near(at(MomentKind::AttackEngine, None), engine.requested_at + engine.response.mean());
        for (place, site) in facts.fill_sites.iter().enumerate() {
            near(at(MomentKind::FillSite, Some(place + 1)), site.ready.mean());
        }
        assert_eq!(
            moments.iter().filter(|one| one.kind == MomentKind::DropTank).count(),
            facts.drop_tanks.len()
        );
        assert!(moments.windows(2).all(|pair| pair[0].at_min <= pair[1].at_min));
    }
}
