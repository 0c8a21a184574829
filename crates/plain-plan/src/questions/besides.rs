//! What may stand on a line behind the usual answers of a tanker: how often it comes, its alarm, its dump, all or none.

use std::io::{BufRead, Write};

use scenario_file::Alarm;

use super::tankers::Whose;
use super::{Asking, Halt};
use crate::alarms::{alarm_with_minute, put_on_alarm};
use crate::amount::Amount;
use crate::first_plan::{FirstPlan, alike, is_how_often};
use crate::sentences::Topic;

/// One of them.
#[derive(Debug, PartialEq)]
enum Besides {
    Often(Amount),
    ComesWhole,
    /// With its minute where that was said.
    Alarm(Alarm, Option<Amount>),
    /// The minutes it takes to dump its water.
    Empties(Amount),
}

/// Words for a department that comes whole. Common speech.
const ALL_OR_NONE: [&str; 6] =
    ["all or none", "all or nothing", "both or neither", "both or none", "comes whole", "whole"];
/// Words before the minutes of a dump.
const DUMPS: [&str; 6] = ["dumps", "dump", "empties", "in", "takes", "minutes"];

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    /// Takes what stands there; asks from when an alarm can be struck where nobody said it.
    pub(super) fn besides(&mut self, topic: Topic) -> Result<(), Halt> {
        let (whose, department) = match topic {
            Topic::Own(place) => (Whose::Own(place), None),
            Topic::Aid(place) => (Whose::Aid(place), self.plan.aid[place].department.as_ref()),
            _ => return Ok(()),
        };
        let (is_of_one, is_aid) = (department.is_some(), matches!(topic, Topic::Aid(_)));
        let mut asks_minute = false;
        while let Some(said) = self.prompt.said_besides(|typed| besides(typed, is_of_one, is_aid)) {
            let mut is_open = false;
            let is_taken = self.take(|plan| {
                match (said, whose) {
                    (Besides::Often(often), _) => whose.of(plan).turnout = Some(often),
                    (Besides::ComesWhole, _) => whose.of(plan).comes_whole = true,
                    (Besides::Empties(minutes), _) => whose.of(plan).empties_in = Some(minutes),
                    (Besides::Alarm(alarm, minute), Whose::Aid(place)) => {
                        is_open = put_on_alarm(plan, place, Some(alarm), minute);
                    }
                    (Besides::Alarm(..), Whose::Own(_)) => {}
                }
                Ok(())
            })?;
            asks_minute |= is_taken && is_open;
        }
        match (asks_minute, whose) {
            (true, Whose::Aid(place)) => self.called_at(place),
            _ => Ok(()),
        }
    }
}

/// - Given: whether a department is said, which alone can come whole; whether it is of the aid, which alone is on an alarm.
fn besides(typed: &str, is_of_one: bool, is_aid: bool) -> Option<Besides> {
    if is_of_one && ALL_OR_NONE.iter().any(|words| alike(words, typed)) {
        return Some(Besides::ComesWhole);
    }
    let lower = typed.to_lowercase();
    if is_aid && lower.contains("alarm") {
        return alarm_with_minute(typed).map(|(alarm, minute)| Besides::Alarm(alarm, minute));
    }
    if DUMPS[..3].iter().any(|word| lower.starts_with(word)) {
        let minutes: Vec<&str> =
            lower.split_whitespace().filter(|word| !DUMPS.contains(word)).collect();
        return Amount::typed(&minutes.join(" ")).ok().map(Besides::Empties);
    }
    is_how_often(typed).then(|| Amount::how_often(typed).ok().map(Besides::Often)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_alarm_and_a_dump_are_read_as_they_are_said() {
        let said = |typed: &str| besides(typed, true, true);
        let minutes = |minutes: f64| Some(Amount::plain(minutes));
        for (typed, minute) in [
            ("second alarm", None),
            ("2nd alarm", None),
            ("Second alarm, minute 15", minutes(15.0)),
            ("2nd alarm at 15", minutes(15.0)),
            ("second alarm 15", minutes(15.0)),
        ] {
            assert_eq!(said(typed), Some(Besides::Alarm(Alarm::Second, minute)), "{typed}");
        }
        for typed in ["dumps in 5", "dump 5", "empties in 5 minutes"] {
            assert_eq!(said(typed), minutes(5.0).map(Besides::Empties), "{typed}");
        }
        // A name, and what is no alarm of the run card.
        for typed in ["Tanker 5", "Alarm box", "big alarm 3", "Dumpling 2"] {
            assert_eq!(said(typed), None, "{typed}");
        }
    }
}
