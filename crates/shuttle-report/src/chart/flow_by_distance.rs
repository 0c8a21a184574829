//! The wall chart: the flow that each number of tankers holds, by distance from water. Large, black and
//! white, to be printed on A3 and read from across the room.

use super::axis::{Scale, round_step, spread_apart};
use super::font::{self, Weight};
use super::heading_and_foot::CAUTION;
use super::style::{BLACK, GRID, Look, QUIET, WHITE};
use super::svg::{Anchor, Area, Drawing, Stroke, Text};
use super::{ChartError, finite};
use crate::reach::ReachAnswer;
use crate::units::{Units, whole};

/// A3 on its side, 420 by 297 mm (ISO 216).
const WIDE: f64 = 1600.0;
const HIGH: f64 = WIDE * 297.0 / 420.0;
const MARGIN: f64 = 56.0;
const LEFT: f64 = 170.0;
/// Room for the names of the lines at the right.
const RIGHT: f64 = WIDE - 250.0;
const TOP: f64 = 235.0;
const BOTTOM: f64 = HIGH - 215.0;

const TITLE: Text = Text::of(44.0).semi_bold();
const SHOWS: Text = Text::of(24.0);
const TICK: Text = Text::of(26.0);
const NAME: Text = Text::of(28.0).semi_bold();
const SMALL: Text = Text::of(16.0);
const NOTE: Text = Text::of(22.0).semi_bold();
/// The hand cap is drawn up to this multiple of the greatest flow that holds.
const CAP_ROOM: f64 = 1.5;
const LINE_GAP: f64 = 38.0;

/// How the lines differ: by dashes, each with its own mark; after the last they begin again.
const DASHES: [&str; 6] = ["", "18 8", "4 7", "24 7 4 7", "10 6", "24 6 4 6 4 6"];

/// Numbers of tankers that hold the same at every distance, and what they hold.
struct Curve {
    first: usize,
    last: usize,
    /// Miles and gpm, where something holds.
    points: Vec<(f64, f64)>,
}

/// Draws the chart.
///
/// - Given: an answer with rows; `tanker`, the reader's word for the truck.
/// - Errors: [`ChartError::BadNumber`] for a flow or distance that is NaN or negative.
pub fn chart(found: &ReachAnswer, units: Units, tanker: &str) -> Result<String, ChartError> {
    for row in &found.rows {
        finite("a distance", row.miles)?;
        for cell in &row.cells {
            finite("a flow", cell.held_gpm.unwrap_or(0.0))?;
        }
    }
    finite("the hand cap", found.site_cap_gpm.unwrap_or(0.0))?;
    let curves = curves(found);
    let mut drawing = Drawing::new(WIDE);
    let sure = format!("{:.1}", 100.0 * found.share);
    let sure = sure.trim_end_matches(".0");
    let title = format!("How far from water? {}", found.title);
    drawing.text(MARGIN, 84.0, &TITLE.fit(&title, WIDE - 2.0 * MARGIN), TITLE);
    let farthest = found.rows.iter().map(|row| units.distance(row.miles)).fold(0.0, f64::max);
    let greatest = curves.iter().flat_map(|curve| &curve.points).map(|point| units.flow(point.1));
    let greatest = greatest.fold(0.0, f64::max);
    let cap = found.site_cap_gpm.map(|gpm| units.flow(gpm));
    // A cap far above everything that holds would press the lines flat: it is stated at the top.
    let drawn_cap = cap.filter(|cap| greatest <= 0.0 || *cap <= CAP_ROOM * greatest);
    let shows = format!(
        "Greatest flow that {tanker}s of this fleet hold without a break in {sure} of 100 fires, for {} from \
         minute {:.0}; until then {}, or the flow if less. The {tanker}s arrive as the scenario says, in its order, \
         and fill at a site like {}. First loads and full tanks count, once{}.",
        long(found.demand.minutes),
        found.demand.full_from,
        units.gpm(found.demand.minimum),
        found.site,
        if drawn_cap.is_some() { ": what lies above the level line lives on them" } else { "" }
    );
    let mut y = 100.0;
    for line in font::wrap(&shows, SHOWS.size, SHOWS.weight, WIDE - 2.0 * MARGIN, 3) {
        y += 31.0;
        drawing.text(MARGIN, y, &line, SHOWS);
    }
    let greatest = greatest.max(drawn_cap.unwrap_or(0.0));
    let step = round_step(greatest.max(1.0), 10.0);
    let x = Scale { low: 0.0, high: farthest.max(1.0), from: LEFT, to: RIGHT };
    let high = step * (greatest / step - 1e-9).ceil().max(1.0);
    let y = Scale { low: 0.0, high, from: BOTTOM, to: TOP };
    axes(&mut drawing, x, y, step, units);
    if let Some(gpm) = found.site_cap_gpm {
        let told = format!("what {} passes by hand: {}", found.site, units.gpm(gpm));
        match drawn_cap {
            Some(level) => hand_cap(&mut drawing, y.at(level), &told),
            None => {
                let told = format!("{told}, above this chart");
                let told = NOTE.fit(&told, RIGHT - LEFT);
                let middle = RIGHT - 12.0 - NOTE.width(&told) / 2.0;
                drawing.boxed_text(middle, TOP + 20.0, &told, NOTE);
            }
        }
    }
    if curves.iter().all(|curve| curve.points.is_empty()) {
        let middle = (f64::midpoint(LEFT, RIGHT), f64::midpoint(TOP, BOTTOM));
        drawing.boxed_text(middle.0, middle.1, "no flow surely holds at any distance", NAME);
    }
    for (place, curve) in curves.iter().enumerate() {
        let points: Vec<(f64, f64)> = (curve.points.iter())
            .map(|(miles, gpm)| (x.at(units.distance(*miles)), y.at(units.flow(*gpm))))
            .collect();
        let stroke = Stroke::of(BLACK, 4.0).dashed(DASHES[place % DASHES.len()]);
        drawing.path(&points, stroke, &named(curve, tanker));
        for (at, level) in points {
            let dot = Area { x: at - 6.0, y: level - 6.0, width: 12.0, height: 12.0 };
            let look = if place % 2 == 0 { BLACK } else { WHITE };
            drawing.area(dot, Look::plain(look), Some(Stroke::of(BLACK, 3.0)), "");
        }
    }
    names(&mut drawing, &curves, x, y, units, tanker);
    foot(&mut drawing, found, units);
    Ok(drawing.finish(HIGH, &title))
}

/// "2 hours", "100 minutes".
fn long(minutes: f64) -> String {
    if minutes > 60.0 && minutes % 60.0 == 0.0 {
        format!("{:.0} hours", minutes / 60.0)
    } else {
        format!("{minutes:.0} minutes")
    }
}

/// The hand cap of the fill site as a horizontal line: a flow above it holds only on first loads.
fn hand_cap(drawing: &mut Drawing, level: f64, told: &str) {
    drawing.path(
        &[(LEFT, level), (RIGHT, level)],
        Stroke::of(QUIET, 3.0).dashed("30 14"),
        "what the fill site passes by hand",
    );
    let told = NOTE.fit(told, RIGHT - LEFT);
    let middle = RIGHT - 12.0 - NOTE.width(&told) / 2.0;
    drawing.boxed_text(middle, level - 20.0, &told, NOTE);
}

/// Coinciding lines are merged.
fn curves(found: &ReachAnswer) -> Vec<Curve> {
    let points = |tankers: usize| -> Vec<(f64, f64)> {
        (found.rows.iter())
            .filter_map(|row| Some((row.miles, row.cells.get(tankers - 1)?.held_gpm?)))
            .collect()
    };
    let mut curves: Vec<Curve> = Vec::new();
    for tankers in 1..=found.tankers.len() {
        let points = points(tankers);
        match curves.last_mut() {
            Some(last) if last.points == points => last.last = tankers,
            _ => curves.push(Curve { first: tankers, last: tankers, points }),
        }
    }
    curves.retain(|curve| !curve.points.is_empty());
    curves
}

fn named(curve: &Curve, tanker: &str) -> String {
    match (curve.first, curve.last) {
        (1, 1) => format!("1 {tanker}"),
        (first, last) if first == last => format!("{first} {tanker}s"),
        (first, last) => format!("{first} to {last} {tanker}s"),
    }
}

fn axes(drawing: &mut Drawing, x: Scale, y: Scale, step: f64, units: Units) {
    for value in y.ticks(step) {
        let at = y.at(value);
        drawing.line((LEFT, at), (RIGHT, at), Stroke::of(GRID, 2.0));
        drawing.text(LEFT - 16.0, at + 9.0, &whole(value), TICK.at(Anchor::End));
    }
    for value in x.ticks(1.0_f64.max(round_step(x.high, 14.0))) {
        let at = x.at(value);
        drawing.line((at, TOP), (at, BOTTOM), Stroke::of(GRID, 2.0));
        drawing.text(at, BOTTOM + 36.0, &format!("{value:.0}"), TICK.at(Anchor::Middle));
    }
    drawing.line((LEFT, TOP), (LEFT, BOTTOM), Stroke::of(QUIET, 3.0));
    drawing.line((LEFT, BOTTOM), (RIGHT, BOTTOM), Stroke::of(QUIET, 3.0));
    let along = match units {
        Units::Us => "miles from water, one way",
        Units::Metric => "kilometres from water, one way",
    };
    drawing.text(f64::midpoint(LEFT, RIGHT), BOTTOM + 78.0, along, NAME.at(Anchor::Middle));
    let upward = format!("flow that holds, {}", units.flow_sign());
    let style = NAME.at(Anchor::Middle).turned(-90.0);
    drawing.text(MARGIN + 12.0, f64::midpoint(TOP, BOTTOM), &upward, style);
}

/// Each line's name at its right end, moved apart, with a thin line to where it belongs.
fn names(drawing: &mut Drawing, curves: &[Curve], x: Scale, y: Scale, units: Units, tanker: &str) {
    let ends: Vec<(f64, f64)> = (curves.iter())
        .filter_map(|curve| curve.points.last())
        .map(|(miles, gpm)| (x.at(units.distance(*miles)), y.at(units.flow(*gpm))))
        .collect();
    let wanted: Vec<f64> = ends.iter().map(|end| end.1).collect();
    let places = spread_apart(&wanted, LINE_GAP, TOP, BOTTOM);
    for ((curve, end), place) in curves.iter().zip(ends).zip(places) {
        drawing.line((end.0 + 8.0, end.1), (RIGHT + 34.0, place), Stroke::of(QUIET, 1.5));
        let name = NAME.fit(&named(curve, tanker), WIDE - RIGHT - 60.0);
        drawing.text(RIGHT + 42.0, place + 10.0, &name, NAME);
    }
}

fn foot(drawing: &mut Drawing, found: &ReachAnswer, units: Units) {
    let demand = found.demand;
    let runs: u64 =
        found.rows.iter().flat_map(|row| &row.cells).map(|cell| cell.replications).sum();
    let from = format!(
        "From {} simulated fires, seed {}. The flow is wanted from minute {:.0} after the first engine's \
         arrival, {} of it from minute {:.0}. Worked out for the scenario's own tanks, pumps, crews and \
         roads; another site, road or crew gives another chart. No flow is worth a crash: belts on, \
         posted limits, a spotter for every backing move.",
        whole(runs as f64),
        found.seed,
        demand.full_from,
        units.gpm(demand.minimum),
        demand.minimum_from
    );
    let mut y = BOTTOM + 102.0;
    for text in [from.as_str(), CAUTION] {
        for line in font::wrap(text, SMALL.size, Weight::Regular, WIDE - 2.0 * MARGIN, 3) {
            y += 22.0;
            drawing.text(MARGIN, y, &line, SMALL);
        }
    }
}
