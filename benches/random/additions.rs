//! The additions: what someone might bring, buy or do so that the lines lose water less often.

use shuttle_sim::{Brought, Call, DropTank, PlanDraft, TimeTaken};

use crate::random::sane_plan::{another_site, another_tanker};

/// One addition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Addition {
    /// One more drop tank like the last.
    DropTank,
    /// To a plan made to have two drop tanks, a third.
    ThirdDropTank,
    /// One more dump position at the first drop tank.
    DumpPosition,
    /// One more intake at the attack engine.
    Intake,
    /// One more position at the first fill site.
    FillPosition,
    /// 250 gpm more at the first fill site.
    FlowAtSource,
    /// One more fill site, farther than all.
    FartherSite,
    /// One more tanker, of any kind that the plans have.
    Tanker,
    /// All handling in 0.8 of the time.
    QuickerHandling,
    /// 250 gal more in the attack engine's tank.
    EngineTank,
}

impl Addition {
    /// All of them.
    pub const ALL: [Addition; 10] = [
        Addition::DropTank,
        Addition::ThirdDropTank,
        Addition::DumpPosition,
        Addition::Intake,
        Addition::FillPosition,
        Addition::FlowAtSource,
        Addition::FartherSite,
        Addition::Tanker,
        Addition::QuickerHandling,
        Addition::EngineTank,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Addition::DropTank => "one more drop tank",
            Addition::ThirdDropTank => "a third drop tank, to two",
            Addition::DumpPosition => "one more dump position at the first drop tank",
            Addition::Intake => "one more intake at the attack engine",
            Addition::FillPosition => "one more position at the first fill site",
            Addition::FlowAtSource => "250 gpm more at the first fill site",
            Addition::FartherSite => "one more fill site, farther away",
            Addition::Tanker => "one more tanker",
            Addition::QuickerHandling => "all handling in 0.8 of the time",
            Addition::EngineTank => "250 gal more in the attack engine's tank",
        }
    }

    /// The plan without the addition and with it.
    pub fn to(self, draft: &PlanDraft, seed: u64, number: u64) -> (PlanDraft, PlanDraft) {
        let mut before = draft.clone();
        if matches!(self, Addition::ThirdDropTank) {
            before.drop_tanks.truncate(2);
            if before.drop_tanks.len() < 2 {
                add_drop_tank(&mut before);
            }
        }
        let mut after = before.clone();
        match self {
            Addition::DropTank | Addition::ThirdDropTank => add_drop_tank(&mut after),
            Addition::DumpPosition => after.drop_tanks[0].dump_positions += 1,
            Addition::Intake => after.attack_engine.intakes += 1,
            Addition::FillPosition => after.fill_sites[0].positions += 1,
            Addition::FlowAtSource => after.fill_sites[0].flow += 250.0,
            Addition::FartherSite => {
                let far = (after.fill_sites.iter())
                    .max_by(|a, b| a.out.time.mean().total_cmp(&b.out.time.mean()))
                    .expect("a plan has a fill site");
                let site = another_site(seed, number, far);
                after.fill_sites.push(site);
            }
            Addition::Tanker => {
                let tanks = after.drop_tanks.iter().map(|tank| tank.capacity);
                let mut tanker = another_tanker(seed, number, tanks.fold(f64::INFINITY, f64::min));
                tanker.listed = after.tankers.len();
                tanker.fill_site = None;
                after.tankers.push(tanker);
            }
            Addition::QuickerHandling => {
                for tanker in &mut after.tankers {
                    let handling = &mut tanker.handling;
                    for time in [
                        &mut handling.nurse_connect,
                        &mut handling.nurse_disconnect,
                        &mut handling.dump_position,
                        &mut handling.dump_clear,
                        &mut handling.fill_connect,
                        &mut handling.fill_disconnect,
                    ] {
                        *time = time.scaled(0.8);
                    }
                }
            }
            Addition::EngineTank => after.attack_engine.tank += 250.0,
        }
        (before, after)
    }
}

/// Like the last one there is, brought by the first tanker that brings none, else by a vehicle of its own.
fn add_drop_tank(draft: &mut PlanDraft) {
    let tanks = &draft.drop_tanks;
    let like = tanks.last().expect("a sane plan has a drop tank").clone();
    let brings = |tanker: &usize| {
        tanks.iter().any(|tank| matches!(tank.brought, Brought::ByTanker(one) if one == *tanker))
    };
    let brought = (0..draft.tankers.len()).find(|tanker| !brings(tanker)).map_or_else(
        || {
            let response = TimeTaken::Lognormal { mean: 15.0, cv: 0.2 };
            Brought::Itself(Call::sure(0.0, response))
        },
        Brought::ByTanker,
    );
    draft.drop_tanks.push(DropTank { brought, ..like });
}
