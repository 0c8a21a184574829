//! What a request stands, and what makes up for the losses that no request does.

use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use shuttle_report::losses::Lost;
use shuttle_report::request::{Cure, LossHeld, NotMadeUpFor, Spare};

use crate::say::Chances;
use crate::shared::changes::ChangeFigures;
use crate::shared::target::Side;

/// What it takes to stand the loss of any one unit or source.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SpareFigures {
    /// Whether every loss that anybody could make up for is withstood.
    #[serde(rename = "stands_every_loss")]
    pub stands: bool,
    /// The names of the request that meets the target with nothing to spare.
    pub bare: Vec<String>,
    /// Share of fires in which the lines run short with that.
    pub bare_interruption_probability: f64,
    /// Simulated fires of that.
    pub bare_replications: u64,
    /// The losses with the request, the worst first: of one unit, one source, or a department that comes whole.
    #[serde(rename = "losses_with_request")]
    pub losses: Vec<LossFigures>,
    /// Departments of which several come and each may stay home by itself, with all of them at home, the worst first:
    /// more than one loss, which the request is not made to stand.
    #[serde(rename = "departments_at_home")]
    pub departments: Vec<LossFigures>,
    /// What no request makes up for: its loss brings the chance above the target even with everyone there is.
    pub not_made_up_for: Vec<NotMadeUpForFigures>,
}

/// A loss with the request.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct LossFigures {
    /// What is lost.
    pub lost: Lost,
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// On which side of the target.
    #[serde(rename = "side_of_target")]
    pub verdict: Side,
}

/// A loss that no request makes up for.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct NotMadeUpForFigures {
    /// With the request.
    #[serde(flatten)]
    pub loss: LossFigures,
    /// What was tried against it, each in fires of the request without what is lost: what makes up for it, then the
    /// others, the better first.
    #[serde(rename = "cures_tried")]
    pub tried: Vec<CureFigures>,
    /// The greatest flow of those tried that then holds; null where none does.
    #[serde(rename = "then_holds")]
    pub holds: Option<ThenHoldsFigures>,
}

/// A cure that was tried.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CureFigures {
    /// What was tried.
    #[serde(rename = "remedy", serialize_with = "as_remedy")]
    #[schemars(with = "RemedyFigures")]
    pub cure: Cure,
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
    /// On which side of the target: below, it makes up for the loss.
    #[serde(rename = "side_of_target")]
    pub verdict: Side,
    /// Whether it is shown to help, be it enough or not.
    pub helps: bool,
}

/// What was tried against a loss, as a result has it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
enum RemedyFigures {
    /// A second source like the one that is lost, as far away.
    SecondSource {
        /// The name of the one that is lost.
        like: String,
    },
    /// A drop tank like the one that stays away with its tanker, brought by another one.
    DropTankOn {
        /// The name of the tanker that brings it.
        tanker: String,
    },
    /// One more tanker like the one that is lost, with no drop tank of its own.
    OneMoreTanker {
        /// The name of the one that is lost.
        like: String,
    },
    /// A second supply engine like the one that is lost.
    SecondSupplyEngine {
        /// The name of the one that is lost.
        like: String,
    },
    /// A second pump like the one that is lost, at its source.
    SecondPump {
        /// The name of the source.
        fill_site: String,
    },
    /// A change that commonly helps.
    Change {
        /// Which.
        change: ChangeFigures,
    },
}

fn as_remedy<S: Serializer>(cure: &Cure, to: S) -> Result<S::Ok, S::Error> {
    let remedy = match cure.clone() {
        Cure::SecondSource { like } => RemedyFigures::SecondSource { like },
        Cure::DropTankOn { tanker } => RemedyFigures::DropTankOn { tanker },
        Cure::OneMoreTanker { like } => RemedyFigures::OneMoreTanker { like },
        Cure::SecondSupplyEngine { like } => RemedyFigures::SecondSupplyEngine { like },
        Cure::SecondPump { fill_site } => RemedyFigures::SecondPump { fill_site },
        Cure::Change { change } => RemedyFigures::Change { change: change.into() },
    };
    remedy.serialize(to)
}

/// A flow that holds once something is lost.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ThenHoldsFigures {
    /// No more than this is asked for.
    pub flow_gpm: f64,
    /// Simulated fires.
    pub replications: u64,
    /// Share of fires in which the lines then run short.
    pub interruption_probability: f64,
}

impl SpareFigures {
    /// Whether the loss of any one unit or source is withstood.
    pub fn stands_all(&self) -> bool {
        self.stands && self.not_made_up_for.is_empty()
    }
}

impl LossFigures {
    fn of(held: &LossHeld) -> LossFigures {
        LossFigures {
            lost: held.lost.clone(),
            replications: held.replications,
            interruption_probability: held.interruption_probability,
            verdict: held.verdict.into(),
        }
    }

    /// How often the lines then run short.
    pub fn chances(&self) -> Chances {
        Chances::of(self.interruption_probability, self.replications)
    }
}

impl NotMadeUpForFigures {
    fn of(found: &NotMadeUpFor) -> NotMadeUpForFigures {
        NotMadeUpForFigures {
            loss: LossFigures {
                lost: found.lost.clone(),
                replications: found.replications,
                interruption_probability: found.interruption_probability,
                verdict: found.verdict.into(),
            },
            tried: (found.tried.iter())
                .map(|one| CureFigures {
                    cure: one.cure.clone(),
                    replications: one.replications,
                    interruption_probability: one.interruption_probability,
                    verdict: one.verdict.into(),
                    helps: one.helps,
                })
                .collect(),
            holds: found.holds.map(|holds| ThenHoldsFigures {
                flow_gpm: holds.flow,
                replications: holds.replications,
                interruption_probability: holds.interruption_probability,
            }),
        }
    }

    /// What makes up for it, and else what helps most; nothing where nothing that was tried helps.
    pub fn best(&self) -> Option<&CureFigures> {
        let enough = self.tried.iter().find(|one| one.verdict == Side::Below);
        enough.or_else(|| self.tried.iter().find(|one| one.helps))
    }
}

impl CureFigures {
    /// How often the lines then run short.
    pub fn chances(&self) -> Chances {
        Chances::of(self.interruption_probability, self.replications)
    }
}

/// From what was found out.
pub(super) fn spare(of: &Spare) -> SpareFigures {
    SpareFigures {
        stands: of.stands,
        bare: of.bare.clone(),
        bare_interruption_probability: of.bare_probability,
        bare_replications: of.bare_replications,
        losses: of.losses.iter().map(LossFigures::of).collect(),
        departments: of.departments.iter().map(LossFigures::of).collect(),
        not_made_up_for: of.not_made_up_for.iter().map(NotMadeUpForFigures::of).collect(),
    }
}
