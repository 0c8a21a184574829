//! The alarms that aid is on, as a chief writes them.

use scenario_file::Alarm;

use crate::amount::{Amount, unquoted};
use crate::first_plan::{FirstPlan, Tanker};

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

/// The alarm and its minute that are meant by "second alarm 15", "2nd alarm at minute 15", "second 15", or the alarm alone.
///
/// - Returns: `None` where no alarm is named first.
pub(crate) fn alarm_with_minute(typed: &str) -> Option<(Alarm, Option<Amount>)> {
    const BETWEEN: [&str; 6] = ["alarm", "at", "from", "minute", "on", "the"];
    let plain = unquoted(typed).to_lowercase();
    let words = plain.split([' ', ',', ':']).filter(|word| !word.is_empty());
    let mut words = words.filter(|word| !BETWEEN.contains(word));
    let alarm = alarm_of(words.next()?)?;
    match words.collect::<Vec<_>>().join(" ").as_str() {
        "" => Some((alarm, None)),
        minute => Some((alarm, Some(Amount::typed(minute).ok()?))),
    }
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

/// Puts one of the aid on an alarm, or has it called by itself again.
///
/// - Given: from which minute the alarm can be struck, where that was said; else it is what others on it say.
/// - Returns: whether nobody said the minute: it is taken as ten until it is asked.
pub(crate) fn put_on_alarm(
    plan: &mut FirstPlan,
    place: usize,
    alarm: Option<Alarm>,
    minute: Option<Amount>,
) -> bool {
    plan.aid[place].alarm = None;
    let known = greater_alarms(&plan.aid).into_iter().find(|(one, ..)| Some(*one) == alarm);
    let known = known.map(|(.., minute)| minute.clone());
    let is_open = alarm.is_some_and(|alarm| alarm != Alarm::First);
    let is_unsaid = is_open && minute.is_none() && known.is_none();
    plan.aid[place].called_at = match alarm {
        None => Some(Amount::plain(0.0)),
        Some(Alarm::First) => None,
        Some(_) => minute.clone().or(known).or(Some(Amount::plain(10.0))),
    };
    plan.aid[place].alarm = alarm;
    // One minute for all that are on it.
    if let Some(minute) = minute.filter(|_| is_open) {
        let on_it = plan.aid.iter_mut().filter(|one| one.alarm == alarm);
        on_it.for_each(|one| one.called_at = Some(minute.clone()));
    }
    is_unsaid
}

/// Whether a department is said to come whole; `None`: neither yes nor no.
pub(crate) fn yes_or_no(typed: &str) -> Option<bool> {
    match unquoted(typed).to_lowercase().trim() {
        "yes" | "y" | "x" => Some(true),
        "no" | "n" => Some(false),
        _ => None,
    }
}
