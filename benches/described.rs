//! A plan told in a few lines, for whoever looks at a case.

use shuttle_sim::PlanDraft;

/// A plan in a few lines: what is stated, by means.
pub fn described(draft: &PlanDraft) -> String {
    let mut lines = Vec::new();
    let engine = &draft.attack_engine;
    lines.push(format!("  {:?}", draft.incident));
    lines.push(format!(
        "  engine {:.0} gal, {} intakes, on scene {:.1}, water {:.1} later",
        engine.tank,
        engine.intakes,
        engine.call.response.mean(),
        engine.water_on.mean()
    ));
    let supply = &draft.supply;
    lines.push(format!(
        "  nurse {}, {:?}, limit {:.0}, supply engine {:?}",
        supply.nurse,
        supply.low_water,
        supply.draft_limit(),
        supply.engine.as_ref().map(|one| (one.call.response.mean(), one.setup.mean()))
    ));
    for tank in &draft.drop_tanks {
        lines.push(format!(
            "  drop tank {:.0} gal, {:.0} unusable, {} positions, transfer {:.0}, {:?}, setup {:.1}",
            tank.capacity,
            tank.unusable,
            tank.dump_positions,
            tank.transfer,
            tank.brought,
            tank.setup.mean()
        ));
    }
    for tanker in &draft.tankers {
        lines.push(format!(
            "  {} {:.0} gal, comes {:.1}, dumps {:.0} {:?}, pumps off {:.0}, fills {:?}, waste {:.2}, residual {:.2}, site {:?}",
            tanker.name,
            tanker.capacity,
            tanker.call.response.mean(),
            tanker.dump_rate,
            tanker.dump_curve,
            tanker.pump_off,
            tanker.fill_limit,
            tanker.waste,
            tanker.residual,
            tanker.fill_site
        ));
    }
    for site in &draft.fill_sites {
        lines.push(format!(
            "  {} {:.0} gpm, {} positions, ready {:.1}, {:?}, volume {:?}, {:.1} out {:.1} back",
            site.name,
            site.flow,
            site.positions,
            site.ready.mean(),
            site.fill_order,
            site.volume,
            site.out.time.mean(),
            site.back.time.mean()
        ));
    }
    lines.push(format!("  one lane {:?}", draft.one_lanes));
    lines.iter().map(|line| format!("{line}\n")).collect()
}
