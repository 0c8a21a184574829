//! Reading what else a department has: people, and hose in place of tankers.

use fireground::crew::CrewSizes;
use fireground::hose::HoseSize;

use super::reader::Reader;
use super::worked_facts::nominal;
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
    pub(crate) fn crew(&self, entry: &Entry<'_>) -> Crew {
        let sizes = ["tanker", "fill_site", "dump_site", "pump", "officer"];
        Crew {
            sizes: CrewSizes {
                tanker: entry.count("tanker"),
                fill_site: entry.count("fill_site"),
                dump_site: entry.count("dump_site"),
                pump: entry.count("pump"),
                officer: entry.count("officer"),
            },
            on_hand: entry.some_number("on_hand").map(|count| count as u32),
            common_practice: sizes.iter().any(|key| entry.stated(key).is_none()),
        }
    }

    /// Hose in place of tankers; `None` with a mistake where there is no such hose.
    pub(crate) fn hose(&mut self, entry: &Entry<'_>) -> Option<Hose> {
        let size = match HoseSize::from_diameter(nominal(entry.number("diameter"))) {
            Ok(size) => size,
            Err(error) => {
                self.bad_fact(entry, &error);
                return None;
            }
        };
        let usual_pressure =
            if size.diameter_in() >= LARGE_HOSE_IN { LARGE_HOSE_PSI } else { SMALL_HOSE_PSI };
        let assumed = ["diameter", "rated", "laid_a_minute", "hookup"];
        Some(Hose {
            size,
            lines: entry.count("lines"),
            on_hand_ft: entry.some_number("on_hand"),
            engines: entry.some_number("engines").map(|count| count as u32),
            distance_ft: entry.some_number("distance"),
            elevation_ft: entry.number("elevation"),
            rated_gpm: entry.number("rated"),
            discharge_psi: entry.some_number("pump_pressure").unwrap_or(usual_pressure),
            intake_psi: entry.number("intake_pressure"),
            laid_ft_a_min: entry.number("laid_a_minute"),
            hookup_min: entry.number("hookup"),
            start_min: entry.some_number("start"),
            common_practice: assumed.iter().any(|key| entry.stated(key).is_none()),
        })
    }
}
