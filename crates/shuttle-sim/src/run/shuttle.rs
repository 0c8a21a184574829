//! What a run is made of, and the few things that every rule does: note, draw, enter.

use crate::luck::{Draws, Duration, Luck, Purpose, UnitDraws};
use crate::plan::Plan;
use crate::results::RunResult;
use crate::road::{LaneState, SiteState};
use crate::run::calendar::{Calendar, Event};
use crate::run::callout::who_comes::Callout;
use crate::run::prepared::Prepared;
use crate::run::tally::Tally;
use crate::run::tanker::{Phase, TankerState};
use crate::scene::Scene;
use crate::story::{Happening, Story};
use crate::time::{Moment, Ticks};

/// What is known of the crew that drafts, beside its pump.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct DraftCrew {
    /// When the pump arrived.
    pub arrived: Option<Moment>,
    /// When its set-up began.
    pub began: Option<Moment>,
    pub primes_lost: u32,
    /// Since when the pump has failed, while it has.
    pub failed: Option<Moment>,
}

/// A tanker taken out on purpose.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Absence {
    pub from: Moment,
    /// For how long; `None`: for good.
    pub time: Option<Ticks>,
    /// Whether this run has had it.
    pub is_over: bool,
}

/// Runs a plan again and again; the room for a run is made once.
#[derive(Debug)]
pub struct Shuttle {
    pub(crate) plan: Plan,
    pub(crate) prepared: Prepared,
    pub(crate) luck: Draws,
    pub(crate) now: Moment,
    pub(crate) calendar: Calendar,
    pub(crate) callout: Callout,
    pub(crate) scene: Scene,
    pub(crate) draft: DraftCrew,
    pub(crate) sites: Vec<SiteState>,
    /// The next time something happens at a fill site by itself.
    pub(crate) sites_next: Moment,
    /// Whether a fill position, or a one-lane stretch, may be taken since that was last gone through.
    pub(crate) may_begin_to_fill: bool,
    pub(crate) may_enter_a_lane: bool,
    pub(crate) lanes: Vec<LaneState>,
    pub(crate) tankers: Vec<TankerState>,
    /// The one line at the scene, first come first.
    pub(crate) line: Vec<usize>,
    /// Before this moment the head of the line has no place to go to, unless something else happens at the scene;
    /// from the alarm on where that is not known.
    pub(crate) head_waits_until: Moment,
    /// Steps of the attack flow taken so far.
    pub(crate) steps_taken: usize,
    /// Who leaves in this instant, as listed.
    pub(crate) leaving: Vec<usize>,
    /// Who stands by at the scene, the longest first.
    pub(crate) standing_by: Vec<usize>,
    /// What each tanker is taken out for, beside its own luck.
    pub(crate) absences: Vec<Option<Absence>>,
    pub(crate) keeps_levels: bool,
    pub(crate) levels_by_alarm: bool,
    /// No step of the attack flow begins before.
    pub(crate) asked_from: Moment,
    pub(crate) tally: Tally,
    pub(crate) story: Story,
}

impl Shuttle {
    /// Makes room to run a plan.
    pub fn new(plan: &Plan) -> Shuttle {
        let facts = plan.facts();
        let (tankers, tanks, sites) =
            (facts.tankers.len(), facts.drop_tanks.len(), facts.fill_sites.len());
        Shuttle {
            prepared: Prepared::new(plan),
            luck: Draws::new(Luck::Planned),
            now: Moment::ALARM,
            calendar: Calendar::new(tankers, tanks, sites),
            callout: Callout::new(tankers, tanks, sites),
            scene: Scene::new(plan),
            draft: DraftCrew::default(),
            sites: facts.fill_sites.iter().map(|site| SiteState::new(site, tankers)).collect(),
            sites_next: Moment::NEVER,
            may_begin_to_fill: false,
            may_enter_a_lane: false,
            lanes: facts.one_lanes.iter().map(|_| LaneState::new(tankers)).collect(),
            tankers: vec![TankerState::responding(UnitDraws::Planned, 0.0, 0.0); tankers],
            line: Vec::with_capacity(tankers),
            head_waits_until: Moment::ALARM,
            steps_taken: 0,
            leaving: Vec::with_capacity(tankers),
            standing_by: Vec::with_capacity(tankers),
            absences: vec![None; tankers],
            keeps_levels: true,
            levels_by_alarm: false,
            asked_from: Moment::ALARM,
            tally: Tally::new(plan),
            story: Story::default(),
            plan: plan.clone(),
        }
    }

    /// The plan it runs.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// What the last run gave.
    pub fn result(&self) -> &RunResult {
        &self.tally.result
    }

    /// Whether runs note the levels minute by minute (they do unless told otherwise); what happens in
    /// a run does not depend on it.
    pub fn keep_levels(&mut self, keep: bool) {
        self.keeps_levels = keep;
    }

    /// In every run from now on levels are noted by the alarm's clock: at its whole minutes (or wider apart, as
    /// [`marks`](crate::marks)) from the first one at or after first water. A mark beyond the end of the watch
    /// notes the level at the end.
    pub fn note_levels_by_alarm(&mut self) {
        self.levels_by_alarm = true;
    }

    /// In every run from now on takes this tanker out of service from a stated minute on, whatever its luck: a
    /// drill's loss or breakdown played back. It still delivers the load it has aboard or is taking. Then it is
    /// out at the scene, for a time or for good; for good also at the fill site where it comes empty.
    ///
    /// - Given: `from`, minutes after the alarm; `minutes`, how long it is out; `None`: for good.
    pub fn take_out(&mut self, tanker: usize, from: f64, minutes: Option<f64>) {
        let from = Moment::ALARM.after(from.max(0.0));
        let time = minutes.map(|minutes| Ticks::of(minutes.max(0.0)));
        self.absences[tanker] = Some(Absence { from, time, is_over: false });
    }

    /// Whether this tanker is to be out from now on.
    pub(crate) fn is_taken_out(&self, tanker: usize) -> Option<Absence> {
        self.absences[tanker].filter(|one| self.now >= one.from && !one.is_over)
    }

    /// Lets no step of the attack flow begin before this minute after the alarm, in every run from now on: a step
    /// that would waits until then. First water and the end of the watch stay as they are.
    pub fn ask_from(&mut self, minute: f64) {
        self.asked_from = Moment::ALARM.after(minute);
    }

    pub(crate) fn note(&mut self, happening: Happening) {
        self.story.note(self.now, happening, &self.scene);
    }

    /// Draws a time of the unit with this key.
    pub(crate) fn draw_of(&self, who: u64, time: &Duration, purpose: Purpose, trip: u32) -> Ticks {
        self.luck.of(who).time(time, purpose, trip)
    }

    /// Draws a time of this tanker for its present trip.
    pub(crate) fn draw(&self, tanker: usize, time: &Duration, purpose: Purpose) -> Ticks {
        let state = &self.tankers[tanker];
        state.draws.time(time, purpose, state.trips)
    }

    /// Ends what the tanker did, of which a place held is counted, and begins something else.
    pub(crate) fn enter(&mut self, tanker: usize, phase: Phase) {
        let state = &mut self.tankers[tanker];
        if let Some(place) = state.phase.place() {
            self.tally.held(place, state.since, self.now);
        }
        state.enter(phase, self.now);
        if self.story.is_told() {
            self.tell(tanker, phase);
        }
    }

    #[cold]
    fn tell(&mut self, tanker: usize, phase: Phase) {
        if let Some(doing) = phase.doing() {
            self.note(Happening::Tanker(tanker, doing));
        }
    }

    /// Enters a phase of handling, whose time is drawn for this purpose.
    pub(crate) fn enter_drawn(&mut self, tanker: usize, phase: Phase, purpose: Purpose) {
        let prepared = &self.prepared.tankers[tanker];
        let time = match purpose {
            Purpose::NurseConnect => &prepared.nurse_connect,
            Purpose::NurseDisconnect => &prepared.nurse_disconnect,
            Purpose::DumpPosition => &prepared.dump_position,
            Purpose::DumpClear => &prepared.dump_clear,
            Purpose::FillConnect => &prepared.fill_connect,
            Purpose::FillDisconnect => &prepared.fill_disconnect,
            _ => unreachable!("{purpose:?} is no handling"),
        };
        let time = self.draw(tanker, time, purpose);
        self.enter_for(tanker, phase, time);
    }

    /// Enters a phase that takes this long.
    pub(crate) fn enter_for(&mut self, tanker: usize, phase: Phase, time: Ticks) {
        self.enter(tanker, phase);
        self.calendar.set(Event::Tanker(tanker), self.now + time);
    }
}
