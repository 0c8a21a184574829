//! What the tanker boss judges and the event list, held against rows worked by hand.

mod boss;
mod calendar;
