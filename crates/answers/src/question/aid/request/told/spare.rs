//! What a request stands, in words.

use super::super::figures::RequestFigures;
use crate::say;
use crate::say::{Chances, Piece, Sentence, either};
use crate::shared::lost::{lost_alone, lost_words};
use crate::shared::target::Side;

/// What the request stands, and what that takes beyond the request that has nothing to spare.
pub(super) fn spare(figures: &RequestFigures) -> Option<Sentence> {
    let spare = figures.spare.as_ref()?;
    let worst = spare.losses.first()?;
    let then = Chances::of(worst.interruption_probability, worst.replications);
    let hopeless = &spare.not_made_up_for;
    let stands = match (spare.stands, hopeless.is_empty()) {
        (true, true) => say![
            "it stands the loss of any one unit or source; at worst, of ",
            lost_words(&worst.lost),
            ", short in ",
            Piece::Fires(then),
            "."
        ],
        (true, false) => say![
            "it stands the loss of any one unit or source but ",
            either(hopeless.iter().map(lost_alone)),
            ", for which no request makes up; at worst, of ",
            lost_alone(&worst.lost),
            ", short in ",
            Piece::Fires(then),
            "."
        ],
        (false, none) => {
            let but = (!none).then(|| {
                say![
                    "no request makes up for the loss of ",
                    either(hopeless.iter().map(lost_alone)),
                    ";"
                ]
            });
            let stands = match worst.verdict {
                Side::NotClear => {
                    "with all that could be asked for it is too close to tell whether it stands the loss of "
                }
                _ => "with all that could be asked for it does not stand the loss of ",
            };
            but.unwrap_or_default().then(say![
                stands,
                lost_words(&worst.lost),
                ": then short in ",
                Piece::Fires(then),
                "."
            ])
        }
    };
    let more = figures.request.len().saturating_sub(spare.bare.len());
    let bare = Chances::of(spare.bare_interruption_probability, spare.bare_replications);
    let cost = match (more, spare.bare.len()) {
        // Told in the first sentence.
        (0, _) | (_, 0) => None,
        (more, _) => Some(say![
            "With ",
            Piece::Count(more),
            " fewer there is nothing to spare (",
            Piece::Fires(bare),
            ")",
            crate::say::on_command(": --spare 0"),
            "."
        ]),
    };
    Some(stands.then(cost))
}
