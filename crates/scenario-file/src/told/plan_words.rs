//! The mistakes of a plan in words: all wording of what the plan's check refuses is here, in the units of the file.

use shuttle_sim::{Measure, Wrong};

use super::say::{Say, number};
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, count, on_file, on_page, quoted, says};
use crate::quantities::quantity::{Quantity, Units};

/// A mistake as it is told: what is wrong, what is allowed, what would put it right.
pub(super) struct Told {
    pub(super) kind: MistakeKind,
    pub(super) problem: Message,
    pub(super) limit: Message,
    pub(super) cure: Message,
}

fn quantity_of(measure: Measure) -> Quantity {
    match measure {
        Measure::Volume => Quantity::Volume,
        Measure::Flow => Quantity::Flow,
        Measure::Time => Quantity::Time,
        Measure::Distance => Quantity::Miles,
        Measure::Share => Quantity::Share,
        Measure::Count | Measure::Plain => Quantity::Plain,
    }
}

/// A mistake in words.
pub(super) fn mistake(wrong: &Wrong, units: Units) -> Told {
    use MistakeKind::{BadText, CannotWork, Conflict, NoSuchName, OutOfRange, Taken};
    let say = Say(units);
    let told = |kind: MistakeKind, problem: Message, limit: Message, cure: Message| Told {
        kind,
        problem,
        limit,
        cure,
    };
    match wrong {
        Wrong::OutOfRange { measure, value, bounds } => {
            let quantity = quantity_of(*measure);
            let cure = quantity.cure_out_of_range(*value, *bounds);
            let problem = says![say.quantity(quantity, *value), " is out of range"];
            told(OutOfRange, problem, quantity.show_bounds(*bounds, units), cure)
        }
        Wrong::Entries { length, least, most } => {
            let limit = says!["from ", count(*least), " to ", number(*most as f64), " entries"];
            let (problem, cure) = match length {
                0 => ("the list is empty".into(), "list at least one"),
                _ => {
                    let problem = says!["the list has ", number(*length as f64), " entries"];
                    (problem, "keep those that matter most")
                }
            };
            told(MistakeKind::WrongLength, problem, limit, cure.into())
        }
        Wrong::EmptyName => told(
            BadText,
            "the name is empty".into(),
            "at least one letter".into(),
            "write something that tells it from the others".into(),
        ),
        Wrong::LongName(most) => told(
            BadText,
            "the name is too long".into(),
            says!["1 to ", count(*most), " characters"],
            "say it shorter; what is longer belongs into `notes`".into(),
        ),
        Wrong::ControlInName => told(
            BadText,
            "the name holds a control character".into(),
            "no line breaks or other control characters".into(),
            "type the name again".into(),
        ),
        Wrong::NotRising { low, likely, high } => told(
            Conflict,
            says![
                "low ",
                number(*low),
                ", likely ",
                number(*likely),
                ", high ",
                number(*high),
                " are out of order"
            ],
            "low, likely and high in rising order".into(),
            "put the three into order".into(),
        ),
        Wrong::LowAboveHigh { low, high } => told(
            Conflict,
            says!["low ", number(*low), " is above high ", number(*high)],
            "low at most as great as high".into(),
            "exchange the two".into(),
        ),
        Wrong::ReserveAboveTank { reserve, tank } => told(
            Conflict,
            says![
                "the reserve of ",
                say.volume(*reserve),
                " is more than the attack engine's tank"
            ],
            says!["up to the tank, ", say.volume(*tank)],
            "keep part of the tank: what the crew needs to back out".into(),
        ),
        Wrong::StepOutOfOrder { from, before } => told(
            Conflict,
            says!["this step begins at ", say.time(*from), ", not after the one before it"],
            says!["after ", say.time(*before)],
            "list the steps in the order of time".into(),
        ),
        Wrong::AttackEngineMayStay(chance) => told(
            CannotWork,
            says![
                "the attack engine comes with a chance of ",
                Quantity::Share.show(*chance, units)
            ],
            "1: without the attack engine there is no attack to supply".into(),
            "leave `turnout` out".into(),
        ),
        Wrong::NoAttackFlow => told(
            CannotWork,
            says!["the attack flow is ", say.flow(0.0), " throughout"],
            says!["above ", say.flow(0.0), " in at least one step"],
            // Common practice for a 1-3/4 in line; the metric figure is rounded.
            match units {
                Units::Us => {
                    "state what the attack lines need, such as 150 gpm for each 1-3/4 in line"
                }
                Units::Metric => {
                    "state what the attack lines need, such as 550 L/min for each 45 mm line"
                }
            }
            .into(),
        ),
        Wrong::DryLayWithoutLimit => told(
            CannotWork,
            "a dry lay fills as fast as the pump can draw, and nothing limits the draft".into(),
            "a draft limit with a dry lay".into(),
            "state `draft_limit`, or the pump's rating and lift".into(),
        ),
        Wrong::RestartLevel { level, least, capacity } => told(
            Conflict,
            says![
                "the pump is to draw again at ",
                say.volume(*level),
                ", which the first drop tank cannot offer"
            ],
            says![
                "from just above its unusable, ",
                say.volume(*least),
                ", up to its capacity, ",
                say.volume(*capacity)
            ],
            "leave `restart_level` out for the usual one".into(),
        ),
        Wrong::NoWayToTheEngine => told(
            CannotWork,
            "there is no drop tank and nursing is not allowed: no water can reach the engine"
                .into(),
            "at least one drop tank, or nursing".into(),
            says![
                "list a drop tank, or ",
                on_file("set `supply.nurse` to true"),
                on_page("let {tankers} nurse")
            ],
        ),
        Wrong::AllUnusable { unusable, capacity } => told(
            Conflict,
            says!["the unusable ", say.volume(*unusable), " is the whole drop tank"],
            says!["below its capacity, ", say.volume(*capacity)],
            says![
                "state the water left below the strainer, about ",
                say.whole_volume(125.0),
                " to ",
                say.whole_volume(375.0),
                " in a common drop tank"
            ],
        ),
        Wrong::NoSuchTanker { number, there } => told(
            NoSuchName,
            says!["it is brought by {tanker} number ", count(*number)],
            says!["one of the ", count(*there), " {tankers} there are"],
            "name who brings it".into(),
        ),
        Wrong::NoSuchFillSite { number, there } => told(
            NoSuchName,
            says!["fill site number ", count(*number), " is meant"],
            says!["one of the ", count(*there), " fill sites there are"],
            "name a fill site that is listed".into(),
        ),
        Wrong::NoSupplyEngine => told(
            NoSuchName,
            "it is brought by the supply engine, and there is none".into(),
            "a unit of this plan".into(),
            says![
                on_file("add `supply.engine`"),
                on_page("add a supply engine"),
                ", or name who brings it"
            ],
        ),
        Wrong::RechargeWithoutVolume => told(
            Conflict,
            "water without end cannot be recharged".into(),
            "only with a limited `volume`".into(),
            "state the `volume` it holds, or leave `recharge` out".into(),
        ),
        Wrong::LegWithoutTime { least } => told(
            OutOfRange,
            "the way takes no time to speak of".into(),
            says!["a mean of at least ", say.time(*least)],
            "state the distance or the minutes to the fill site".into(),
        ),
        Wrong::CrossingWithoutTime => told(
            OutOfRange,
            "crossing the one-lane stretch takes no time".into(),
            says!["a mean above ", say.time(0.0)],
            "state the minutes to cross, or leave the stretch out".into(),
        ),
        Wrong::SecondOneLane => told(
            Taken,
            "a second one-lane stretch at the same end of the haul".into(),
            "one near the scene and one near each fill site".into(),
            "put their crossing times together in one".into(),
        ),
        Wrong::TooManyTrips { trips, most } => told(
            MistakeKind::TooMuch,
            says!["the {tankers} would make about ", number(trips.round()), " trips in this time"],
            says![
                "up to about ",
                number(most.round()),
                " trips with these fill sites and drop tanks"
            ],
            "watch a shorter time, and check the ways and `count` for a slip".into(),
        ),
        Wrong::SecondUnit(name) => told(
            Taken,
            says!["a second unit is called ", quoted(name)],
            "each unit by a name of its own".into(),
            "give it another name".into(),
        ),
        Wrong::SecondFillSite(name) => told(
            Taken,
            says!["a second fill site is called ", quoted(name)],
            "each fill site by a name of its own".into(),
            "give it another name".into(),
        ),
    }
}
