//! How many fires are short at each minute, and the levels of the attack engine's tank and of the drop tanks: bands
//! over all fires, and the line of the worst one.

use shuttle_sim::{Brought, Plan, Trace};

use crate::chart::elements::axis::{
    AXIS_TEXT, Scale, minute_grid, minute_labels, round_step, spread_apart, value_axis,
};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, legend,
};
use crate::chart::elements::style::{BLACK, BLUE, Look, PALE, QUIET, SHORT, SKY, VERMILLION};
use crate::chart::elements::svg::{Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance, finite};
use crate::summary::{Band, Summary};
use crate::units::{Units, whole};

use super::marks::first_water_mark;

const LEFT: f64 = 62.0;
/// Room for the labels of the lines, px.
const RIGHT: f64 = 112.0;
const PANEL: f64 = 130.0;
/// Height of the strip that shows how many fires are short, px.
const STRIP: f64 = 60.0;
/// The strip reaches at least so high: a bar of a hundredth of that is hardly seen, as it should be.
const LEAST_STRIP: f64 = 0.01;

const MEDIAN: Stroke = Stroke::of(BLACK, 2.0);
const HALF: Look = Look::plain(SKY);
const NINE_OF_TEN: Look = Look::plain(PALE);
const WORST: Stroke = Stroke::of(VERMILLION, 1.75).dashed("7 3");

/// A level that means something, with its name.
#[derive(Debug, Clone)]
pub(super) struct Mark {
    pub gallons: f64,
    pub name: &'static str,
    pub stroke: Stroke,
}

/// One tank: its heading, how much it holds, and its marks.
#[derive(Debug, Clone)]
pub(super) struct Tank {
    pub name: String,
    pub capacity: f64,
    pub marks: Vec<Mark>,
}

/// The worst of the fires.
#[derive(Debug, Clone, Copy)]
pub struct Worst<'t> {
    /// Its number, as it is replayed.
    pub run: u64,
    /// Its story.
    pub trace: &'t Trace,
}

/// Draws the chart: how many fires are short, then the attack engine, then the drop tanks in order.
///
/// - Errors: [`ChartError::LevelsNotKept`] if the batch kept none; [`ChartError::BadNumber`].
pub fn chart(
    summary: &Summary,
    plan: &Plan,
    worst: Option<Worst<'_>>,
    units: Units,
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    let levels = summary.level.as_ref().ok_or(ChartError::LevelsNotKept)?;
    let last = levels.minute.last().copied().unwrap_or(0.0);
    let last = finite("the last minute of the levels", last)?;
    for (minute, share) in summary.short_by_alarm_minute.iter().enumerate() {
        chance(|| format!("the share of fires short in minute {minute}"), *share)?;
    }
    let mut drawing = Drawing::new(WIDTH);
    let mut top = heading(&mut drawing, sheet) + 36.0;
    let x = Scale { low: 0.0, high: last.max(1.0), from: LEFT, to: WIDTH - MARGIN - RIGHT };
    let mut panels = vec![(top, top + STRIP)];
    draw_strip(&mut drawing, x, top, &summary.short_by_alarm_minute);
    top += STRIP;
    let bands = std::iter::once(&levels.attack_engine).chain(&levels.drop_tanks);
    let tanks = tanks(plan);
    for ((place, tank), band) in tanks.iter().enumerate().zip(bands) {
        top += 28.0;
        let y = panel(&mut drawing, x, top, PANEL, tank, units);
        draw_band(&mut drawing, x, y, &levels.minute, band, units);
        if let Some(worst) = worst {
            // In the story the attack engine is the last column.
            let column = place.checked_sub(1).unwrap_or(tanks.len() - 1);
            draw_worst(&mut drawing, x, y, worst.trace, column, units);
        }
        draw_marks(&mut drawing, x, y, tank, units);
        panels.push((top, top + PANEL));
        top += PANEL;
    }
    first_water_mark(&mut drawing, x, summary.first_water_min_mean, &panels, 0.0);
    let end = minute_labels(&mut drawing, x, top, "the alarm");
    let mut entries = vec![
        (Sample::Box(SHORT), "fires short at this minute".to_owned()),
        (Sample::Line(MEDIAN), "middle level".to_owned()),
        (Sample::Box(HALF), "half of the fires (25 to 75%)".to_owned()),
        (Sample::Box(NINE_OF_TEN), "9 fires of 10 (5 to 95%)".to_owned()),
    ];
    if let Some(worst) = worst {
        entries.push((Sample::Line(WORST), format!("the worst fire: run {}", worst.run)));
    }
    let end = legend(&mut drawing, end + 4.0, &entries);
    Ok(finish(drawing, end, sheet))
}

/// A bar for each minute in which fires are short.
fn draw_strip(drawing: &mut Drawing, x: Scale, top: f64, short: &[f64]) {
    let bottom = top + STRIP;
    let greatest = short.iter().copied().fold(LEAST_STRIP, f64::max);
    let step = round_step(greatest, 3.0);
    let high = (step * (greatest / step - 1e-9).ceil()).min(1.0);
    let y = Scale { low: 0.0, high, from: bottom, to: top + 4.0 };
    let style = Text::of(13.0).semi_bold();
    drawing.text(x.from, top - 5.0, "Fires short at this minute, of 100", style);
    minute_grid(drawing, x, top, bottom);
    let digits = usize::from(step < 0.0099);
    value_axis(drawing, y, x.from, x.to, step, |value| format!("{:.digits$}", 100.0 * value));
    for (minute, share) in short.iter().enumerate().filter(|(_, share)| **share > 0.0) {
        let from = minute as f64;
        if from >= x.high {
            continue;
        }
        let (left, right) = (x.at(from), x.at(from + 1.0));
        // A thin bar still shows.
        let height = (bottom - y.at(*share)).max(1.0);
        let area = Area { x: left, y: bottom - height, width: right - left, height };
        let says = format!("minute {minute}: {:.2} fires of 100 are short", 100.0 * share);
        // The hatch runs on from bar to bar, so that narrow ones show it together.
        drawing.area(area, SHORT, None, &says);
    }
    drawing.line((x.from, bottom), (x.to, bottom), Stroke::of(QUIET, 1.0));
}

fn draw_worst(
    drawing: &mut Drawing,
    x: Scale,
    y: Scale,
    trace: &Trace,
    column: usize,
    units: Units,
) {
    let line: Vec<(f64, f64)> = (trace.course.iter())
        .filter_map(|(minute, levels)| Some((*minute, *levels.get(column)?)))
        .filter(|(minute, level)| level.is_finite() && *minute <= x.high)
        .map(|(minute, level)| (x.at(minute), y.at(units.volume(level))))
        .collect();
    drawing.path(&line, WORST, "the worst fire");
}

/// The attack engine, then the drop tanks.
pub(super) fn tanks(plan: &Plan) -> Vec<Tank> {
    let facts = plan.facts();
    let engine = &facts.attack_engine;
    let capacity = |gallons| Mark { gallons, name: "capacity", stroke: Stroke::of(QUIET, 1.0) };
    let mut tanks = vec![Tank {
        name: format!("{} (attack engine)", engine.name),
        capacity: engine.tank,
        marks: vec![
            capacity(engine.tank),
            Mark {
                gallons: facts.incident.reserve,
                name: "reserve",
                stroke: Stroke::of(BLACK, 1.25).dashed("8 4"),
            },
        ],
    }];
    for (place, tank) in facts.drop_tanks.iter().enumerate() {
        let brought = match &tank.brought {
            Brought::ByTanker(tanker) => {
                facts.tankers.get(*tanker).map(|tanker| tanker.name.as_str())
            }
            Brought::ByAttackEngine => Some(engine.name.as_str()),
            Brought::BySupplyEngine => {
                facts.supply.engine.as_ref().map(|engine| engine.name.as_str())
            }
            Brought::Itself(_) => None,
        };
        let brought = brought.map_or_else(String::new, |name| format!(", brought by {name}"));
        let mut marks = vec![
            capacity(tank.capacity),
            Mark {
                gallons: tank.unusable,
                name: "unusable",
                stroke: Stroke::of(BLACK, 1.25).dashed("2 3"),
            },
        ];
        if place == 0
            && let Some(restart) = plan.restart_level()
        {
            marks.push(Mark {
                gallons: restart,
                name: "restart",
                stroke: Stroke::of(BLACK, 1.25).dashed("10 3 2 3"),
            });
        }
        tanks.push(Tank {
            name: format!("Drop tank {}{brought}", place + 1),
            capacity: tank.capacity,
            marks,
        });
    }
    for tank in &mut tanks {
        // A level of zero is the floor: a line along it would add nothing.
        tank.marks.retain(|mark| mark.gallons > 0.0);
    }
    tanks
}

/// The grid and the name of one tank's panel.
pub(super) fn panel(
    drawing: &mut Drawing,
    x: Scale,
    top: f64,
    height: f64,
    tank: &Tank,
    units: Units,
) -> Scale {
    let full = units.volume(tank.capacity);
    let y = Scale { low: 0.0, high: full, from: top + height, to: top + 4.0 };
    let name = format!("{}, {}", tank.name, units.volume_sign());
    let style = Text::of(13.0).semi_bold();
    drawing.text(x.from, top - 5.0, &style.fit(&name, x.to - x.from), style);
    minute_grid(drawing, x, top, top + height);
    let step = round_step(full, height / 32.0);
    value_axis(drawing, y, x.from, x.to, step, |value| value_tick(value, step));
    y
}

/// A level's number with the digits its step needs.
fn value_tick(value: f64, step: f64) -> String {
    if step >= 1.0 { whole(value) } else { format!("{value:.2}") }
}

/// The marks as lines, labelled at the right.
pub(super) fn draw_marks(drawing: &mut Drawing, x: Scale, y: Scale, tank: &Tank, units: Units) {
    let style = Text::of(AXIS_TEXT);
    let wanted: Vec<f64> = tank.marks.iter().map(|mark| y.at(units.volume(mark.gallons))).collect();
    let places = spread_apart(&wanted, 15.0, y.to, y.from);
    for ((mark, at), label_at) in tank.marks.iter().zip(wanted).zip(places) {
        drawing.line((x.from, at), (x.to, at), mark.stroke);
        let elbow = Stroke { dashes: "", width: 1.0, ..mark.stroke };
        drawing.path(&[(x.to, at), (x.to + 6.0, at), (x.to + 12.0, label_at)], elbow, "");
        // The panel's name has the unit.
        let label = format!("{} {}", mark.name, whole(units.volume(mark.gallons)));
        drawing.text(x.to + 16.0, label_at + 4.0, &label, style);
    }
}

fn draw_band(
    drawing: &mut Drawing,
    x: Scale,
    y: Scale,
    minutes: &[f64],
    band: &Band,
    units: Units,
) {
    let line = |levels: &[f64]| -> Vec<(f64, f64)> {
        (minutes.iter().zip(levels))
            // A quantile of no runs is NaN.
            .filter(|(_, level)| level.is_finite())
            .map(|(minute, level)| (x.at(*minute), y.at(units.volume(*level))))
            .collect()
    };
    let between = |low: &[f64], high: &[f64]| -> Vec<(f64, f64)> {
        line(high).into_iter().chain(line(low).into_iter().rev()).collect()
    };
    drawing.shape(&between(&band.p5, &band.p95), NINE_OF_TEN, "9 fires of 10");
    drawing.shape(&between(&band.p25, &band.p75), HALF, "half of the fires");
    // The edges keep the bands apart on a poor copy.
    for edge in [&band.p5, &band.p95] {
        drawing.path(&line(edge), Stroke::of(BLUE, 0.75), "");
    }
    drawing.path(&line(&band.p50), MEDIAN, "middle level");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::{self, SHEET, story_of, summary};
    use crate::chart::drawn::{areas, lines, texts};

    fn drawn(summary: &Summary, plan: &Plan, units: Units) -> String {
        chart(summary, plan, None, units, &SHEET).expect("a chart")
    }

    #[test]
    fn every_tank_has_a_panel_with_its_marks_in_the_readers_units() {
        let plan = demo::plan(3, 120.0, 2);
        let words = texts(&drawn(&summary(&plan, 64), &plan, Units::Us));
        for wanted in [
            "Engine 3 (attack engine), gal",
            "Drop tank 1, brought by Tamarack Tanker 1, gal",
            "Drop tank 2, brought by Engine 8, gal",
            "reserve 500",
            "unusable 200",
            "restart 600",
            "capacity 2,500",
            "minutes after the alarm",
        ] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
        assert_eq!(words.iter().filter(|text| text.starts_with("restart")).count(), 1);
        let metric = texts(&drawn(&summary(&plan, 64), &plan, Units::Metric));
        // 2,500 gal of 3.785411784 L.
        assert!(metric.iter().any(|text| text == "capacity 9,464"), "{metric:?}");
        assert!(metric.iter().any(|text| text == "Engine 3 (attack engine), L"), "{metric:?}");
    }

    #[test]
    fn the_median_lies_where_the_summary_says() {
        let plan = demo::plan(3, 60.0, 1);
        let summary = summary(&plan, 64);
        let svg = drawn(&summary, &plan, Units::Us);
        let medians = lines(&svg, "middle level");
        let levels = summary.level.expect("levels were kept");
        let drop_tank = &levels.drop_tanks[0].p50;
        assert_eq!((medians.len(), medians[1].len()), (2, drop_tank.len()));
        // Two points fix the scale; a third must lie on it.
        let high = |place: usize| medians[1][place].1;
        let greatest = (0..drop_tank.len())
            .max_by(|a, b| drop_tank[*a].total_cmp(&drop_tank[*b]))
            .expect("levels");
        let px_per_gallon = (high(0) - high(greatest)) / (drop_tank[greatest] - drop_tank[0]);
        assert!((px_per_gallon - (PANEL - 4.0) / 2_500.0).abs() < 1e-3, "{px_per_gallon}");
        for place in 0..drop_tank.len() {
            let expected = high(0) - px_per_gallon * (drop_tank[place] - drop_tank[0]);
            assert!((high(place) - expected).abs() < 0.2, "minute {place}");
        }
        // Across, minutes count from the alarm: the first level is that of the first minute with first water.
        let px_per_minute = (WIDTH - MARGIN - RIGHT - LEFT) / levels.minute.last().expect("levels");
        let first = medians[1][0].0 - LEFT;
        assert!((first / px_per_minute - levels.minute[0]).abs() < 0.05 && levels.minute[0] > 9.0);
    }

    #[test]
    fn the_strip_shows_how_many_fires_are_short_at_each_minute() {
        let plan = demo::plan(2, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.short_by_alarm_minute = vec![0.0; 40];
        summary.short_by_alarm_minute[20] = 0.5;
        summary.short_by_alarm_minute[30] = 0.25;
        let svg = drawn(&summary, &plan, Units::Us);
        let bars: Vec<_> =
            areas(&svg).into_iter().filter(|one| one.says.ends_with("are short")).collect();
        assert_eq!(bars.len(), 2);
        assert!((bars[0].height / bars[1].height - 2.0).abs() < 0.01);
        assert_eq!(bars[0].says, "minute 20: 50.00 fires of 100 are short");
        // A share of a hundredth of a percent is no full bar.
        summary.short_by_alarm_minute = vec![0.000_1; 40];
        let svg = drawn(&summary, &plan, Units::Us);
        let bar = areas(&svg).into_iter().find(|one| one.says.ends_with("are short"));
        assert!(bar.is_some_and(|bar| bar.height <= 1.5), "a hundredth of the strip");
    }

    #[test]
    fn the_worst_fire_is_drawn_by_its_own_story() {
        let plan = demo::plan(2, 60.0, 1);
        let summary = summary(&plan, 64);
        let run = summary.worst_run.expect("some run is short");
        let (_, trace) = story_of(&plan, run - 1);
        let worst = Worst { run, trace: &trace };
        let svg = chart(&summary, &plan, Some(worst), Units::Us, &SHEET).expect("a chart");
        let drawn = lines(&svg, "the worst fire");
        assert_eq!(drawn.len(), 2, "the engine and the drop tank");
        assert!(texts(&svg).iter().any(|text| *text == format!("the worst fire: run {run}")));
        // The engine's own level, above its panel's floor.
        let engine = trace.course[0].1.last().copied().expect("a level");
        let px = (PANEL - 4.0) / 1_250.0;
        let lowest = drawn[0].iter().map(|point| point.1).fold(f64::MIN, f64::max);
        let least = (trace.course.iter().filter_map(|(_, levels)| levels.last()).copied())
            .fold(f64::MAX, f64::min);
        let apart = (engine - least) * px;
        assert!((lowest - drawn[0][0].1 - apart).abs() < 0.3, "{lowest} and {apart}");
    }

    #[test]
    fn a_batch_without_levels_is_told_so() {
        let plan = demo::plan(2, 60.0, 1);
        let mut summary = summary(&plan, 8);
        summary.level = None;
        let none = chart(&summary, &plan, None, Units::Us, &SHEET);
        assert_eq!(none, Err(ChartError::LevelsNotKept));
    }
}
