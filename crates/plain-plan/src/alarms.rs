//! The alarms that aid is on, as a chief writes them.

use scenario_file::Alarm;

use crate::amount::{Amount, unquoted};
use crate::first_plan::Tanker;

/// The words for each alarm.
const WORDS: [(Alarm, [&str; 3]); 5] = [
    (Alarm::First, ["first", "1st", "1"]),
    (Alarm::Second, ["second", "2nd", "2"]),
    (Alarm::Third, ["third", "3rd", "3"]),
    (Alarm::Fourth, ["fourth", "4th", "4"]),
    (Alarm::Fifth, ["fifth", "5th", "5"]),
];

/// The cure of a word that is no alarm.
pub(crate) const CURE: &str = "write first, second, third, fourth or fifth";

/// The alarm that is meant by a word: "second", "2nd alarm", "2".
pub(crate) fn alarm_of(typed: &str) -> Option<Alarm> {
    let plain = unquoted(typed).to_lowercase();
    let word = plain.trim().trim_end_matches("alarm").trim();
    WORDS.iter().find(|(_, words)| words.contains(&word)).map(|(alarm, _)| *alarm)
}

/// The alarms behind the first that these are on, each with the place of the one whose minute counts, and that minute:
/// the first that states one.
pub(crate) fn greater_alarms(aid: &[Tanker]) -> Vec<(Alarm, usize, &Amount)> {
    let greater = WORDS.iter().map(|(alarm, _)| *alarm).filter(|alarm| *alarm != Alarm::First);
    greater
        .filter_map(|alarm| {
            let on_it = aid.iter().enumerate().filter(|(_, one)| one.alarm == Some(alarm));
            on_it.filter_map(|(place, one)| Some((alarm, place, one.called_at.as_ref()?))).next()
        })
        .collect()
}

/// Whether a department is said to come whole; `None`: neither yes nor no.
pub(crate) fn yes_or_no(typed: &str) -> Option<bool> {
    match unquoted(typed).to_lowercase().trim() {
        "yes" | "y" | "x" => Some(true),
        "no" | "n" => Some(false),
        _ => None,
    }
}
