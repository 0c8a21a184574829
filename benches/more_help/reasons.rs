//! Why an addition hurts: what is thought to be behind it is taken away, and the two plans are compared again.
//! Where the harm is gone with it, it was that.

use bucketline_benches::additions::Addition;
use bucketline_benches::pairs::Remembered;
use bucketline_benches::sane_plan::{plan, sane_plan};
use shuttle_sim::{FillOrder, LowWater, PlanDraft, TimeTaken};

use crate::SEED;

/// Runs of a comparison, none of which the looks before have seen.
const RUNS: u64 = 8_000;
const FIRST: u64 = 100_000;

/// What may be behind a harm, and the plans without it (both are changed: only the addition is to differ).
type Behind = (&'static str, fn(&mut PlanDraft, &mut PlanDraft));

const BEHIND: [Behind; 8] = [
    ("unusable water of the added drop tank", |_, after| {
        if let Some(tank) = after.drop_tanks.last_mut() {
            tank.unusable = 0.0;
        }
    }),
    ("the sharing of a fill site's flow", |before, after| {
        for draft in [before, after] {
            for site in &mut draft.fill_sites {
                site.fill_order = FillOrder::OneByOne;
            }
        }
    }),
    ("nursing", |before, after| {
        before.supply.nurse = false;
        after.supply.nurse = false;
    }),
    ("prime lost", |before, after| {
        before.supply.low_water = LowWater::Throttle;
        after.supply.low_water = LowWater::Throttle;
    }),
    ("one road for both directions", |before, after| {
        before.one_lanes.clear();
        after.one_lanes.clear();
    }),
    ("a choice between fill sites", |before, after| {
        for draft in [before, after] {
            draft.tankers.iter_mut().for_each(|tanker| tanker.fill_site = Some(0));
        }
    }),
    ("waiting at the fill sites", |before, after| {
        for draft in [before, after] {
            for site in &mut draft.fill_sites {
                (site.positions, site.flow) = (20, 20_000.0);
                site.fill_order = FillOrder::Shared;
            }
        }
    }),
    ("the added tanker's slow nursing", |_, after| {
        if let Some(tanker) = after.tankers.last_mut() {
            tanker.pump_off = 1_000.0;
            tanker.handling.nurse_connect = TimeTaken::Fixed(0.3);
            tanker.handling.nurse_disconnect = TimeTaken::Fixed(0.2);
        }
    }),
];

/// Prints by how much of 100 the chance rises, as it is and with each thing taken away that may be behind it.
pub fn reasons(number: u64, addition: Addition) {
    let draft = sane_plan(SEED, number).0;
    let (before, after) = addition.to(&draft, SEED, number);
    let rise = |before: &PlanDraft, after: &PlanDraft| {
        let [was, is] = [before, after].map(|draft| {
            let mut runs = Remembered::new(&plan(draft), SEED);
            runs.fresh(FIRST, RUNS).filter(|short| *short).count() as f64
        });
        100.0 * (is - was) / RUNS as f64
    };
    let mut line = format!("    rises by {:.2}", rise(&before, &after));
    for (name, take_away) in BEHIND {
        let is_of_the_addition = match name {
            "unusable water of the added drop tank" => {
                matches!(addition, Addition::DropTank | Addition::ThirdDropTank)
            }
            "the added tanker's slow nursing" => matches!(addition, Addition::Tanker),
            _ => true,
        };
        let (mut was, mut is) = (before.clone(), after.clone());
        take_away(&mut was, &mut is);
        if is_of_the_addition && (was != before || is != after) {
            line += &format!("; without {name} {:+.2}", rise(&was, &is));
        }
    }
    println!("{line}");
}
