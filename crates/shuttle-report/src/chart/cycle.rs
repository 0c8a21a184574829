//! The mean cycle of each tanker, part by part.

use std::collections::BTreeMap;

use shuttle_sim::Part;

use super::{ChartError, finite, part_words};
use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, legend,
};
use crate::chart::elements::style::{self, BLACK, GRID, QUIET};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::summary::Summary;
use crate::units::minutes;

/// Room for the names, px.
const LEFT: f64 = 150.0;
/// Room for the totals, px.
const RIGHT: f64 = 66.0;
const BAR: f64 = 24.0;
const ROW: f64 = 34.0;

const NAME: Text = Text::of(13.0).at(Anchor::End);
const TOTAL: Text = Text::of(13.0).semi_bold();
const IN_BAR: Text = Text::of(12.0);

/// One bar.
struct Row<'a> {
    name: &'a str,
    parts: &'a BTreeMap<&'static str, f64>,
    /// Of the dumping, minutes that a full drop tank held it up.
    held_up: f64,
    is_all: bool,
}

/// What of a cycle has a look of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stretch {
    Part(Part),
    /// Of the dumping, what a full drop tank held up.
    HeldUp,
}

impl Stretch {
    /// In the order they happen: what is held up is part of the dumping and drawn behind it.
    fn all() -> impl Iterator<Item = Stretch> {
        Part::ALL.into_iter().flat_map(|part| {
            let held_up = (part == Part::Dump).then_some(Stretch::HeldUp);
            [Stretch::Part(part)].into_iter().chain(held_up)
        })
    }

    fn look(self) -> style::Look {
        match self {
            Stretch::Part(part) => style::part(part),
            Stretch::HeldUp => style::WAITING_AT_FULL_TANK,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Stretch::Part(part) => part_words(part),
            Stretch::HeldUp => "wait at a full drop tank",
        }
    }
}

impl Row<'_> {
    fn total(&self) -> f64 {
        self.parts.values().sum()
    }

    /// Minutes of a stretch, where it happens.
    fn length(&self, stretch: Stretch) -> Option<f64> {
        match stretch {
            Stretch::Part(Part::Dump) => {
                self.parts.get(Part::Dump.key()).map(|dump| (dump - self.held_up).max(0.0))
            }
            Stretch::Part(part) => self.parts.get(part.key()).copied(),
            Stretch::HeldUp => (self.held_up > 0.0).then_some(self.held_up),
        }
    }
}

/// Draws the chart: a bar for all tankers together, then one for each in the plan's order. The legend gives
/// the mean over all tankers of every part, so that no part is too short to be read.
///
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(summary: &Summary, sheet: &Sheet<'_>) -> Result<String, ChartError> {
    let mut rows = vec![Row {
        name: "all together",
        parts: &summary.cycle_min,
        held_up: summary.held_up_min,
        is_all: true,
    }];
    rows.extend(summary.tankers.iter().map(|tanker| Row {
        name: &tanker.name,
        parts: &tanker.cycle_min,
        held_up: tanker.held_up_min,
        is_all: false,
    }));
    for row in &rows {
        for (part, length) in row.parts {
            finite(&format!("the mean of \"{part}\" of {}", row.name), *length)?;
        }
    }
    let mut drawing = Drawing::new(WIDTH);
    let top = heading(&mut drawing, sheet);
    let longest = rows.iter().map(Row::total).fold(0.0, f64::max);
    let step = round_step(longest.max(1.0), 10.0);
    let x = Scale { low: 0.0, high: longest.max(1.0), from: LEFT, to: WIDTH - MARGIN - RIGHT };
    // The bar for all stands a little apart.
    let bottom = top + ROW * rows.len() as f64 + 10.0;
    for minute in x.ticks(step) {
        drawing.line((x.at(minute), top), (x.at(minute), bottom), Stroke::of(GRID, 1.0));
        let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
        drawing.text(x.at(minute), bottom + 17.0, &tick(minute, step), style);
    }
    drawing.line((x.from, bottom), (x.to, bottom), Stroke::of(QUIET, 1.0));
    let middle = f64::midpoint(x.from, x.to);
    drawing.text(
        middle,
        bottom + 35.0,
        "minutes of one cycle",
        Text::of(AXIS_TEXT).at(Anchor::Middle),
    );
    for (place, row) in rows.iter().enumerate() {
        let apart = if row.is_all { 0.0 } else { 8.0 };
        draw_row(&mut drawing, x, top + ROW * place as f64 + apart + 5.0, row);
    }
    let entries: Vec<(Sample, String)> = Stretch::all()
        .filter(|stretch| rows.iter().any(|row| row.length(*stretch).is_some()))
        .map(|stretch| {
            let mean = rows[0].length(stretch).unwrap_or(0.0);
            (Sample::Box(stretch.look()), format!("{} {}", stretch.words(), some_minutes(mean)))
        })
        .collect();
    let mut end = bottom + 44.0;
    if !entries.is_empty() {
        drawing.text(
            MARGIN,
            end + 10.0,
            "In the order they happen, each with the minutes it takes on average over all trips.",
            Text::of(12.0),
        );
        end = legend(&mut drawing, end + 16.0, &entries);
    }
    Ok(finish(drawing, end, sheet))
}

/// What a part of the cycle is, as a reader counts minutes together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// On the road, either way.
    Driving,
    /// Taking water.
    Filling,
    /// Giving water.
    Giving,
    /// Waiting of every kind.
    Waiting,
    /// Connecting, positioning and their like.
    Handling,
}

/// What a part counts as.
pub fn kind(part: Part) -> Kind {
    match part {
        Part::TravelOut | Part::TravelBack => Kind::Driving,
        Part::Fill => Kind::Filling,
        Part::Dump | Part::PumpOff => Kind::Giving,
        Part::RoadWait | Part::FillWait | Part::SceneWait => Kind::Waiting,
        Part::FillConnect
        | Part::FillDisconnect
        | Part::DumpPosition
        | Part::DumpClear
        | Part::NurseConnect
        | Part::NurseDisconnect => Kind::Handling,
    }
}

/// What takes most of the mean cycle, with its minutes; `None` where no cycle was whole.
pub fn takes_most(summary: &Summary) -> Option<(Kind, f64)> {
    let mut kinds: BTreeMap<Kind, f64> = BTreeMap::new();
    for part in Part::ALL {
        if let Some(minutes) = summary.cycle_min.get(part.key()) {
            *kinds.entry(kind(part)).or_default() += minutes;
        }
    }
    // Of the dumping, what a full drop tank held up is waiting.
    if summary.held_up_min > 0.0 {
        *kinds.entry(kind(Part::Dump)).or_default() -= summary.held_up_min;
        *kinds.entry(Kind::Waiting).or_default() += summary.held_up_min;
    }
    kinds.into_iter().max_by(|a, b| a.1.total_cmp(&b.1))
}

/// Minutes to a tenth, where what happened at all is never "0.0".
fn some_minutes(mean: f64) -> String {
    if mean > 0.0 && mean < 0.05 { "<0.1".to_owned() } else { minutes(mean) }
}

fn tick(minute: f64, step: f64) -> String {
    if step >= 1.0 { format!("{minute:.0}") } else { format!("{minute:.1}") }
}

fn draw_row(drawing: &mut Drawing, x: Scale, top: f64, row: &Row) {
    let base = top + BAR / 2.0 + 4.5;
    let name = if row.is_all { NAME.semi_bold() } else { NAME };
    drawing.text(LEFT - 10.0, base, &name.fit_name(row.name, LEFT - 10.0 - MARGIN), name);
    if row.parts.is_empty() {
        drawing.text(LEFT + 8.0, base, "no whole cycle", Text::of(13.0).colour(QUIET));
        return;
    }
    let mut begun = 0.0;
    for stretch in Stretch::all() {
        let Some(length) = row.length(stretch) else { continue };
        let area =
            Area { x: x.at(begun), y: top, width: x.at(begun + length) - x.at(begun), height: BAR };
        let says = format!("{}: {} {} min", row.name, stretch.words(), minutes(length));
        drawing.area(area, stretch.look(), Some(Stroke::of(BLACK, 0.75)), &says);
        let number = minutes(length);
        if IN_BAR.width(&number) + 10.0 <= area.width {
            drawing.boxed_text(area.x + area.width / 2.0, top + BAR / 2.0, &number, IN_BAR);
        }
        begun += length;
    }
    drawing.text(x.at(begun) + 8.0, base, &format!("{} min", minutes(begun)), TOTAL);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo::{self, SHEET, summary};
    use crate::chart::drawn::{areas, texts};

    #[test]
    fn a_bar_is_made_of_the_parts_in_order_and_ends_in_the_total() {
        let plan = demo::plan(2, 60.0, 1);
        let mut summary = summary(&plan, 64);
        summary.tankers[0].cycle_min = BTreeMap::from([
            ("travel_out", 4.0),
            ("fill", 3.0),
            ("travel_back", 5.25),
            ("dump", 2.0),
        ]);
        let svg = chart(&summary, &SHEET).expect("a chart");
        let name = format!("{}: ", summary.tankers[0].name);
        let bar: Vec<_> =
            areas(&svg).into_iter().filter(|one| one.says.starts_with(&name)).collect();
        let says: Vec<&str> = bar.iter().map(|one| &one.says[name.len()..]).collect();
        assert_eq!(
            says,
            ["travel out 4.0 min", "fill 3.0 min", "travel back 5.2 min", "dump 2.0 min"]
        );
        for two in bar.windows(2) {
            assert!((two[0].x + two[0].width - two[1].x).abs() < 0.02, "parts follow each other");
        }
        assert!((bar[2].width / bar[0].width - 5.25 / 4.0).abs() < 0.01);
        assert!(texts(&svg).iter().any(|text| text == "14.2 min"));
    }

    #[test]
    fn the_legend_gives_the_mean_of_every_part_that_happens() {
        let plan = demo::plan(3, 120.0, 1);
        let summary = summary(&plan, 64);
        let words = texts(&chart(&summary, &SHEET).expect("a chart"));
        for part in Part::ALL {
            let held_up = if part == Part::Dump { summary.held_up_min } else { 0.0 };
            let entry = summary
                .cycle_min
                .get(part.key())
                .map(|mean| format!("{} {}", part_words(part), some_minutes(mean - held_up)));
            match entry {
                Some(entry) => assert!(words.contains(&entry), "{entry} is missing in {words:?}"),
                None => assert!(
                    !words.iter().any(|text| text.starts_with(&format!("{} 0", part_words(part))))
                ),
            }
        }
        let total = format!("{} min", minutes(summary.cycle_minutes().expect("cycles")));
        assert!(words.contains(&total), "{total} is missing in {words:?}");
    }

    #[test]
    fn what_a_full_drop_tank_holds_up_is_drawn_apart_from_the_dumping() {
        let plan = demo::plan(1, 60.0, 1);
        let mut summary = summary(&plan, 8);
        summary.tankers[0].cycle_min = BTreeMap::from([("fill", 3.0), ("dump", 5.0)]);
        summary.tankers[0].held_up_min = 2.0;
        let svg = chart(&summary, &SHEET).expect("a chart");
        let name = format!("{}: ", summary.tankers[0].name);
        let bar: Vec<_> =
            areas(&svg).into_iter().filter(|one| one.says.starts_with(&name)).collect();
        let says: Vec<&str> = bar.iter().map(|one| &one.says[name.len()..]).collect();
        assert_eq!(says, ["fill 3.0 min", "dump 3.0 min", "wait at a full drop tank 2.0 min"]);
        assert!(texts(&svg).iter().any(|text| text == "8.0 min"), "it is counted once");
    }

    #[test]
    fn what_takes_most_is_summed_over_parts_of_a_kind() {
        let plan = demo::plan(2, 60.0, 1);
        let mut summary = summary(&plan, 8);
        summary.cycle_min = BTreeMap::from([
            ("travel_out", 4.0),
            ("fill", 5.5),
            ("travel_back", 4.5),
            ("fill_wait", 3.0),
            ("scene_wait", 2.0),
        ]);
        assert_eq!(takes_most(&summary), Some((Kind::Driving, 8.5)));
        summary.cycle_min.insert("road_wait", 4.0);
        assert_eq!(takes_most(&summary), Some((Kind::Waiting, 9.0)));
        summary.cycle_min.clear();
        assert_eq!(takes_most(&summary), None);
    }

    #[test]
    fn a_tanker_without_a_whole_cycle_is_named_all_the_same() {
        let plan = demo::plan(2, 60.0, 1);
        let mut summary = summary(&plan, 8);
        summary.tankers[1].cycle_min.clear();
        let words = texts(&chart(&summary, &SHEET).expect("a chart"));
        assert!(words.contains(&summary.tankers[1].name));
        assert_eq!(words.iter().filter(|text| *text == "no whole cycle").count(), 1);
    }
}
