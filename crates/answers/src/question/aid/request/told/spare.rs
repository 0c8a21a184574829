//! What a request stands, in words, and what makes up for a loss that no request does.

use shuttle_report::losses::{Kind, Lost};
use shuttle_report::request::Cure;

use super::super::figures::RequestFigures;
use super::super::losses::{LossFigures, NotMadeUpForFigures, SpareFigures};
use crate::say;
use crate::say::{Chances, Piece, Sentence, either, list, name, on_command};
use crate::shared::changes::change_words;
use crate::shared::lost::{all_at_home, lost_alone, lost_words};
use crate::shared::target::Side;

/// So many of those who are enough with nothing to spare are named.
const MOST_NAMED: usize = 2;
/// So many losses that no request makes up for are told with what does.
const MOST_CURES: usize = 2;

/// What the request stands, and what that takes beyond the request that has nothing to spare.
pub(super) fn spare(figures: &RequestFigures) -> Option<Sentence> {
    let spare = figures.spare.as_ref()?;
    let hopeless = &spare.not_made_up_for;
    if spare.losses.is_empty() && hopeless.is_empty() {
        return None;
    }
    let stands = if spare.stands { stands(spare) } else { does_not_stand(spare) };
    let more = figures.request.len().saturating_sub(spare.bare.len());
    let bare = Chances::of(spare.bare_interruption_probability, spare.bare_replications);
    let cost = match (more, spare.bare.len()) {
        // Told in the first sentence.
        (0, _) | (_, 0) => None,
        (more, bare_units) => {
            let one = spare.bare.len() == 1 || more == 1;
            let with = match bare_units <= MOST_NAMED {
                true => say![list(spare.bare.iter().map(|one| say![name(one)])), " alone"],
                false => say![Piece::Count(more), " fewer"],
            };
            Some(say![
                "If none is lost, ",
                with,
                if one { " does (" } else { " do (" },
                Piece::OfHundred(bare, 0),
                " of 100)",
                on_command(": --spare 0"),
                "."
            ])
        }
    };
    Some(stands.then(cost))
}

/// "it stands the loss of any one unit or source but Quarry pond; at worst Tanker 7, short in 2 fires of 100."
fn stands(spare: &SpareFigures) -> Sentence {
    let hopeless = &spare.not_made_up_for;
    let but = (!hopeless.is_empty())
        .then(|| say![" but ", either(hopeless.iter().map(|one| lost_alone(&one.loss.lost)))]);
    let worst = spare.losses.first().map(|worst| {
        let of = if hopeless.is_empty() { "; at worst " } else { "; else at worst " };
        say![of, lost_alone(&worst.lost), ", short in ", Piece::Fires(worst.chances())]
    });
    say!["it stands the loss of ", any_one(spare), but, worst, "."]
}

/// "any one unit or source", or where whole departments come "any one unit, source or whole department".
fn any_one(spare: &SpareFigures) -> &'static str {
    if spare.losses.iter().any(|one| one.lost.kind() == Kind::WholeDepartment) {
        "any one unit, source or whole department"
    } else {
        "any one unit or source"
    }
}

/// What it does not stand, the worst of it, and how many more; then how many are too close to tell.
fn does_not_stand(spare: &SpareFigures) -> Sentence {
    let of = |wanted: &dyn Fn(Side) -> bool| -> Vec<&LossFigures> {
        spare.losses.iter().filter(|one| wanted(one.verdict)).collect()
    };
    let above = of(&|side| matches!(side, Side::Above | Side::CannotWork));
    let close = of(&|side| side == Side::NotClear);
    let short = |one: &LossFigures| say!["short in ", Piece::Fires(one.chances())];
    let mut told = say!["with all that could be asked for "];
    if let Some(worst) = above.first() {
        told = say![
            told,
            "it does not stand the loss of ",
            lost_words(&worst.lost),
            ": then ",
            short(worst)
        ];
        if above.len() > 1 {
            let more = Piece::Count(above.len() - 1);
            let losses = if above.len() == 2 { " other loss" } else { " other losses" };
            told = say![told, "; nor ", more, losses, on_command(": --more")];
        }
        told = say![told, "."];
    }
    match close.as_slice() {
        [] => told,
        [worst, others @ ..] if above.is_empty() => {
            let more = (!others.is_empty()).then(|| {
                let losses = if others.len() == 1 { " other loss" } else { " other losses" };
                say!["; or ", Piece::Count(others.len()), losses, on_command(": --more")]
            });
            say![
                told,
                "it is too close to tell whether it stands the loss of ",
                lost_words(&worst.lost),
                ": then ",
                short(worst),
                more,
                "."
            ]
        }
        all => {
            let losses = if all.len() == 1 { " other loss" } else { " other losses" };
            told.then(say![
                "Of ",
                Piece::Count(all.len()),
                losses,
                " it is too close to tell",
                on_command(": --more"),
                "."
            ])
        }
    }
}

/// What no request makes up for: how bad that is, and what of all that was tried makes up for it or comes nearest.
pub(super) fn cure(figures: &RequestFigures) -> Option<Sentence> {
    let hopeless = &figures.spare.as_ref()?.not_made_up_for;
    if hopeless.is_empty() {
        return None;
    }
    let told = hopeless.iter().take(MOST_CURES).enumerate().map(|(place, one)| {
        let bad = how_bad(one, place == 0);
        say![lost_alone(&one.loss.lost), " (", bad, "; ", what_does(one), ")"]
    });
    let more = hopeless.len().saturating_sub(MOST_CURES);
    let more = (more > 0).then(|| say!["; ", Piece::Count(more), " more", on_command(": --more")]);
    Some(say!["no request makes up for ", either(told), more, "."])
}

/// "lost, short in 51 fires of 100"; after the first of a sentence what is said once is understood.
fn how_bad(one: &NotMadeUpForFigures, first: bool) -> Sentence {
    match (one.loss.verdict, first) {
        (Side::CannotWork, _) => say!["lost, no water comes"],
        (_, true) => say!["lost, short in ", Piece::Fires(one.loss.chances())],
        (_, false) => say![Piece::Fires(one.loss.chances())],
    }
}

/// "with a drop tank on Tanker 7 in 2 fires of 100"; where nothing is enough, what helps most and the flow that then
/// holds.
fn what_does(one: &NotMadeUpForFigures) -> Sentence {
    let holds = |when: &'static str| match &one.holds {
        Some(holds) => say!["; ", when, Piece::Flow(holds.flow_gpm), " holds throughout"],
        None => say!["; ", when, "no flow is shown to hold"],
    };
    match one.best() {
        Some(best) => {
            let enough = best.verdict == Side::Below;
            let still = if best.verdict == Side::Above { " still in " } else { " in " };
            let with = say!["with ", cure_words(&best.cure, &one.loss.lost), still];
            let open = if best.verdict == Side::NotClear { ", too close to tell" } else { "" };
            say![with, Piece::Fires(best.chances()), open, (!enough).then(|| holds("else "))]
        }
        None => say!["nothing that was tried helps", holds("then ")],
    }
}

/// What makes up for a loss: "a second source like it".
pub(in crate::question::aid::request) fn cure_words(cure: &Cure, lost: &Lost) -> Sentence {
    match cure {
        Cure::SecondSource { .. } => say!["a second source like it and as near"],
        Cure::DropTankOn { tanker } => say!["a drop tank like its own on ", name(tanker)],
        Cure::OneMoreTanker { .. } => {
            let tank = match lost {
                Lost::OneTankerOf { drop_tanks: 1.., .. } => " without a drop tank",
                _ => "",
            };
            say!["one more ", Piece::Tanker, " like it", tank]
        }
        Cure::SecondSupplyEngine { .. } => say!["a second engine like it"],
        Cure::SecondPump { fill_site } => say!["a second pump like it at ", name(fill_site)],
        Cure::Change { change } => change_words(change),
    }
}

/// What departments do of which several may each stay home, if all do; nothing where that is withstood too.
pub(super) fn departments(figures: &RequestFigures) -> Option<Sentence> {
    let spare = figures.spare.as_ref()?;
    let matters = spare.departments.iter().filter(|one| one.verdict != Side::Below);
    all_at_home(matters.map(|one| (&one.lost, one.chances())))
}
