//! What a log is held against, from a scenario.

use drill_log::{Course, CourseTanker, Site};
use scenario_file::Scenario;
use shuttle_sim::{FillOrder, PlanDraft};

/// The plan's facts with everyone whom the file lists: aid may have come to the drill.
pub(super) fn everyone(scenario: &Scenario) -> &PlanDraft {
    scenario.aid.everyone.facts()
}

/// The tankers and places of a scenario, for reading a log.
pub fn course(scenario: &Scenario) -> Course {
    let facts = everyone(scenario);
    Course {
        tankers: (facts.tankers.iter())
            .map(|tanker| CourseTanker {
                name: tanker.name.clone(),
                load: tanker.load(),
                site: tanker.fill_site,
            })
            .collect(),
        sites: (facts.fill_sites.iter())
            .map(|site| Site {
                name: site.name.clone(),
                positions: site.positions,
                // Whoever began first leaves nothing only if every tanker can take all the site gives.
                one_at_a_time: site.fill_order == FillOrder::OneByOne
                    && facts.tankers.iter().all(|tanker| tanker.fill_limit_at(site) >= site.flow),
            })
            .collect(),
        dump_positions: facts.drop_tanks.iter().map(|tank| tank.dump_positions).sum::<u32>().max(1),
    }
}
