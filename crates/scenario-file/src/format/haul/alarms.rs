//! The alarms of a run card.

use crate::format::tables::{object, words};
use crate::format::takes::Choice;
use crate::format::values::durations::MINUTES;

/// An alarm of a run card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Alarm {
    /// The alarm itself.
    First,
    /// The second alarm.
    Second,
    /// The third alarm.
    Third,
    /// The fourth alarm.
    Fourth,
    /// The fifth alarm.
    Fifth,
}

impl Alarm {
    /// All of them, in their order.
    pub const ALL: [Alarm; 5] =
        [Alarm::First, Alarm::Second, Alarm::Third, Alarm::Fourth, Alarm::Fifth];

    /// Its word in a scenario.
    pub fn key(self) -> &'static str {
        self.word()
    }
}

// The first is struck with the alarm itself. Common practice: greater alarms are numbered.
words! {
    Alarm {
        First = "first": "With the alarm.",
        Second = "second": "At the minute of the second alarm.",
        Third = "third": "At the minute of the third alarm.",
        Fourth = "fourth": "At the minute of the fourth alarm.",
        Fifth = "fifth": "At the minute of the fifth alarm.",
    }
}

object! {
    /// When greater alarms are struck.
    pub(crate) static ALARMS: OfAlarms {
        what: "the alarms",
        def: "alarms",
        doc: "When the greater alarms can be struck at the earliest, minutes after the alarm; the first is the alarm itself.",
        rows: {
            SECOND: Option<f64> = optional(
                "second",
                MINUTES,
                "there is none.",
                "The second alarm.",
            ),
            THIRD: Option<f64> = optional(
                "third",
                MINUTES,
                "there is none.",
                "The third alarm.",
            ),
            FOURTH: Option<f64> = optional(
                "fourth",
                MINUTES,
                "there is none.",
                "The fourth alarm.",
            ),
            FIFTH: Option<f64> = optional(
                "fifth",
                MINUTES,
                "there is none.",
                "The fifth alarm.",
            ),
        },
        rules: &[],
        strays: &[("first", "the first alarm is the alarm itself, minute 0: leave it out")],
    }
}
