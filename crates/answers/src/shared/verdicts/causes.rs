//! Why the lines run short, and what cures it, in words.

use shuttle_report::summary::Summary;
use shuttle_sim::{Cause, CauseKind, DraftLimitReason, Plan, Subject};

use crate::say;
use crate::say::{Piece, Sentence, list};
use crate::shared::subject_words;

/// The cause with this key in results.
pub fn cause_of_key(key: &str) -> Option<Cause> {
    Cause::ALL.into_iter().find(|cause| cause.key() == key)
}

/// Where the water was when the lines ran short.
pub fn cause_words(cause: Cause) -> Sentence {
    match cause {
        Cause::NotCome => say!["those who were to come were not there"],
        Cause::DraftNotUp => say!["water was on scene but the draft was not up"],
        Cause::PumpFailed => say!["the drafting pump had failed"],
        Cause::DraftOrLayTooSmall => say!["the draft or the lay could not carry the flow"],
        Cause::PrimeLost => say!["the pump had lost its prime"],
        Cause::SourceNotReady => {
            say![Piece::Tankers, " waited for a source that was not ready or had run down"]
        }
        Cause::FillSiteQueue => say![Piece::Tankers, " queued at the fill site"],
        Cause::DumpSiteQueue => say!["loaded ", Piece::Tankers, " queued at the dump site"],
        Cause::OutOfService => say!["a ", Piece::Tanker, " was out of service"],
        Cause::HaulTooLong => {
            say!["the haul was too long for the ", Piece::Tankers, " there are"]
        }
    }
}

/// What held within a cause, as a sentence of its own.
fn kind_words(kind: CauseKind, about: Option<Subject>, plan: &Plan) -> Sentence {
    let held = what_held(kind, about, plan);
    match kind {
        CauseKind::DraftToCome | CauseKind::SettingUp | CauseKind::BelowRestartLevel => {
            say!["water was on scene but ", held]
        }
        _ => held,
    }
}

/// What held within a cause, behind words that name the cause.
fn what_held(kind: CauseKind, about: Option<Subject>, plan: &Plan) -> Sentence {
    let source = || match about {
        Some(about) => subject_words(about, plan),
        None => say!["a source"],
    };
    match kind {
        CauseKind::IntakeFree => {
            say![
                "a loaded ",
                Piece::Tanker,
                " could not pass its water on though an intake was free"
            ]
        }
        CauseKind::DraftToCome => match about {
            None => say!["the drafting pump, or the drop tank it draws from, had not come"],
            Some(Subject::SupplyEngine | Subject::AttackEngine | Subject::DropTank(_)) => {
                say![source(), " had not come"]
            }
            Some(_) => say!["the drop tank had not come with ", source()],
        },
        CauseKind::SettingUp => say!["the draft was still being set up"],
        CauseKind::BelowRestartLevel => say!["the drop tank was not yet deep enough to draw from"],
        CauseKind::LayFilling => say!["the dry lay was still filling"],
        CauseKind::AtItsLimit => cause_words(Cause::DraftOrLayTooSmall),
        CauseKind::NoneLeft => say![Piece::Tankers, " stood by with no source left to go to"],
        CauseKind::SourceFailed => {
            say![Piece::Tankers, " waited for ", source(), ", which had failed"]
        }
        CauseKind::PumpToCome => {
            say![Piece::Tankers, " waited for ", source(), ", whose pump had not come"]
        }
        CauseKind::NotReadyYet => {
            say![Piece::Tankers, " waited for ", source(), ", which was not ready"]
        }
        CauseKind::RunDown => {
            say![Piece::Tankers, " waited for ", source(), ", which had run down"]
        }
        CauseKind::AtFullTank => say!["loaded ", Piece::Tankers, " stood at a full drop tank"],
        CauseKind::NoRoom => {
            say!["loaded ", Piece::Tankers, " waited until a drop tank had room for the whole load"]
        }
        CauseKind::NoPlace => say!["loaded ", Piece::Tankers, " waited for a place to unload"],
        CauseKind::InRepair => say!["a ", Piece::Tanker, " was being repaired"],
        CauseKind::OutForGood => say!["a ", Piece::Tanker, " was out of service for good"],
    }
}

/// A cause within which the same thing nearly always held, or that is nearly always about the same unit or source,
/// says so; where that is mostly so, it says that.
fn cause_words_about(cause: Cause, share: f64, summary: &Summary, plan: &Plan) -> Sentence {
    /// From this part of a cause's shortfalls on it is that alone. Judgement.
    const ALWAYS: f64 = 0.95;
    const MOSTLY: f64 = 0.5;
    let part = |of: &f64| of / share;
    let kind = main_kind(cause, summary);
    let about = summary.causes_about.iter().find(|(of, _, _)| *of == cause);
    let always_about = about.filter(|it| part(&it.2) >= ALWAYS).map(|(_, about, _)| *about);
    match (kind, about) {
        (Some((kind, of_all)), _) if part(&of_all) >= ALWAYS => {
            kind_words(kind, always_about, plan)
        }
        (Some((kind, of_all)), _) if part(&of_all) >= MOSTLY => {
            let cause = cause_words(cause);
            say![cause, ", mostly because ", what_held(kind, always_about, plan)]
        }
        (None, Some((_, about, of_all))) if part(of_all) >= ALWAYS => {
            cause_words_of(cause, None, Some(*about), plan)
        }
        (None, Some((_, about, of_all))) if part(of_all) >= MOSTLY => {
            say![cause_words(cause), ", mostly ", subject_words(*about, plan)]
        }
        _ => cause_words(cause),
    }
}

/// What held most often within a cause, with its share of all first interruptions.
fn main_kind(cause: Cause, summary: &Summary) -> Option<(CauseKind, f64)> {
    let of_cause = summary.causes_of_which.iter().filter(|(kind, _)| kind.cause() == cause);
    of_cause.copied().max_by(|a, b| a.1.total_cmp(&b.1))
}

/// Why one shortfall began, by what held and whom or what that is about, where it is one.
pub fn cause_words_of(
    cause: Cause,
    kind: Option<CauseKind>,
    about: Option<Subject>,
    plan: &Plan,
) -> Sentence {
    match (cause, kind, about) {
        (_, Some(kind), about) => kind_words(kind, about, plan),
        (Cause::NotCome, None, Some(about)) => {
            say![subject_words(about, plan), " had not come"]
        }
        _ => cause_words(cause),
    }
}

/// What a cause calls for in this plan.
pub fn cure_words(cause: Cause, plan: &Plan) -> Sentence {
    let facts = plan.facts();
    let asks_late = facts.tankers.iter().any(|tanker| tanker.call.requested_at > 0.0);
    let other_sites = facts.fill_sites.len() > 1;
    match cause {
        Cause::NotCome if asks_late => say!["ask earlier, or for aid that is nearer"],
        Cause::NotCome => say!["aid that is nearer, or a lower flow until it is there"],
        Cause::PumpFailed => say!["a second pump that can draft"],
        Cause::DraftOrLayTooSmall => draft_cure_words(plan),
        Cause::DraftNotUp if facts.supply.nurse => say!["a quicker hook-up, or a second intake"],
        Cause::DraftNotUp => say!["nurse until the draft is up, or a quicker hook-up"],
        Cause::PrimeLost => say!["a pump operator who gates down before prime is lost"],
        Cause::SourceNotReady if other_sites => {
            say!["a source that is ready sooner and does not run down, or all to another"]
        }
        Cause::SourceNotReady => say!["a source that is ready sooner and does not run down"],
        Cause::FillSiteQueue => say!["more fill positions or flow, or a second fill site"],
        Cause::DumpSiteQueue if facts.drop_tanks.is_empty() => {
            say!["a second intake, or a drop tank"]
        }
        Cause::DumpSiteQueue => say!["another dump position or drop tank"],
        Cause::OutOfService => say!["a spare"],
        Cause::HaulTooLong => say!["a nearer fill site or bigger loads"],
    }
}

/// What limits the draft least of all says what to change.
fn draft_cure_words(plan: &Plan) -> Sentence {
    let limits = plan.facts().supply.draft_limits.iter();
    match limits.min_by(|a, b| a.flow.total_cmp(&b.flow)).map(|limit| limit.reason) {
        Some(DraftLimitReason::PumpAtLift) => say!["a bigger pump, or a shorter lift"],
        Some(DraftLimitReason::Lay) => say!["a larger or a second line, or more pump pressure"],
        Some(DraftLimitReason::Stated) | None => {
            say!["a bigger pump, a shorter lift, a larger or second line"]
        }
    }
}

/// The causes that are told, greatest share first.
pub fn causes_told(summary: &Summary) -> Vec<(Cause, f64)> {
    /// Less than this share of the shortfalls is not worth a word. Judgement.
    const LEAST: f64 = 0.05;
    /// More than three causes are no answer.
    const MOST: usize = 3;
    let mut sorted: Vec<(Cause, f64)> = (Cause::ALL.into_iter())
        .filter_map(|cause| Some((cause, *summary.causes.get(cause.key())?)))
        .collect();
    sorted.sort_by(|a, b| b.1.total_cmp(&a.1));
    sorted.into_iter().take_while(|(_, share)| *share >= LEAST).take(MOST).collect()
}

/// "tankers queued at the fill site (84 of 100), the haul was too long for the tankers there are (12)": the
/// shares that matter, greatest first.
pub fn shares_in_words(summary: &Summary, plan: &Plan) -> Sentence {
    let told = causes_told(summary).into_iter().enumerate();
    let told: Vec<Sentence> = told
        .map(|(place, (cause, share))| {
            let hundredths = Piece::Number(100.0 * share, 0);
            let told = cause_words_about(cause, share, summary, plan);
            match place {
                _ if share > 0.995 => told,
                0 => say![told, " (", hundredths, " of 100 shortfalls)"],
                _ => say![told, " (", hundredths, ")"],
            }
        })
        .collect();
    if told.is_empty() { say!["no one cause stands out"] } else { list(told) }
}
