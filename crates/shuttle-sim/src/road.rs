//! The road: which fill site, which way, and the one-lane stretches between.

use crate::draws::Purpose;
use crate::engine::Shuttle;
use crate::moment::Ticks;
use crate::one_lane::Way;
use crate::phase::Phase;
use crate::ready::Expected;

/// Expected times closer than this are the same, minutes.
const SAME_TIME: f64 = 1e-9;

/// The least time after which a tanker standing by looks for water again, minutes.
const MOMENT: f64 = 0.1;

/// Where on the way.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Stretch {
    /// A one-lane stretch at the near end, if there is one.
    First,
    /// The open road.
    Road,
    /// A one-lane stretch at the far end, if there is one.
    Last,
    /// Arrived.
    There,
}

impl Shuttle {
    /// Drives to the site it is assigned to, or the one with the least expected time back.
    pub(crate) fn leave_for_site(&mut self, tanker: usize) {
        match self.choose_site(tanker) {
            Ok(site) => {
                self.sites[site].ahead += 1;
                self.travel(tanker, Way::Out, site, Stretch::First);
            }
            Err(minutes) => {
                self.out_of_service += 1;
                if minutes.is_finite() {
                    self.enter_for(tanker, Phase::StandBy, Ticks::of(minutes));
                } else {
                    self.enter(tanker, Phase::StandBy);
                }
            }
        }
    }

    /// - Errors: minutes after which to look again, where no site can give half its capacity.
    fn choose_site(&mut self, tanker: usize) -> Result<usize, f64> {
        let ready = &self.ready.tankers[tanker];
        if let Some(site) = ready.fill_site {
            return Ok(site);
        }
        let (mut best, mut look_again) = (None, f64::INFINITY);
        for (place, site) in self.sites.iter().enumerate() {
            let wait = site.minutes_to_hold(self.now, 0.5 * ready.capacity);
            if wait > 0.0 {
                // Never at once: the water must have had time to run in.
                look_again = look_again.min(wait.max(MOMENT));
                continue;
            }
            let Expected { road, at_position, .. } = ready.expects[place];
            let turns = 1 + site.ahead / self.ready.sites[place].positions;
            let expected = road + at_position * f64::from(turns);
            if best.is_none_or(|(least, _)| expected < least - SAME_TIME) {
                best = Some((expected, place));
            }
        }
        best.map(|(_, place)| place).ok_or(look_again)
    }

    /// Takes the next stretch of the road.
    pub(crate) fn travel(&mut self, tanker: usize, way: Way, site: usize, stretch: Stretch) {
        let ends_at_a_lane = match (stretch, way) {
            _ if self.lanes.is_empty() => None,
            (Stretch::First, Way::Out) | (Stretch::Last, Way::Back) => self.ready.scene_lane,
            (Stretch::First, Way::Back) | (Stretch::Last, Way::Out) => self.ready.sites[site].lane,
            (Stretch::Road | Stretch::There, _) => None,
        };
        match (ends_at_a_lane, stretch) {
            (Some(lane), _) => self.ask_for_lane(tanker, lane, way, site),
            (None, Stretch::First | Stretch::Road) => self.drive(tanker, way, site),
            (None, Stretch::Last | Stretch::There) => self.arrive(tanker, way, site),
        }
    }

    /// Takes the open road.
    fn drive(&mut self, tanker: usize, way: Way, site: usize) {
        match way {
            Way::Out => self.drive_out(tanker, site),
            Way::Back => self.drive_back(tanker, site),
        }
    }

    pub(crate) fn drive_out(&mut self, tanker: usize, site: usize) {
        let time = self.draw(tanker, &self.ready.sites[site].out, Purpose::TravelOut);
        self.enter_for(tanker, Phase::TravelOut { site }, time);
    }

    pub(crate) fn drive_back(&mut self, tanker: usize, site: usize) {
        let time = self.draw(tanker, &self.ready.sites[site].back, Purpose::TravelBack);
        self.enter_for(tanker, Phase::TravelBack { site }, time);
    }

    fn arrive(&mut self, tanker: usize, way: Way, site: usize) {
        match way {
            Way::Out => self.arrive_at_site(tanker, site),
            Way::Back => self.join_scene_queue(tanker),
        }
    }

    pub(crate) fn arrive_at_site(&mut self, tanker: usize, site: usize) {
        if self.sites[site].is_dry_for_good() {
            self.leave_dry_site(tanker, site);
        } else {
            self.enter(tanker, Phase::FillQueue { site });
            self.waiting_to_fill += 1;
            self.sites[site].queue.push_back(tanker);
            self.places_moved = true;
        }
    }

    /// The stretch it was on is behind it.
    pub(crate) fn travel_from(&mut self, tanker: usize, way: Way, site: usize, done: Stretch) {
        let next = match done {
            Stretch::First => Stretch::Road,
            Stretch::Road => Stretch::Last,
            Stretch::Last | Stretch::There => Stretch::There,
        };
        self.travel(tanker, way, site, next);
    }

    fn ask_for_lane(&mut self, tanker: usize, lane: usize, way: Way, site: usize) {
        if self.lanes[lane].ask(tanker, way, self.now) {
            self.cross(tanker, lane, way, site);
        } else {
            self.enter(tanker, Phase::LaneWait { lane, way, site });
        }
    }

    fn cross(&mut self, tanker: usize, lane: usize, way: Way, site: usize) {
        let by_scene = self.ready.scene_lane == Some(lane);
        let purpose = match (way, by_scene) {
            (Way::Out, true) => Purpose::CrossSceneOut,
            (Way::Out, false) => Purpose::CrossSiteOut,
            (Way::Back, false) => Purpose::CrossSiteBack,
            (Way::Back, true) => Purpose::CrossSceneBack,
        };
        let time = self.draw(tanker, &self.ready.lanes[lane], purpose);
        self.enter_for(tanker, Phase::LaneCross { lane, way, site }, time);
    }

    pub(crate) fn crossed(&mut self, tanker: usize, lane: usize, way: Way, site: usize) {
        self.lanes[lane].leave();
        while let Some(next) = self.lanes[lane].next_in() {
            let Phase::LaneWait { lane, way, site } = self.tankers[next].phase else {
                unreachable!("tanker {next} stood in line for a road it did not wait for");
            };
            self.cross(next, lane, way, site);
        }
        let by_scene = self.ready.scene_lane == Some(lane);
        let done = if by_scene == (way == Way::Out) { Stretch::First } else { Stretch::Last };
        self.travel_from(tanker, way, site, done);
    }

    /// Drives back with nothing.
    pub(crate) fn leave_dry_site(&mut self, tanker: usize, site: usize) {
        self.sites[site].ahead -= 1;
        self.tankers[tanker].load = 0.0;
        self.tankers[tanker].waste = 0.0;
        self.travel(tanker, Way::Back, site, Stretch::First);
    }
}
