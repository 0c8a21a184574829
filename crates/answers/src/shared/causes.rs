//! Why the lines run short, and what cures it, in words.

use shuttle_sim::{Cause, Plan};

use crate::say;
use crate::say::{Piece, Sentence, list};

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
/// - Given: causes with their shares of first shortfalls.
pub fn shares_in_words(shares: &[(Cause, f64)]) -> Sentence {
    /// Less than this share of the shortfalls is not worth a word. Judgement.
    const LEAST: f64 = 0.05;
    /// More than three causes are no answer.
    const MOST: usize = 3;
    let mut sorted = shares.to_vec();
    sorted.sort_by(|a, b| b.1.total_cmp(&a.1));
    let told = sorted.iter().take_while(|(_, share)| *share >= LEAST).take(MOST).enumerate();
    let told: Vec<Sentence> = told
        .map(|(place, (cause, share))| {
            let hundredths = Piece::Number(100.0 * share, 0);
            match place {
                _ if *share > 0.995 => cause_words(*cause),
                0 => say![cause_words(*cause), " (", hundredths, " of 100 shortfalls)"],
                _ => say![cause_words(*cause), " (", hundredths, ")"],
            }
        })
        .collect();
    if told.is_empty() { say!["no one cause stands out"] } else { list(told) }
}
