//! The places that all water passes through, in words.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::worksheet::{Cap, CappedBy, Station, Worksheet};

use crate::say;
use crate::say::{Piece, Sentence, name};

/// What kind of place it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StationKind {
    /// A fill site; its name is given.
    FillSite,
    /// All fill sites together.
    FillSites,
    /// The dump site.
    DumpSite,
    /// The attack engine's intakes.
    Intakes,
    /// The draft with its lay.
    DraftAndLay,
}

/// What caps a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CappedByKey {
    /// The site's flow, less waste.
    Flow,
    /// The site's quantity over the time watched.
    Quantity,
    /// Positions x load / (connect + fill + disconnect).
    FillPositions,
    /// Positions x load / (position + dump + clear).
    DumpPositions,
    /// Intakes x load / (connect + pump off + disconnect).
    Intakes,
    /// The least of the limits stated for pump and lay.
    StatedLimits,
}

/// What a place passes on at most.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CapFigures {
    /// The kind of place.
    pub station: StationKind,
    /// Its name, where it has one.
    pub name: Option<String>,
    /// What it passes on at most.
    pub cap_gpm: f64,
    /// What caps it; null for all fill sites together, and of a grading.
    pub capped_by: Option<CappedByKey>,
}

impl CapFigures {
    /// The figures of a cap.
    pub fn new(cap: &Cap) -> CapFigures {
        let capped_by = match cap.by {
            CappedBy::Flow => CappedByKey::Flow,
            CappedBy::Quantity => CappedByKey::Quantity,
            CappedBy::FillPositions => CappedByKey::FillPositions,
            CappedBy::DumpPositions => CappedByKey::DumpPositions,
            CappedBy::Intakes => CappedByKey::Intakes,
            CappedBy::StatedLimits => CappedByKey::StatedLimits,
        };
        CapFigures { capped_by: Some(capped_by), ..CapFigures::of(&cap.at, cap.gpm) }
    }

    /// The figures of a station that passes so much, with what caps it where the worksheet says.
    pub fn among(sheet: &Worksheet, station: &Station, cap_gpm: f64) -> CapFigures {
        let caps = sheet.fill_caps.iter().chain(&sheet.other_caps);
        caps.into_iter()
            .find(|cap| cap.at == *station)
            .map_or_else(|| CapFigures::of(station, cap_gpm), CapFigures::new)
    }

    /// The figures of a station that passes so much.
    pub fn of(station: &Station, cap_gpm: f64) -> CapFigures {
        let (station, name) = match station {
            Station::FillSite(name) => (StationKind::FillSite, Some(name.clone())),
            Station::FillSites => (StationKind::FillSites, None),
            Station::DumpSite => (StationKind::DumpSite, None),
            Station::Intakes => (StationKind::Intakes, None),
            Station::DraftAndLay => (StationKind::DraftAndLay, None),
        };
        CapFigures { station, name, cap_gpm, capped_by: None }
    }
}

/// The place: "Quarry pond", "the dump site".
pub fn station_words(station: &Station) -> Sentence {
    match station {
        Station::FillSite(site) => say![name(site)],
        Station::FillSites => say!["the fill sites together"],
        Station::DumpSite => say!["the dump site"],
        Station::Intakes => say!["the attack engine's intakes"],
        Station::DraftAndLay => say!["the draft and its lay"],
    }
}

/// How a cap is worked out.
pub fn capped_by_words(by: CappedBy) -> Sentence {
    match by {
        CappedBy::Flow => say!["its flow, less waste"],
        CappedBy::Quantity => say!["its quantity over the time watched"],
        CappedBy::FillPositions => say!["positions x load / (connect + fill + disconnect)"],
        CappedBy::DumpPositions => say!["positions x load / (position + dump + clear)"],
        CappedBy::Intakes => say!["intakes x load / (connect + pump off + disconnect)"],
        CappedBy::StatedLimits => say!["the least of the limits stated for pump and lay"],
    }
}

/// How many tankers like these a place keeps up with: "keeps up with two tankers like these; one more would
/// bring 81% of its water, further ones nothing".
///
/// - Given: the place's cap over the rate of one tanker.
pub fn keeps_up_with(knee: f64) -> Sentence {
    /// A part of a tanker's water that is not worth a word. Judgement.
    const LEAST: f64 = 0.05;
    let full = knee.floor();
    let more = knee - full;
    if full < 1.0 {
        return say!["cannot even keep up with one ", Piece::Tanker];
    }
    let mut told = say!["keeps up with ", Piece::TankerCount(full as usize), " like these; "];
    if more < LEAST {
        told.push("more would only wait");
    } else {
        told.push("one more would bring ");
        told.push(Piece::Number(100.0 * more, 0));
        told.push("% of its water, further ones nothing");
    }
    told
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::Reader;

    #[test]
    fn a_place_keeps_up_with_so_many() {
        let reader = Reader { units: Units::Us, tender: true };
        for (knee, said) in [
            (0.6, "cannot even keep up with one tender"),
            (1.02, "keeps up with one tender like these; more would only wait"),
            (
                2.81,
                "keeps up with two tenders like these; one more would bring 81% of its water, further ones \
                 nothing",
            ),
        ] {
            assert_eq!(reader.put(&keeps_up_with(knee)), said);
        }
    }
}
