//! Why an addition hurts: what is thought to be behind it is taken away, and the two plans are compared again.
//! Where the harm is gone with it, it was that.

use bucketline_benches::random::additions::Addition;
use bucketline_benches::random::pairs::Remembered;
use bucketline_benches::random::sane_plan::{plan, sane_plan};
use shuttle_sim::{FillOrder, PlanDraft, TimeTaken};

use crate::SEED;

/// Runs of a comparison, none of which the looks before have seen.
const RUNS: u64 = 4_000;
const FIRST: u64 = 100_000;

/// What may be behind a harm.
struct Behind {
    what: &'static str,
    /// The additions that it may be behind.
    of: &'static [Addition],
    /// Takes it away; both plans are changed, as only the addition is to differ.
    take_away: fn(&mut PlanDraft, &mut PlanDraft),
}

const TANKS: &[Addition] = &[Addition::DropTank, Addition::ThirdDropTank];

const BEHIND: [Behind; 4] = [
    Behind {
        what: "the unusable water of the added drop tank",
        of: TANKS,
        take_away: |_, after| {
            if let Some(tank) = after.drop_tanks.last_mut() {
                tank.unusable = 0.0;
            }
        },
    },
    Behind {
        what: "the sharing of a fill site's flow",
        of: &[Addition::FillPosition, Addition::Tanker, Addition::DumpPosition],
        take_away: |before, after| {
            for draft in [before, after] {
                for site in &mut draft.fill_sites {
                    site.fill_order = FillOrder::OneByOne;
                }
            }
        },
    },
    Behind {
        what: "waiting at the fill sites",
        of: &[
            Addition::DropTank,
            Addition::ThirdDropTank,
            Addition::DumpPosition,
            Addition::FillPosition,
            Addition::Tanker,
        ],
        take_away: |before, after| {
            for draft in [before, after] {
                for site in &mut draft.fill_sites {
                    (site.positions, site.flow) = (20, 20_000.0);
                    site.fill_order = FillOrder::Shared;
                }
            }
        },
    },
    Behind {
        what: "the added tanker's slow nursing",
        of: &[Addition::Tanker],
        take_away: |_, after| {
            if let Some(tanker) = after.tankers.last_mut() {
                tanker.pump_off = 1_000.0;
                tanker.handling.nurse_connect = TimeTaken::Fixed(0.3);
                tanker.handling.nurse_disconnect = TimeTaken::Fixed(0.2);
            }
        },
    },
];

/// Prints by how much of 100 the chance rises, as it is and without each thing that may be behind it.
pub fn reasons(number: u64, addition: Addition) {
    let draft = sane_plan(SEED, number).0;
    let (before, after) = addition.to(&draft, SEED, number);
    let lost = |draft: &PlanDraft| {
        let mut runs = Remembered::new(&plan(draft), SEED);
        runs.fresh(FIRST, RUNS).filter(|short| *short).count() as f64
    };
    let of_100 = |runs: f64| 100.0 * runs / RUNS as f64;
    let was_as_it_is = lost(&before);
    let rise = lost(&after) - was_as_it_is;
    let mut line = format!("    rises by {:.2}", of_100(rise));
    for behind in BEHIND {
        let (mut was, mut is) = (before.clone(), after.clone());
        (behind.take_away)(&mut was, &mut is);
        if behind.of.contains(&addition) && is != after {
            let was = if was == before { was_as_it_is } else { lost(&was) };
            line += &format!(", without {} by {:.2}", behind.what, of_100(lost(&is) - was));
        }
    }
    println!("{line}");
}
