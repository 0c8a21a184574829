//! Small panels below a chart of chances: what costs buy, and what asking late does.

use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step, spread_apart, value_axis};
use crate::chart::elements::heading_and_foot::{MARGIN, WIDTH};
use crate::chart::elements::series::line_of_values;
use crate::chart::elements::style::{BLACK, GREEN, GRID, HELPS, Look, QUIET, VERMILLION, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance, finite};
use crate::units::whole;

/// A plan with its price.
#[derive(Debug, Clone, PartialEq)]
pub struct Priced {
    /// How it is called here: its number among the rows.
    pub label: String,
    /// What it costs, in the scenario's own currency.
    pub cost: f64,
    /// Chance that the lines run short, 0 to 1.
    pub chance: f64,
    /// Whether nothing at the same or lower cost does as well.
    pub on_the_frontier: bool,
}

/// A request asked for later.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Late {
    /// By so many minutes.
    pub by: f64,
    /// Chance that the lines run short, 0 to 1, with low and high end of its interval.
    pub at: [f64; 3],
}

/// What stands below a chart of chances.
#[derive(Debug, Clone, PartialEq)]
pub enum Below {
    /// Nothing.
    Nothing,
    /// Chance against cost.
    Costs(Vec<Priced>),
    /// Chance against how late the request is.
    Late(Vec<Late>),
}

impl Below {
    /// Looks at its numbers.
    ///
    /// - Errors: [`ChartError::BadNumber`].
    pub(super) fn check(&self) -> Result<(), ChartError> {
        match self {
            Below::Nothing => {}
            Below::Costs(all) => {
                for one in all {
                    finite(&format!("the cost of {}", one.label), one.cost)?;
                    chance(|| format!("the chance of {}", one.label), one.chance)?;
                }
            }
            Below::Late(all) => {
                for one in all {
                    finite("how late a request is", one.by)?;
                    for value in one.at {
                        chance(|| format!("the chance asked {:.0} min later", one.by), value)?;
                    }
                }
            }
        }
        Ok(())
    }
}

const LEFT: f64 = 62.0;
const RIGHT: f64 = WIDTH - MARGIN - 30.0;
const HIGH: f64 = 150.0;
const DOT: f64 = 9.0;
const LABEL: Text = Text::of(12.0).semi_bold();

/// Draws what is below, if there is anything.
///
/// - Returns: where it ends, px.
/// - Errors: [`ChartError::Drawing`].
pub(super) fn draw_below(
    drawing: &mut Drawing,
    top: f64,
    below: &Below,
) -> Result<f64, ChartError> {
    match below {
        Below::Costs(all) if all.len() > 1 => draw_costs(drawing, top, all),
        Below::Late(all) if all.len() > 1 => draw_late(drawing, top, all),
        _ => Ok(top),
    }
}

/// The panel with its axes: how often upward, something across.
fn panel(
    drawing: &mut Drawing,
    top: f64,
    says: &str,
    (greatest, farthest): (f64, f64),
    across: &str,
) -> (Scale, Scale) {
    let top = top + 30.0;
    drawing.text(LEFT, top - 6.0, says, Text::of(13.0).semi_bold());
    let step = round_step(greatest.max(0.01), 5.0);
    let high = (step * (greatest / step - 1e-9).ceil().max(1.0)).min(1.0);
    let y = Scale { low: 0.0, high, from: top + HIGH, to: top + 4.0 };
    let digits = usize::from(step < 0.0099);
    value_axis(drawing, y, LEFT, RIGHT, step, |value| format!("{:.digits$}", 100.0 * value));
    let step = round_step(farthest.max(1.0), 7.0);
    let x = Scale { low: 0.0, high: farthest.max(1.0), from: LEFT, to: RIGHT };
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    for value in x.ticks(step) {
        let at = x.at(value);
        drawing.line((at, top), (at, y.from), Stroke::of(GRID, 1.0));
        drawing.text(at, y.from + 17.0, &whole(value), style);
    }
    drawing.line((LEFT, y.from), (RIGHT, y.from), Stroke::of(QUIET, 1.0));
    drawing.text(f64::midpoint(LEFT, RIGHT), y.from + 35.0, across, style);
    (x, y)
}

fn draw_costs(drawing: &mut Drawing, top: f64, all: &[Priced]) -> Result<f64, ChartError> {
    let greatest = all.iter().map(|one| one.chance).fold(0.0, f64::max);
    let dearest = all.iter().map(|one| one.cost).fold(0.0, f64::max);
    let says = "What money buys: fires of 100 that run short, by cost";
    let (x, y) = panel(drawing, top, says, (greatest, dearest), "cost");
    let mut frontier: Vec<&Priced> = all.iter().filter(|one| one.on_the_frontier).collect();
    frontier.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    let mut steps: Vec<(f64, f64)> = Vec::new();
    for one in &frontier {
        if let Some((_, before)) = steps.last().copied() {
            steps.push((one.cost, before));
        }
        steps.push((one.cost, one.chance));
    }
    let says = "no cheaper one does as well";
    line_of_values(drawing, (x, y), &steps, Stroke::of(GREEN, 2.5), says)?;
    let levels: Vec<f64> = all.iter().map(|one| y.at(one.chance)).collect();
    let places = spread_apart(&levels, 15.0, y.to + 4.0, y.from - 6.0);
    for ((one, level), place) in all.iter().zip(levels).zip(places) {
        let at = x.at(one.cost);
        let look = if one.on_the_frontier { HELPS } else { Look::plain(WHITE) };
        let area = Area { x: at - DOT / 2.0, y: level - DOT / 2.0, width: DOT, height: DOT };
        let says = format!(
            "{}: {:.1} fires of 100 for {}",
            one.label,
            100.0 * one.chance,
            whole(one.cost)
        );
        drawing.area(area, look, Some(Stroke::of(BLACK, 1.0)), &says);
        drawing.line((at + DOT / 2.0, level), (at + 12.0, place), Stroke::of(QUIET, 0.75));
        drawing.text(at + 14.0, place + 4.0, &one.label, LABEL);
    }
    Ok(y.from + 42.0)
}

fn draw_late(drawing: &mut Drawing, top: f64, all: &[Late]) -> Result<f64, ChartError> {
    let greatest = all.iter().map(|one| one.at[2]).fold(0.0, f64::max);
    let latest = all.iter().map(|one| one.by).fold(0.0, f64::max);
    let says = "Asked for later: fires of 100 that run short";
    let across = "minutes later than the request";
    let (x, y) = panel(drawing, top, says, (greatest, latest), across);
    let values: Vec<(f64, f64)> = all.iter().map(|one| (one.by, one.at[0])).collect();
    line_of_values(drawing, (x, y), &values, Stroke::of(VERMILLION, 2.5), "asked for later")?;
    let whisker = Stroke::of(BLACK, 1.5);
    for one in all {
        let (at, level) = (x.at(one.by), y.at(one.at[0]));
        let [_, low, high] = one.at.map(|value| y.at(value));
        drawing.line((at, low), (at, high), whisker);
        for end in [low, high] {
            drawing.line((at - 4.0, end), (at + 4.0, end), whisker);
        }
        let area = Area { x: at - DOT / 2.0, y: level - DOT / 2.0, width: DOT, height: DOT };
        let says = format!("{:.0} minutes later: {:.1} fires of 100", one.by, 100.0 * one.at[0]);
        drawing.area(area, Look::plain(VERMILLION), Some(Stroke::of(BLACK, 1.0)), &says);
    }
    Ok(y.from + 42.0)
}
