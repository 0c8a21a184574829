//! A log that has been read: trips with their times.

use crate::guesses::Guess;
use crate::stamp::Stamp;

/// What minute 0 of a log is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Zero {
    /// A time of the day, seconds after midnight.
    OfDay(f64),
    /// The moment a stopwatch was started.
    Stopwatch,
}

/// A trip of a tanker: one row.
#[derive(Debug, Clone, PartialEq)]
pub struct Trip {
    /// Its row in the file.
    pub row: usize,
    /// The tanker, by its place in the course.
    pub tanker: usize,
    /// Its number, where one is written.
    pub number: Option<u32>,
    /// The fill site, by its place in the course; `None` where the row does not say, and has no times there.
    pub site: Option<usize>,
    /// Minutes after the log's minute 0, by [`Stamp`]; `None` where nothing was written.
    pub at: [Option<f64>; 8],
    /// Marked as a trip with a breakdown.
    pub breakdown: bool,
    /// Its load was pumped straight into the engine, not dumped.
    pub nursed: bool,
    /// What else was written, as it stands.
    pub remark: Option<String>,
}

impl Trip {
    /// The minute of a stamp.
    pub fn time(&self, stamp: Stamp) -> Option<f64> {
        self.at[stamp as usize]
    }
}

/// A log.
#[derive(Debug, Clone, PartialEq)]
pub struct Log {
    /// Tanker by tanker in the order of the course, and each in the order of its trips.
    pub trips: Vec<Trip>,
    /// What minute 0 is: the first time in the log, or the start of a stopwatch.
    pub zero: Zero,
    /// All times are whole multiples of this, minutes: 1 where they were written to the minute, 1/60 to the
    /// second.
    pub grain: f64,
    /// What was assumed in reading it.
    pub guesses: Vec<Guess>,
}

impl Log {
    /// Standard deviation of the error that writing times to the grain brings into the difference of two of
    /// them, minutes: each is off by a uniform error as wide as the grain, whose variance is its square / 12.
    pub fn reading_error(&self) -> f64 {
        self.grain / 6.0_f64.sqrt()
    }

    /// The last time in it, minutes after its minute 0.
    pub fn last(&self) -> f64 {
        self.trips.iter().flat_map(|trip| trip.at).flatten().fold(0.0, f64::max)
    }
}
