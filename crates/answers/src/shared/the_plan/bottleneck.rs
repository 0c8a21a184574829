//! What limits the flow however many tankers come, by hand.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_report::worksheet::worksheet;
use shuttle_sim::Plan;

use crate::say;
use crate::say::{Piece, Sentence, name};

/// A limit this little above the flow wanted is worth mentioning, as a share of it. Judgement.
const LITTLE_SLACK: f64 = 0.10;

/// A limit below the flow wanted, or hardly above it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Bottleneck {
    /// Where it is.
    #[serde(flatten)]
    pub place: Place,
    /// The flow through it.
    pub flow_gpm: f64,
    /// The greatest flow wanted.
    pub wanted_gpm: f64,
}

/// Where a limit is.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Place {
    /// The only fill site.
    FillSite {
        /// Its name.
        name: String,
    },
    /// All fill sites taken together.
    FillSites,
    /// The dump site.
    DumpSite,
    /// The attack engine's intakes, where nothing but nursing feeds it.
    Intakes,
    /// The pump that drafts, and the lay.
    DraftAndLay,
}

/// The least of the limits; `None` where there is ample flow through it.
pub fn bottleneck(plan: &Plan) -> Option<Bottleneck> {
    let facts = plan.facts();
    let sheet = worksheet(plan);
    let fill_sites = match facts.fill_sites.as_slice() {
        [only] => Place::FillSite { name: only.name.clone() },
        _ => Place::FillSites,
    };
    let unloading = if facts.drop_tanks.is_empty() { Place::Intakes } else { Place::DumpSite };
    // The worksheet has first where tankers unload, then the draft where there is one.
    let others = [unloading, Place::DraftAndLay].into_iter().zip(&sheet.other_caps);
    let fill_gpm = sheet.fill_caps.iter().map(|cap| cap.gpm).sum();
    let (place, flow_gpm) = (others.map(|(place, cap)| (place, cap.gpm)))
        .chain([(fill_sites, fill_gpm)])
        .min_by(|a, b| a.1.total_cmp(&b.1))?;
    let wanted_gpm = sheet.peak_flow_gpm;
    let found = Bottleneck { place, flow_gpm, wanted_gpm };
    (found.slack() < LITTLE_SLACK).then_some(found)
}

impl Bottleneck {
    /// How much more passes than is wanted, as a share of it; less than 0 where it is less.
    fn slack(&self) -> f64 {
        self.flow_gpm / self.wanted_gpm - 1.0
    }

    /// "240 gpm through Quarry pond, by hand: less than the 285 gpm wanted."
    pub fn words(&self) -> Sentence {
        let place = match &self.place {
            Place::FillSite { name: site } => say![name(site)],
            Place::FillSites => say!["the fill sites together"],
            Place::DumpSite => say!["the dump site"],
            Place::Intakes => say!["the attack engine's intakes"],
            Place::DraftAndLay => say!["the draft and the lay"],
        };
        let wanted = Piece::Flow(self.wanted_gpm);
        let against = if self.slack() < 0.0 {
            say![
                "less than the ",
                wanted,
                " wanted, so more ",
                Piece::Tankers,
                " add only the load they come with."
            ]
        } else {
            let percent = Piece::Number(100.0 * self.slack(), 0);
            say![
                "only ",
                percent,
                "% more than the ",
                wanted,
                " wanted, so what is lost once is hardly made good."
            ]
        };
        say![Piece::Flow(self.flow_gpm), " through ", place, ", by hand; ", against]
    }
}
