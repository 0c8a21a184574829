//! Figures of answers in words: flows, times, lengths, percentages, differences.

use shuttle_report::options_compared::Apart;
use shuttle_report::units::Units;
use shuttle_sim::Plan;

use crate::answer_text::{Words, wrapped};

/// "Hay barn, Quarry Lane: 500 gpm for 2 hours, three tankers".
pub fn headline(plan: &Plan, units: Units, words: Words) -> String {
    let facts = plan.facts();
    let peak = (facts.incident.attack_flow.iter()).fold(0.0_f64, |most, step| most.max(step.flow));
    let up_to = if facts.incident.attack_flow.len() > 1 { "up to " } else { "" };
    wrapped(&format!(
        "{}: {up_to}{} for {}, {}",
        facts.title,
        units.gpm(peak),
        duration(facts.incident.duration),
        words.count(facts.tankers.len())
    ))
}

/// "2 hours", "90 minutes".
pub fn duration(minutes: f64) -> String {
    let hours = minutes / 60.0;
    if hours == 1.0 {
        "1 hour".to_owned()
    } else if hours >= 2.0 && (hours * 2.0).fract() == 0.0 {
        format!("{hours} hours")
    } else {
        format!("{minutes} minutes")
    }
}

/// "5%", "2.5%": a target as it was asked for.
pub fn percent_as_asked(target: f64) -> String {
    let text = format!("{:.3}", 100.0 * target);
    format!("{}%", text.trim_end_matches('0').trim_end_matches('.'))
}

/// A difference of chances in percentage points: "-20.9", with no more digits than `width`, the whole
/// width of its interval, supports.
pub fn points(by: f64, width: f64) -> String {
    let digits = if width < 0.002 {
        2
    } else if width < 0.04 {
        1
    } else {
        0
    };
    signed(100.0 * by, digits)
}

/// A number with its sign, none for zero.
pub fn signed(value: f64, digits: usize) -> String {
    let text = format!("{value:+.digits$}");
    if text[1..].chars().all(|c| matches!(c, '0' | '.')) { text[1..].to_owned() } else { text }
}

/// "-21.5 to -20.3": an interval in percentage points.
pub fn points_range(apart: &Apart) -> String {
    let width = apart.ci_high - apart.ci_low;
    format!("{} to {}", points(apart.ci_low, width), points(apart.ci_high, width))
}
