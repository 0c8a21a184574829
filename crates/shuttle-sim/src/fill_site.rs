//! A fill site during a run: who is hooked up, who waits, and how the flow is shared.

use std::collections::VecDeque;

use crate::moment::Moment;
use crate::plan::{FillOrder, FillSite};
use crate::scene::SAME_LEVEL;

/// A tanker taking water.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Filling {
    pub tanker: usize,
    /// What a whole fill takes, gal.
    whole: f64,
    /// What it still needs, gal.
    need: f64,
    /// The most it can take, gpm.
    limit: f64,
    /// What it gets now, gpm.
    rate: f64,
    /// What it gets as shared last, gpm.
    shared: f64,
    full_at: Moment,
}

impl Filling {
    /// What it has taken, gal.
    pub fn taken(&self) -> f64 {
        self.whole - self.need
    }
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
    at: Moment,
    dry_at: Moment,
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
    pub next: Moment,
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
            at: Moment::ALARM,
            dry_at: Moment::NEVER,
            touched: false,
            just_went_dry: false,
            is_ready: false,
            free_positions: site.positions,
            queue: VecDeque::with_capacity(tankers),
            filling: Vec::with_capacity(tankers.min(site.positions as usize)),
            ahead: 0,
            next: Moment::NEVER,
        }
    }

    pub fn reset(&mut self) {
        self.volume = self.volume.map(|_| self.holds);
        self.at = Moment::ALARM;
        self.dry_at = Moment::NEVER;
        self.touched = false;
        self.just_went_dry = false;
        self.is_ready = false;
        self.free_positions = self.positions;
        self.queue.clear();
        self.filling.clear();
        self.ahead = 0;
        self.next = Moment::NEVER;
    }

    /// Brings what has been taken up to `now`.
    pub fn advance(&mut self, now: Moment) {
        if now <= self.at {
            return;
        }
        let minutes = now.since(self.at).span();
        self.at = now;
        let mut drawn = 0.0;
        for filling in &mut self.filling {
            let taken = filling.rate * minutes;
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
    pub fn water_left(&self, now: Moment) -> Option<f64> {
        let drawn: f64 = self.filling.iter().map(|filling| filling.rate).sum();
        let change = (self.recharge - drawn) * now.since(self.at).span();
        Some((self.volume? + change).min(self.holds))
    }

    /// Least minutes until the site can give `wanted` gallons; infinite if it never can.
    pub fn minutes_to_hold(&self, now: Moment, wanted: f64) -> f64 {
        match self.water_left(now) {
            None => 0.0,
            Some(left) if left >= wanted - SAME_LEVEL => 0.0,
            Some(left) if self.recharge > 0.0 && self.holds >= wanted => {
                (wanted - left) / self.recharge
            }
            Some(_) => f64::INFINITY,
        }
    }

    pub fn begin_fill(&mut self, now: Moment, tanker: usize, need: f64, limit: f64) {
        self.advance(now);
        self.touched = true;
        self.filling.push(Filling {
            tanker,
            whole: need,
            need,
            limit,
            rate: 0.0,
            shared: 0.0,
            full_at: Moment::NEVER,
        });
    }

    /// A tanker that is full, or every tanker if the site has gone dry: taken off one by one.
    pub fn take_finished(&mut self, now: Moment) -> Option<Filling> {
        if self.next > now {
            return None;
        }
        self.advance(now);
        self.touched = true;
        let dry = self.dry_at <= now;
        if dry {
            self.volume = Some(0.0);
            self.just_went_dry = true;
        }
        let place = (self.filling.iter()).position(|filling| dry || filling.full_at <= now);
        let Some(place) = place else {
            // Everything of this instant is done; the shares will say what is next.
            self.next = Moment::NEVER;
            return None;
        };
        let mut filling = self.filling.remove(place);
        if filling.full_at <= now {
            if let Some(volume) = &mut self.volume {
                *volume = (*volume - filling.need).max(0.0);
            }
            filling.need = 0.0;
        }
        Some(filling)
    }

    /// Shares the flow anew if anything changed, and finds what happens next.
    pub fn solve(&mut self, now: Moment) {
        if !self.touched {
            return;
        }
        self.touched = false;
        match self.order {
            FillOrder::Shared => self.share_fairly(),
            FillOrder::OneByOne => {
                let mut left = self.flow;
                for filling in &mut self.filling {
                    filling.shared = filling.limit.min(left);
                    left -= filling.shared;
                }
            }
        }
        self.next = Moment::NEVER;
        let mut drawn = 0.0;
        for filling in &mut self.filling {
            // Whoever gets what it got is full when it was to be full: nothing is rounded anew.
            if filling.rate != filling.shared {
                filling.rate = filling.shared;
                filling.full_at =
                    if filling.need <= 0.0 { now } else { now.after(filling.need / filling.rate) };
            }
            drawn += filling.rate;
            self.next = self.next.min(filling.full_at);
        }
        self.dry_at = match self.volume {
            Some(volume) if drawn > self.recharge && !self.filling.is_empty() => {
                now.after(volume.max(0.0) / (drawn - self.recharge))
            }
            _ => Moment::NEVER,
        };
        self.next = self.next.min(self.dry_at);
    }

    /// Max-min fair: whoever can take less than an equal share takes all it can, the others share
    /// the rest equally.
    fn share_fairly(&mut self) {
        for filling in &mut self.filling {
            filling.shared = f64::NAN;
        }
        let (mut left, mut sharing) = (self.flow, self.filling.len());
        loop {
            let share = left / sharing as f64;
            let mut settled = false;
            for filling in &mut self.filling {
                if filling.shared.is_nan() && filling.limit <= share {
                    filling.shared = filling.limit;
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
                    if filling.shared.is_nan() {
                        filling.shared = share;
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
            site.begin_fill(Moment::ALARM, tanker, 1000.0, *limit);
        }
        site.solve(Moment::ALARM);
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
