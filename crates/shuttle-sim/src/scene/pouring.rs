//! Tankers emptying into one drop tank: what they could pour and what they may.
//!
//! While the drop tank has room each pours as it can. In a full drop tank they only follow what
//! leaves it, shared in proportion to their rates: the same pour, slowed down. So each drop tank has a
//! pour clock that counts minutes of unhindered pouring. On it every load follows its own unhindered
//! course and is gone at a time known from the start; it runs with time while the drop tank has room,
//! and slower while the drop tank is full. In the next `s` of its minutes `rate s - bend s^2` gallons
//! are poured, so the answer stays exact also for several tankers that dump by gravity.

use super::flow::{Flow, SAME_RATE};

/// How a load moves out.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Pour {
    /// At a steady rate, gpm.
    Steady { rate: f64 },
    /// By gravity: the root of the share of `full` that is left falls evenly, to nothing in
    /// `drains_in` minutes (T); `full` is the full load plus the residual (v0), gal; at `root_end`
    /// only the residual is left, and the driver stops waiting.
    Gravity { full: f64, drains_in: f64, residual: f64, root_end: f64 },
}

impl Pour {
    /// By gravity, with `average` gpm over the first 90% of `full` (how the apparatus standards state a
    /// dump rate; Torricelli's law gives the rest).
    pub fn by_gravity(full: f64, residual: f64, average: f64) -> Pour {
        Pour::Gravity {
            full,
            drains_in: 0.9 * full / (average * (1.0 - 0.1_f64.sqrt())),
            residual,
            root_end: (residual / full).sqrt(),
        }
    }

    /// Minutes of unhindered pouring until a load is gone.
    pub fn minutes_for(self, load: f64) -> f64 {
        match self {
            Pour::Steady { rate } => load / rate,
            Pour::Gravity { full, drains_in, residual, root_end } => {
                drains_in * (((load + residual) / full).sqrt() - root_end)
            }
        }
    }

    /// The load that is gone after `minutes` of unhindered pouring.
    fn load_for(self, minutes: f64) -> f64 {
        match self {
            Pour::Steady { rate } => rate * minutes,
            Pour::Gravity { full, drains_in, residual, root_end } => {
                let root = root_end + minutes / drains_in;
                full * root * root - residual
            }
        }
    }
}

/// A tanker that is dumping.
#[derive(Debug, Clone, Copy)]
struct Dumper {
    tanker: usize,
    pour: Pour,
    /// When its load is gone, on its drop tank's pour clock.
    gone_at: f64,
}

impl Dumper {
    /// What it still has once the pour clock stands there, gal.
    fn rest_at(&self, clock: f64) -> f64 {
        self.pour.load_for(self.gone_at - clock)
    }

    /// What it pours at this time of the pour clock, and how that falls.
    fn pours_at(&self, clock: f64) -> (f64, f64) {
        match self.pour {
            Pour::Steady { rate } => (rate, 0.0),
            Pour::Gravity { full, drains_in, root_end, .. } => {
                let root = root_end + (self.gone_at - clock) / drains_in;
                (2.0 * full / drains_in * root, full / (drains_in * drains_in))
            }
        }
    }
}

/// All that pours toward one drop tank.
#[derive(Debug, Default)]
pub(crate) struct Pouring {
    /// The pour clock, minutes.
    clock: f64,
    /// The next to be empty first; of those empty together, the first to begin.
    dumpers: Vec<Dumper>,
    rate: f64,
    bend: f64,
}

impl Pouring {
    /// Room for so many tankers at once.
    pub fn new(most: usize) -> Pouring {
        Pouring { dumpers: Vec::with_capacity(most), ..Pouring::default() }
    }

    pub fn reset(&mut self) {
        self.clock = 0.0;
        self.dumpers.clear();
        self.add_up();
    }

    pub fn is_idle(&self) -> bool {
        self.dumpers.is_empty()
    }

    /// A tanker begins to pour.
    pub fn add(&mut self, tanker: usize, load: f64, pour: Pour) {
        let gone_at = self.clock + pour.minutes_for(load);
        let place = self.dumpers.partition_point(|other| other.gone_at <= gone_at);
        self.dumpers.insert(place, Dumper { tanker, pour, gone_at });
        self.add_up();
    }

    /// Takes out the next to be empty: which tanker it is, and what it has poured beyond its load, gal
    /// (negative: what it has not poured of it).
    pub fn take_empty(&mut self) -> Option<(usize, f64)> {
        if self.dumpers.is_empty() {
            return None;
        }
        let dumper = self.dumpers.remove(0);
        self.add_up();
        Some((dumper.tanker, -dumper.rest_at(self.clock)))
    }

    /// Takes out a tanker that leaves before it is empty; returns what it still has, gal.
    pub fn take(&mut self, tanker: usize) -> f64 {
        let place = self.dumpers.iter().position(|dumper| dumper.tanker == tanker);
        let place = place.unwrap_or_else(|| unreachable!("tanker {tanker} does not pour here"));
        let dumper = self.dumpers.remove(place);
        self.add_up();
        dumper.rest_at(self.clock).max(0.0)
    }

    /// Runs the pour clock on by `s` of its minutes.
    pub fn run(&mut self, s: f64) {
        self.clock += s;
        self.rate -= 2.0 * self.bend * s;
    }

    fn add_up(&mut self) {
        (self.rate, self.bend) = (0.0, 0.0);
        for dumper in &self.dumpers {
            let (rate, bend) = dumper.pours_at(self.clock);
            self.rate += rate;
            self.bend += bend;
        }
    }

    /// Of the next to be empty: pour-clock minutes until its load is gone, never negative, and what it
    /// still has, gal. `None` if nobody pours.
    pub fn first_rest(&self) -> Option<(f64, f64)> {
        let dumper = self.dumpers.first()?;
        Some(((dumper.gone_at - self.clock).max(0.0), dumper.rest_at(self.clock)))
    }

    /// What each that pours still has once the pour clock has run on by `s`, gal.
    pub fn rests_after(&self, s: f64) -> impl Iterator<Item = (usize, f64)> {
        let clock = self.clock + s;
        self.dumpers.iter().map(move |dumper| (dumper.tanker, dumper.rest_at(clock)))
    }

    /// The flow while nothing hinders it.
    pub fn unhindered(&self) -> Flow {
        Flow { rate: self.rate, slope: -2.0 * self.bend }
    }

    /// Whether the drop tank stays full: as much could be poured as leaves it.
    pub fn is_held_to(&self, leaving: Flow) -> bool {
        let gap = self.rate - leaving.rate;
        gap > SAME_RATE || (gap > -SAME_RATE && -2.0 * self.bend >= leaving.slope)
    }

    /// Minutes until so little could be poured that the drop tank no longer stays full.
    pub fn held_for(&self, leaving: Flow) -> f64 {
        if (self.bend == 0.0 || leaving.rate <= 0.0) && leaving.slope <= 0.0 {
            return f64::INFINITY;
        }
        // P^2 - 4 Q M(t) = leaving(t)^2, with M the integral of what leaves.
        let (p, q, out, slope) = (self.rate, self.bend, leaving.rate, leaving.slope);
        let a = slope * slope + 2.0 * q * slope;
        let b = 2.0 * out * slope + 4.0 * q * out;
        let c = out * out - p * p;
        if a.abs() < 1e-12 * b.abs() {
            return if b > 0.0 { -c / b } else { f64::INFINITY };
        }
        let discriminant = b * b - 4.0 * a * c;
        if discriminant < 0.0 {
            return f64::INFINITY;
        }
        let root = -0.5 * (b + discriminant.sqrt().copysign(b));
        ([root / a, c / root].into_iter().filter(|t| *t > 0.0)).fold(f64::INFINITY, f64::min)
    }

    /// Pour-clock minutes in which `volume` gallons are poured.
    pub fn minutes_for(&self, volume: f64) -> f64 {
        if volume <= 0.0 {
            return 0.0;
        }
        if self.bend == 0.0 {
            return volume / self.rate;
        }
        let root = (self.rate * self.rate - 4.0 * self.bend * volume).max(0.0);
        2.0 * volume / (self.rate + root.sqrt())
    }

    /// Gallons poured in the next `s` minutes of the pour clock.
    pub fn poured_in(&self, s: f64) -> f64 {
        (self.rate - self.bend * s) * s
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn loads(pouring: &Pouring) -> f64 {
        pouring.rests_after(0.0).map(|(_, load)| load).sum()
    }

    #[test]
    fn gravity_empties_the_first_nine_tenths_at_the_stated_average() {
        // Torricelli: the root of what is left falls evenly in time.
        let mut pouring = Pouring::new(1);
        pouring.add(0, 3000.0, Pour::by_gravity(3000.0, 0.0, 1000.0));
        let whole = pouring.first_rest().expect("one pours").0;
        pouring.run(2.7);
        assert!((loads(&pouring) - 300.0).abs() < 1e-9, "{}", loads(&pouring));
        let left = pouring.first_rest().expect("one pours").0;
        assert!((left - (whole - 2.7)).abs() < 1e-9);
    }

    #[test]
    fn a_held_pour_adds_up_to_what_leaves() {
        let mut pouring = Pouring::new(2);
        pouring.add(0, 2000.0, Pour::by_gravity(2600.0, 100.0, 1000.0));
        pouring.add(1, 900.0, Pour::Steady { rate: 700.0 });
        let leaving = Flow { rate: 400.0, slope: 3.0 };
        let before = loads(&pouring);
        pouring.run(pouring.minutes_for(leaving.over(1.5)));
        assert!((before - loads(&pouring) - leaving.over(1.5)).abs() < 1e-9);
        // The sums kept as the clock runs are those of the loads that are left.
        let (rate, bend) = (pouring.rate, pouring.bend);
        pouring.add_up();
        assert!((pouring.rate - rate).abs() < 1e-9 && pouring.bend == bend);
    }

    #[test]
    fn the_next_to_be_empty_comes_out_first_and_of_equals_the_first_to_begin() {
        let mut pouring = Pouring::new(4);
        for (tanker, load) in [(3, 1000.0), (0, 1500.0), (2, 500.0), (1, 1000.0)] {
            pouring.add(tanker, load, Pour::Steady { rate: 500.0 });
        }
        pouring.run(1.0);
        assert_eq!(pouring.take(0), 1000.0);
        pouring.run(2.0);
        let order = std::iter::from_fn(|| Some(pouring.take_empty()?.0)).collect::<Vec<_>>();
        assert_eq!(order, [2, 3, 1]);
        assert_eq!(pouring.unhindered(), Flow::NONE);
    }
}
