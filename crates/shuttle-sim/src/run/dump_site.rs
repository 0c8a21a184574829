//! Loads at the scene: nursing, dumping, pulling clear. Rules 3 and 5 of the model.

use crate::luck::Purpose;
use crate::run::boss;
use crate::run::shuttle::Shuttle;
use crate::run::tanker::Phase;
use crate::story::Happening;

impl Shuttle {
    pub(crate) fn begin_nursing(&mut self, tanker: usize) {
        self.enter(tanker, Phase::Nursing);
        let load = self.begin_to_move(tanker);
        if self.scene.tanks.is_empty() {
            self.supply_is_established();
        }
        // With nothing aboard, back from a dry site, it is empty as soon as the flows are worked out.
        let pump_off = self.prepared.tankers[tanker].pump_off;
        self.scene.begin_nurse(self.now, tanker, load, pump_off);
    }

    pub(crate) fn begin_dumping(&mut self, tanker: usize, tank: usize) {
        self.enter(tanker, Phase::Dumping(tank));
        let load = self.begin_to_move(tanker);
        let pour = self.prepared.tankers[tanker].pour;
        self.scene.begin_dump(self.now, tank, tanker, load, pour);
    }

    /// What is spilled is spilled at once; the load begins to move.
    fn begin_to_move(&mut self, tanker: usize) -> f64 {
        let state = &mut self.tankers[tanker];
        self.tally.result.spilled += std::mem::take(&mut state.waste);
        state.began_with = std::mem::take(&mut state.load);
        state.began_with
    }

    /// Every load that is gone at this instant.
    pub(crate) fn end_loads(&mut self) {
        self.scene.settle(self.now);
        while let Some(tanker) = self.scene.take_empty(self.now) {
            self.tally.result.events += 1;
            self.has_moved(tanker, 0.0);
            match self.tankers[tanker].phase {
                Phase::Nursing => {
                    self.enter_drawn(tanker, Phase::NurseDisconnect, Purpose::NurseDisconnect);
                }
                Phase::Dumping(tank) => self.pull_clear(tanker, tank),
                phase => unreachable!("tanker {tanker} is empty while {phase:?}"),
            }
        }
    }

    /// Its load has moved, but for a rest.
    fn has_moved(&mut self, tanker: usize, rest: f64) {
        let state = &mut self.tankers[tanker];
        let began_with = std::mem::take(&mut state.began_with);
        if let Phase::Dumping(_) = state.phase {
            let pour = self.prepared.tankers[tanker].pour;
            let with_room = pour.minutes_for(began_with) - pour.minutes_for(rest);
            state.dumped_in(self.now.since(state.since).span(), with_room);
        }
        self.tally.result.tankers[tanker].delivered += began_with - rest;
    }

    fn pull_clear(&mut self, tanker: usize, tank: usize) {
        self.enter_drawn(tanker, Phase::DumpClear(tank), Purpose::DumpClear);
    }

    /// It gives up dumping; returns its rest, gal.
    pub(crate) fn stop_dumping(&mut self, tanker: usize, tank: usize) -> f64 {
        let rest = self.scene.stop_dump(self.now, tank, tanker);
        self.has_moved(tanker, rest);
        rest
    }

    /// Whoever stands at a full drop tank, can pour nothing there and has only a tenth left pulls clear with
    /// the rest, one at a time.
    ///
    /// - Returns: whether one did.
    pub(crate) fn pull_clear_with_a_rest(&mut self) -> bool {
        let (tankers, prepared) = (&self.tankers, &self.prepared.tankers);
        let pulls_clear = self.scene.stands_idle(
            |tanker, rest| {
                let (load, full_load) = (tankers[tanker].began_with, prepared[tanker].full_load);
                boss::only_a_tenth_is_left(rest, load, full_load)
            },
            |tanker| tankers[tanker].since,
        );
        let Some(tanker) = pulls_clear else { return false };
        let Phase::Dumping(tank) = self.tankers[tanker].phase else {
            unreachable!("tanker {tanker} pulls clear of a drop tank it does not stand at");
        };
        let rest = self.stop_dumping(tanker, tank);
        self.tankers[tanker].load = rest;
        self.note(Happening::RestAboard(tanker, rest));
        self.pull_clear(tanker, tank);
        true
    }
}
