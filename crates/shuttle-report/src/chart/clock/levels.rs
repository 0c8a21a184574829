//! The levels of the attack engine's tank and of the drop tanks over time, in bands.

use shuttle_sim::{Brought, Plan};

use crate::chart::elements::axis::{
    AXIS_TEXT, Scale, minute_grid, minute_labels, round_step, spread_apart, value_axis,
};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, WIDTH, finish, heading, legend, runs_and_seed,
};
use crate::chart::elements::style::{BLACK, BLUE, GREEN, Look, PALE, QUIET, SKY, VERMILLION};
use crate::chart::elements::svg::{Drawing, Stroke, Text};
use crate::chart::{ChartError, MadeFrom, finite};
use crate::summary::{Band, Summary};
use crate::units::Units;

const LEFT: f64 = 84.0;
/// Room for the labels of the lines, px.
const RIGHT: f64 = 168.0;
const PANEL: f64 = 160.0;

const MEDIAN: Stroke = Stroke::of(BLACK, 2.0);
const HALF: Look = Look::plain(SKY);
const NINE_OF_TEN: Look = Look::plain(PALE);

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

/// Draws the chart: the attack engine above, then the drop tanks in order.
///
/// - Errors: [`ChartError::LevelsNotKept`] if the batch kept none; [`ChartError::BadNumber`].
pub fn chart(summary: &Summary, plan: &Plan, units: Units) -> Result<String, ChartError> {
    let levels = summary.level.as_ref().ok_or(ChartError::LevelsNotKept)?;
    let last = levels.minute.last().copied().unwrap_or(0.0);
    let last = finite("the last minute of the levels", last)?;
    let mut drawing = Drawing::new(WIDTH);
    let shows =
        "Water in the attack engine's tank and in the drop tanks, minute by minute over all runs.";
    let mut top = heading(&mut drawing, &summary.title, shows);
    let x = Scale { low: 0.0, high: last.max(1.0), from: LEFT, to: WIDTH - MARGIN - RIGHT };
    let bands = std::iter::once(&levels.attack_engine).chain(&levels.drop_tanks);
    for (tank, band) in tanks(plan).iter().zip(bands) {
        top += 30.0;
        let y = panel(&mut drawing, x, top, PANEL, tank, units);
        draw_band(&mut drawing, x, y, &levels.minute, band, units);
        draw_marks(&mut drawing, x, y, tank, units);
        top += PANEL;
    }
    let end = minute_labels(&mut drawing, x, top, "first water");
    let entries = [
        (Sample::Line(MEDIAN), "middle level (median)".to_owned()),
        (Sample::Box(HALF), "half of the runs (25 to 75%)".to_owned()),
        (Sample::Box(NINE_OF_TEN), "9 runs of 10 (5 to 95%)".to_owned()),
    ];
    let end = legend(&mut drawing, end + 4.0, &entries);
    let made = MadeFrom { runs: summary.replications, seed: summary.seed };
    Ok(finish(drawing, end, &summary.title, &format!("{}.", runs_and_seed(made))))
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
                stroke: Stroke::of(VERMILLION, 1.5).dashed("8 4"),
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
                stroke: Stroke::of(VERMILLION, 1.5).dashed("2 3"),
            },
        ];
        if place == 0
            && let Some(restart) = plan.restart_level()
        {
            marks.push(Mark {
                gallons: restart,
                name: "restart",
                stroke: Stroke::of(GREEN, 1.5).dashed("10 3 2 3"),
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
    if step >= 1.0 { crate::units::whole(value) } else { format!("{value:.2}") }
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
        let label = format!("{} {}", mark.name, units.gallons(mark.gallons));
        drawing.text(x.to + 16.0, label_at + 4.0, &style.fit(&label, RIGHT - 16.0), style);
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
    drawing.shape(&between(&band.p5, &band.p95), NINE_OF_TEN, "9 runs of 10");
    drawing.shape(&between(&band.p25, &band.p75), HALF, "half of the runs");
    // The edges keep the bands apart on a poor copy.
    for edge in [&band.p5, &band.p95] {
        drawing.path(&line(edge), Stroke::of(BLUE, 0.75), "");
    }
    drawing.path(&line(&band.p50), MEDIAN, "middle level");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::{self, summary};
    use crate::chart::tests::{lines, texts};

    #[test]
    fn every_tank_has_a_panel_with_its_marks_in_the_readers_units() {
        let plan = demo::plan(3, 120.0, 2);
        let svg = chart(&summary(&plan, 64), &plan, Units::Us).expect("a chart");
        let words = texts(&svg);
        for wanted in [
            "Engine 3 (attack engine), gal",
            "Drop tank 1, brought by Tamarack Tanker 1, gal",
            "Drop tank 2, brought by Engine 8, gal",
            "reserve 500 gal",
            "unusable 200 gal",
            "restart 600 gal",
            "capacity 2,500 gal",
            "minutes after first water",
        ] {
            assert!(words.iter().any(|text| text == wanted), "{wanted} is missing in {words:?}");
        }
        assert_eq!(words.iter().filter(|text| text.starts_with("restart")).count(), 1);
        let metric = texts(&chart(&summary(&plan, 64), &plan, Units::Metric).expect("a chart"));
        // 2,500 gal of 3.785411784 L.
        assert!(metric.iter().any(|text| text == "capacity 9,464 L"), "{metric:?}");
    }

    #[test]
    fn the_median_lies_where_the_summary_says() {
        let plan = demo::plan(3, 60.0, 1);
        let summary = summary(&plan, 64);
        let svg = chart(&summary, &plan, Units::Us).expect("a chart");
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
    }

    #[test]
    fn a_batch_without_levels_is_told_so() {
        let plan = demo::plan(2, 60.0, 1);
        let mut summary = summary(&plan, 8);
        summary.level = None;
        assert_eq!(chart(&summary, &plan, Units::Us), Err(ChartError::LevelsNotKept));
    }
}
