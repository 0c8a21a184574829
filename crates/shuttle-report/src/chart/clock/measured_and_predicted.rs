//! What was poured on a day beside what a plan would have poured, over the alarm clock: all water so far above,
//! the flow of the last minutes below.

use crate::chart::elements::axis::{Scale, minute_grid, minute_labels, round_step, value_axis};
use crate::chart::elements::heading_and_foot::{
    MARGIN, Sample, Sheet, WIDTH, finish, heading, legend,
};
use crate::chart::elements::style::{BLACK, BLUE, Hatch, Look, PALE, PURPLE, QUIET};
use crate::chart::elements::svg::{Drawing, Stroke, Text};
use crate::chart::{ChartError, finite};
use crate::playback::band::Band;
use crate::units::{Units, whole};

const LEFT: f64 = 70.0;
const PANELS: [f64; 2] = [260.0, 160.0];
/// The flow is that of so many minutes: about a tanker's cycle, so that single dumps do not hide it. Judgement.
pub const FLOW_OVER: f64 = 15.0;

const MEASURED: Stroke = Stroke::of(BLACK, 2.5);
const PREDICTED: Look = Look::plain(PALE);
const LOST: Look = Look::hatched("#FFFFFF", Hatch::Falling, PURPLE);

/// What is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Shown<'a> {
    /// What was poured by each minute of the band, gal.
    pub measured: &'a [f64],
    /// What the plan would have poured.
    pub predicted: &'a Band,
    /// What it would have poured with something lost, with the words for it.
    pub lost: Option<(&'a Band, &'a str)>,
    /// Moments to mark, minutes after the alarm, with a word each.
    pub marks: &'a [(f64, String)],
    /// Whether minute 0 is the alarm as stated; else as worked out from who came first.
    pub alarm_is_stated: bool,
}

/// Draws the chart.
///
/// - Errors: [`ChartError::BadNumber`].
pub fn chart(shown: Shown<'_>, units: Units, sheet: &Sheet<'_>) -> Result<String, ChartError> {
    let minutes = &shown.predicted.minutes;
    let last = finite("the last minute", minutes.last().copied().unwrap_or(0.0))?;
    let mut drawing = Drawing::new(WIDTH);
    let mut top = heading(&mut drawing, sheet);
    let x = Scale { low: 0.0, high: last.max(1.0), from: LEFT, to: WIDTH - MARGIN - 20.0 };
    let panels = [
        (format!("Water so far, {}", units.volume_sign()), 0),
        (format!("Flow over the last {} minutes, {}", whole(FLOW_OVER), units.flow_sign()), 1),
    ];
    for (name, place) in panels {
        top += 30.0;
        let of = |gallons: &[f64]| -> Vec<f64> {
            let all = if place == 0 { gallons.to_vec() } else { flows(minutes, gallons) };
            all.into_iter().map(|one| units.volume(one)).collect()
        };
        let band = |band: &Band| [of(&band.low), of(&band.middle), of(&band.high)];
        // The flow of a band's edges is no edge of the flow: below only the middle is drawn.
        let predicted = band(shown.predicted);
        let lost = shown.lost.map(|(lost, _)| band(lost));
        let measured = of(shown.measured);
        let all = measured
            .iter()
            .chain(predicted.iter().flatten())
            .chain(lost.iter().flatten().flatten());
        let most = finite("the most water", all.fold(0.0, |most: f64, one| one.max(most)))?;
        let y = Scale {
            low: 0.0,
            high: 1.05 * most.max(1.0),
            from: top + PANELS[place],
            to: top + 4.0,
        };
        drawing.text(x.from, top - 5.0, &name, Text::of(13.0).semi_bold());
        minute_grid(&mut drawing, x, top, top + PANELS[place]);
        value_axis(&mut drawing, y, x.from, x.to, round_step(y.high, PANELS[place] / 40.0), whole);
        let line = |values: &[f64]| -> Vec<(f64, f64)> {
            minutes
                .iter()
                .zip(values)
                .map(|(minute, value)| (x.at(*minute), y.at(*value)))
                .collect()
        };
        for (bands, look, stroke, says) in [
            (Some(&predicted), PREDICTED, Stroke::of(BLUE, 1.5), "expected"),
            (lost.as_ref(), LOST, Stroke::of(PURPLE, 1.5).dashed("6 3"), "with the loss"),
        ] {
            let Some([low, middle, high]) = bands else { continue };
            if place == 0 {
                let edge: Vec<_> =
                    line(high).into_iter().chain(line(low).into_iter().rev()).collect();
                drawing.shape(&edge, look, says);
            }
            drawing.path(&line(middle), stroke, "");
        }
        for (minute, _) in shown.marks {
            let at = x.at(*minute);
            drawing.line(
                (at, top),
                (at, top + PANELS[place]),
                Stroke::of(QUIET, 1.0).dashed("2 3"),
            );
        }
        drawing.path(&line(&measured), MEASURED, "measured");
        if place == 0 {
            let style = Text::of(12.0);
            for (number, (minute, word)) in shown.marks.iter().enumerate() {
                let at = top + 16.0 + 17.0 * number as f64;
                let room = x.to - x.at(*minute) - 8.0;
                let width = style.width(word);
                let from =
                    if width < room { x.at(*minute) + 5.0 } else { x.at(*minute) - 5.0 - width };
                drawing.boxed_text(from + width / 2.0, at - 4.0, word, style);
            }
        }
        top += PANELS[place];
    }
    let from = if shown.alarm_is_stated { "the alarm" } else { "the alarm (worked out)" };
    let end = minute_labels(&mut drawing, x, top, from);
    let mut entries = vec![
        (Sample::Line(MEASURED), "measured".to_owned()),
        (Sample::Box(PREDICTED), "expected, 9 runs of 10 (5 to 95%)".to_owned()),
        (Sample::Line(Stroke::of(BLUE, 1.5)), "the middle of them".to_owned()),
    ];
    if let Some((_, words)) = shown.lost {
        entries.push((Sample::Box(LOST), format!("expected {words}")));
    }
    let end = legend(&mut drawing, end + 4.0, &entries);
    Ok(finish(drawing, end, sheet))
}

/// The flow of the last [`FLOW_OVER`] minutes at each minute, gpm; at the start that of the minutes there are.
pub fn flows(minutes: &[f64], gallons: &[f64]) -> Vec<f64> {
    (0..minutes.len())
        .map(|place| {
            let from =
                (0..=place).find(|at| minutes[place] - minutes[*at] <= FLOW_OVER).unwrap_or(place);
            let over = (minutes[place] - minutes[from]).max(FLOW_OVER);
            (gallons[place] - gallons[from]) / over
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::demo;
    use crate::chart::demo::SHEET;
    use crate::chart::drawn::texts;
    use crate::playback::band::band;
    use crate::runs::control::{Control, SameLuck};

    #[test]
    fn a_steady_flow_is_shown_as_it_is() {
        let minutes: Vec<f64> = (0..60).map(f64::from).collect();
        let gallons: Vec<f64> = minutes.iter().map(|minute| 400.0 * minute).collect();
        let found = flows(&minutes, &gallons);
        assert!(found[20..].iter().all(|flow| (flow - 400.0).abs() < 1e-9), "{found:?}");
    }

    #[test]
    fn it_names_what_it_shows_in_the_readers_units() {
        let plan = demo::plan(3, 60.0, 1);
        let minutes: Vec<f64> = (0..70).map(f64::from).collect();
        let luck = SameLuck { seed: 1, threads: 1 };
        let made = band(&plan, &[], &minutes, 20, luck, &Control::default()).expect("runs");
        let shown = Shown {
            measured: &made.middle,
            predicted: &made,
            lost: Some((&made, "with Tanker 5 lost at minute 40")),
            marks: &[(40.0, "Tanker 5: breakdown".to_owned())],
            alarm_is_stated: true,
        };
        for (units, wanted) in
            [(Units::Us, "Water so far, gal"), (Units::Metric, "Water so far, L")]
        {
            let words = texts(&chart(shown, units, &SHEET).expect("a chart"));
            for wanted in [
                wanted,
                "Tanker 5: breakdown",
                "expected with Tanker 5 lost at minute 40",
                "minutes after the alarm",
            ] {
                assert!(
                    words.iter().any(|text| text == wanted),
                    "{wanted} is missing in {words:?}"
                );
            }
        }
    }
}
