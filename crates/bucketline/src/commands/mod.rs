//! One module a command. Each loads, runs, and turns the figures into an answer.

pub mod check;

pub mod risk;

pub mod size;

pub mod compare;

mod compare_table;

mod unlike_fires;

pub mod request;

pub mod lose;

pub mod levers;

pub mod grade;

mod grade_evidence;

pub mod reach;

pub mod replay;

pub mod new;

pub mod flow;

mod flow_answer;

mod hose_instead;

mod people;

use std::fmt::Write;
use std::path::PathBuf;

use fireground::hose::HoseSize;
use serde::Serialize;
use shuttle_report::chart;
use shuttle_report::units::{Units, whole};
use shuttle_sim::Plan;

use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::output::{self, Words, paragraph};
use crate::scenario_file::Warning;

/// Width of a chart as PNG, pixels.
const PNG_WIDTH: u32 = 2000;

/// Small print of answers that end their runs as soon as they are clear.
pub const FEWER_RUNS: &str = "Often fewer runs than `risk` makes, so the last digits may differ.";

/// The last line of every answer.
pub const CAUTION: &str = "A plan on paper. The incident commander, local rules and what you see on the ground come first.";

/// "Hay barn, Quarry Lane: 500 gpm for 2 hours, three tankers".
pub fn headline(plan: &Plan, units: Units, words: Words) -> String {
    let facts = plan.facts();
    let peak = (facts.incident.attack_flow.iter()).fold(0.0_f64, |most, step| most.max(step.flow));
    let up_to = if facts.incident.attack_flow.len() > 1 { "up to " } else { "" };
    output::wrapped(&format!(
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

/// Metres in a foot (exact by definition).
const METRES_PER_FOOT: f64 = 0.3048;

/// "800 ft" or "244 m": a length in words, whole.
fn feet(units: Units, feet: f64) -> String {
    match units {
        Units::Us => format!("{} ft", whole(feet)),
        Units::Metric => format!("{} m", whole(feet * METRES_PER_FOOT)),
    }
}

/// "2-1/2 in" or "65 mm": a size of hose as the trade writes it.
fn hose_size(size: HoseSize, units: Units) -> &'static str {
    match units {
        Units::Us => size.name(),
        Units::Metric => size.metric_name(),
    }
}

/// "5%", "2.5%": a target as it was asked for.
pub fn percent_of_target(target: f64) -> String {
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
pub fn points_range(apart: &shuttle_report::options_compared::Apart) -> String {
    let width = apart.ci_high - apart.ci_low;
    format!("{} to {}", points(apart.ci_low, width), points(apart.ci_high, width))
}

/// What is odd but allowed, for standard error or the foot of an answer.
pub fn warnings(of: &[Warning]) -> String {
    of.iter().map(|one| paragraph("Odd", &one.to_string())).collect()
}

/// A result as JSON, with the program that made it.
#[derive(Serialize)]
pub struct Versioned<'a, T: Serialize> {
    #[serde(flatten)]
    found: &'a T,
    version: &'static str,
}

impl<'a, T: Serialize> Versioned<'a, T> {
    /// The result and this program's version.
    pub fn of(found: &'a T) -> Versioned<'a, T> {
        Versioned { found, version: env!("CARGO_PKG_VERSION") }
    }
}

/// Prints an answer, where its charts are, and the caution.
pub fn print_answer(mut text: String, charts: Option<&Charts>) -> Result<(), Failure> {
    if let Some(charts) = charts {
        let _ = writeln!(text, "Charts: {}", charts.folder());
    }
    let _ = writeln!(text, "{CAUTION}");
    output::print(&text)
}

/// How a command that answers ends.
pub fn exit(stopped_early: bool) -> Exit {
    if stopped_early { Exit::EndedEarly } else { Exit::Answered }
}

/// Charts by file name, made when they are written.
pub struct Charts {
    folder: PathBuf,
}

impl Charts {
    /// Where this scenario's charts go; `None` if none are wanted.
    pub fn new(asked: &crate::arguments::Charts, json: bool, title: &str) -> Option<Charts> {
        if asked.no_charts || (json && asked.out.is_none()) {
            return None;
        }
        Some(Charts { folder: output::chart_folder(asked.out.as_deref(), title) })
    }

    /// Writes one chart as SVG and PNG.
    pub fn write(&self, name: &str, svg: &str) -> Result<(), Failure> {
        output::make_folder(&self.folder)?;
        let png = chart::png(svg, PNG_WIDTH)?;
        output::write_file(&self.folder.join(format!("{name}.svg")), svg.as_bytes())?;
        output::write_file(&self.folder.join(format!("{name}.png")), &png)
    }

    /// The folder in words.
    pub fn folder(&self) -> String {
        format!("{}/", self.folder.display())
    }
}
