//! The story of one run: what each tanker does, and what that does to the levels.

use std::collections::BTreeSet;

use shuttle_sim::{Happening, Plan, Trace};

use crate::chart::elements::axis::{Scale, minute_grid, minute_labels};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, legend,
};
use crate::chart::elements::style::{
    BLACK, BLUE, Hatch, Look, PALE, QUIET, SHORT, SHORT_GROUND, SHORT_OUTLINE,
};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, finite};
use crate::units::{Units, minutes};

use super::levels::{Tank, draw_marks, panel, tanks};
use super::marks::{MOMENT, label_of_mark};
use super::run_spans::{
    Activity, Span, draft_spans, loads_given, never_came, shortfalls, tanker_spans,
};

const LEFT: f64 = 146.0;
/// Room for the labels of the lines, px.
const RIGHT: f64 = 112.0;
const BAR: f64 = 20.0;
const LANE: f64 = 26.0;
const PANEL: f64 = 84.0;

const NAME: Text = Text::of(13.0).at(Anchor::End);
const NOTE: Text = Text::of(12.0);
const PRIME_LOST: Look = Look::hatched("#FFFFFF", Hatch::Falling, BLACK);
const DRAWING: Look = Look::plain(PALE);
const FLOWING: Stroke = Stroke::of(BLUE, 4.0);

/// Draws the chart: lanes of the attack lines, the draft and the tankers, above the levels.
///
/// - Given: the reader's units; `first_water` and `end`, minutes after the alarm, as the run's result has them.
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(
    trace: &Trace,
    plan: &Plan,
    units: Units,
    (first_water, end): (f64, f64),
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    let first_water = finite("the minute of first water", first_water)?;
    let end = finite("the end of the watch", end)?.max(1.0);
    let facts = plan.facts();
    let mut drawing = Drawing::new(WIDTH);
    // Two lines of room for the labels of the moments.
    let top = heading(&mut drawing, sheet) + 36.0;
    let x = Scale { low: 0.0, high: end, from: LEFT, to: WIDTH - MARGIN - RIGHT };
    let short = shortfalls(trace, end);
    let draft = draft_spans(trace, end);
    let lanes = 1 + usize::from(!draft.is_empty()) + facts.tankers.len();
    let lanes_end = top + LANE * lanes as f64 + 6.0;
    let tanks = tanks(plan);
    let bottom = lanes_end + (PANEL + 28.0) * tanks.len() as f64;
    short_grounds(&mut drawing, x, (top, lanes_end), &short);
    minute_grid(&mut drawing, x, top, lanes_end);

    let mut y = top + LANE / 2.0;
    draw_attack_lines(&mut drawing, x, y, first_water, &short);
    if !draft.is_empty() {
        y += LANE;
        lane_name(&mut drawing, y, "draft");
        for (span, has_prime) in &draft {
            let (look, words) =
                if *has_prime { (DRAWING, "has prime") } else { (PRIME_LOST, "prime lost") };
            bar(&mut drawing, x, y, *span, look, &format!("draft: {words}"));
        }
    }
    let capacities: Vec<f64> = facts.drop_tanks.iter().map(|tank| tank.capacity).collect();
    let (mut seen, mut absent) = (BTreeSet::new(), Vec::new());
    for (place, tanker) in facts.tankers.iter().enumerate() {
        y += LANE;
        lane_name(&mut drawing, y, &tanker.name);
        for (span, activity) in
            tanker_spans(trace, place, tanker.call.requested_at, end, &capacities)
        {
            seen.insert(activity);
            bar(
                &mut drawing,
                x,
                y,
                span,
                activity.look(),
                &format!("{}: {}", tanker.name, activity.words()),
            );
        }
        absent.extend(never_came(trace, place).map(|why| (y, why.words())));
        let loads = match loads_given(trace, place) {
            1 => "1 load".to_owned(),
            loads => format!("{loads} loads"),
        };
        drawing.text(x.to + 16.0, y + 4.0, &loads, NOTE);
    }
    let moments = moments(trace, first_water, end);
    draw_moments(&mut drawing, x, top, lanes_end, &moments);
    // Over the lines of the moments, which would run through the words.
    for (y, words) in absent {
        let middle = x.from + NOTE.semi_bold().width(words) / 2.0 + 12.0;
        drawing.boxed_text(middle, y, words, NOTE.semi_bold());
    }
    let mut panel_top = lanes_end;
    for (column, tank) in tank_columns(&tanks) {
        panel_top += 28.0;
        draw_level(&mut drawing, x, panel_top, trace, tank, column, &short, units);
        // It stops below the panel's name.
        for (_, minute) in &moments {
            let at = x.at(*minute);
            drawing.line((at, panel_top), (at, panel_top + PANEL), MOMENT);
        }
        panel_top += PANEL;
    }
    let axis_end = minute_labels(&mut drawing, x, bottom, "the alarm");
    let legend_end =
        legend(&mut drawing, axis_end + 4.0, &entries(&seen, &draft, !short.is_empty()));
    Ok(finish(drawing, legend_end, sheet))
}

/// The tanks as drawn, engine first, each with its column in the trace, where the engine is last.
fn tank_columns(tanks: &[Tank]) -> impl Iterator<Item = (usize, &Tank)> {
    let engine = tanks.len() - 1;
    tanks
        .iter()
        .enumerate()
        .map(move |(place, tank)| (if place == 0 { engine } else { place - 1 }, tank))
}

/// The legend of what is in the chart.
fn entries(
    seen: &BTreeSet<Activity>,
    draft: &[(Span, bool)],
    is_short: bool,
) -> Vec<(Sample, String)> {
    let mut entries: Vec<(Sample, String)> = (Activity::ALL.iter())
        .filter(|activity| seen.contains(activity))
        .map(|activity| (Sample::Box(activity.look()), activity.words().to_owned()))
        .collect();
    for (has_prime, look, words) in
        [(true, DRAWING, "pump has prime"), (false, PRIME_LOST, "prime lost")]
    {
        if draft.iter().any(|(_, has)| *has == has_prime) {
            entries.push((Sample::Box(look), words.to_owned()));
        }
    }
    entries.push((Sample::Line(FLOWING), "attack lines flowing".to_owned()));
    if is_short {
        entries.push((Sample::Box(SHORT), "attack lines short of water".to_owned()));
    }
    entries
}

fn lane_name(drawing: &mut Drawing, y: f64, name: &str) {
    drawing.text(LEFT - 10.0, y + 4.5, &NAME.fit_name(name, LEFT - 10.0 - MARGIN), NAME);
}

fn bar(drawing: &mut Drawing, x: Scale, y: f64, span: Span, look: Look, what: &str) {
    let area = Area {
        x: x.at(span.from),
        y: y - BAR / 2.0,
        width: x.at(span.to) - x.at(span.from),
        height: BAR,
    };
    let says = format!("{what}, minute {} to {}", minutes(span.from), minutes(span.to));
    drawing.area(area, look, Some(Stroke::of(BLACK, 0.5)), &says);
}

fn draw_attack_lines(drawing: &mut Drawing, x: Scale, y: f64, first_water: f64, short: &[Span]) {
    lane_name(drawing, y, "attack lines");
    drawing.line((x.at(first_water), y), (x.to, y), FLOWING);
    for span in short {
        bar(drawing, x, y, *span, SHORT, "attack lines: short of water");
    }
    let mut free_from = x.from;
    for span in short {
        let (from, to) = (x.at(span.from), x.at(span.to));
        let label = format!("{} min", minutes(span.to - span.from));
        // The label fits inside its own bar or is left out: the next shortfall may begin beside it.
        if NOTE.width(&label) + 10.0 <= to - from && from >= free_from {
            drawing.boxed_text(f64::midpoint(from, to), y, &label, NOTE);
            free_from = to;
        }
    }
    let total: f64 = short.iter().map(|span| span.to - span.from).sum();
    let words = match short.len() {
        0 => "never short".to_owned(),
        _ => format!("short {} min", minutes(total)),
    };
    drawing.text(x.to + 16.0, y + 4.0, &words, NOTE.semi_bold());
}

/// When the lines are short, as outlined bands from top to bottom.
fn short_grounds(drawing: &mut Drawing, x: Scale, (top, bottom): (f64, f64), short: &[Span]) {
    for span in short {
        let (from, to) = (x.at(span.from), x.at(span.to));
        let area = Area { x: from, y: top, width: to - from, height: bottom - top };
        drawing.area(area, SHORT_GROUND, Some(SHORT_OUTLINE), "");
    }
}

#[allow(clippy::too_many_arguments)] // One panel has all of these and nothing else groups them.
fn draw_level(
    drawing: &mut Drawing,
    x: Scale,
    top: f64,
    trace: &Trace,
    tank: &Tank,
    column: usize,
    short: &[Span],
    units: Units,
) {
    short_grounds(drawing, x, (top, top + PANEL), short);
    let y = panel(drawing, x, top, PANEL, tank, units);
    let course: Vec<(f64, f64)> = (trace.course.iter())
        .filter_map(|(minute, levels)| Some((*minute, *levels.get(column)?)))
        .filter(|(minute, level)| {
            minute.is_finite() && level.is_finite() && *minute <= x.high + 1e-9
        })
        .map(|(minute, level)| (x.at(minute), y.at(units.volume(level))))
        .collect();
    if let (Some(first), Some(last)) = (course.first(), course.last()) {
        let mut ground = course.clone();
        ground.extend([(last.0, y.from), (first.0, y.from)]);
        drawing.shape(&ground, Look::plain(PALE), "");
        drawing.path(&course, Stroke::of(BLUE, 1.75), &tank.name);
    }
    draw_marks(drawing, x, y, tank, units);
}

/// First water and the first draw, with their minutes after the alarm, within the watch.
fn moments(trace: &Trace, first_water: f64, end: f64) -> Vec<(&'static str, f64)> {
    let primed = (trace.notes.iter())
        .find(|note| note.happening == Happening::Primed)
        .map(|note| ("pump first draws", note.minute));
    let moments = [Some(("first water", first_water)), primed];
    moments.into_iter().flatten().filter(|(_, minute)| *minute <= end).collect()
}

/// The moments with their labels, through the lanes.
fn draw_moments(drawing: &mut Drawing, x: Scale, top: f64, bottom: f64, moments: &[(&str, f64)]) {
    for (row, (name, minute)) in moments.iter().enumerate() {
        let (at, base) = (x.at(*minute), top - 20.0 + 16.0 * row as f64);
        drawing.line((at, base - 10.0), (at, bottom), MOMENT);
        label_of_mark(drawing, at, base, &format!("{name}: minute {}", minutes(*minute)));
    }
    drawing.line((x.from, top), (x.from, bottom), Stroke::of(QUIET, 0.5));
}
