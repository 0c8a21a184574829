//! The flow that holds, over the alarm clock: a line of steps for the plan as it stands and one with all aid,
//! hatched where only the engine's tank and first loads carry it.

use crate::by_minute::{HeldBy, MinuteAnswer};
use crate::chart::elements::axis::{
    AXIS_TEXT, Scale, minute_grid, minute_labels, round_step, value_axis,
};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{BLACK, BLUE, GREEN, Hatch, Look, PALE, QUIET, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, finite};
use crate::units::{Units, whole};

const LEFT: f64 = MARGIN + 58.0;
const RIGHT: f64 = WIDTH - MARGIN - 10.0;
const HIGH: f64 = 330.0;
/// The scale where nothing holds, gpm.
const NOTHING_HOLDS: f64 = 100.0;
/// Minutes shown beyond the last one asked about.
const BEYOND: f64 = 12.0;

const CARRIED: Look = Look::plain(PALE);
/// Only first loads carry it.
const FIRST_LOADS: Look = Look::hatched(WHITE, Hatch::Rising, BLUE);
const AS_IT_STANDS: Stroke = Stroke::of(BLUE, 3.0);
const WITH_AID: Stroke = Stroke::of(GREEN, 2.5).dashed("9 5");
const VALUE: Text = Text::of(13.0).semi_bold();

/// Draws the chart.
///
/// - Given: `tankers`, the reader's word for them.
/// - Errors: [`ChartError::BadNumber`] for a flow or minute that is NaN or negative.
pub fn chart(
    found: &MinuteAnswer,
    units: Units,
    tankers: &str,
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    let all = [Some(&found.as_it_stands), found.with_aid.as_ref()];
    for row in all.iter().flatten().flat_map(|held| held.all_rows()) {
        finite("a minute", row.minute)?;
        finite("a flow", row.held_gpm.unwrap_or(0.0))?;
    }
    let mut drawing = Drawing::new(WIDTH);
    let top = heading(&mut drawing, sheet) + 12.0;
    let last = found.as_it_stands.rows.last().map_or(60.0, |row| row.minute);
    let x = Scale {
        low: 0.0,
        high: (last + BEYOND).min(found.end_min.max(last)),
        from: LEFT,
        to: RIGHT,
    };
    let greatest = (all.iter().flatten().flat_map(|held| held.all_rows()))
        .filter_map(|row| row.held_gpm)
        .map(|gpm| units.flow(gpm))
        .fold(0.0, f64::max);
    // Where nothing holds there is still a scale to read.
    let greatest = if greatest > 0.0 { greatest } else { units.flow(NOTHING_HOLDS) };
    let step = round_step(greatest * 1.1, 7.0);
    let high = step * (greatest * 1.1 / step).ceil();
    let y = Scale { low: 0.0, high, from: top + HIGH, to: top };
    if let Some(points) = steps(&found.as_it_stands, x, y, units) {
        let refill =
            found.as_it_stands.first_refill_min.map_or(x.to, |minute| x.at(minute).min(x.to));
        under(&mut drawing, &points, y.from, (refill, x.to), CARRIED, "carried by the shuttle");
        under(&mut drawing, &points, y.from, (x.from, refill), FIRST_LOADS, "only first loads");
    }
    minute_grid(&mut drawing, x, top, y.from);
    value_axis(&mut drawing, y, LEFT, RIGHT, step, whole);
    let upward = format!("flow that holds, {}", units.flow_sign());
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle).turned(-90.0);
    drawing.text(MARGIN + 8.0, f64::midpoint(y.from, y.to), &upward, style);
    mark(&mut drawing, x, y, found.first_water_min, "first water");
    let mut entries = vec![
        (Sample::Line(AS_IT_STANDS), named("as it stands", &found.as_it_stands, tankers)),
        (Sample::Box(FIRST_LOADS), "only first loads, as it stands".to_owned()),
        (Sample::Box(CARRIED), "refilled loads too".to_owned()),
    ];
    if let Some(aid) = &found.with_aid {
        line(&mut drawing, steps(aid, x, y, units), WITH_AID, "with all aid");
        if let Some(minute) = aid.first_refill_min {
            mark(&mut drawing, x, y, minute, "first refill, with all aid");
        }
        entries.insert(1, (Sample::Line(WITH_AID), named("with all aid", aid, tankers)));
    }
    line(&mut drawing, steps(&found.as_it_stands, x, y, units), AS_IT_STANDS, "as it stands");
    for (held, above) in [(Some(&found.as_it_stands), false), (found.with_aid.as_ref(), true)] {
        values(&mut drawing, held, x, y, units, above);
    }
    if all.iter().flatten().flat_map(|held| held.all_rows()).all(|row| row.held_gpm.is_none()) {
        let area = Area { x: LEFT, y: top, width: RIGHT - LEFT, height: HIGH };
        in_the_middle(
            &mut drawing,
            area,
            "no flow holds to the end of the watch from any of these minutes",
        );
    }
    let end = minute_labels(&mut drawing, x, y.from, "the alarm");
    let end = legend(&mut drawing, end + 6.0, &entries);
    Ok(finish(drawing, end, sheet))
}

/// "as it stands, 3 tankers".
fn named(what: &str, held: &HeldBy, tankers: &str) -> String {
    match held.tankers.len() {
        1 => format!("{what}, 1 {}", tankers.trim_end_matches('s')),
        count => format!("{what}, {count} {tankers}"),
    }
}

/// The line of steps: a flow that holds from one minute holds from every later one, as nothing is asked for
/// before. `None` where nothing holds.
fn steps(held: &HeldBy, x: Scale, y: Scale, units: Units) -> Option<Vec<(f64, f64)>> {
    let mut points: Vec<(f64, f64)> = Vec::new();
    for row in held.all_rows() {
        let Some(gpm) = row.held_gpm else { continue };
        let (at, level) = (x.at(row.minute), y.at(units.flow(gpm)));
        let before = points.last().map_or(y.from, |last| last.1);
        points.extend([(at, before), (at, level)]);
    }
    let last = points.last()?.1;
    points.push((x.to, last));
    Some(points)
}

/// The area under a line of steps between two places across.
fn under(
    drawing: &mut Drawing,
    points: &[(f64, f64)],
    base: f64,
    (from, to): (f64, f64),
    look: Look,
    says: &str,
) {
    let mut shape: Vec<(f64, f64)> = Vec::new();
    for pair in points.windows(2) {
        let (left, right) = (pair[0].0.max(from), pair[1].0.min(to));
        if left < right {
            shape.extend([(left, pair[0].1), (right, pair[1].1)]);
        }
    }
    if let (Some(first), Some(last)) = (shape.first().copied(), shape.last().copied()) {
        shape.extend([(last.0, base), (first.0, base)]);
        drawing.shape(&shape, look, says);
    }
}

fn line(drawing: &mut Drawing, points: Option<Vec<(f64, f64)>>, stroke: Stroke, says: &str) {
    if let Some(points) = points {
        drawing.path(&points, stroke, says);
    }
}

/// A moment across the panel, with its name at the top.
fn mark(drawing: &mut Drawing, x: Scale, y: Scale, minute: f64, says: &str) {
    let at = x.at(minute);
    if at > x.to {
        return;
    }
    drawing.line((at, y.from), (at, y.to), Stroke::of(QUIET, 1.5).dashed("3 4"));
    let style = Text::of(AXIS_TEXT);
    drawing.boxed_upright_text(at, y.to + 8.0 + style.width(says), says, style);
}

/// Each flow at the beginning of its step.
fn values(
    drawing: &mut Drawing,
    held: Option<&HeldBy>,
    x: Scale,
    y: Scale,
    units: Units,
    above: bool,
) {
    let mut before = None;
    for row in held.into_iter().flat_map(|held| held.all_rows()) {
        let Some(gpm) = row.held_gpm.filter(|gpm| before != Some(*gpm)) else { continue };
        before = Some(gpm);
        let level = y.at(units.flow(gpm)) + if above { -9.0 } else { 22.0 };
        let style = VALUE.colour(BLACK);
        let told = whole(units.flow(gpm));
        let middle = x.at(row.minute) + 8.0 + style.width(&told) / 2.0;
        drawing.boxed_text(middle, level - 5.0, &told, style);
    }
}
