//! A whole dump at once, where nothing comes between its beginning and its end.
//!
//! While the pump draws what the lines want and nobody else pours, a load's whole course is known when
//! it begins: the drop tank rises or falls, or gets full and holds the tanker back, until the load is
//! gone. Nothing is asked of the scene meanwhile, so it is brought past all of it in one step, through
//! the same numbers in the same order as event by event: the bits are the same
//! (`tests/laws/known_ahead.rs`).

use super::steady::either;
use super::{Pump, SAME_LEVEL, Scene};
use crate::dumping::Pour;
use crate::flow::{Flow, SAME_RATE, least, most};
use crate::moment::{Moment, Ticks};

/// What lasts no longer is over at once, minutes: a few ticks.
const AT_ONCE: f64 = 1e-9;

/// The pump draws what the lines want, and nothing but the only drop tank's level moves: whoever begins
/// to pour changes nothing else.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Evenly {
    /// What the pump draws, gpm, and how many minutes a gallon lasts.
    drawn: f64,
    minutes_a_gallon: f64,
    /// Since when `all_given` is counted.
    since: Moment,
    /// What the drop tank held then, with all loads since, gal: nearly, for foresight, never for a result.
    all_given: f64,
}

impl Evenly {
    /// Nearly what the drop tank holds then, gal.
    #[inline(always)]
    fn holds_at(&self, moment: Moment) -> f64 {
        self.all_given - self.drawn * moment.since(self.since).span()
    }

    /// Nearly when the drop tank has been given so much more and is down to this level, gal.
    #[inline(always)]
    fn down_to(&self, level: f64, more: f64) -> Moment {
        self.since.after((self.all_given + more - level) * self.minutes_a_gallon)
    }
}

/// What becomes of a load, and of the drop tank it goes into.
#[derive(Debug, Clone, Copy)]
struct Course {
    /// Minutes since the scene was last looked at until the load begins to pour.
    before: f64,
    /// Minutes it pours unhindered.
    unhindered: f64,
    /// When the drop tank is full, and minutes the tanker is held back from then on; none if it is not
    /// full before the load is gone.
    fills_at: Moment,
    held_for: f64,
    gone: Moment,
    /// The drop tank's level when the load begins to pour, and how it moves until it is full, gpm.
    begins_with: f64,
    net: f64,
    /// The lowest level meanwhile.
    lowest: f64,
    /// Level, water and pour clock when the load is gone.
    level: f64,
    gallons: f64,
    clock: f64,
}

impl Scene {
    /// Whether everything runs evenly now, while nobody pours. It does until something else comes to the
    /// scene than one load after the other, or [`Scene::next`].
    pub fn runs_evenly(&self) -> Option<Evenly> {
        debug_assert!(!self.touched, "asked before the flows are worked out");
        let engine_full = self.engine_level >= self.engine_tank - SAME_LEVEL;
        let could_take = self.wanted + if engine_full { 0.0 } else { self.tank_refill };
        let drawn = least(could_take, self.draft_limit);
        let is_even = self.goes_steady()
            && self.pump == Pump::Primed
            && self.lay_filled >= self.lay_volume
            && drawn == self.wanted
            && drawn > SAME_RATE;
        is_even.then_some(Evenly {
            drawn,
            minutes_a_gallon: 1.0 / drawn,
            since: self.at,
            all_given: self.tanks[0].gallons,
        })
    }

    /// Brings everything past a load that begins to pour at `now` into the only drop tank, alone.
    ///
    /// - Returns: when the load is gone, later than `now` and so long before `until` that the tanker is
    ///   clear by then; `None`, with nothing done, where that is not known: then it must come event by
    ///   event.
    #[inline(never)]
    pub fn dump_ahead(
        &mut self,
        even: &mut Evenly,
        now: Moment,
        load: f64,
        pour: Pour,
        until: Moment,
        clear: Ticks,
    ) -> Option<Moment> {
        let Pour::Steady { rate: poured } = pour else { return None };
        let course = self.course_of(even, now, load, poured)?;
        if course.gone + clear >= until {
            self.loads_are_over = until >= self.end;
            return None;
        }
        if self.record.next_mark() <= course.gone {
            self.note_marks_of(&course, now);
        }
        self.follow(&course, even.drawn);
        even.all_given += load;
        Some(course.gone)
    }

    /// The course of a load that begins to pour at `now`, if it is known.
    #[inline(always)]
    fn course_of(&self, even: &Evenly, now: Moment, load: f64, poured: f64) -> Option<Course> {
        let [tank] = &self.tanks[..] else { return None };
        debug_assert!(tank.pouring.is_idle(), "someone else pours");
        let drawn = even.drawn;
        if now <= self.at || now >= self.next {
            return None;
        }
        let (capacity, unusable) = (tank.capacity, tank.unusable);
        let held = |gallons| least(most(gallons, 0.0), capacity);
        let before = now.since(self.at).span();
        let mut gallons = tank.gallons + tank.net.rate * before;
        let begins_with = either(tank.net.rate != 0.0, held(gallons), tank.level);
        if begins_with <= unusable {
            // Prime is lost, or the pump is throttled.
            return None;
        }
        debug_assert!(self.engine_net.rate == 0.0 && !self.record.is_short, "it runs evenly");
        // What follows is exact, and a long chain: each step waits for the one before. Nearly the same is
        // found at once from all the water so far; with that the tanker goes on, while the chain confirms
        // it to the tick.
        let net = poured - drawn;
        let bound = if net > 0.0 { capacity } else { unusable };
        let likely_full = now.after((bound - even.holds_at(now)) * (1.0 / net));
        let likely_gone = even.down_to(capacity, load);
        let mut level = begins_with;
        let mut clock = tank.pouring.clock();
        let gone_at = clock + load / poured;
        let mut gone = now.after(gone_at - clock);

        // Unhindered while there is room.
        let (mut fills_at, mut unhindered) = (now, 0.0);
        if begins_with < capacity || net <= -SAME_RATE {
            let (way, left) = (bound - level, bound - gallons);
            let left = if way * left > 0.0 { left } else { way };
            let passes = net.abs() > SAME_RATE && left * net > 0.0;
            fills_at =
                if passes { now.after_foreseen(left / net, likely_full) } else { Moment::NEVER };
            if fills_at == gone || (fills_at < gone && net < 0.0) {
                return None;
            }
            unhindered = fills_at.min(gone).since(now).span();
            clock += unhindered;
            gallons += net * unhindered;
            level = either(net != 0.0, held(gallons), level);
        }
        let lowest = least(begins_with, level);

        // Held back once it is full.
        let mut held_for = 0.0;
        if fills_at < gone {
            level = capacity;
            let rest = gone_at - clock;
            let minutes = if poured * rest <= SAME_LEVEL {
                0.0
            } else {
                (poured * most(rest, 0.0) + gallons - capacity) / drawn
            };
            gone = fills_at.after_foreseen(minutes, likely_gone);
            if gone <= fills_at {
                return None;
            }
            held_for = gone.since(fills_at).span();
            clock += held_for * (drawn / poured);
        }

        // What is beyond the load, or still to come of it, in a part of a tick.
        gallons += poured * (gone_at - clock);
        if level > unusable && level < capacity {
            level = held(gallons);
        }
        // Where the level is down to unusable at once, what happens hangs on what else comes then.
        let is_known = gone > now && least(level, gallons) - unusable > drawn * AT_ONCE;
        is_known.then_some(Course {
            before,
            unhindered,
            fills_at,
            held_for,
            gone,
            begins_with,
            net,
            lowest,
            level,
            gallons,
            clock,
        })
    }

    /// Brings everything to when the load is gone.
    #[inline(always)]
    fn follow(&mut self, course: &Course, drawn: f64) {
        let [tank] = &mut self.tanks[..] else { return };
        tank.pouring.set_clock(course.clock);
        (tank.gallons, tank.level) = (course.gallons, course.level);
        if self.record.is_established {
            tank.lowest = least(tank.lowest, course.lowest);
        }
        tank.is_held = false;
        tank.dumped = Flow::NONE;
        tank.net = Flow::steady(-drawn);
        tank.pace = 0.0;
        tank.empty_at = Moment::NEVER;
        // It falls from here on, until the next load comes or prime is lost.
        let (way, left) = (tank.unusable - course.level, tank.unusable - course.gallons);
        let left = if left < 0.0 { left } else { way };
        tank.bound = tank.unusable;
        tank.crosses_at = course.gone.after(left / -drawn);
        self.next = tank.crosses_at;
        self.at = course.gone;
        let (wanted, engine) = (self.wanted, self.engine_level);
        self.record.passed(course.before, wanted, self.delivered.rate * course.before, engine);
        self.delivered = Flow::steady(wanted);
        for minutes in [course.unhindered, course.held_for] {
            self.record.passed(minutes, wanted, wanted * minutes, engine);
        }
    }

    /// Notes the levels on a load's course, which begins at `now`.
    #[cold]
    fn note_marks_of(&mut self, course: &Course, now: Moment) {
        let full_at = course.fills_at.min(course.gone);
        self.note_marks(now);
        for (from, level, net, until) in [
            (now, course.begins_with, course.net, full_at),
            (full_at, self.tanks[0].capacity, 0.0, course.gone),
        ] {
            (self.tanks[0].level, self.tanks[0].net) = (level, Flow::steady(net));
            self.at = from;
            self.note_marks(until);
        }
    }
}
