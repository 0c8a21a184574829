//! Numbers of the plan as messages have them, in the units of the file.

use crate::errors::message::Part;
use crate::quantities::figures::{four_figures, plain};
use crate::quantities::quantity::{Quantity, Units};

/// Numbers of the plan in the units of the file.
#[derive(Clone, Copy)]
pub(super) struct Say(pub(super) Units);

impl Say {
    pub(super) fn quantity(self, quantity: Quantity, value: f64) -> Part {
        let shown = quantity.to_bare(value, self.0);
        // What a metric file states comes back as it was stated.
        let shown = if self.0 == Units::Metric { four_figures(shown) } else { shown };
        self.told(quantity, value, shown)
    }

    fn told(self, quantity: Quantity, value: f64, shown: f64) -> Part {
        let told = format!("{} {}", plain(shown), quantity.bare_unit(self.0));
        quantity.told(value, told.trim_end().to_string())
    }

    pub(super) fn volume(self, gal: f64) -> Part {
        self.quantity(Quantity::Volume, gal)
    }

    pub(super) fn flow(self, gpm: f64) -> Part {
        self.quantity(Quantity::Flow, gpm)
    }

    pub(super) fn time(self, min: f64) -> Part {
        self.quantity(Quantity::Time, min)
    }

    pub(super) fn whole(self, quantity: Quantity, value: f64) -> Part {
        self.told(quantity, value, quantity.to_bare(value, self.0).round())
    }

    pub(super) fn whole_volume(self, gal: f64) -> Part {
        self.whole(Quantity::Volume, gal)
    }

    pub(super) fn whole_flow(self, gpm: f64) -> Part {
        self.told(Quantity::Flow, gpm, Quantity::Flow.to_bare(gpm, self.0).floor())
    }
}

/// A number without a unit, its thousands separated.
pub(super) fn number(value: f64) -> Part {
    Quantity::Plain.show(value, Units::Us)
}

/// A moment in minutes after the alarm, whole.
pub(super) fn minute(at: f64) -> Part {
    Quantity::Time.told(at, plain(at.round()))
}
