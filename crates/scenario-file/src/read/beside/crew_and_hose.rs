//! Reading what else a department has: people, and hose in place of tankers.

use fireground::crew::CrewSizes;
use fireground::hose::HoseSize;

use crate::format::beside::crew_and_hose::{OfCrew, OfHose};
use crate::read::facts::worked_facts::nominal;
use crate::read::reader::Reader;
use crate::structure::entry::Entry;

/// People for the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crew {
    /// For each piece of work.
    pub sizes: CrewSizes,
    /// Who can be counted on, if stated.
    pub on_hand: Option<u32>,
    /// Whether any of the sizes is common practice rather than stated.
    pub common_practice: bool,
}

/// Hose in place of tankers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hose {
    /// Size of the hose.
    pub size: HoseSize,
    /// Equal parallel lines.
    pub lines: u32,
    /// Hose of that size that can be brought, ft, if stated.
    pub on_hand_ft: Option<f64>,
    /// Engines that can be spared, if stated.
    pub engines: Option<u32>,
    /// From the source to the fire, ft, if stated.
    pub distance_ft: Option<f64>,
    /// Height of the fire above the source, ft.
    pub elevation_ft: f64,
    /// Rating of the smallest pump, gpm.
    pub rated_gpm: f64,
    /// Greatest discharge pressure, psi.
    pub discharge_psi: f64,
    /// Pressure wanted at the next intake, psi.
    pub intake_psi: f64,
    /// Length laid in a minute, ft.
    pub laid_ft_a_min: f64,
    /// Hook-up, minutes.
    pub hookup_min: f64,
    /// When laying begins, minutes after the alarm, if stated.
    pub start_min: Option<f64>,
    /// Whether any of size, rating, laying speed and hook-up is common practice rather than stated.
    pub common_practice: bool,
}

/// Usual discharge pressure of a lay or relay, psi: of large hose, and below 3-1/2 in. Source: relay
/// texts; the smaller is the limit of large-diameter hose.
const LARGE_HOSE_PSI: f64 = 185.0;
const SMALL_HOSE_PSI: f64 = 200.0;
/// From this diameter hose counts as large, in. Source: relay texts.
const LARGE_HOSE_IN: f64 = 3.5;

impl Reader {
    /// People for the plan.
    pub(crate) fn crew(&self, entry: &Entry<'_, OfCrew>) -> Crew {
        let sizes =
            [OfCrew::TANKER, OfCrew::FILL_SITE, OfCrew::DUMP_SITE, OfCrew::PUMP, OfCrew::OFFICER];
        Crew {
            sizes: CrewSizes {
                tanker: entry.get(&OfCrew::TANKER),
                fill_site: entry.get(&OfCrew::FILL_SITE),
                dump_site: entry.get(&OfCrew::DUMP_SITE),
                pump: entry.get(&OfCrew::PUMP),
                officer: entry.get(&OfCrew::OFFICER),
            },
            on_hand: entry.get(&OfCrew::ON_HAND),
            common_practice: sizes.iter().any(|row| !entry.states(row)),
        }
    }

    /// Hose in place of tankers; `None` with a mistake where there is no such hose.
    pub(crate) fn hose(&mut self, entry: &Entry<'_, OfHose>) -> Option<Hose> {
        let size = match HoseSize::from_diameter(nominal(entry.get(&OfHose::DIAMETER))) {
            Ok(size) => size,
            Err(error) => {
                self.bad_fact(entry, &error);
                return None;
            }
        };
        let usual_pressure =
            if size.diameter_in() >= LARGE_HOSE_IN { LARGE_HOSE_PSI } else { SMALL_HOSE_PSI };
        let assumed = [OfHose::DIAMETER, OfHose::RATED, OfHose::LAID_A_MINUTE, OfHose::HOOKUP];
        Some(Hose {
            size,
            lines: entry.get(&OfHose::LINES),
            on_hand_ft: entry.get(&OfHose::ON_HAND),
            engines: entry.get(&OfHose::ENGINES),
            distance_ft: entry.get(&OfHose::DISTANCE),
            elevation_ft: entry.get(&OfHose::ELEVATION),
            rated_gpm: entry.get(&OfHose::RATED),
            discharge_psi: entry.get(&OfHose::PUMP_PRESSURE).unwrap_or(usual_pressure),
            intake_psi: entry.get(&OfHose::INTAKE_PRESSURE),
            laid_ft_a_min: entry.get(&OfHose::LAID_A_MINUTE),
            hookup_min: entry.get(&OfHose::HOOKUP),
            start_min: entry.get(&OfHose::START),
            common_practice: assumed.iter().any(|row| !entry.states(row)),
        })
    }
}
