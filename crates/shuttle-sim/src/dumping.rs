//! Tankers emptying into one drop tank: what they could pour and what they may.
//!
//! While the drop tank has room each pours as it can. In a full drop tank they only follow what
//! leaves it, shared in proportion to their rates: the same pour, slowed down. So each drop tank has a
//! pour clock that counts minutes of unhindered pouring. On it every load follows its own unhindered
//! course and is gone at a time known from the start; it runs with time while the drop tank has room,
//! and slower while the drop tank is full. In the next `s` of its minutes `rate s - bend s^2` gallons
//! are poured, so the answer stays exact also for several tankers that dump by gravity, and what one
//! change costs does not grow with the tankers that dump elsewhere.

use crate::flow::{Flow, SAME_RATE, most};

/// How a load moves out.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Pour {
    /// At a steady rate, gpm.
    Steady { rate: f64 },
    /// By gravity: the root of the share of `full` that is left falls evenly, to nothing in
    /// `drains_in` minutes (T); `full` is the greatest load plus the residual (v0), gal; at `root_end`
    /// only the residual is left, and the driver stops waiting.
    Gravity { full: f64, drains_in: f64, residual: f64, root_end: f64 },
}

impl Pour {
    /// By gravity, with `average` gpm over the first 90% of `full`.
    pub fn by_gravity(full: f64, residual: f64, average: f64) -> Pour {
        Pour::Gravity {
            full,
            drains_in: 0.9 * full / (average * (1.0 - 0.1_f64.sqrt())),
            residual,
            root_end: (residual / full).sqrt(),
        }
    }

    /// Minutes of unhindered pouring until a load is gone.
    fn minutes_for(self, load: f64) -> f64 {
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

/// So many tankers at one drop tank are added up anew at each change.
const FEW: usize = 8;

/// All that pours toward one drop tank.
#[derive(Debug, Default)]
pub(crate) struct Pouring {
    /// The pour clock, minutes.
    clock: f64,
    /// Who pours, the next to be empty first, behind those that are `gone`: who comes is mostly among the
    /// last to be, so few have to move.
    dumpers: Vec<Dumper>,
    gone: usize,
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
        self.gone = 0;
        self.add_up();
    }

    /// A tanker begins to pour.
    pub fn add(&mut self, tanker: usize, load: f64, pour: Pour) {
        let gone_at = self.clock + pour.minutes_for(load);
        if self.gone > 0 && self.dumpers.len() == self.dumpers.capacity() {
            self.dumpers.drain(..self.gone);
            self.gone = 0;
        }
        // Of those that are empty together the first to begin comes first.
        let before = self.pouring().iter().rposition(|other| other.gone_at <= gone_at);
        let place = before.map_or(0, |before| before + 1);
        let dumper = Dumper { tanker, pour, gone_at };
        self.dumpers.insert(self.gone + place, dumper);
        self.changed_by(dumper, 1.0);
    }

    /// Takes out the next to be empty: which tanker it is, and what it has poured beyond its load, gal
    /// (negative: what it has not poured of it).
    pub fn take_empty(&mut self) -> Option<(usize, f64)> {
        let dumper = *self.pouring().first()?;
        self.gone += 1;
        if self.gone == self.dumpers.len() {
            self.dumpers.clear();
            self.gone = 0;
        }
        self.changed_by(dumper, -1.0);
        Some((dumper.tanker, -dumper.pour.load_for(dumper.gone_at - self.clock)))
    }

    /// Runs the pour clock on by `s` of its minutes.
    pub fn run(&mut self, s: f64) {
        self.clock += s;
        self.rate -= 2.0 * self.bend * s;
    }

    #[inline]
    fn pouring(&self) -> &[Dumper] {
        &self.dumpers[self.gone..]
    }

    /// What is poured together, now that this one has come (1) or gone (-1). A few are added up anew,
    /// which rounds least, and so are those by gravity, whose sums would lose digits; of many at
    /// steady rates only the change is, which costs no more the more there are.
    fn changed_by(&mut self, dumper: Dumper, sign: f64) {
        if self.pouring().len() <= FEW || self.bend != 0.0 {
            return self.add_up();
        }
        let (rate, bend) = dumper.pours_at(self.clock);
        self.rate += sign * rate;
        self.bend += sign * bend;
    }

    fn add_up(&mut self) {
        (self.rate, self.bend) = (0.0, 0.0);
        for dumper in self.dumpers[self.gone..].iter().rev() {
            let (rate, bend) = dumper.pours_at(self.clock);
            self.rate += rate;
            self.bend += bend;
        }
    }

    /// Of the next to be empty: pour-clock minutes until its load is gone, never negative, and what it
    /// still has, gal. `None` if nobody pours.
    #[inline]
    pub fn first_rest(&self) -> Option<(f64, f64)> {
        let dumper = self.pouring().first()?;
        let rest = dumper.gone_at - self.clock;
        Some((most(rest, 0.0), dumper.pour.load_for(rest)))
    }

    /// What each that pours still has, gal.
    pub fn loads(&self) -> impl Iterator<Item = (usize, f64)> {
        (self.pouring().iter().rev())
            .map(|dumper| (dumper.tanker, dumper.pour.load_for(dumper.gone_at - self.clock)))
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
        pouring.loads().map(|(_, load)| load).sum()
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
    fn whoever_comes_and_goes_the_next_to_be_empty_is_first() {
        // A general-purpose sort says who is next; there is room for five, and the list never empties.
        let mut pouring = Pouring::new(5);
        let mut others: Vec<(f64, usize)> = Vec::new();
        for tanker in 0..200 {
            let load = 300.0 + (tanker * 7919 % 101) as f64 * 10.0;
            pouring.add(tanker, load, Pour::Steady { rate: 500.0 });
            others.push((pouring.clock + load / 500.0, tanker));
            others.sort_by(|one, other| one.0.total_cmp(&other.0));
            if others.len() == 3 {
                let (s, _) = pouring.first_rest().expect("three pour");
                pouring.run(s);
                assert_eq!(pouring.take_empty().expect("three pour").0, others.remove(0).1);
                let together: f64 = pouring.pouring().iter().map(|_| 500.0).sum();
                assert_eq!(pouring.unhindered(), Flow::steady(together));
            }
        }
        assert_eq!(pouring.pouring().len(), 2);
        assert_eq!(pouring.dumpers.capacity(), 5);
    }

    #[test]
    fn of_those_empty_together_the_first_to_begin_comes_out_first() {
        let mut pouring = Pouring::new(3);
        for tanker in [2, 0, 1] {
            pouring.add(tanker, 1000.0, Pour::Steady { rate: 500.0 });
        }
        pouring.run(2.0);
        let order = std::iter::from_fn(|| Some(pouring.take_empty()?.0)).collect::<Vec<_>>();
        assert_eq!(order, [2, 0, 1]);
    }

    #[test]
    fn the_first_to_be_empty_comes_out_first() {
        let mut pouring = Pouring::new(3);
        for (tanker, load) in [(0, 1500.0), (1, 500.0), (2, 1000.0)] {
            pouring.add(tanker, load, Pour::Steady { rate: 1000.0 });
        }
        pouring.run(0.5);
        assert_eq!(pouring.first_rest(), Some((0.0, 0.0)));
        let order = std::iter::from_fn(|| Some(pouring.take_empty()?.0)).collect::<Vec<_>>();
        assert_eq!(order, [1, 2, 0]);
        assert_eq!(pouring.unhindered(), Flow::NONE);
    }
}
