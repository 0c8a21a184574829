//! The mistakes and oddities of a plan in words, and its places as the file writes them: all wording of the
//! plan's check is here, in the units of the file.

use shuttle_sim::{Measure, Odd, Wrong};

use super::remark::Doubt;
use crate::errors::excerpt::shorten;
use crate::quantities::figures::{four_figures, plain};
use crate::quantities::quantity::{Quantity, Units};

/// A mistake as it is told: what is wrong, what is allowed, what would put it right.
pub(super) struct Told {
    pub(super) problem: String,
    pub(super) limit: String,
    pub(super) cure: String,
}

/// Numbers of the plan in the units of the file.
#[derive(Clone, Copy)]
struct Say(Units);

impl Say {
    fn quantity(self, quantity: Quantity, value: f64) -> String {
        let shown = quantity.to_bare(value, self.0);
        // What a metric file states comes back as it was stated.
        let shown = if self.0 == Units::Metric { four_figures(shown) } else { shown };
        format!("{} {}", plain(shown), quantity.bare_unit(self.0)).trim_end().to_string()
    }

    fn volume(self, gal: f64) -> String {
        self.quantity(Quantity::Volume, gal)
    }

    fn flow(self, gpm: f64) -> String {
        self.quantity(Quantity::Flow, gpm)
    }

    fn time(self, min: f64) -> String {
        self.quantity(Quantity::Time, min)
    }

    fn whole(self, quantity: Quantity, value: f64) -> String {
        let bare = quantity.to_bare(value, self.0).round();
        format!("{} {}", plain(bare), quantity.bare_unit(self.0))
    }

    fn whole_volume(self, gal: f64) -> String {
        self.whole(Quantity::Volume, gal)
    }

    fn whole_flow(self, gpm: f64) -> String {
        let bare = Quantity::Flow.to_bare(gpm, self.0).floor();
        format!("{} {}", plain(bare), Quantity::Flow.bare_unit(self.0))
    }
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
    let say = Say(units);
    let told = |problem: String, limit: String, cure: &str| Told {
        problem,
        limit,
        cure: cure.to_string(),
    };
    match wrong {
        Wrong::OutOfRange { measure, value, bounds } => {
            let quantity = quantity_of(*measure);
            let cure = quantity.cure_out_of_range(*value, *bounds);
            let problem = format!("{} is out of range", say.quantity(quantity, *value));
            told(problem, quantity.show_bounds(*bounds, units), &cure)
        }
        Wrong::Entries { length, least, most } => {
            let limit = format!("from {least} to {} entries", plain(*most as f64));
            match length {
                0 => told("the list is empty".to_string(), limit, "list at least one"),
                _ => {
                    let problem = format!("the list has {} entries", plain(*length as f64));
                    told(problem, limit, "keep those that matter most")
                }
            }
        }
        Wrong::EmptyName => told(
            "the name is empty".to_string(),
            "at least one letter".to_string(),
            "write something that tells it from the others",
        ),
        Wrong::LongName(most) => told(
            "the name is too long".to_string(),
            format!("1 to {most} characters"),
            "say it shorter; what is longer belongs into `notes`",
        ),
        Wrong::ControlInName => told(
            "the name holds a control character".to_string(),
            "no line breaks or other control characters".to_string(),
            "type the name again",
        ),
        Wrong::NotRising { low, likely, high } => told(
            format!(
                "low {}, likely {}, high {} are out of order",
                plain(*low),
                plain(*likely),
                plain(*high)
            ),
            "low, likely and high in rising order".to_string(),
            "put the three into order",
        ),
        Wrong::LowAboveHigh { low, high } => told(
            format!("low {} is above high {}", plain(*low), plain(*high)),
            "low at most as great as high".to_string(),
            "exchange the two",
        ),
        Wrong::ReserveAboveTank { reserve, tank } => told(
            format!(
                "the reserve of {} is more than the attack engine's tank",
                say.volume(*reserve)
            ),
            format!("up to the tank, {}", say.volume(*tank)),
            "keep part of the tank: what the crew needs to back out",
        ),
        Wrong::StepOutOfOrder { from, before } => told(
            format!("this step begins at {}, not after the one before it", say.time(*from)),
            format!("after {}", say.time(*before)),
            "list the steps in the order of time",
        ),
        Wrong::AttackEngineMayStay(chance) => told(
            format!("the attack engine comes with a chance of {}", plain(*chance)),
            "1: without the attack engine there is no attack to supply".to_string(),
            "leave `turnout` out",
        ),
        Wrong::NoAttackFlow => told(
            format!("the attack flow is {} throughout", say.flow(0.0)),
            format!("above {} in at least one step", say.flow(0.0)),
            // Common practice for a 1-3/4 in line; the metric figure is rounded.
            match units {
                Units::Us => {
                    "state what the attack lines need, such as 150 gpm for each 1-3/4 in line"
                }
                Units::Metric => {
                    "state what the attack lines need, such as 550 L/min for each 45 mm line"
                }
            },
        ),
        Wrong::DryLayWithoutLimit => told(
            "a dry lay fills as fast as the pump can draw, and nothing limits the draft"
                .to_string(),
            "a draft limit with a dry lay".to_string(),
            "state `draft_limit`, or the pump's rating and lift",
        ),
        Wrong::RestartLevel { level, least, capacity } => told(
            format!(
                "the pump is to draw again at {}, which the first drop tank cannot offer",
                say.volume(*level)
            ),
            format!(
                "from just above its unusable, {}, up to its capacity, {}",
                say.volume(*least),
                say.volume(*capacity)
            ),
            "leave `restart_level` out for the usual one",
        ),
        Wrong::NoWayToTheEngine => told(
            "there is no drop tank and nursing is not allowed: no water can reach the engine"
                .to_string(),
            "at least one drop tank, or nursing".to_string(),
            "list a drop tank, or set `supply.nurse` to true",
        ),
        Wrong::AllUnusable { unusable, capacity } => Told {
            problem: format!("the unusable {} is the whole drop tank", say.volume(*unusable)),
            limit: format!("below its capacity, {}", say.volume(*capacity)),
            cure: format!(
                "state the water left below the strainer, about {} to {} in a common drop tank",
                say.whole_volume(125.0),
                say.whole_volume(375.0)
            ),
        },
        Wrong::NoSuchTanker { number, there } => told(
            format!("it is brought by tanker number {number}"),
            format!("one of the {there} tankers there are"),
            "name who brings it",
        ),
        Wrong::NoSuchFillSite { number, there } => told(
            format!("fill site number {number} is meant"),
            format!("one of the {there} fill sites there are"),
            "name a fill site that is listed",
        ),
        Wrong::NoSupplyEngine => told(
            "it is brought by the supply engine, and there is none".to_string(),
            "a unit of this plan".to_string(),
            "add `supply.engine`, or name who brings it",
        ),
        Wrong::RechargeWithoutVolume => told(
            "water without end cannot be recharged".to_string(),
            "only with a limited `volume`".to_string(),
            "state the `volume` it holds, or leave `recharge` out",
        ),
        Wrong::LegWithoutTime { least } => told(
            "the way takes no time to speak of".to_string(),
            format!("a mean of at least {}", say.time(*least)),
            "state the distance or the minutes to the fill site",
        ),
        Wrong::CrossingWithoutTime => told(
            "crossing the one-lane stretch takes no time".to_string(),
            format!("a mean above {}", say.time(0.0)),
            "state the minutes to cross, or leave the stretch out",
        ),
        Wrong::SecondOneLane => told(
            "a second one-lane stretch at the same end of the haul".to_string(),
            "one near the scene and one near each fill site".to_string(),
            "put their crossing times together in one",
        ),
        Wrong::TooManyTrips { trips, most } => told(
            format!("the tankers would make about {} trips in this time", plain(trips.round())),
            format!(
                "up to about {} trips with these fill sites and drop tanks",
                plain(most.round())
            ),
            "watch a shorter time, and check the ways and `count` for a slip",
        ),
        Wrong::SecondUnit(name) => told(
            format!("a second unit is called \"{}\"", shorten(name)),
            "each unit by a name of its own".to_string(),
            "give it another name",
        ),
        Wrong::SecondFillSite(name) => told(
            format!("a second fill site is called \"{}\"", shorten(name)),
            "each fill site by a name of its own".to_string(),
            "give it another name",
        ),
    }
}

/// A value that nobody means, as a question.
pub(super) fn doubt(doubt: &Doubt, units: Units) -> String {
    let Doubt { quantity, value, written, reason, bounds: (low, high), instead } = doubt;
    let say = Say(units);
    let shown = written.clone().unwrap_or_else(|| say.quantity(*quantity, *value));
    let limit = if value < low {
        format!("at least {}", say.quantity(*quantity, *low))
    } else {
        format!("at most {}", say.quantity(*quantity, *high))
    };
    let cure = match instead {
        Some((number, unit)) => format!("is {} {unit} meant?", plain(*number)),
        None => "check the number and its unit".to_owned(),
    };
    format!("{shown} {reason} (common practice: {limit}): {cure}")
}

/// An oddity in words.
pub(super) fn oddity(odd: &Odd, units: Units) -> String {
    let say = Say(units);
    match odd {
        Odd::NothingVaries => {
            "no duration has any spread: every run is the same, so a chance comes out as \
             0% or 100%"
                .to_string()
        }
        Odd::AllReserve => {
            "the reserve is the attack engine's whole tank: it is touched whenever the lines \
             draw on the tank at all"
                .to_string()
        }
        Odd::LongTolerance(minutes) => format!(
            "lines short of water for less than {} do not count as interrupted",
            say.time(*minutes)
        ),
        Odd::StepAfterTheWatch { from, end } => format!(
            "this step begins at {} and the watch ends at {}: it never counts",
            say.time(*from),
            say.time(*end)
        ),
        Odd::TooFewIntakes { nursed, intakes, wanted } => format!(
            "without a drop tank at most {} can come in at once ({intakes} x intake, by the tankers' \
             pump_off), less than the attack flow of {}",
            say.flow(*nursed),
            say.flow(*wanted)
        ),
        Odd::NothingToDraftFrom => {
            "without a drop tank the supply engine has nothing to draft from".to_string()
        }
        Odd::WeakDraft { gives, wanted } => format!(
            "the draft can give at most {}, less than the attack flow of {}",
            say.flow(*gives),
            say.flow(*wanted)
        ),
        Odd::NoPumpToFail => "without a drop tank there is no drafting pump to fail".to_string(),
        Odd::NeverComes { name } => {
            format!("{} never comes: its turnout is 0", name.as_deref().unwrap_or("the drop tank"))
        }
        Odd::NoPrimeToLose => {
            "without a drop tank there is no draft, and no prime to lose".to_string()
        }
        Odd::SmallDropTank { holds, load, tanker, is_first } => format!(
            "the drop tank holds {}, less than the {} that {tanker} delivers: {}",
            say.volume(*holds),
            say.whole_volume(*load),
            if *is_first {
                "such a load is dumped when nobody else is at it, and what does not fit waits aboard until \
                 water is drawn"
            } else {
                "such a load is dumped into it only when it is as good as empty, and what does not fit \
                 waits aboard"
            }
        ),
        Odd::MostlyUnusable { unusable, capacity } => format!(
            "more than half of the drop tank cannot be drawn ({} of {})",
            say.volume(*unusable),
            say.volume(*capacity)
        ),
        Odd::SmallTanker { capacity, standard } => format!(
            "{} is small: the apparatus standard asks at least {} of a tanker",
            say.volume(*capacity),
            say.whole_volume(*standard)
        ),
        Odd::LittleDelivered { capacity, load } => format!(
            "of {} it delivers only {} a load: waste and residual take the rest",
            say.volume(*capacity),
            say.whole_volume(*load)
        ),
        Odd::OftenBroken(share) => {
            format!("it breaks down after {}% of its trips", plain(share * 100.0))
        }
        Odd::ComesTooLate { arrives, end } => format!(
            "it arrives at about minute {} after the alarm, when the watch is over (minute {})",
            plain(arrives.round()),
            plain(end.round())
        ),
        Odd::HandlesInNoTime { tanker } => format!(
            "{tanker} handles hoses and positions in no time: a real crew takes some minutes a trip"
        ),
        Odd::SitesTooWeak { pass, wanted } => format!(
            "the fill sites together can put at most {} into the shuttle after waste, less than the attack \
             flow of {}: tankers without end would not keep up",
            say.whole_flow(*pass),
            say.flow(*wanted)
        ),
        Odd::NobodyComes => {
            "every tanker is assigned to another fill site: nobody comes here".to_string()
        }
        Odd::LittleWater { holds } => format!(
            "it holds {}, less than half of any tanker assigned to it or free to choose: nobody fills here",
            say.volume(*holds)
        ),
        Odd::NeverFilledAgain { site, capacity } => format!(
            "{}, when full, holds less than half of its {}: after its first load it stands by for good",
            site.as_deref().unwrap_or("every fill site"),
            say.volume(*capacity)
        ),
        Odd::Speed { miles, minutes, mph, fast } => format!(
            "{} in {} is {} on average, {} for a tanker",
            say.quantity(Quantity::Miles, *miles),
            say.time((minutes * 10.0).round() / 10.0),
            say.whole(Quantity::MilesPerHour, *mph),
            if *fast { "fast" } else { "slow" }
        ),
    }
}
