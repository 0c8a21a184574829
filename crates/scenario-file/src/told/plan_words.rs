//! The mistakes and oddities of a plan in words, and its places as the file writes them: all wording of the
//! plan's check is here, in the units of the file.

use shuttle_sim::{Measure, Odd, Wrong};

use super::remark::Doubt;
use crate::errors::kinds::{MistakeKind, NoteKind};
use crate::errors::message::{Message, Part, count, on_file, on_page, quoted, says, typed};
use crate::quantities::figures::{four_figures, plain};
use crate::quantities::quantity::{Quantity, Units};

/// A mistake as it is told: what is wrong, what is allowed, what would put it right.
pub(super) struct Told {
    pub(super) kind: MistakeKind,
    pub(super) problem: Message,
    pub(super) limit: Message,
    pub(super) cure: Message,
}

/// Numbers of the plan in the units of the file.
#[derive(Clone, Copy)]
struct Say(Units);

impl Say {
    fn quantity(self, quantity: Quantity, value: f64) -> Part {
        let shown = quantity.to_bare(value, self.0);
        // What a metric file states comes back as it was stated.
        let shown = if self.0 == Units::Metric { four_figures(shown) } else { shown };
        self.told(quantity, value, shown)
    }

    fn told(self, quantity: Quantity, value: f64, shown: f64) -> Part {
        let told = format!("{} {}", plain(shown), quantity.bare_unit(self.0));
        quantity.told(value, told.trim_end().to_string())
    }

    fn volume(self, gal: f64) -> Part {
        self.quantity(Quantity::Volume, gal)
    }

    fn flow(self, gpm: f64) -> Part {
        self.quantity(Quantity::Flow, gpm)
    }

    fn time(self, min: f64) -> Part {
        self.quantity(Quantity::Time, min)
    }

    fn whole(self, quantity: Quantity, value: f64) -> Part {
        self.told(quantity, value, quantity.to_bare(value, self.0).round())
    }

    fn whole_volume(self, gal: f64) -> Part {
        self.whole(Quantity::Volume, gal)
    }

    fn whole_flow(self, gpm: f64) -> Part {
        self.told(Quantity::Flow, gpm, Quantity::Flow.to_bare(gpm, self.0).floor())
    }
}

fn number(value: f64) -> Part {
    Quantity::Plain.show(value, Units::Us)
}

/// A whole number with its thousands separated.
fn many(of: f64) -> Part {
    Quantity::Plain.told(of, plain(of))
}

/// A moment in minutes after the alarm, whole.
fn minute(at: f64) -> Part {
    Quantity::Time.told(at, plain(at.round()))
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
            let limit = says!["from ", count(*least), " to ", many(*most as f64), " entries"];
            let (problem, cure) = match length {
                0 => ("the list is empty".into(), "list at least one"),
                _ => {
                    let problem = says!["the list has ", many(*length as f64), " entries"];
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
            says!["the {tankers} would make about ", many(trips.round()), " trips in this time"],
            says![
                "up to about ",
                many(most.round()),
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
                many(f64::from(*intakes)),
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
