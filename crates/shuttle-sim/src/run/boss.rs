//! What the tanker boss judges, each as one small question with its answer. The rules that ask are in
//! `line` and `haul`; nothing here changes anything.

use crate::plan::FlowStep;
use crate::scene::SAME_LEVEL;
use crate::time::Moment;

/// When something should be there that may be there already: an arrival that is overdue counts as now.
pub(crate) fn expected(is_there: Option<Moment>, by_means: f64, now: Moment) -> Moment {
    is_there.unwrap_or_else(|| now.max(Moment::ALARM.after(by_means)))
}

/// The attack flow wanted between two moments by the plan, gal: nothing before its first step, nothing
/// after the watch, no refill.
///
/// - Given: when each step begins.
pub(crate) fn planned_water(
    steps: &[FlowStep],
    begins: impl Fn(&FlowStep) -> Moment,
    end: Moment,
    from: Moment,
    until: Moment,
) -> f64 {
    let until = until.min(end);
    let mut gallons = 0.0;
    for (place, step) in steps.iter().enumerate() {
        let ends = steps.get(place + 1).map_or(end, &begins).min(until);
        gallons += step.flow * ends.since(begins(step).max(from)).span();
    }
    gallons
}

/// Whether a drop tank takes the whole of a load: the room nobody at it lays claim to, and what the lines
/// draw while the load is dumped, are at least that load. All in gal.
pub(crate) fn takes_whole_load(unclaimed_room: f64, drawn_meanwhile: f64, load: f64) -> bool {
    unclaimed_room + drawn_meanwhile >= load - SAME_LEVEL
}

/// Whether enough of a load is gone to pull clear with the rest: no more than a tenth of the full load is
/// left of a load that was more than that. All in gal.
pub(crate) fn only_a_tenth_is_left(rest: f64, load: f64, full_load: f64) -> bool {
    let tenth = full_load / 10.0;
    rest <= tenth + SAME_LEVEL && load > tenth + SAME_LEVEL
}

/// What a tanker weighs before it drives to a fill site. Minutes, by means; moments count from the alarm.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Outlook {
    pub now: f64,
    /// The road there and back.
    pub out: f64,
    pub back: f64,
    /// From when the site can serve.
    pub open: f64,
    /// How long the site is busy with those ahead.
    pub work_ahead: f64,
    /// Connect, fill with the site to itself, disconnect.
    pub service: f64,
}

impl Outlook {
    /// When the tanker should be back, minutes after the alarm.
    pub fn back_at(self) -> f64 {
        (self.now + self.out).max(self.open + self.work_ahead) + self.service + self.back
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn planned_water_follows_the_steps_within_the_watch() {
        let at = |minutes| Moment::ALARM.after(minutes);
        let steps = [
            FlowStep { from: 2.0, flow: 100.0 },
            FlowStep { from: 5.0, flow: 0.0 },
            FlowStep { from: 8.0, flow: 300.0 },
        ];
        let begins = |step: &FlowStep| at(10.0).after(step.from);
        let water = |from, until| planned_water(&steps, begins, at(30.0), at(from), at(until));
        // Steps begin at 12, 15 and 18; the watch ends at 30.
        assert_eq!(water(0.0, 11.0), 0.0);
        assert_eq!(water(0.0, 14.0), 200.0);
        assert_eq!(water(13.0, 20.0), 200.0 + 600.0);
        assert_eq!(water(29.0, 99.0), 300.0);
        assert_eq!(water(20.0, 19.0), 0.0);
    }

    #[test]
    fn a_site_that_is_not_ready_or_busy_is_waited_for_on_the_way() {
        let outlook =
            Outlook { now: 10.0, out: 4.0, back: 5.0, open: 12.0, work_ahead: 1.0, service: 3.0 };
        assert_eq!(outlook.back_at(), 22.0);
        assert_eq!(Outlook { work_ahead: 6.0, ..outlook }.back_at(), 26.0);
    }
}
