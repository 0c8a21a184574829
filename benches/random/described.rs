//! For whoever looks at a case: a plan told in a few lines, and two stories of one fire.

use crate::random::sane_plan::plan;
use shuttle_sim::{Happening, Luck, PlanDraft, RunResult, Shuttle};

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

/// Prints both stories of the first fire that only the second plan loses, from where they part until the
/// water is back.
pub fn print_apart(before: &PlanDraft, after: &PlanDraft, seed: u64, runs: u64) {
    let mut shuttles = [Shuttle::new(&plan(before)), Shuttle::new(&plan(after))];
    let lost = |run: &RunResult| !run.interruptions.is_empty();
    let luck = |replication| Luck::Drawn { seed, replication };
    let differs = (0..runs).find(|replication| {
        let [was, is] = [0, 1].map(|which| lost(shuttles[which].run(luck(*replication))));
        is && !was
    });
    let Some(replication) = differs else { return println!("no fire differs") };
    let [(_, was), (run, is)] = shuttles.each_mut().map(|one| one.run_traced(luck(replication)));
    let same = was.notes.iter().zip(&is.notes).take_while(|(was, is)| was == is).count();
    let lost = run.interruptions.last().map_or(0.0, |one| one.start + one.minutes);
    println!("fire {replication}: {:?}", run.interruptions);
    for (trace, name) in [(was, "without"), (is, "with")] {
        println!("  {name}, from where they differ until the water is back");
        let width = trace.levels.len() / trace.notes.len();
        let told = trace.notes.iter().zip(trace.levels.chunks(width)).skip(same.saturating_sub(12));
        for (note, levels) in told.take_while(|(note, _)| note.minute <= lost + 1.0) {
            let levels: Vec<String> = levels.iter().map(|level| format!("{level:.0}")).collect();
            let what = match note.happening {
                Happening::Tanker(tanker, doing) => format!("tanker {tanker} {doing:?}"),
                other => format!("-- {other:?}"),
            };
            println!("{:>7.2} {what:<36} {}", note.minute, levels.join(" "));
        }
    }
}
