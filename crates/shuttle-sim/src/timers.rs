//! What is known to happen, in order.

/// Times closer than this are one instant, minutes. Far above rounding (about 1e-13), far below
/// anything an officer could mean.
pub(crate) const SAME_INSTANT: f64 = 1e-9;

/// Something that will happen at a time already known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Timer {
    /// This tanker has disconnected at its fill site, and its position becomes free.
    TankerLeavesSite(u32),
    /// What this tanker is doing is done, and another place becomes free.
    TankerFrees(u32),
    /// The attack engine reaches the scene.
    AttackEngineArrives,
    /// First water: the attack begins.
    FirstWater,
    /// The attack flow takes its step with this number.
    AttackFlowSteps(u32),
    /// The supply engine reaches the scene.
    SupplyEngineArrives,
    /// A drop tank with its own vehicle reaches the scene.
    DropTankArrives(u32),
    /// A drop tank is set up.
    DropTankReady(u32),
    /// The draft is hooked up.
    HookedUp,
    /// Prime is back.
    Reprimed,
    /// A fill site can serve.
    FillSiteReady(u32),
    /// What this tanker is doing is done, and it asks for a place or begins to move water.
    TankerGoesOn(u32),
}

impl Timer {
    /// The order within one instant: places are freed, equipment is made ready, places are asked
    /// for; within each, in the order above and then as listed in the plan.
    fn order(self) -> u64 {
        let (rank, place) = match self {
            Timer::TankerLeavesSite(tanker) => (0, tanker),
            Timer::TankerFrees(tanker) => (1, tanker),
            Timer::AttackEngineArrives => (2, 0),
            Timer::FirstWater => (3, 0),
            Timer::AttackFlowSteps(step) => (4, step),
            Timer::SupplyEngineArrives => (5, 0),
            Timer::DropTankArrives(tank) => (6, tank),
            Timer::DropTankReady(tank) => (7, tank),
            Timer::HookedUp => (8, 0),
            Timer::Reprimed => (9, 0),
            Timer::FillSiteReady(site) => (10, site),
            Timer::TankerGoesOn(tanker) => (11, tanker),
        };
        (rank << 32) | u64::from(place)
    }
}

/// Places in a block: few enough to look at all of them.
const BLOCK: usize = 16;

/// The timers that are running: at most one for each tanker and each piece of equipment, each with a
/// place of its own.
///
/// Places lie in blocks, and of each block the earliest time is kept. To set a timer touches nothing
/// else; to take the earliest looks through its block and through the blocks' earliest times.
#[derive(Debug, Default)]
pub(crate) struct Timers {
    /// When each place's timer runs out; infinite where none runs.
    times: Vec<[f64; BLOCK]>,
    /// The earliest of each block.
    earliest_in: Vec<f64>,
    /// The earliest of all, and its place.
    earliest: f64,
    earliest_place: usize,
    /// What each place will say.
    timers: Vec<Timer>,
    tankers: usize,
    tanks: usize,
    sites: usize,
    /// Those of the present instant, taken out.
    due: Vec<Timer>,
}

/// Places that are neither a tanker's, a drop tank's, a fill site's nor a flow step's.
const SINGLE_PLACES: usize = 4;

impl Timers {
    pub fn new(tankers: usize, tanks: usize, sites: usize, steps: usize) -> Timers {
        let places = tankers + tanks + sites + steps + SINGLE_PLACES;
        let blocks = places.div_ceil(BLOCK);
        Timers {
            times: vec![[f64::INFINITY; BLOCK]; blocks],
            earliest_in: vec![f64::INFINITY; blocks],
            earliest: f64::INFINITY,
            earliest_place: 0,
            timers: vec![Timer::FirstWater; places],
            tankers,
            tanks,
            sites,
            due: Vec::with_capacity(places),
        }
    }

    pub fn clear(&mut self) {
        self.times.fill([f64::INFINITY; BLOCK]);
        self.earliest_in.fill(f64::INFINITY);
        self.earliest = f64::INFINITY;
        self.due.clear();
    }

    fn place_of(&self, timer: Timer) -> usize {
        let equipment = self.tankers + SINGLE_PLACES;
        match timer {
            Timer::TankerLeavesSite(tanker)
            | Timer::TankerFrees(tanker)
            | Timer::TankerGoesOn(tanker) => tanker as usize,
            Timer::AttackEngineArrives => self.tankers,
            Timer::FirstWater => self.tankers + 1,
            Timer::SupplyEngineArrives => self.tankers + 2,
            Timer::HookedUp | Timer::Reprimed => self.tankers + 3,
            Timer::DropTankArrives(tank) | Timer::DropTankReady(tank) => equipment + tank as usize,
            Timer::FillSiteReady(site) => equipment + self.tanks + site as usize,
            Timer::AttackFlowSteps(step) => equipment + self.tanks + self.sites + step as usize,
        }
    }

    pub fn schedule(&mut self, time: f64, timer: Timer) {
        let place = self.place_of(timer);
        self.timers[place] = timer;
        let block = place / BLOCK;
        self.times[block][place % BLOCK] = time;
        self.earliest_in[block] = earlier(self.earliest_in[block], time);
        if time < self.earliest {
            self.earliest = time;
            self.earliest_place = place;
        }
    }

    /// When the next timer runs out.
    pub fn next(&self) -> f64 {
        self.earliest
    }

    /// Takes out the earliest.
    fn pop(&mut self) -> Timer {
        let place = self.earliest_place;
        let mut block = place / BLOCK;
        self.times[block][place % BLOCK] = f64::INFINITY;
        self.earliest = earliest_of(&self.times[block]);
        self.earliest_in[block] = self.earliest;
        for (other, time) in self.earliest_in.iter().enumerate() {
            if *time < self.earliest {
                self.earliest = *time;
                block = other;
            }
        }
        let in_block = self.times[block].iter().position(|time| *time == self.earliest);
        self.earliest_place = block * BLOCK + in_block.unwrap_or(0);
        self.timers[place]
    }

    /// The next of those that run out at this instant.
    pub fn take_due(&mut self, now: f64) -> Option<Timer> {
        let due = now + SAME_INSTANT;
        if self.due.is_empty() {
            if self.next() > due {
                return None;
            }
            let timer = self.pop();
            if self.next() > due {
                return Some(timer);
            }
            self.due.push(timer);
        }
        while self.next() <= due {
            let timer = self.pop();
            self.due.push(timer);
        }
        let (place, _) = (self.due.iter().enumerate()).min_by_key(|(_, timer)| timer.order())?;
        Some(self.due.swap_remove(place))
    }
}

fn earliest_of(times: &[f64; BLOCK]) -> f64 {
    // Four side by side, so that the machine can compare several at once.
    let mut four = [times[0], times[1], times[2], times[3]];
    for next in times.chunks_exact(4).skip(1) {
        for (least, time) in four.iter_mut().zip(next) {
            *least = earlier(*least, *time);
        }
    }
    earlier(earlier(four[0], four[1]), earlier(four[2], four[3]))
}

/// The earlier of two times; neither is ever no number.
pub(crate) fn earlier(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn within_one_instant_places_are_freed_before_they_are_asked_for() {
        let mut timers = Timers::new(3, 0, 0, 0);
        timers.schedule(0.3, Timer::TankerGoesOn(1));
        timers.schedule(0.1 + 0.2, Timer::TankerFrees(2));
        timers.schedule(0.3, Timer::HookedUp);
        timers.schedule(0.4, Timer::FirstWater);
        let now = timers.next();
        let order = std::iter::from_fn(|| timers.take_due(now)).collect::<Vec<_>>();
        assert_eq!(order, [Timer::TankerFrees(2), Timer::HookedUp, Timer::TankerGoesOn(1)]);
    }
}
