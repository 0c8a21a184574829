//! The oddities of a plan and the doubts about what a file states, in words: all wording of what a person should know
//! is here, in the units of the file.

use shuttle_sim::Odd;

use super::remark::Doubt;
use super::say::{Say, minute, number};
use crate::errors::kinds::NoteKind;
use crate::errors::message::{Message, Part, on_file, on_page, says, typed};
use crate::quantities::figures::plain;
use crate::quantities::quantity::{Quantity, Units};

/// A value that nobody means, as a question.
pub(super) fn doubt(doubt: &Doubt, units: Units) -> Message {
    let Doubt { quantity, value, written, reason, bounds: (low, high), instead } = doubt;
    let say = Say(units);
    let shown = match written {
        Some(written) => quantity.told(*value, written.clone()),
        None => say.quantity(*quantity, *value),
    };
    let (which, limit) = if value < low { ("at least ", low) } else { ("at most ", high) };
    let limit = say.quantity(*quantity, *limit);
    let told = says![shown, " ", *reason, " (common practice: ", which, limit, "): "];
    match instead {
        Some((number, unit)) => {
            let instead = typed(format!("{} {unit}", plain(*number)));
            says![told, "is ", instead, " meant?"]
        }
        None => says![told, "check the number and its unit"],
    }
}

/// An oddity in words, with its kind.
pub(super) fn oddity(odd: &Odd, units: Units) -> (NoteKind, Message) {
    let say = Say(units);
    match odd {
        Odd::NothingVaries => (
            NoteKind::NothingVaries,
            "no duration has any spread: every run is the same, so a chance comes out as 0% or 100%"
                .into(),
        ),
        Odd::AllReserve => (
            NoteKind::AllReserve,
            "the reserve is the attack engine's whole tank: it is touched whenever the lines draw on \
             the tank at all"
                .into(),
        ),
        Odd::LongTolerance(minutes) => (
            NoteKind::LongTolerance,
            says![
                "lines short of water for less than ",
                say.time(*minutes),
                " do not count as interrupted"
            ],
        ),
        Odd::StepAfterTheWatch { from, end } => (
            NoteKind::NoEffect,
            says![
                "this step begins at ",
                say.time(*from),
                " and the watch ends at ",
                say.time(*end),
                ": it never counts"
            ],
        ),
        Odd::TooFewIntakes { nursed, intakes, wanted } => (
            NoteKind::TooFewIntakes,
            says![
                "without a drop tank at most ",
                say.flow(*nursed),
                " can come in at once (",
                number(f64::from(*intakes)),
                " x intake, by the {tankers}' ",
                on_file("pump_off"),
                on_page("pump off"),
                "), less than the attack flow of ",
                say.flow(*wanted)
            ],
        ),
        Odd::NothingToDraftFrom => (
            NoteKind::NoEffect,
            "without a drop tank the supply engine has nothing to draft from".into(),
        ),
        Odd::WeakDraft { gives, wanted } => (
            NoteKind::WeakDraft,
            says![
                "the draft can give at most ",
                say.flow(*gives),
                ", less than the attack flow of ",
                say.flow(*wanted)
            ],
        ),
        Odd::NoPumpToFail => {
            (NoteKind::NoEffect, "without a drop tank there is no drafting pump to fail".into())
        }
        Odd::NeverComes { name } => {
            let who = name.as_ref().map_or(Part::Words("the drop tank"), typed);
            (NoteKind::NeverComes, says![who, " never comes: its turnout is 0"])
        }
        Odd::NoPrimeToLose => (
            NoteKind::NoEffect,
            "without a drop tank there is no draft, and no prime to lose".into(),
        ),
        Odd::SmallDropTank { holds, load, tanker, is_first } => (
            NoteKind::SmallDropTank,
            says![
                "the drop tank holds ",
                say.volume(*holds),
                ", less than the ",
                say.whole_volume(*load),
                " that ",
                typed(tanker),
                " delivers: ",
                if *is_first {
                    "such a load is dumped when nobody else is at it, and what does not fit waits aboard \
                     until water is drawn"
                } else {
                    "such a load is dumped into it only when it is as good as empty, and what does not fit \
                     waits aboard"
                }
            ],
        ),
        Odd::MostlyUnusable { unusable, capacity } => (
            NoteKind::MostlyUnusable,
            says![
                "more than half of the drop tank cannot be drawn (",
                say.volume(*unusable),
                " of ",
                say.volume(*capacity),
                ")"
            ],
        ),
        Odd::SmallTanker { capacity, standard } => (
            NoteKind::SmallTanker,
            says![
                say.volume(*capacity),
                " is small: the apparatus standard asks at least ",
                say.whole_volume(*standard),
                " of a {tanker}"
            ],
        ),
        Odd::LittleDelivered { capacity, load } => (
            NoteKind::LittleDelivered,
            says![
                "of ",
                say.volume(*capacity),
                " it delivers only ",
                say.whole_volume(*load),
                " a load: waste and residual take the rest"
            ],
        ),
        Odd::OftenBroken(share) => (
            NoteKind::OftenBroken,
            says![
                "it breaks down after ",
                Quantity::Share.told(*share, format!("{}%", plain(share * 100.0))),
                " of its trips"
            ],
        ),
        Odd::ComesTooLate { arrives, end } => (
            NoteKind::ComesTooLate,
            says![
                "it arrives at about minute ",
                minute(*arrives),
                " after the alarm, when the watch is over (minute ",
                minute(*end),
                ")"
            ],
        ),
        Odd::HandlesInNoTime { tanker } => (
            NoteKind::HandlesInNoTime,
            says![
                typed(tanker),
                " handles hoses and positions in no time: a real crew takes some minutes a trip"
            ],
        ),
        Odd::SitesTooWeak { pass, wanted } => (
            NoteKind::SitesTooWeak,
            says![
                "the fill sites together can put at most ",
                say.whole_flow(*pass),
                " into the shuttle after waste, less than the attack flow of ",
                say.flow(*wanted),
                ": {tankers} without end would not keep up"
            ],
        ),
        Odd::NobodyComes => (
            NoteKind::NobodyFills,
            "every {tanker} is assigned to another fill site: nobody comes here".into(),
        ),
        Odd::LittleWater { holds } => (
            NoteKind::NobodyFills,
            says![
                "it holds ",
                say.volume(*holds),
                ", less than half of any {tanker} assigned to it or free to choose: nobody fills here"
            ],
        ),
        Odd::NeverFilledAgain { site, capacity } => (
            NoteKind::NeverFilledAgain,
            says![
                site.as_ref().map_or(Part::Words("every fill site"), typed),
                ", when full, holds less than half of its ",
                say.volume(*capacity),
                ": after its first load it stands by for good"
            ],
        ),
        Odd::Speed { miles, minutes, mph, fast } => (
            NoteKind::Speed,
            says![
                say.quantity(Quantity::Miles, *miles),
                " in ",
                Quantity::Time.told(*minutes, format!("{} min", plain((minutes * 10.0).round() / 10.0))),
                " is ",
                say.whole(Quantity::MilesPerHour, *mph),
                if *fast { " on average, fast for a {tanker}" } else { " on average, slow for a {tanker}" }
            ],
        ),
    }
}
