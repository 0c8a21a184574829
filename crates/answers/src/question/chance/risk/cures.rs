//! What the causes call for beyond the advice, and what was tried without any difference.

use shuttle_report::cures::cures;
use shuttle_report::summary::Summary;
use shuttle_report::what_would_help::{Help, Shortens};
use shuttle_sim::{Cause, Plan};

use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Chances, Piece, Sentence, joined};
use crate::shared::changes::change_words;
use crate::shared::never_binds::never_bind;
use crate::shared::{cause_words, causes_told, cure_words};

/// Where the lines run short in a smaller share of fires, what does not surely help is not worth a word. Judgement.
const WORTH_A_CURE: f64 = 0.01;

/// The cure of each cause that is told, where the advice does not have it already; then what never binds.
///
/// - Given: everything that was tried, what makes it shorter where nothing makes it rarer, and how many of those that help
///   and of those that shorten are told before.
pub fn points(
    plan: &Plan,
    summary: &Summary,
    (tried, shortens): (&[Help], &[Shortens]),
    (advice, shortening): (usize, usize),
) -> Vec<Block> {
    let mut helps: Vec<&Help> = tried.iter().filter(|one| one.surely_helps()).collect();
    helps.sort_by(|a, b| b.lower_by.total_cmp(&a.lower_by));
    let advised = &helps[..helps.len().min(advice)];
    let told = &shortens[..shortens.len().min(shortening)];
    let is_told = |cause: &Cause| {
        advised.iter().any(|one| cures(&one.change).contains(cause))
            || told.iter().any(|one| cures(&one.change).contains(cause))
    };
    let matters = summary.interruption_probability >= WORTH_A_CURE;
    let cures: Vec<Sentence> = (causes_told(summary).into_iter())
        .filter(|_| matters)
        .filter(|(cause, _)| !is_told(cause))
        .map(|(cause, _)| say![cause_words(cause), ": ", cure(cause, plan, tried, shortens)])
        .collect();
    let mut points = Vec::new();
    if !cures.is_empty() {
        points.push(Block::Point(Label::Cure, say![joined(cures, "; ", "; "), "."]));
    }
    let without: Vec<(Sentence, u64)> = (tried.iter())
        .filter(|one| one.never_binds)
        .map(|one| (change_words(&one.change), one.replications))
        .collect();
    points.extend(never_bind(&without).map(|told| Block::Point(Label::NoGain, told)));
    points
}

/// What a cause calls for, and what the best of the cures that were tried does.
fn cure(cause: Cause, plan: &Plan, tried: &[Help], shortens: &[Shortens]) -> Sentence {
    if let Some(best) = shortens.iter().find(|one| cures(&one.change).contains(&cause)) {
        let minutes = |value| Piece::Number(value, 1);
        return say![
            change_words(&best.change),
            ": ",
            minutes(best.minutes_before),
            " to ",
            minutes(best.minutes),
            " minutes short a fire"
        ];
    }
    let best = (tried.iter())
        .filter(|one| !one.never_binds && cures(&one.change).contains(&cause))
        .max_by(|a, b| a.lower_by.total_cmp(&b.lower_by));
    let Some(best) = best else { return cure_words(cause, plan) };
    if !best.surely_helps() {
        return say![change_words(&best.change), ": no clear help"];
    }
    let of = |share| Piece::Percent(Chances::of(share, best.replications));
    say![
        change_words(&best.change),
        ": ",
        of(best.interruption_probability_before),
        " to ",
        of(best.interruption_probability),
    ]
}
