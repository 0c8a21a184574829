//! One way to say each thing, so that a plan and the scenario made of it say the same in both directions.

use scenario_file::Alarm;

use crate::alarms::greater_alarms;
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, Source, Tanker, pump_bringer};
use crate::scenario_text::usual;
use crate::source_text::{minutes_left, stretches};

impl FirstPlan {
    /// The same plan, of which the same scenario is made, with what can be said in two ways said in one: as it is read
    /// back from that scenario.
    pub fn settled(mut self) -> FirstPlan {
        // What it carries does not count.
        self.supply_engine.iter_mut().for_each(|engine| engine.water = None);
        self.own.iter_mut().chain(&mut self.aid).for_each(settle_tanker);
        // One minute for all that are on an alarm.
        let alarms: Vec<(Alarm, Amount)> = (greater_alarms(&self.aid).into_iter())
            .map(|(alarm, _, minute)| (alarm, minute.clone()))
            .collect();
        for tanker in &mut self.aid {
            if let Some(own) = tanker.alarm {
                let minute = alarms.iter().find(|(alarm, _)| *alarm == own);
                tanker.called_at = minute.map(|(_, minute)| minute.clone());
            }
        }
        let sources: Vec<Source> =
            self.sources.iter().map(|one| settled_source(one.clone(), &self)).collect();
        self.sources = sources;
        self
    }
}

fn settle_tanker(tanker: &mut Tanker) {
    let usual_turnout = if tanker.of_others { usual::AID_TURNOUT } else { usual::OWN_TURNOUT };
    tanker.turnout = tanker.turnout.take().filter(|often| !often.is_number(usual_turnout));
    tanker.empties_in = tanker.empties_in.take().map(|minutes| minutes.in_bare_minutes());
}

fn settled_source(mut source: Source, plan: &FirstPlan) -> Source {
    match pump_bringer(plan, &source) {
        Some(bringer) => {
            let left = minutes_left(&source, plan, &bringer).map(Amount::plain);
            source.pump_draws_in = source.pump_draws_in.or(left);
            (source.ready, source.pumped_by) = (None, Some(bringer));
        }
        None => source.pump_draws_in = None,
    }
    match stretches(&source, plan.units) {
        None => (source.gravel, source.gravel_speed) = (None, None),
        Some((rest, _)) if rest.is_number_of(0.0) => {
            source.speed = source.gravel_speed.take();
            source.gravel = None;
        }
        Some((rest, gravel)) => {
            source.road = rest.plus(&gravel).unwrap_or(source.road);
            source.gravel = Some(gravel);
        }
    }
    source
}
