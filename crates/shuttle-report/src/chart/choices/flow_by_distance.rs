//! The wall chart: the flow that each number of tankers holds, by distance from water. Large, black and
//! white, to be printed on A3 and read from across the room.

use crate::chart::elements::axis::{Scale, round_step, spread_apart};
use crate::chart::elements::font::{self, Weight};
use crate::chart::elements::heading_and_foot::{CAUTION, Sheet};
use crate::chart::elements::style::{BLACK, GRID, Look, QUIET, WHITE};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, finite};
use crate::reach::ReachAnswer;
use crate::units::{Units, whole};

/// A3 on its side, 420 by 297 mm (ISO 216).
const PAPER_MM: f64 = 420.0;
const WIDE: f64 = 1600.0;
const HIGH: f64 = WIDE * 297.0 / 420.0;
const MARGIN: f64 = 56.0;
const LEFT: f64 = 170.0;
/// Room for the names of the lines at the right.
const RIGHT: f64 = WIDE - 250.0;
const TOP: f64 = 250.0;
const BOTTOM: f64 = HIGH - 265.0;

const TITLE: Text = Text::of(44.0).semi_bold();
const SHOWS: Text = Text::of(24.0);
const TICK: Text = Text::of(26.0);
const NAME: Text = Text::of(28.0).semi_bold();
const SMALL: Text = Text::of(15.0);
const SMALL_NOTE: Text = Text::of(16.0).semi_bold();
const NOTE: Text = Text::of(22.0).semi_bold();
/// The hand cap is drawn up to this multiple of the greatest flow that holds.
const CAP_ROOM: f64 = 1.5;
const LINE_GAP: f64 = 38.0;

/// How the lines differ: by dashes, each with its own mark; after the last they begin again.
const DASHES: [&str; 6] = ["", "18 8", "4 7", "24 7 4 7", "10 6", "24 6 4 6 4 6"];

/// Where the start is the limit, the line is drawn over a broad grey one.
const START: Stroke = Stroke::of(GRID, 22.0);
/// A flow that every chart shows, gpm: the least that the usual grading rule credits.
const LEAST_CREDITED: Stroke = Stroke::of(BLACK, 2.5).dashed("2 6");

/// Numbers of tankers that hold the same at every distance, and what they hold.
struct Curve {
    first: usize,
    last: usize,
    points: Vec<Held>,
}

/// What holds at a distance.
#[derive(PartialEq)]
struct Held {
    miles: f64,
    gpm: f64,
    /// A little more is too close to tell.
    may_be_more: bool,
    /// The start is the limit, not the distance.
    at_the_start: bool,
}

/// What the reader's words and this day add to an answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Words<'w> {
    /// The reader's units.
    pub units: Units,
    /// The reader's word for the truck.
    pub tanker: &'w str,
    /// How the road is driven: "30 mph out, 25 mph back".
    pub road: &'w str,
}

/// Draws the chart.
///
/// - Given: an answer with rows.
/// - Errors: [`ChartError::BadNumber`] for a flow or distance that is NaN or negative.
pub fn chart(
    found: &ReachAnswer,
    words: Words<'_>,
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    let Words { units, tanker, .. } = words;
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
    let title = sheet.answer;
    let mut y = 34.0;
    // A long title takes smaller letters and two lines: it is not cut.
    let is_long = TITLE.width(title) > WIDE - 2.0 * MARGIN;
    let style = if is_long { Text::of(30.0).semi_bold() } else { TITLE };
    for line in font::wrap(title, style.size, style.weight, WIDE - 2.0 * MARGIN, 4) {
        y += if is_long { 36.0 } else { 50.0 };
        drawing.text(MARGIN, y, &line, style);
    }
    let farthest = found.rows.iter().map(|row| units.distance(row.miles)).fold(0.0, f64::max);
    let greatest = curves.iter().flat_map(|curve| &curve.points).map(|point| units.flow(point.gpm));
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
    y += 12.0;
    for line in font::wrap(&shows, SHOWS.size, SHOWS.weight, WIDE - 2.0 * MARGIN, 4) {
        y += 29.0;
        drawing.text(MARGIN, y, &line, SHOWS);
    }
    let least = units.flow(found.demand.minimum);
    let greatest = greatest.max(drawn_cap.unwrap_or(0.0)).max(1.1 * least);
    let step = round_step(greatest.max(1.0), 10.0);
    let x = Scale { low: 0.0, high: farthest.max(1.0), from: LEFT, to: RIGHT };
    let high = step * (greatest / step - 1e-9).ceil().max(1.0);
    let y = Scale { low: 0.0, high, from: BOTTOM, to: TOP };
    axes(&mut drawing, x, y, step, units);
    if let Some(gpm) = found.site_cap_gpm {
        let told = format!("what {} passes by hand: {}", found.site, worked_out(gpm, units));
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
    drawing.path(
        &[(LEFT, y.at(least)), (RIGHT, y.at(least))],
        LEAST_CREDITED,
        "the least that the usual grading rule credits",
    );
    if curves.iter().all(|curve| curve.points.is_empty()) {
        let middle = (f64::midpoint(LEFT, RIGHT), f64::midpoint(TOP, BOTTOM));
        drawing.boxed_text(middle.0, middle.1, "no flow surely holds at any distance", NAME);
    }
    let at = |held: &Held| (x.at(units.distance(held.miles)), y.at(units.flow(held.gpm)));
    for curve in &curves {
        for pair in curve.points.windows(2).filter(|pair| pair.iter().all(|held| held.at_the_start))
        {
            let ends: Vec<(f64, f64)> = pair.iter().map(at).collect();
            drawing.path(&ends, START, "the start is the limit");
        }
    }
    for (place, curve) in curves.iter().enumerate() {
        let points: Vec<(f64, f64)> = curve.points.iter().map(at).collect();
        let stroke = Stroke::of(BLACK, 4.0).dashed(DASHES[place % DASHES.len()]);
        drawing.path(&points, stroke, &named(curve, tanker));
        for (held, (at, level)) in curve.points.iter().zip(points) {
            if held.may_be_more {
                drawing.text(at + 9.0, level - 11.0, "+", NOTE);
            }
            let dot = Area { x: at - 6.0, y: level - 6.0, width: 12.0, height: 12.0 };
            let look = if place % 2 == 0 { BLACK } else { WHITE };
            drawing.area(dot, Look::plain(look), Some(Stroke::of(BLACK, 3.0)), "");
        }
    }
    names(&mut drawing, &curves, (x, y), units, tanker, found.demand.minimum);
    foot(&mut drawing, found, &curves, words, sheet);
    let described = format!("{shows}\n{}\n{CAUTION}", sheet.foot);
    Ok(drawing.finish_on_paper(HIGH, title, &described, PAPER_MM))
}

/// "2 hours", "100 minutes".
fn long(minutes: f64) -> String {
    if minutes > 60.0 && minutes % 60.0 == 0.0 {
        format!("{:.0} hours", minutes / 60.0)
    } else {
        format!("{minutes:.0} minutes")
    }
}

/// A flow that was worked out or assumed, in words: to three figures where it was turned into metric units, as reports have
/// it.
fn worked_out(gpm: f64, units: Units) -> String {
    let flow = units.flow(gpm);
    if units == Units::Us || flow < 1_000.0 {
        return units.gpm(gpm);
    }
    let step = 10f64.powi(flow.log10().floor() as i32 - 2);
    format!("{} {}", whole((flow / step).round() * step), units.flow_sign())
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
    let points = |tankers: usize| -> Vec<Held> {
        (found.rows.iter())
            .filter_map(|row| {
                let cell = row.cells.get(tankers - 1)?;
                Some(Held {
                    miles: row.miles,
                    gpm: cell.held_gpm?,
                    may_be_more: cell.not_clear_up_to_gpm.is_some(),
                    at_the_start: cell.start_is_the_limit(),
                })
            })
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
fn names(
    drawing: &mut Drawing,
    curves: &[Curve],
    (x, y): (Scale, Scale),
    units: Units,
    tanker: &str,
    least_gpm: f64,
) {
    let ends: Vec<(f64, f64)> = (curves.iter())
        .filter_map(|curve| curve.points.last())
        .map(|held| (x.at(units.distance(held.miles)), y.at(units.flow(held.gpm))))
        .collect();
    // In the margin, free of the lines, the least credited too.
    let mut wanted: Vec<f64> = ends.iter().map(|end| end.1).collect();
    wanted.push(y.at(units.flow(least_gpm)));
    let places = spread_apart(&wanted, LINE_GAP, TOP, BOTTOM);
    if let (Some(level), Some(place)) = (wanted.last(), places.last()) {
        drawing.line((RIGHT, *level), (RIGHT + 34.0, *place), Stroke::of(QUIET, 1.5));
        let told = format!("{}: least credited", units.gpm(least_gpm));
        let told = SMALL_NOTE.fit(&told, WIDE - RIGHT - 50.0);
        drawing.text(RIGHT + 42.0, place + 6.0, &told, SMALL_NOTE);
    }
    for ((curve, end), place) in curves.iter().zip(ends).zip(places) {
        drawing.line((end.0 + 8.0, end.1), (RIGHT + 34.0, place), Stroke::of(QUIET, 1.5));
        let name = NAME.fit(&named(curve, tanker), WIDE - RIGHT - 60.0);
        drawing.text(RIGHT + 42.0, place + 10.0, &name, NAME);
    }
}

/// "1: Tanker 5, 3,000 gal, fills at 1,000 gpm; 2: ...", of alike ones in a row only the first and the last.
fn fleet(found: &ReachAnswer, units: Units) -> String {
    let numbered: Vec<(usize, &String, &(f64, f64))> =
        (found.tankers.iter().zip(&found.tanks_and_fills))
            .enumerate()
            .map(|(place, (name, tank))| (place + 1, name, tank))
            .collect();
    let told: Vec<String> = (numbered.chunk_by(|a, b| a.2 == b.2))
        .map(|alike| {
            let (first, last) = (&alike[0], &alike[alike.len() - 1]);
            let who = if first.0 == last.0 {
                format!("{}: {}", first.0, first.1)
            } else {
                format!("{} to {}: {} to {}", first.0, last.0, first.1, last.1)
            };
            format!(
                "{who}, {}, fills at {}",
                units.gallons(first.2.0),
                worked_out(first.2.1, units)
            )
        })
        .collect();
    told.join("; ")
}

fn foot(
    drawing: &mut Drawing,
    found: &ReachAnswer,
    curves: &[Curve],
    words: Words<'_>,
    sheet: &Sheet<'_>,
) {
    let Words { units, tanker, road } = words;
    let demand = found.demand;
    let any = |test: fn(&Held) -> bool| curves.iter().any(|curve| curve.points.iter().any(test));
    let mut signs = String::new();
    if any(|held| held.may_be_more) {
        signs.push_str(" + surely this much; a little more is too close to tell.");
    }
    if any(|held| held.at_the_start) {
        signs.push_str(&format!(
            " Broad grey: the start is the limit there, not the road; more breaks before any {tanker} can be \
             back with a second load."
        ));
    }
    let who = format!("{}. Road: {road}.{signs}", fleet(found, units));
    let from = format!(
        "The flow is wanted from minute {:.0} after the first engine's \
         arrival, {} of it from minute {:.0}. Worked out for the scenario's own tanks, pumps, crews and \
         roads; another site, road or crew gives another chart. No flow is worth a crash: belts on, \
         posted limits, a spotter for every backing move.",
        demand.full_from,
        units.gpm(demand.minimum),
        demand.minimum_from
    );
    let mut y = BOTTOM + 102.0;
    for text in [who.as_str(), from.as_str(), sheet.foot, CAUTION] {
        for line in font::wrap(text, SMALL.size, Weight::Regular, WIDE - 2.0 * MARGIN, 4) {
            y += 20.0;
            drawing.text(MARGIN, y, &line, SMALL);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 503.8 gal x 3.785411784 L = 1,907.1 L; 1,000 gal = 3,785.4 L (231 cubic inches of 25.4 mm).
    #[test]
    fn what_was_worked_out_stands_in_three_figures_of_the_readers_units() {
        for (gpm, units, told) in [
            (503.8, Units::Metric, "1,910 L/min"),
            (1_000.0, Units::Metric, "3,790 L/min"),
            (100.0, Units::Metric, "379 L/min"),
            (503.8, Units::Us, "504 gpm"),
        ] {
            assert_eq!(worked_out(gpm, units), told);
        }
    }
}
