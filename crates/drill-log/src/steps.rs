//! How long each step took, waiting apart from work.

use crate::course::Course;
use crate::figures::middle;
use crate::held::{DUMP, FILL, Held, Stay, stays, turn};
use crate::log::Log;
use crate::stamp::Stamp;

/// A step of the cycle that is work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// The road to the fill site.
    DriveOut,
    /// Getting into place and connecting there.
    FillConnect,
    /// Taking water, by itself.
    Fill,
    /// Disconnecting.
    FillDisconnect,
    /// The road to the scene.
    DriveBack,
    /// Getting into place at the drop tank.
    DumpPosition,
    /// Dumping.
    Dump,
    /// Pulling clear.
    DumpClear,
}

impl Step {
    /// All of them, in the order in which they happen.
    pub const ALL: [Step; 8] = [
        Step::DriveOut,
        Step::FillConnect,
        Step::Fill,
        Step::FillDisconnect,
        Step::DriveBack,
        Step::DumpPosition,
        Step::Dump,
        Step::DumpClear,
    ];
}

/// One timed step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Which.
    pub step: Step,
    /// The tanker, by its place in the course.
    pub tanker: usize,
    /// The fill site, where the step has to do with one.
    pub site: Option<usize>,
    /// The row it ends in.
    pub row: usize,
    /// How long it took, minutes.
    pub minutes: f64,
    /// Whether the row it began in is marked as one with a breakdown.
    pub marked: bool,
}

/// What was waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// A fill position at this site.
    Fill(usize),
    /// The water there, while whoever began first took it all.
    Water(usize),
    /// A dump position.
    Dump,
}

/// A wait.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wait {
    /// What for.
    pub place: Place,
    /// The tanker.
    pub tanker: usize,
    /// Its row.
    pub row: usize,
    /// How long, minutes.
    pub minutes: f64,
}

/// A step that cannot be told apart from waiting, so that it is not counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Untold {
    /// Which.
    pub step: Step,
    /// Its row.
    pub row: usize,
}

/// More tankers at a place than it has positions.
#[derive(Debug, Clone, PartialEq)]
pub struct Crowd {
    /// Which.
    pub place: Place,
    /// The rows, the last to come last.
    pub rows: Vec<usize>,
    /// When the last had taken its place, minutes.
    pub at: f64,
}

/// A breakdown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Breakdown {
    /// The row that is marked.
    pub row: usize,
    /// The tanker.
    pub tanker: usize,
    /// The step that took longer for it, and by how many minutes beyond the usual; `None` where none is known
    /// to have.
    pub cost: Option<(Step, f64)>,
    /// When it began as far as the log shows, minutes.
    pub at: Option<f64>,
}

/// All that a log measures.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// Steps, in the order of the log.
    pub readings: Vec<Reading>,
    /// Waits of more than nothing.
    pub waits: Vec<Wait>,
    /// Steps that cannot be told apart from waiting.
    pub untold: Vec<Untold>,
    /// More at a place than it has positions.
    pub crowds: Vec<Crowd>,
    /// Breakdowns; what they took is not among the readings.
    pub breakdowns: Vec<Breakdown>,
}

/// Measures every step of a log.
pub fn measure(log: &Log, course: &Course) -> Measured {
    let mut measuring = Measuring { log, course, found: Measured::default() };
    let of_sites: Vec<Vec<Held>> = (0..course.sites.len())
        .map(|site| stays(log, FILL, |trip| trip.site == Some(site)))
        .collect();
    let at_scene = stays(log, DUMP, |trip| !trip.nursed);
    for trip in 0..log.trips.len() {
        measuring.road(trip);
        if let Some(site) = log.trips[trip].site {
            measuring.fill_site(trip, site, &of_sites[site]);
        }
        if !log.trips[trip].nursed {
            measuring.scene(trip, &at_scene);
        }
    }
    measuring.breakdowns();
    measuring.found
}

struct Measuring<'l> {
    log: &'l Log,
    course: &'l Course,
    found: Measured,
}

impl Measuring<'_> {
    fn time(&self, trip: usize, stamp: Stamp) -> Option<f64> {
        self.log.trips[trip].time(stamp)
    }

    fn reading(&mut self, step: Step, trip: usize, minutes: f64) {
        let one = &self.log.trips[trip];
        let at_a_site = !matches!(step, Step::DumpPosition | Step::Dump | Step::DumpClear);
        self.found.readings.push(Reading {
            step,
            tanker: one.tanker,
            site: one.site.filter(|_| at_a_site),
            row: one.row,
            minutes,
            marked: one.breakdown,
        });
    }

    fn between(&mut self, step: Step, trip: usize, from: Stamp, to: Stamp) {
        if let (Some(from), Some(to)) = (self.time(trip, from), self.time(trip, to)) {
            self.reading(step, trip, to - from);
        }
    }

    fn wait(&mut self, place: Place, trip: usize, minutes: f64) {
        let one = &self.log.trips[trip];
        if minutes > 1e-9 {
            self.found.waits.push(Wait { place, tanker: one.tanker, row: one.row, minutes });
        }
    }

    fn untold(&mut self, step: Step, trip: usize) {
        self.found.untold.push(Untold { step, row: self.log.trips[trip].row });
    }

    /// The trip behind which this one comes at once, if no trip between them is missing.
    fn before(&self, trip: usize) -> Option<usize> {
        let before = trip.checked_sub(1)?;
        let (last, this) = (&self.log.trips[before], &self.log.trips[trip]);
        let follows = match (last.number, this.number) {
            (Some(last), Some(this)) => last + 1 == this,
            _ => true,
        };
        (last.tanker == this.tanker && follows).then_some(before)
    }

    fn road(&mut self, trip: usize) {
        let left = self
            .before(trip)
            .and_then(|before| Some((before, self.time(before, Stamp::LeftScene)?)));
        if let (Some((before, left)), Some(came)) = (left, self.time(trip, Stamp::ArrivedAtFill)) {
            self.reading(Step::DriveOut, trip, came - left);
            // A flat tire on the way out is written down in the row of the trip before.
            if let Some(last) = self.found.readings.last_mut() {
                last.marked |= self.log.trips[before].breakdown;
            }
        }
        if self.log.trips[trip].site.is_some() {
            self.between(Step::DriveBack, trip, Stamp::LeftFill, Stamp::ArrivedAtScene);
        }
    }

    /// Begins to take its place when it is its turn.
    ///
    /// - Returns: the wait and the work, minutes; `None` where they cannot be told apart.
    fn taken(
        &mut self,
        trip: usize,
        stay: Stay,
        place: Place,
        positions: u32,
        all: &[Held],
    ) -> Option<(f64, f64)> {
        let (arrived, taken) = (self.time(trip, stay.arrived)?, self.time(trip, stay.taken)?);
        let turn = turn(trip, arrived, taken, all, positions);
        let grain = self.log.grain;
        if turn.earliest > taken + grain {
            let there = |other: &&Held| {
                other.trip != trip
                    && other.taken.latest < taken
                    && other.left.earliest > taken + grain
            };
            let mut rows: Vec<usize> =
                all.iter().filter(there).map(|other| self.log.trips[other.trip].row).collect();
            rows.push(self.log.trips[trip].row);
            self.found.crowds.push(Crowd { place, rows, at: taken });
            return None;
        }
        if turn.latest - turn.earliest > 1e-9 {
            return None;
        }
        let began = turn.earliest.min(taken);
        Some((began - arrived, taken - began))
    }

    fn fill_site(&mut self, trip: usize, site: usize, all: &[Held]) {
        let positions = self.course.sites[site].positions;
        let both = self.time(trip, FILL.arrived).is_some() && self.time(trip, FILL.taken).is_some();
        match self.taken(trip, FILL, Place::Fill(site), positions, all) {
            Some((wait, work)) => {
                self.wait(Place::Fill(site), trip, wait);
                self.reading(Step::FillConnect, trip, work);
            }
            None if both => self.untold(Step::FillConnect, trip),
            None => {}
        }
        if let (Some(from), Some(to)) =
            (self.time(trip, Stamp::Connected), self.time(trip, Stamp::Full))
        {
            match self.water_from(trip, site, from, to) {
                Some(began) => {
                    self.wait(Place::Water(site), trip, began - from);
                    self.reading(Step::Fill, trip, to - began);
                }
                None => self.untold(Step::Fill, trip),
            }
        }
        self.between(Step::FillDisconnect, trip, Stamp::Full, Stamp::LeftFill);
    }

    /// From when on a tanker that is connected has the water to itself; `None` where it shares it, or that is
    /// not known.
    fn water_from(&self, trip: usize, site: usize, connected: f64, full: f64) -> Option<f64> {
        let place = &self.course.sites[site];
        if place.positions == 1 {
            return Some(connected);
        }
        let mut from = connected;
        for (at, other) in self.log.trips.iter().enumerate() {
            if at == trip || other.site != Some(site) {
                continue;
            }
            let (began, ended) = (other.time(Stamp::Connected), other.time(Stamp::Full));
            let first = |stamps: &[Stamp]| stamps.iter().find_map(|stamp| other.time(*stamp));
            // At the earliest it begins when it comes, at the latest it is full when it is next seen.
            let earliest = began.or(other.time(Stamp::ArrivedAtFill)).unwrap_or(f64::NEG_INFINITY);
            let latest = ended
                .or_else(|| first(&[Stamp::LeftFill, Stamp::ArrivedAtScene, Stamp::StartedDump]))
                .unwrap_or(f64::INFINITY);
            if latest <= connected || earliest >= full {
                continue;
            }
            match (place.one_at_a_time, began, ended) {
                (true, Some(began), _) if began > connected => {}
                // Written as connected at one time: whoever was full first had begun first.
                (true, Some(began), Some(ended)) if began == connected && ended > full => {}
                (true, Some(began), Some(ended)) if began == connected && ended == full => {
                    return None;
                }
                (true, Some(_), Some(ended)) => from = from.max(ended),
                _ => return None,
            }
        }
        Some(from.min(full))
    }

    fn scene(&mut self, trip: usize, all: &[Held]) {
        let positions = self.course.dump_positions;
        let both = self.time(trip, DUMP.arrived).is_some() && self.time(trip, DUMP.taken).is_some();
        let taken = self.taken(trip, DUMP, Place::Dump, positions, all);
        // With several drop tanks a place may be free and the tank at it too full for the load: whoever finds
        // others there may have waited for room.
        let finds_others = positions > 1 && self.finds_others(trip, all);
        match taken {
            Some((wait, work)) if !finds_others => {
                self.wait(Place::Dump, trip, wait);
                self.reading(Step::DumpPosition, trip, work);
            }
            _ if both => self.untold(Step::DumpPosition, trip),
            _ => {}
        }
        self.between(Step::Dump, trip, Stamp::StartedDump, Stamp::Empty);
        self.between(Step::DumpClear, trip, Stamp::Empty, Stamp::LeftScene);
    }

    fn finds_others(&self, trip: usize, all: &[Held]) -> bool {
        let (Some(came), Some(taken)) =
            (self.time(trip, DUMP.arrived), self.time(trip, DUMP.taken))
        else {
            return false;
        };
        all.iter().any(|other| {
            other.trip != trip
                && other.is_perhaps_before(came, taken, self.course.dump_positions)
                && other.left.latest > came
        })
    }

    /// What a breakdown took is taken out of the step that it made longest.
    fn breakdowns(&mut self) {
        /// A step is held to be the one that broke down if it took this many times the usual. Judgement.
        const LONGER: f64 = 1.5;
        let all = std::mem::take(&mut self.found.readings);
        let usual = |of: &Reading| {
            let like =
                |other: &&Reading| other.step == of.step && other.site == of.site && !other.marked;
            middle(all.iter().filter(like).map(|other| other.minutes).collect())
        };
        let mut out = Vec::new();
        for (place, trip) in self.log.trips.iter().enumerate().filter(|(_, trip)| trip.breakdown) {
            let next = self.log.trips.get(place + 1).filter(|next| next.tanker == trip.tanker);
            let is_of_it = |one: &Reading| {
                let on_the_way = one.step == Step::DriveOut;
                let own = one.row == trip.row && !on_the_way;
                one.marked && (own || (on_the_way && next.is_some_and(|next| next.row == one.row)))
            };
            let longest = (0..all.len())
                .filter(|at| is_of_it(&all[*at]))
                .filter_map(|at| usual(&all[at]).map(|usual| (at, all[at].minutes - usual, usual)))
                .filter(|(at, beyond, usual)| {
                    all[*at].minutes > LONGER * usual && *beyond > 1.5 * self.log.grain
                })
                .max_by(|a, b| a.1.total_cmp(&b.1));
            out.extend(longest.map(|(at, ..)| at));
            self.found.breakdowns.push(Breakdown {
                row: trip.row,
                tanker: trip.tanker,
                cost: longest.map(|(at, beyond, _)| (all[at].step, beyond)),
                at: trip.at.iter().flatten().next_back().copied(),
            });
        }
        self.found.readings = (all.into_iter().enumerate())
            .filter(|(place, _)| !out.contains(place))
            .map(|(_, one)| one)
            .collect();
    }
}
