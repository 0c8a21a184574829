//! How often the lines run short, plan by plan: a bar each, the plan as it stands as a line through all. Below, where
//! there is something to show, what costs buy, or what asking late does.

use super::curves::{Below, draw_below};
use crate::chart::elements::axis::{AXIS_TEXT, Scale, round_step, spread_apart};
use crate::chart::elements::font;
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, in_the_middle, legend,
};
use crate::chart::elements::style::{
    BLACK, GRID, HELPS, LOST, Look, PURPLE, QUIET, SHORT, SHORT_GROUND, WHITE,
};
use crate::chart::elements::svg::{Anchor, Area, Drawing, Stroke, Text};
use crate::chart::{ChartError, chance};

/// What a row is to the plan as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// It is that plan.
    AsItStands,
    /// It surely runs short less often.
    Helps,
    /// It surely runs short more often.
    Hurts,
    /// It does not surely differ.
    Neither,
    /// Something is lost, and the plan still stands.
    LostAndSpared,
    /// Something is lost, and it is too close to tell whether the plan still stands.
    LostAndOpen,
    /// Something is lost that the plan cannot spare.
    Lost,
    /// Something is lost from a plan that fails with everything, and that makes it worse.
    LostAndMissed,
    /// Something is lost from such a plan: not surely short more often, but for longer.
    LostAndLonger,
    /// Something is lost from such a plan, and that shows no harm.
    LostAndNotMissed,
}

impl Kind {
    fn look(self) -> Look {
        match self {
            Kind::AsItStands => Look::plain(QUIET),
            Kind::Helps => HELPS,
            Kind::Hurts => SHORT,
            Kind::Neither => Look::plain(WHITE),
            Kind::LostAndSpared | Kind::LostAndNotMissed => Look::plain("#F1DCE7"),
            Kind::LostAndOpen | Kind::LostAndLonger => Look::hatched("#F1DCE7", LOST.hatch, PURPLE),
            Kind::Lost | Kind::LostAndMissed => LOST,
        }
    }

    fn words<'w>(self, words: &Words<'w>) -> &'w str {
        match self {
            Kind::AsItStands => words.stands.1,
            Kind::Helps => "surely better",
            Kind::Hurts => "surely worse",
            Kind::Neither => "no sure difference",
            Kind::LostAndSpared => "lost, and can be spared",
            Kind::LostAndOpen => "lost, and too close to tell",
            Kind::Lost => "lost, and cannot be spared",
            Kind::LostAndMissed => "lost, and surely short more often",
            Kind::LostAndLonger => "lost, and only short for longer",
            Kind::LostAndNotMissed => "lost, and not missed",
        }
    }
}

/// One plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What stands over it and those that follow, if a new part of the chart begins.
    pub heading: Option<String>,
    /// What it is.
    pub label: String,
    /// Chance that the lines run short, 0 to 1, with low and high end of its interval; `None` where the plan cannot
    /// work at all.
    pub at: Option<[f64; 3]>,
    /// What it is to the plan as it stands.
    pub kind: Kind,
    /// What stands at the right: the chance in words, and what it costs or nothing.
    pub notes: [String; 2],
}

/// The words of the chart, and its lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Words<'w> {
    /// What stands over the notes.
    pub notes: [&'w str; 2],
    /// The chance of the plan as it stands, and what that line is called.
    pub stands: (f64, &'w str),
    /// The chance to stay below, if one was asked for.
    pub target: Option<f64>,
    /// Whether the scale goes to 100 fires of 100 whatever is drawn.
    pub whole_scale: bool,
}

const LEFT: f64 = 226.0;
const LABEL: Text = Text::of(13.0).at(Anchor::End);
const NOTE: Text = Text::of(13.0);
const ROW: f64 = 24.0;
const BAR: f64 = 14.0;
/// Room for the chance at the right, and for a second note, px.
const NOTES: [f64; 2] = [72.0, 78.0];
const WHISKER: Stroke = Stroke::of(BLACK, 1.5);
/// Narrower intervals are not drawn, px.
const LEAST_WHISKER: f64 = 4.0;
const STANDS: Stroke = Stroke::of(BLACK, 2.0);
const TARGET: Stroke = Stroke::of(BLACK, 1.5).dashed("3 3");

/// Draws the chart, the rows in the order given.
///
/// - Errors: [`ChartError::BadNumber`] for a chance beyond 0 to 1.
pub fn chart(
    rows: &[Row],
    words: &Words<'_>,
    below: &Below,
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    for row in rows {
        for value in row.at.iter().flatten() {
            chance(|| format!("the chance of {}", row.label), *value)?;
        }
    }
    for value in [Some(words.stands.0), words.target].into_iter().flatten() {
        chance(|| "a line of the chart".to_owned(), value)?;
    }
    below.check()?;
    let mut drawing = Drawing::new(WIDTH);
    // Room for the labels of the lines.
    let top = heading(&mut drawing, sheet) + 26.0;
    let bottom = top + rows.iter().map(height).sum::<f64>().max(2.0 * ROW) + 6.0;
    let right = WIDTH - MARGIN - notes_room(words);
    let x = scale(rows, words, right);
    axis(&mut drawing, x, top, bottom);
    for ((head, room), from) in words.notes.iter().zip(NOTES).zip([right, right + NOTES[0]]) {
        drawing.text(from + 10.0, top - 6.0, &NOTE.fit(head, room - 10.0), NOTE.colour(QUIET));
    }
    if rows.is_empty() {
        let area = Area { x: LEFT, y: top, width: right - LEFT, height: bottom - top };
        in_the_middle(&mut drawing, area, "nothing to compare");
    }
    draw_lines(&mut drawing, x, (top, bottom), words);
    let mut y = top + 4.0;
    for row in rows {
        draw(&mut drawing, x, y, row);
        y += height(row);
    }
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    let says = "fires of 100 in which the lines run short";
    drawing.text(f64::midpoint(LEFT, right), bottom + 35.0, says, style);
    let mut kinds: Vec<Kind> = rows.iter().map(|row| row.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let mut entries: Vec<(Sample, String)> =
        kinds.iter().map(|kind| (Sample::Box(kind.look()), kind.words(words).to_owned())).collect();
    if rows.iter().filter_map(|row| row.at).any(|[_, low, high]| has_whiskers(x, [low, high])) {
        entries.push((Sample::Line(WHISKER), "95% interval".to_owned()));
    }
    let end = legend(&mut drawing, bottom + 42.0, &entries);
    let end = draw_below(&mut drawing, end, below)?;
    Ok(finish(drawing, end, sheet))
}

/// Whether an interval is wide enough to be drawn: of all fires, or none, it is a mark at the end of the scale that
/// says nothing.
fn has_whiskers(x: Scale, [low, high]: [f64; 2]) -> bool {
    x.at(high) - x.at(low) >= LEAST_WHISKER
}

fn notes_room(words: &Words<'_>) -> f64 {
    NOTES[0] + if words.notes[1].is_empty() { 0.0 } else { NOTES[1] }
}

fn label_lines(row: &Row) -> Vec<String> {
    font::wrap(&row.label, LABEL.size, LABEL.weight, LEFT - MARGIN - 10.0, 3)
}

fn height(row: &Row) -> f64 {
    let heading = if row.heading.is_some() { ROW } else { 0.0 };
    heading + ROW.max(16.0 * label_lines(row).len() as f64 + 6.0)
}

fn scale(rows: &[Row], words: &Words<'_>, right: f64) -> Scale {
    let all = rows.iter().filter_map(|row| row.at).map(|at| at[2].max(at[0]));
    let greatest = all.chain([words.stands.0]).chain(words.target).fold(0.01, f64::max);
    let step = round_step(greatest, 6.0);
    let high =
        if words.whole_scale { 1.0 } else { (step * (greatest / step - 1e-9).ceil()).min(1.0) };
    Scale { low: 0.0, high, from: LEFT, to: right }
}

fn axis(drawing: &mut Drawing, x: Scale, top: f64, bottom: f64) {
    let style = Text::of(AXIS_TEXT).at(Anchor::Middle);
    let step = round_step(x.high, 6.0);
    let digits = usize::from(step < 0.0099);
    for value in x.ticks(step) {
        let at = x.at(value);
        drawing.line((at, top), (at, bottom), Stroke::of(GRID, 1.0));
        drawing.text(at, bottom + 17.0, &format!("{:.digits$}", 100.0 * value), style);
    }
    drawing.line((x.from, bottom), (x.to, bottom), Stroke::of(QUIET, 1.0));
}

/// The plan as it stands and the target as lines, their labels side by side above the rows.
fn draw_lines(drawing: &mut Drawing, x: Scale, (top, bottom): (f64, f64), words: &Words<'_>) {
    let mut lines = vec![(words.stands.0, words.stands.1.to_owned(), STANDS)];
    if let Some(target) = words.target {
        lines.push((target, format!("target: below {}", hundredths(target)), TARGET));
    }
    let style = Text::of(12.0).semi_bold();
    let widths: Vec<f64> = lines.iter().map(|line| style.width(&line.1)).collect();
    let room = widths.iter().copied().fold(0.0, f64::max) + 8.0;
    let wanted: Vec<f64> = lines.iter().map(|line| x.at(line.0)).collect();
    // Labels are centred on their lines where there is room, in rows of their own where there is not.
    let places = spread_apart(&wanted, room, x.from + room / 2.0, x.to - room / 2.0);
    for ((line, at), place) in lines.iter().zip(wanted).zip(places) {
        drawing.path(&[(place, top - 3.0), (at, top + 2.0), (at, bottom)], line.2, &line.1);
        drawing.text(place, top - 6.0, &line.1, style.at(Anchor::Middle));
    }
}

/// Fires of 100 with the digits that were asked for: "5", "2.5".
fn hundredths(share: f64) -> String {
    let text = format!("{:.4}", 100.0 * share);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn draw(drawing: &mut Drawing, x: Scale, y: f64, row: &Row) {
    let mut y = y;
    if let Some(heading) = &row.heading {
        let style = LABEL.at(Anchor::Start).semi_bold();
        drawing.text(MARGIN, y + 15.0, &style.fit(heading, LEFT - MARGIN - 10.0), style);
        y += ROW;
    }
    let lines = label_lines(row);
    let middle = y + ROW.max(16.0 * lines.len() as f64 + 6.0) / 2.0 - 2.0;
    for (place, text) in lines.iter().enumerate() {
        let shift = 16.0 * (place as f64 - (lines.len() as f64 - 1.0) / 2.0);
        drawing.text(LEFT - 10.0, middle + shift + 4.5, text, LABEL);
    }
    match row.at {
        Some([at, low, high]) => {
            let width = (x.at(at) - x.from).max(1.0);
            let area = Area { x: x.from, y: middle - BAR / 2.0, width, height: BAR };
            let says = format!("{}: {:.1} fires of 100", row.label, 100.0 * at);
            drawing.area(area, row.kind.look(), Some(Stroke::of(BLACK, 1.0)), &says);
            if has_whiskers(x, [low, high]) {
                drawing.line((x.at(low), middle), (x.at(high), middle), WHISKER);
                // None at an end that is the value itself: all fires, or none.
                for end in [low, high].into_iter().filter(|end| *end != at) {
                    drawing.line((x.at(end), middle - 4.0), (x.at(end), middle + 4.0), WHISKER);
                }
            }
        }
        None => {
            let area = Area { x: x.from, y: middle - BAR / 2.0, width: x.to - x.from, height: BAR };
            let ground = Look::hatched(SHORT_GROUND.colour, LOST.hatch, QUIET);
            drawing.area(area, ground, Some(Stroke::of(BLACK, 1.0)), &row.label);
        }
    }
    for ((note, room), from) in row.notes.iter().zip(NOTES).zip([x.to, x.to + NOTES[0]]) {
        drawing.text(from + 10.0, middle + 4.5, &NOTE.fit(note, room - 10.0), NOTE);
    }
}

#[cfg(test)]
mod tests {
    use super::super::curves::{Late, Priced};
    use super::*;
    use crate::chart::demo::SHEET;
    use crate::chart::drawn::{areas, assert_texts_are_apart, lines, texts};

    fn row(label: &str, at: Option<f64>, kind: Kind) -> Row {
        Row {
            heading: None,
            label: label.to_owned(),
            at: at.map(|at| [at, (at - 0.02).max(0.0), (at + 0.02).min(1.0)]),
            kind,
            notes: ["12%".to_owned(), String::new()],
        }
    }

    fn words(stands: f64) -> Words<'static> {
        Words {
            notes: ["short in", ""],
            stands: (stands, "as it stands"),
            target: Some(0.05),
            whole_scale: true,
        }
    }

    #[test]
    fn bars_are_as_long_as_chances_on_a_scale_to_a_hundred() {
        let rows = [
            row("without Tanker 5", Some(0.8), Kind::Lost),
            row("without Tanker 7", Some(0.4), Kind::LostAndSpared),
            row("without the pond", None, Kind::Lost),
        ];
        let svg = chart(&rows, &words(0.2), &Below::Nothing, &SHEET).expect("a chart");
        let wide: Vec<f64> = (areas(&svg).iter())
            .filter(|one| one.says.ends_with("fires of 100"))
            .map(|one| one.width)
            .collect();
        assert_eq!(wide.len(), 2);
        assert!((wide[0] / wide[1] - 2.0).abs() < 0.01, "{wide:?}");
        // 0.8 of the scale is eight tenths of the room.
        assert!((wide[0] / 0.8 - (WIDTH - MARGIN - NOTES[0] - LEFT)).abs() < 0.1, "{wide:?}");
        // The plan as it stands lies at a quarter of the first bar.
        let stands = lines(&svg, "as it stands")[0].last().expect("a point").0;
        assert!(((stands - LEFT) / wide[0] - 0.25).abs() < 0.01, "{stands}");
        let said = texts(&svg);
        for wanted in ["100", "target: below 5", "as it stands", "lost, and cannot be spared"] {
            assert!(said.iter().any(|text| text == wanted), "{wanted}: {said:?}");
        }
        assert_texts_are_apart("chances", &svg);
    }

    /// All fires of 1,000, or none: the interval is a mark of a px at the end of the scale.
    #[test]
    fn whiskers_are_drawn_where_there_is_an_interval_to_see() {
        for (at, is_drawn) in
            [([1.0, 0.996_3, 1.0], false), ([0.0, 0.0, 0.003_7], false), ([0.5, 0.47, 0.53], true)]
        {
            let one = Row { at: Some(at), ..row("a plan", None, Kind::Neither) };
            let svg = chart(&[one], &words(0.2), &Below::Nothing, &SHEET).expect("a chart");
            let is_told = texts(&svg).iter().any(|text| text == "95% interval");
            let whisker =
                format!("stroke=\"{}\" stroke-width=\"{}\"/>", WHISKER.colour, WHISKER.width);
            let drawn =
                svg.lines().filter(|line| line.starts_with("<line") && line.ends_with(&whisker));
            assert_eq!((is_told, drawn.count() > 0), (is_drawn, is_drawn), "{at:?}");
        }
    }

    #[test]
    fn lines_that_lie_close_keep_their_labels_apart() {
        for stands in [0.0, 0.04, 0.05, 0.06, 0.5, 1.0] {
            let rows = [row("a", Some(0.3), Kind::Helps)];
            let svg = chart(&rows, &words(stands), &Below::Nothing, &SHEET).expect("a chart");
            assert_texts_are_apart("chances", &svg);
        }
        assert!(chart(&[], &words(0.1), &Below::Nothing, &SHEET).is_ok());
        let wrong =
            chart(&[row("a", Some(1.5), Kind::Helps)], &words(0.1), &Below::Nothing, &SHEET);
        assert!(wrong.expect_err("1.5 is no chance").to_string().contains("the chance of a"));
    }

    #[test]
    fn what_is_below_lies_where_its_figures_are() {
        let rows = [row("a", Some(0.3), Kind::Helps), row("b", Some(0.1), Kind::Helps)];
        let priced = |label: &str, cost, chance, on_the_frontier| Priced {
            label: label.to_owned(),
            cost,
            chance,
            on_the_frontier,
        };
        let costs = Below::Costs(vec![
            priced("as it stands", 0.0, 0.4, true),
            priced("1", 1_000.0, 0.2, true),
            priced("2", 2_000.0, 0.3, false),
            priced("3", 4_000.0, 0.1, true),
        ]);
        let svg = chart(&rows, &words(0.4), &costs, &SHEET).expect("a chart");
        assert_texts_are_apart("costs", &svg);
        let frontier = &lines(&svg, "no cheaper one does as well")[0];
        // A step down at each of the three, and on to the dearest.
        assert!(frontier.windows(2).all(|pair| pair[1].0 >= pair[0].0 && pair[1].1 >= pair[0].1));
        assert_eq!(frontier.len(), 5);
        let late = Below::Late(vec![
            Late { by: 0.0, at: [0.1, 0.1, 0.1] },
            Late { by: 5.0, at: [0.2, 0.15, 0.25] },
            Late { by: 10.0, at: [0.4, 0.35, 0.45] },
        ]);
        let svg = chart(&rows, &words(0.1), &late, &SHEET).expect("a chart");
        assert_texts_are_apart("late", &svg);
        let curve = &lines(&svg, "asked for later")[0];
        let rises = |from: usize| curve[from].1 - curve[from + 1].1;
        assert!((rises(1) / rises(0) - 2.0).abs() < 0.05, "{curve:?}");
    }
}
