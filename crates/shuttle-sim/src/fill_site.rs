//! A fill site during a run: who is hooked up, who waits, and how the flow is shared.

use std::collections::VecDeque;

use crate::plan::{FillOrder, FillSite};
use crate::scene::SAME_LEVEL;
use crate::timers::SAME_INSTANT;

/// A tanker taking water.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Filling {
    pub tanker: usize,
    /// What it has taken so far, gal.
    pub taken: f64,
    /// What it still needs, gal.
    need: f64,
    /// The most it can take, gpm.
    limit: f64,
    /// What it gets now, gpm.
    rate: f64,
    full_at: f64,
}

/// A fill site's state.
#[derive(Debug)]
pub(crate) struct SiteState {
    flow: f64,
    order: FillOrder,
    /// Water left and the most it can hold, gal; `None`: no end to it.
    volume: Option<f64>,
    holds: f64,
    recharge: f64,
    positions: u32,
    at: f64,
    dry_at: f64,
    touched: bool,
    /// It went dry at this instant, and those who wait must be sent away.
    pub just_went_dry: bool,
    pub is_ready: bool,
    pub free_positions: u32,
    pub queue: VecDeque<usize>,
    /// In the order they began to fill.
    filling: Vec<Filling>,
    /// Tankers on the way to it or at it until disconnected.
    pub ahead: u32,
    /// The next time something happens here by itself.
    pub next: f64,
}

impl SiteState {
    pub fn new(site: &FillSite, tankers: usize) -> SiteState {
        SiteState {
            flow: site.flow,
            order: site.fill_order,
            volume: site.volume,
            holds: site.volume.unwrap_or(0.0),
            recharge: site.recharge,
            positions: site.positions,
            at: 0.0,
            dry_at: f64::INFINITY,
            touched: false,
            just_went_dry: false,
            is_ready: false,
            free_positions: site.positions,
            queue: VecDeque::with_capacity(tankers),
            filling: Vec::with_capacity(tankers.min(site.positions as usize)),
            ahead: 0,
            next: f64::INFINITY,
        }
    }

    pub fn reset(&mut self) {
        self.volume = self.volume.map(|_| self.holds);
        self.at = 0.0;
        self.dry_at = f64::INFINITY;
        self.touched = false;
        self.just_went_dry = false;
        self.is_ready = false;
        self.free_positions = self.positions;
        self.queue.clear();
        self.filling.clear();
        self.ahead = 0;
        self.next = f64::INFINITY;
    }

    /// Brings what has been taken up to `now`.
    pub fn advance(&mut self, now: f64) {
        let minutes = now - self.at;
        self.at = now;
        if minutes <= 0.0 {
            return;
        }
        let mut drawn = 0.0;
        for filling in &mut self.filling {
            let taken = filling.rate * minutes;
            filling.taken += taken;
            filling.need -= taken;
            drawn += taken;
        }
        if let Some(volume) = &mut self.volume {
            // A pond or cistern does not rise above what it held at the start.
            *volume = (*volume + self.recharge * minutes - drawn).min(self.holds);
        }
    }

    /// Whether it is empty and will stay so.
    pub fn is_dry_for_good(&self) -> bool {
        self.recharge == 0.0 && self.volume.is_some_and(|volume| volume <= 0.0)
    }

    /// Water to be had at `now`, gal; `None`: no end to it.
    pub fn water_left(&self, now: f64) -> Option<f64> {
        let drawn: f64 = self.filling.iter().map(|filling| filling.rate).sum();
        let change = (self.recharge - drawn) * (now - self.at);
        Some((self.volume? + change).min(self.holds))
    }

    /// Least minutes until the site can give `wanted` gallons; infinite if it never can.
    pub fn minutes_to_hold(&self, now: f64, wanted: f64) -> f64 {
        match self.water_left(now) {
            None => 0.0,
            Some(left) if left >= wanted - SAME_LEVEL => 0.0,
            Some(left) if self.recharge > 0.0 && self.holds >= wanted => {
                (wanted - left) / self.recharge
            }
            Some(_) => f64::INFINITY,
        }
    }

    pub fn begin_fill(&mut self, now: f64, tanker: usize, need: f64, limit: f64) {
        self.advance(now);
        self.touched = true;
        self.filling.push(Filling {
            tanker,
            taken: 0.0,
            need,
            limit,
            rate: 0.0,
            full_at: f64::INFINITY,
        });
    }

    /// A tanker that is full, or every tanker if the site has gone dry: taken off one by one.
    pub fn take_finished(&mut self, now: f64) -> Option<Filling> {
        if self.next > now + SAME_INSTANT {
            return None;
        }
        self.advance(now);
        self.touched = true;
        let dry = self.dry_at <= now + SAME_INSTANT;
        if dry {
            self.volume = Some(0.0);
            self.just_went_dry = true;
        }
        let place =
            (self.filling.iter()).position(|filling| dry || filling.full_at <= now + SAME_INSTANT);
        let Some(place) = place else {
            // Everything of this instant is done; the shares will say what is next.
            self.next = f64::INFINITY;
            return None;
        };
        let mut filling = self.filling.remove(place);
        if filling.full_at <= now + SAME_INSTANT {
            filling.taken += filling.need;
            if let Some(volume) = &mut self.volume {
                *volume = (*volume - filling.need).max(0.0);
            }
            filling.need = 0.0;
        }
        Some(filling)
    }

    /// Shares the flow anew if anything changed, and finds what happens next.
    pub fn solve(&mut self, now: f64) {
        if !self.touched {
            return;
        }
        self.touched = false;
        match self.order {
            FillOrder::Shared => self.share_fairly(),
            FillOrder::OneByOne => {
                let mut left = self.flow;
                for filling in &mut self.filling {
                    filling.rate = filling.limit.min(left);
                    left -= filling.rate;
                }
            }
        }
        self.next = f64::INFINITY;
        let mut drawn = 0.0;
        for filling in &mut self.filling {
            drawn += filling.rate;
            filling.full_at =
                if filling.need <= 0.0 { now } else { now + filling.need / filling.rate };
            self.next = self.next.min(filling.full_at);
        }
        self.dry_at = match self.volume {
            Some(volume) if drawn > self.recharge && !self.filling.is_empty() => {
                now + volume.max(0.0) / (drawn - self.recharge)
            }
            _ => f64::INFINITY,
        };
        self.next = self.next.min(self.dry_at);
    }

    /// Max-min fair: whoever can take less than an equal share takes all it can, the others share
    /// the rest equally.
    fn share_fairly(&mut self) {
        for filling in &mut self.filling {
            filling.rate = f64::NAN;
        }
        let (mut left, mut sharing) = (self.flow, self.filling.len());
        loop {
            let share = left / sharing as f64;
            let mut settled = false;
            for filling in &mut self.filling {
                if filling.rate.is_nan() && filling.limit <= share {
                    filling.rate = filling.limit;
                    left -= filling.limit;
                    sharing -= 1;
                    settled = true;
                }
            }
            if sharing == 0 {
                return;
            }
            if !settled {
                let share = left / sharing as f64;
                for filling in &mut self.filling {
                    if filling.rate.is_nan() {
                        filling.rate = share;
                    }
                }
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Leg;
    use crate::time_taken::TimeTaken;

    fn site(flow: f64, order: FillOrder) -> SiteState {
        let leg = Leg { miles: None, time: TimeTaken::NONE };
        SiteState::new(
            &FillSite {
                name: "Mill pond".into(),
                flow,
                positions: 3,
                ready: TimeTaken::NONE,
                fill_order: order,
                volume: None,
                recharge: 0.0,
                out: leg.clone(),
                back: leg,
            },
            3,
        )
    }

    fn rates(site: &mut SiteState, limits: &[f64]) -> Vec<f64> {
        for (tanker, limit) in limits.iter().enumerate() {
            site.begin_fill(0.0, tanker, 1000.0, *limit);
        }
        site.solve(0.0);
        site.filling.iter().map(|filling| filling.rate).collect()
    }

    #[test]
    fn what_one_cannot_take_goes_to_the_others() {
        let mut shared = site(1000.0, FillOrder::Shared);
        assert_eq!(rates(&mut shared, &[200.0, 900.0, 500.0]), [200.0, 400.0, 400.0]);
    }

    #[test]
    fn one_by_one_the_first_takes_all_it_can() {
        let mut in_turn = site(1000.0, FillOrder::OneByOne);
        assert_eq!(rates(&mut in_turn, &[700.0, 500.0, 500.0]), [700.0, 300.0, 0.0]);
    }
}
