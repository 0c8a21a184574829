//! Sources that are ready too late for the first tanker, or run dry.

use scenario_file::Scenario;
use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::worksheet::Worksheet;
use shuttle_sim::{FillSite, Part, Tanker};

use crate::question::card::DryFigures;
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, name};

/// A source that runs dry more seldom is none to warn of on the first page. Judgement: one fire of 100.
const WORTH_A_WARNING: f64 = 0.01;
/// Waits below this are within what means of the file can tell, minutes. Judgement.
const WORTH_A_WAIT: f64 = 1.0;

/// A source that is not ready when the first tanker could load there. Minutes after the alarm, every time at its mean
/// and nobody waiting elsewhere.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LateSourceFigures {
    /// The source.
    pub fill_site: String,
    /// When it can serve.
    pub ready_min: f64,
    /// When the first tanker that may go there could begin to load.
    pub first_could_load_min: f64,
}

/// Sources that are late, as listed.
pub(super) fn late(scenario: &Scenario, by_hand: &Worksheet) -> Vec<LateSourceFigures> {
    let facts = scenario.plan.facts();
    let late = |(place, site): (usize, &FillSite)| {
        let first_could_load_min = (facts.tankers.iter())
            .filter(|tanker| tanker.fill_site.is_none_or(|only| only == place))
            .map(|tanker| could_load(tanker, site, by_hand))
            .reduce(f64::min)?;
        let ready_min = facts.site_ready_mean(place);
        (ready_min >= first_could_load_min + WORTH_A_WAIT).then(|| LateSourceFigures {
            fill_site: site.name.clone(),
            ready_min,
            first_could_load_min,
        })
    };
    facts.fill_sites.iter().enumerate().filter_map(late).collect()
}

/// When a tanker could load at a site: it comes, gives its first load and drives there.
fn could_load(tanker: &Tanker, site: &FillSite, by_hand: &Worksheet) -> f64 {
    const AT_THE_FIRE: [Part; 6] = [
        Part::NurseConnect,
        Part::PumpOff,
        Part::NurseDisconnect,
        Part::DumpPosition,
        Part::Dump,
        Part::DumpClear,
    ];
    let sheet = by_hand.tankers.iter().find(|sheet| sheet.name == tanker.name);
    let gives: f64 = (sheet.iter().flat_map(|sheet| &sheet.parts))
        .filter(|(part, _)| AT_THE_FIRE.contains(part))
        .map(|(_, mean)| mean)
        .sum();
    let comes = tanker.call.requested_at + tanker.call.response.mean();
    comes + gives + site.out.time.mean() * tanker.drive_factor
}

/// "Log pond is not ready until minute 25, and a tanker could load there at minute 20 at the soonest; Quarry pond runs dry
/// in 62 fires of 100, on average at minute 113." - nothing where all are in time and none runs dry.
pub(super) fn words(
    late: &[LateSourceFigures],
    dry: &[DryFigures],
    fires: u64,
) -> Option<Sentence> {
    let late = late.iter().map(|one| {
        say![
            name(&one.fill_site),
            " is not ready until ",
            Piece::Clock(one.ready_min),
            ", and a ",
            Piece::Tanker,
            " could load there at ",
            Piece::Clock(one.first_could_load_min),
            " at the soonest",
        ]
    });
    let dry = (dry.iter().filter(|one| one.dry_share >= WORTH_A_WARNING)).map(|one| {
        say![
            name(&one.fill_site),
            " runs dry in ",
            Piece::Fires(Chances::of(one.dry_share, fires)),
            ", on average at ",
            Piece::Clock(one.dry_at_min),
        ]
    });
    let all: Vec<Sentence> = late.chain(dry).collect();
    (!all.is_empty()).then(|| say![joined(all, "; ", "; "), "."])
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::Reader;
    use crate::shared::in_tests::one_tanker;

    /// By hand, with every time fixed: the tanker comes at minute 12, positions for 1, dumps 2,850 gal (3,000 less 5%) at
    /// 1,000 gpm for 2.85, clears in 0.2 and drives 4: minute 20.05. A pond ready at 25 is late, one ready at 20 is not.
    #[test]
    fn a_source_is_late_where_the_first_tanker_would_wait_for_it() {
        let plan = |ready: f64| {
            one_tanker(|plan| {
                plan["tankers"][0]["capacity"] = 3000.into();
                plan["tankers"][0]["waste"] = 0.05.into();
                plan["fill_sites"][0]["ready"] = ready.into();
            })
        };
        let of = |ready| {
            let scenario = plan(ready);
            late(&scenario, &shuttle_report::worksheet::worksheet(&scenario.plan))
        };
        assert_eq!(of(20.0), []);
        let found = of(25.0);
        assert_eq!(found.len(), 1);
        assert!((found[0].first_could_load_min - 20.05).abs() < 0.01, "{found:?}");
        let dry = DryFigures { fill_site: "Pond".to_owned(), dry_at_min: 41.2, dry_share: 0.62 };
        let reader = Reader { units: Units::Us, tender: true };
        assert_eq!(
            words(&found, &[dry], 2_000).map(|told| reader.put(&told)).as_deref(),
            Some(
                "Pond is not ready until minute 25, and a tender could load there at minute 20 at the soonest; \
                 Pond runs dry in 62 fires of 100, on average at minute 41."
            )
        );
        assert_eq!(words(&[], &[], 2_000), None);
    }
}
