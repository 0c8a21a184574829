//! Why the lines run short, and what cures it, in words.

use shuttle_report::summary::Summary;
use shuttle_sim::{Cause, Plan, Subject};

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
        Cause::NotCome => say!["those asked for were still on the road"],
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

/// A cause that is nearly always about the same unit or source says which; one that mostly is, says so.
fn cause_words_about(cause: Cause, share: f64, summary: &Summary, plan: &Plan) -> Sentence {
    /// From this part of a cause's shortfalls on it is about that one alone. Judgement.
    const ALWAYS: f64 = 0.95;
    const MOSTLY: f64 = 0.5;
    let first = summary.causes_about.iter().find(|(of, _, _)| *of == cause);
    let Some((_, about, of_all)) = first else { return cause_words(cause) };
    let part = of_all / share;
    match part {
        _ if part >= ALWAYS => cause_words_of(cause, Some(*about), plan),
        _ if part >= MOSTLY => {
            say![cause_words(cause), ", mostly ", subject_words(*about, plan)]
        }
        _ => cause_words(cause),
    }
}

/// Why one shortfall began, by whom or what that is about, where it is one.
pub fn cause_words_of(cause: Cause, about: Option<Subject>, plan: &Plan) -> Sentence {
    match (cause, about) {
        (Cause::NotCome, Some(about)) => say![subject_words(about, plan), " was still to come"],
        (Cause::SourceNotReady, Some(about)) => {
            let source = subject_words(about, plan);
            say![Piece::Tankers, " waited for ", source, ", not ready or run down"]
        }
        _ => cause_words(cause),
    }
}

/// What a cause calls for in this plan.
pub fn cure_words(cause: Cause, plan: &Plan) -> Sentence {
    let facts = plan.facts();
    let asks_late = facts.tankers.iter().any(|tanker| tanker.call.requested_at > 0.0);
    match cause {
        Cause::NotCome if asks_late => say!["ask earlier, or for aid that is nearer"],
        Cause::NotCome => say!["aid that is nearer, or a lower flow until it is there"],
        Cause::PumpFailed => say!["a second pump that can draft"],
        Cause::DraftOrLayTooSmall => say!["a bigger pump, a shorter lift, a larger or second line"],
        Cause::DraftNotUp if facts.supply.nurse => say!["a quicker hook-up, or a second intake"],
        Cause::DraftNotUp => say!["a quicker hook-up, or nurse until then"],
        Cause::PrimeLost => say!["a pump operator who gates down before prime is lost"],
        Cause::SourceNotReady => say!["a source that is ready sooner and does not run down"],
        Cause::FillSiteQueue => say!["more fill positions or flow, or a second fill site"],
        Cause::DumpSiteQueue if facts.drop_tanks.is_empty() => say!["a drop tank"],
        Cause::DumpSiteQueue => say!["another dump position or drop tank"],
        Cause::OutOfService => say!["a spare"],
        Cause::HaulTooLong => say!["a nearer fill site or bigger loads"],
    }
}

/// "tankers queued at the fill site (84 of 100), the haul was too long for the tankers there are (12)": the
/// shares that matter, greatest first.
///
pub fn shares_in_words(summary: &Summary, plan: &Plan) -> Sentence {
    /// Less than this share of the shortfalls is not worth a word. Judgement.
    const LEAST: f64 = 0.05;
    /// More than three causes are no answer.
    const MOST: usize = 3;
    let mut sorted: Vec<(Cause, f64)> = (Cause::ALL.into_iter())
        .filter_map(|cause| Some((cause, *summary.causes.get(cause.key())?)))
        .collect();
    sorted.sort_by(|a, b| b.1.total_cmp(&a.1));
    let told = sorted.iter().take_while(|(_, share)| *share >= LEAST).take(MOST).enumerate();
    let told: Vec<Sentence> = told
        .map(|(place, (cause, share))| {
            let hundredths = Piece::Number(100.0 * share, 0);
            let told = cause_words_about(*cause, *share, summary, plan);
            match place {
                _ if *share > 0.995 => told,
                0 => say![told, " (", hundredths, " of 100 shortfalls)"],
                _ => say![told, " (", hundredths, ")"],
            }
        })
        .collect();
    if told.is_empty() { say!["no one cause stands out"] } else { list(told) }
}
