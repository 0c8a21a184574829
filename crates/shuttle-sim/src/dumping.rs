//! Tankers emptying into one drop tank: what they could pour and what they may.
//!
//! While the drop tank has room each pours as it can. In a full drop tank they only follow what
//! leaves it, shared in proportion to their rates: the same pour, slowed down. With `s` the minutes
//! of unhindered pouring that have been done, each load follows its own unhindered course in `s`,
//! and the sum poured, P s - Q s^2, equals what left the tank. So the answer stays exact also for
//! several tankers that dump by gravity.

use crate::flow::{Flow, SAME_RATE};

/// How a load moves out.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Pour {
    /// At a steady rate, gpm.
    Steady { rate: f64 },
    /// By gravity: `full` is the greatest load plus the residual (v0), gal; unhindered that much
    /// would drain in `drains_in` minutes (T); `residual` is where the driver stops waiting, gal.
    Gravity { full: f64, drains_in: f64, residual: f64 },
}

impl Pour {
    /// By gravity, with `average` gpm over the first 90% of `full`.
    pub fn by_gravity(full: f64, residual: f64, average: f64) -> Pour {
        Pour::Gravity { full, drains_in: 0.9 * full / (average * (1.0 - 0.1_f64.sqrt())), residual }
    }
}

/// A tanker that is dumping.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Dumper {
    pub tanker: usize,
    pub tank: usize,
    pub load: f64,
    pub pour: Pour,
    /// When the load is gone, as far as is known now.
    pub empty_at: f64,
}

impl Dumper {
    /// Square root of the share of the full load that is left: falls evenly while pouring.
    fn root_left(&self, load: f64) -> f64 {
        match self.pour {
            Pour::Steady { .. } => 0.0,
            Pour::Gravity { full, residual, .. } => ((load + residual) / full).sqrt(),
        }
    }

    /// Minutes of unhindered pouring until the load is gone.
    pub fn unhindered_minutes(&self) -> f64 {
        match self.pour {
            Pour::Steady { rate } => self.load / rate,
            Pour::Gravity { drains_in, .. } => {
                drains_in * (self.root_left(self.load) - self.root_left(0.0))
            }
        }
    }

    /// Pours for `s` minutes of unhindered pouring.
    pub fn pour_for(&mut self, s: f64) {
        match self.pour {
            Pour::Steady { rate } => self.load -= rate * s,
            Pour::Gravity { full, drains_in, residual } => {
                let root = (self.root_left(self.load) - s / drains_in).max(0.0);
                self.load = full * root * root - residual;
            }
        }
    }
}

/// All that pours toward one drop tank at this moment: after `s` unhindered minutes
/// `rate s - bend s^2` gallons.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Pouring {
    rate: f64,
    bend: f64,
}

impl Pouring {
    pub fn add(&mut self, dumper: &Dumper) {
        match dumper.pour {
            Pour::Steady { rate } => self.rate += rate,
            Pour::Gravity { full, drains_in, .. } => {
                self.rate += 2.0 * full / drains_in * dumper.root_left(dumper.load);
                self.bend += full / (drains_in * drains_in);
            }
        }
    }

    /// The flow while nothing hinders it.
    pub fn unhindered(self) -> Flow {
        Flow { rate: self.rate, slope: -2.0 * self.bend }
    }

    /// Whether the drop tank stays full: as much could be poured as leaves it.
    pub fn is_held_to(self, leaving: Flow) -> bool {
        let gap = self.rate - leaving.rate;
        gap > SAME_RATE || (gap > -SAME_RATE && -2.0 * self.bend >= leaving.slope)
    }

    /// Minutes until so little could be poured that the drop tank no longer stays full.
    pub fn held_for(self, leaving: Flow) -> f64 {
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

    /// Unhindered minutes that pour `volume` gallons together.
    pub fn unhindered_minutes_for(self, volume: f64) -> f64 {
        if volume <= 0.0 {
            return 0.0;
        }
        let root = (self.rate * self.rate - 4.0 * self.bend * volume).max(0.0);
        2.0 * volume / (self.rate + root.sqrt())
    }

    /// Gallons poured together in `s` unhindered minutes.
    pub fn poured_in(self, s: f64) -> f64 {
        (self.rate - self.bend * s) * s
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gravity_empties_the_first_nine_tenths_at_the_stated_average() {
        // Torricelli: the root of what is left falls evenly in time.
        let mut dumper = Dumper {
            tanker: 0,
            tank: 0,
            load: 3000.0,
            pour: Pour::by_gravity(3000.0, 0.0, 1000.0),
            empty_at: 0.0,
        };
        let whole = dumper.unhindered_minutes();
        dumper.pour_for(2.7);
        assert!((dumper.load - 300.0).abs() < 1e-9, "{}", dumper.load);
        assert!((dumper.unhindered_minutes() - (whole - 2.7)).abs() < 1e-9);
    }

    #[test]
    fn a_held_pour_adds_up_to_what_leaves() {
        let mut dumpers = [
            Dumper {
                tanker: 0,
                tank: 0,
                load: 2000.0,
                pour: Pour::by_gravity(2600.0, 100.0, 1000.0),
                empty_at: 0.0,
            },
            Dumper {
                tanker: 1,
                tank: 0,
                load: 900.0,
                pour: Pour::Steady { rate: 700.0 },
                empty_at: 0.0,
            },
        ];
        let mut pouring = Pouring::default();
        dumpers.iter().for_each(|dumper| pouring.add(dumper));
        let leaving = Flow { rate: 400.0, slope: 3.0 };
        let s = pouring.unhindered_minutes_for(leaving.over(1.5));
        let before: f64 = dumpers.iter().map(|dumper| dumper.load).sum();
        dumpers.iter_mut().for_each(|dumper| dumper.pour_for(s));
        let after: f64 = dumpers.iter().map(|dumper| dumper.load).sum();
        assert!((before - after - leaving.over(1.5)).abs() < 1e-9);
    }
}
