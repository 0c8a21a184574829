//! Values worked out from the facts behind them: a hydrant test, a pump at draft, a lay, a road, the size of
//! a drop tank or pond. Those of a building are in [`crate::read::facts::building`].

use fireground::drop_tank::drop_tank_water;
use fireground::hose::{HoseSize, water_in_hose};
use fireground::hydrant::{HydrantTest, OutletKind, PitotReading, flow_at_residual, outlet_flow};
use fireground::lay::{Lay, greatest_flow};
use fireground::pond::{Pond, pond_water};
use fireground::pump::draft_capacity;
use fireground::told::{Part as Worked, Unit};
use fireground::travel::{travel_time, travel_time_at_speed};
use shuttle_sim::{DraftLimit, DraftLimitReason};

use crate::errors::kinds::NoteKind;
use crate::format::fire::incident_and_supply::OfSupply;
use crate::format::haul::drop_tanks::OfTankSize;
use crate::format::haul::fill_sites::{OfFillSite, OfPondSize};
use crate::format::takes::{Either, Null};
use crate::format::values::flow_facts::{
    FillFacts, HydrantFacts, OfFlowByHydrant, OfFlowByPump, OfFlowTest, OfLay, OfPitot, OfPump,
};
use crate::format::values::rough_values::OfRoughRate;
use crate::quantities::worked::worked;
use crate::read::reader::Reader;
use crate::structure::entry::Entry;

/// A nominal diameter may be off by this share: metric sizes are rounded inches (125 mm for 5 in,
/// 65 mm for 2-1/2 in). The sizes themselves are at least 9% apart.
const SIZE_ROUNDING: f64 = 0.03;

/// Up to this pressure a pump gives its rating, psi (apparatus standard; value from memory).
const RATED_PRESSURE: f64 = 150.0;

impl Reader {
    /// A fill site's flow, gpm.
    pub(crate) fn fill_flow(&mut self, site: &Entry<'_, OfFillSite>) -> f64 {
        let worked = match site.get(&OfFillSite::FLOW) {
            Either::This(flow) => return flow,
            Either::That((FillFacts::Rough, rough)) => return rough.get(&OfRoughRate::VALUE),
            Either::That((FillFacts::Pump, facts)) => self.pump(&facts.get(&OfFlowByPump::PUMP)),
            Either::That((FillFacts::Hydrant, facts)) => {
                self.hydrant(facts.get(&OfFlowByHydrant::HYDRANT))
            }
        };
        // Facts that give no flow are already a mistake; any flow lets the rest be checked.
        worked.unwrap_or(1.0)
    }

    fn hydrant(&mut self, (how, entry): (HydrantFacts, Entry<'_, HydrantFacts>)) -> Option<f64> {
        let worked = match how {
            HydrantFacts::Pitot => outlet_flow(&PitotReading {
                kind: OutletKind::Hose,
                diameter_in: entry.get(&OfPitot::OUTLET),
                coefficient: entry.get(&OfPitot::COEFFICIENT),
                pitot_psi: entry.get(&OfPitot::PITOT),
            }),
            HydrantFacts::FlowTest => flow_at_residual(
                &HydrantTest {
                    flow_gpm: entry.get(&OfFlowTest::FLOW),
                    static_psi: entry.get(&OfFlowTest::STATIC),
                    residual_psi: entry.get(&OfFlowTest::RESIDUAL),
                },
                entry.get(&OfFlowTest::AT),
            ),
        };
        self.worked(&entry, worked)
    }

    fn pump(&mut self, entry: &Entry<'_, OfPump>) -> Option<f64> {
        let worked = draft_capacity(
            entry.get(&OfPump::RATED),
            entry.get(&OfPump::LIFT),
            entry.get(&OfPump::ALTITUDE),
        );
        self.worked(entry, worked)
    }

    /// Every limit on the draft, and the water that a dry lay takes first, gal.
    pub(crate) fn draft_limits(&mut self, supply: &Entry<'_, OfSupply>) -> (Vec<DraftLimit>, f64) {
        let mut limits = Vec::new();
        let mut limit = |reason, flow: Option<f64>| {
            limits.extend(flow.map(|flow| DraftLimit { reason, flow }));
        };
        limit(DraftLimitReason::Stated, supply.get(&OfSupply::DRAFT_LIMIT));
        let pump = supply.get(&OfSupply::PUMP);
        limit(DraftLimitReason::PumpAtLift, pump.and_then(|pump| self.pump(&pump)));
        let lay = supply.get(&OfSupply::LAY).and_then(|lay| self.lay(&lay));
        limit(DraftLimitReason::Lay, lay.map(|(flow, _)| flow));
        (limits, lay.map_or(0.0, |(_, volume)| volume))
    }

    /// The greatest flow of a lay, gpm, and the water it takes when dry, gal.
    fn lay(&mut self, entry: &Entry<'_, OfLay>) -> Option<(f64, f64)> {
        let size = HoseSize::from_diameter(nominal(entry.get(&OfLay::DIAMETER)));
        let size = match size {
            Ok(size) => size,
            Err(error) => {
                self.bad_fact(entry, &error);
                return None;
            }
        };
        let lay = Lay {
            size,
            measured_coefficient: entry.get(&OfLay::COEFFICIENT),
            length_ft: entry.get(&OfLay::LENGTH),
            lines: entry.get(&OfLay::LINES),
            elevation_ft: entry.get(&OfLay::ELEVATION),
            appliance_loss_psi: entry.get(&OfLay::APPLIANCES),
        };
        let pressure = entry.get(&OfLay::PUMP_PRESSURE);
        if pressure > RATED_PRESSURE {
            let psi = |psi| Worked::Of(psi, Unit::Psi, 0);
            // As pumps are rated by the apparatus standard (values from memory).
            let parts = [
                Worked::Words("above "),
                psi(RATED_PRESSURE),
                Worked::Words(" a pump gives less than its rating ("),
                Worked::Share(0.7),
                Worked::Words(" at "),
                psi(200.0),
                Worked::Words(", "),
                Worked::Share(0.5),
                Worked::Words(" at "),
                psi(250.0),
                Worked::Words("): state `draft_limit` if the pump is what limits"),
            ];
            let text = worked(&parts, self.units);
            self.warn(entry.at(&OfLay::PUMP_PRESSURE), NoteKind::OfTheFacts, text);
        }
        let flow = greatest_flow(&lay, pressure, entry.get(&OfLay::INTAKE_PRESSURE));
        let flow = self.worked(entry, flow)?;
        let volume = if entry.get(&OfLay::DRY) {
            let water = water_in_hose(size, lay.length_ft, lay.lines);
            self.worked(entry, water)?
        } else {
            0.0
        };
        Some((flow, volume))
    }

    /// What a drop tank of this size holds and what its strainer cannot reach, gal.
    pub(crate) fn tank_size(&mut self, entry: &Entry<'_, OfTankSize>) -> Option<(f64, f64)> {
        let tank = fireground::drop_tank::DropTank {
            length_ft: entry.get(&OfTankSize::LENGTH),
            width_ft: entry.get(&OfTankSize::WIDTH),
            depth_ft: entry.get(&OfTankSize::DEPTH),
            slope_percent: 100.0 * entry.get(&OfTankSize::SLOPE),
            strainer_depth_in: entry.get(&OfTankSize::STRAINER_DEPTH),
            strainer_from_low_side_ft: entry.get(&OfTankSize::STRAINER_FROM_LOW_SIDE),
        };
        match drop_tank_water(&tank) {
            Ok(water) => {
                self.warn_of(entry, &water.usable.warnings);
                let holds = self.worked(entry, Ok(water.holds))?;
                Some((holds, self.worked(entry, Ok(water.unusable))?))
            }
            Err(error) => {
                self.bad_fact(entry, &error);
                None
            }
        }
    }

    /// What can be drawn from a fill site, gal; `None`: unlimited.
    pub(crate) fn site_volume(&mut self, site: &Entry<'_, OfFillSite>) -> Option<f64> {
        let entry = match site.get(&OfFillSite::VOLUME) {
            None | Some(Either::That(Either::This(Null))) => return None,
            Some(Either::This(gallons)) => return Some(gallons),
            Some(Either::That(Either::That(pond))) => pond,
        };
        let water = pond_water(&Pond {
            length_ft: entry.get(&OfPondSize::LENGTH),
            width_ft: entry.get(&OfPondSize::WIDTH),
            mean_depth_ft: entry.get(&OfPondSize::MEAN_DEPTH),
            usable_depth_ft: entry.get(&OfPondSize::USABLE_DEPTH),
        });
        self.worked(&entry, water.map(|water| water.usable))
    }

    /// Mean minutes of a leg: by its speed, or by the rule.
    pub(crate) fn driving_time<O>(
        &mut self,
        leg: &Entry<'_, O>,
        miles: f64,
        mph: Option<f64>,
    ) -> f64 {
        let worked = match mph {
            Some(mph) => travel_time_at_speed(miles, mph),
            None => travel_time(miles),
        };
        // As with a flow, already a mistake; any time lets the rest be checked.
        self.worked(leg, worked).unwrap_or(1.0)
    }
}

/// The rating of a fill site's pump, gpm, where the flow is stated by one.
pub(crate) fn fill_pump(site: &Entry<'_, OfFillSite>) -> Option<f64> {
    match site.get(&OfFillSite::FLOW) {
        Either::That((FillFacts::Pump, facts)) => {
            Some(facts.get(&OfFlowByPump::PUMP).get(&OfPump::RATED))
        }
        _ => None,
    }
}

/// The nearest nominal size in inches, or the diameter itself where there is none near.
pub(crate) fn nominal(diameter: f64) -> f64 {
    let off = |size: &HoseSize| (size.diameter_in() - diameter).abs() / size.diameter_in();
    (HoseSize::ALL.into_iter())
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .filter(|size| off(size) <= SIZE_ROUNDING)
        .map_or(diameter, HoseSize::diameter_in)
}
