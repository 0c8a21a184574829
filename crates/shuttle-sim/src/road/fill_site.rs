//! A fill site during a run: who is hooked up, who waits, and how the flow is shared.

use crate::plan::{FillOrder, FillSite};
use crate::scene::{SAME_LEVEL, SAME_RATE};
use crate::time::Moment;

/// A tanker taking water.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Filling {
    pub tanker: usize,
    /// What it takes in all, gal.
    whole: f64,
    /// What it still needs, gal.
    need: f64,
    /// The most it can take, gpm.
    limit: f64,
    /// Whether it fills itself, beside what the site gives.
    itself: bool,
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
    at: Moment,
    dry_at: Moment,
    touched: bool,
    pub is_ready: bool,
    /// Whether the pump that it waits for is known to stay away.
    pub is_without_pump: bool,
    /// Since when it has failed, while it has.
    pub failed: Option<Moment>,
    pub free_positions: u32,
    /// Who is on the way here, or here until disconnected, as listed.
    pub expected: Vec<usize>,
    /// Who waits for a position, first come first.
    pub queue: Vec<usize>,
    /// In the order they began to fill.
    filling: Vec<Filling>,
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
            at: Moment::ALARM,
            dry_at: Moment::NEVER,
            touched: false,
            is_ready: false,
            is_without_pump: false,
            failed: None,
            free_positions: site.positions,
            expected: Vec::with_capacity(tankers),
            queue: Vec::with_capacity(tankers),
            filling: Vec::with_capacity(tankers.min(site.positions as usize)),
            next: Moment::NEVER,
        }
    }

    pub fn reset(&mut self, site: &FillSite) {
        let [mut expected, mut queue] = [&mut self.expected, &mut self.queue].map(std::mem::take);
        let mut filling = std::mem::take(&mut self.filling);
        expected.clear();
        queue.clear();
        filling.clear();
        *self = SiteState { expected, queue, filling, ..SiteState::new(site, 0) };
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
            *volume = (*volume + self.recharge * minutes - drawn).clamp(0.0, self.holds);
        }
    }

    /// A tanker sets out for this site.
    pub fn expect(&mut self, tanker: usize) {
        let place = self.expected.partition_point(|other| *other < tanker);
        self.expected.insert(place, tanker);
    }

    /// It has failed and gives nothing, or works again.
    pub fn set_failed(&mut self, now: Moment, failed: Option<Moment>) {
        self.advance(now);
        self.touched = true;
        self.failed = failed;
    }

    /// Whether it is not ready, has run down or has failed.
    pub fn gives_less(&self) -> bool {
        !self.is_ready || self.is_dry() || self.failed.is_some()
    }

    pub fn is_dry(&self) -> bool {
        self.volume.is_some_and(|volume| volume <= 0.0)
    }

    /// Whether it is empty and will stay so.
    pub fn is_dry_for_good(&self) -> bool {
        self.recharge == 0.0 && self.is_dry()
    }

    /// Water to be had at `now`, gal; `None`: no end to it.
    pub fn water_left(&self, now: Moment) -> Option<f64> {
        let volume = self.volume?;
        let drawn: f64 = self.filling.iter().map(|filling| filling.rate).sum();
        let change = (self.recharge - drawn) * now.since(self.at).span();
        Some((volume + change).clamp(0.0, self.holds))
    }

    /// Minutes in which `gallons` more run in, unless it fills to the brim before; infinite if they never do.
    pub fn minutes_to_gain(&self, gallons: f64) -> f64 {
        if self.recharge > 0.0 { gallons / self.recharge } else { f64::INFINITY }
    }

    /// What a tanker that fills here still needs at `now`, gal.
    pub fn still_needs(&self, tanker: usize, now: Moment) -> f64 {
        let minutes = now.since(self.at).span();
        let filling = self.filling.iter().find(|filling| filling.tanker == tanker);
        filling.map_or(0.0, |filling| (filling.need - filling.rate * minutes).max(0.0))
    }

    /// - Given: `itself`, whether it fills itself, at its `limit` and beside what the site gives.
    pub fn begin_fill(&mut self, now: Moment, tanker: usize, need: f64, limit: f64, itself: bool) {
        self.advance(now);
        self.touched = true;
        let (rate, shared) = (0.0, 0.0);
        let full_at = Moment::NEVER;
        let whole = need;
        self.filling.push(Filling { tanker, whole, need, limit, itself, rate, shared, full_at });
    }

    /// Brings everything to now, when something happens. The shares will say what is next.
    pub fn settle(&mut self, now: Moment) {
        self.advance(now);
        self.touched = true;
        self.next = Moment::NEVER;
        if self.dry_at <= now {
            self.dry_at = Moment::NEVER;
            self.volume = Some(0.0);
        }
    }

    /// A tanker that is full, or every tanker if the site has gone dry for good: taken off one by one.
    pub fn take_finished(&mut self, now: Moment) -> Option<Filling> {
        let all_leave = self.is_dry_for_good();
        let place = self.filling.iter().position(|one| all_leave || one.full_at <= now)?;
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
    #[inline]
    pub fn solve(&mut self, now: Moment) {
        if self.touched {
            self.work_out_rates(now);
        }
    }

    fn work_out_rates(&mut self, now: Moment) {
        self.touched = false;
        // A pond drawn down gives what runs in: first to those who fill themselves.
        let mut water = if self.is_dry() { self.recharge } else { f64::INFINITY };
        for filling in self.filling.iter_mut().filter(|filling| filling.itself) {
            filling.shared = filling.limit.min(water);
            water -= filling.shared;
        }
        let flow = if self.failed.is_some() { 0.0 } else { self.flow.min(water) };
        match self.order {
            FillOrder::Shared => self.share_fairly(flow),
            FillOrder::OneByOne => {
                let mut left = flow;
                for filling in self.filling.iter_mut().filter(|filling| !filling.itself) {
                    filling.shared = filling.limit.min(left);
                    left -= filling.shared;
                }
            }
        }
        self.next = Moment::NEVER;
        let mut drawn = 0.0;
        for filling in &mut self.filling {
            // At an unchanged rate the moment stands as worked out before: nothing is rounded anew.
            if filling.need <= SAME_LEVEL {
                filling.full_at = now;
            } else if filling.rate != filling.shared {
                filling.full_at = now.after(filling.need / filling.shared);
            }
            filling.rate = filling.shared;
            drawn += filling.rate;
            self.next = self.next.min(filling.full_at);
        }
        self.dry_at = match self.volume {
            Some(volume) if drawn > self.recharge + SAME_RATE => {
                now.after(volume / (drawn - self.recharge))
            }
            _ if self.is_dry_for_good() && !self.filling.is_empty() => now,
            _ => Moment::NEVER,
        };
        self.next = self.next.min(self.dry_at);
    }

    /// Max-min fair: whoever can take less than an equal share takes all it can, the others share
    /// the rest equally.
    fn share_fairly(&mut self, flow: f64) {
        let (mut left, mut sharing) = (flow, 0);
        for filling in self.filling.iter_mut().filter(|filling| !filling.itself) {
            filling.shared = f64::NAN;
            sharing += 1;
        }
        if sharing == 0 {
            return;
        }
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
    use crate::plan::{Leg, TimeTaken};

    fn site(flow: f64, order: FillOrder) -> SiteState {
        let leg = Leg { miles: None, time: TimeTaken::NONE };
        SiteState::new(
            &FillSite {
                name: "Mill pond".into(),
                flow,
                pump: None,
                positions: 3,
                ready: TimeTaken::NONE,
                fill_order: order,
                volume: None,
                recharge: 0.0,
                failure: None,
                source_pump: None,
                self_fill: false,
                out: leg.clone(),
                back: leg,
            },
            3,
        )
    }

    fn rates(site: &mut SiteState, limits: &[f64]) -> Vec<f64> {
        for (tanker, limit) in limits.iter().enumerate() {
            site.begin_fill(Moment::ALARM, tanker, 1000.0, *limit, false);
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
