//! The pictures of `risk`.

use std::sync::Arc;

use shuttle_report::chart::cycle::{Kind, takes_most};
use shuttle_report::chart::{self, ChartError, Sheet};
use shuttle_report::summary::Summary;
use shuttle_sim::{Luck, Plan, Shuttle};

use super::{chances, mostly, verdict};
use crate::Reader;
use crate::picture::{Picture, fires_and_seed, luck_number};
use crate::say;
use crate::say::{Chances, Piece, Sentence};
use crate::shared::doubt::{DoubtFigures, anywhere, ranges};

/// What a picture is made of.
type Made = Arc<(Summary, Plan)>;

/// Levels, first shortfalls, the cycle, and the range of the chance where there is one; none where nothing was run.
pub fn pictures(summary: &Summary, plan: &Plan, doubt: Option<&DoubtFigures>) -> Vec<Picture> {
    if summary.replications == 0 {
        return Vec::new();
    }
    let made: Made = Arc::new((summary.clone(), plan.clone()));
    let mut pictures = vec![levels(&made), first_short(&made), cycle(&made)];
    pictures.extend(doubt.map(|doubt| in_doubt(&made, doubt)));
    pictures
}

fn picture(
    made: &Made,
    name: &'static str,
    (title, shows): (Sentence, Sentence),
    draw: fn(&Summary, &Plan, &Reader, &Sheet<'_>) -> Result<String, ChartError>,
) -> Picture {
    let summary = &made.0;
    let made_from = fires_and_seed(summary.replications, summary.seed);
    let made = Arc::clone(made);
    let draw = move |reader: &Reader, sheet: &Sheet<'_>| draw(&made.0, &made.1, reader, sheet);
    Picture { name: name.into(), title, shows, made_from, draw: Box::new(draw) }
}

fn levels(made: &Made) -> Picture {
    let shows = say![
        "How many fires are short at each minute after the alarm, and below it the water in the attack engine's tank \
         and in the drop tanks: bands over all fires, and the fire that was short longest.",
    ];
    picture(made, "levels", (worst_minute(&made.0), shows), |summary, plan, reader, sheet| {
        let story = summary.worst_run.map(|run| {
            let luck = Luck::Drawn { seed: summary.seed, replication: run - 1 };
            (run, Shuttle::new(plan).run_traced(luck).1)
        });
        let worst = story.as_ref().map(|(run, trace)| chart::levels::Worst { run: *run, trace });
        chart::levels::chart(summary, plan, worst, reader.units, sheet)
    })
}

/// "At the worst moment, minute 24 after the alarm, 11 fires of 100 are short of water."
fn worst_minute(summary: &Summary) -> Sentence {
    let shares = summary.short_by_alarm_minute.iter().enumerate();
    match shares.max_by(|a, b| a.1.total_cmp(b.1).then(b.0.cmp(&a.0))) {
        Some((minute, share)) if *share > 0.0 => say![
            "At the worst moment, ",
            Piece::Clock(minute as f64),
            " after the alarm, the lines are short in ",
            Piece::Fires(Chances::of(*share, summary.replications)),
            ".",
        ],
        _ => verdict(summary),
    }
}

fn first_short(made: &Made) -> Picture {
    let summary = &made.0;
    let title = match mostly(summary) {
        Some(clock) => {
            let chances = Piece::Fires(chances(summary));
            say!["The lines run short in ", chances, ", ", clock, " after the alarm."]
        }
        None => verdict(summary),
    };
    let shows = say![
        "When the lines first run short: above, minute by minute at the beginning; below, how many fires have been \
         short by then, over the whole watch.",
    ];
    picture(made, "first-short-of-water", (title, shows), |summary, plan, _, sheet| {
        chart::first_interruption::chart(summary, plan, sheet)
    })
}

fn cycle(made: &Made) -> Picture {
    let shows = say![
        "The mean cycle of each ",
        Piece::Tanker,
        ", minutes by part: from leaving the dump site until it is clear to leave again. A first arrival is no cycle.",
    ];
    picture(made, "cycle", (what_takes_most(&made.0), shows), |summary, _, _, sheet| {
        chart::cycle::chart(summary, sheet)
    })
}

/// "Driving takes 9.1 of the 19.3 minutes of a cycle."
fn what_takes_most(summary: &Summary) -> Sentence {
    let Some(((kind, most), all)) = takes_most(summary).zip(summary.cycle_minutes()) else {
        return say!["No ", Piece::Tanker, " makes a whole cycle within the watch."];
    };
    let kind = match kind {
        Kind::Driving => "Driving",
        Kind::Filling => "Filling",
        Kind::Giving => "Dumping and pumping off",
        Kind::Waiting => "Waiting",
        Kind::Handling => "Connecting and positioning",
    };
    let takes = if kind.contains(" and ") { " take " } else { " takes " };
    let tenth = |minutes| Piece::Number(minutes, 1);
    say![kind, takes, tenth(most), " of the ", tenth(all), " minutes of a cycle."]
}

fn in_doubt(made: &Made, doubt: &DoubtFigures) -> Picture {
    let summary = &made.0;
    let title = verdict(summary).then(anywhere(doubt));
    let shows = say![
        "Fires of 100 in which the lines run short. A mark with whiskers: if the inputs are right, with the 95% \
         interval of the fires. Bars: the range that holds 80 of 100 cases of what the inputs may be; white: the range \
         to be expected after more readings.",
    ];
    let made_from = say![
        Piece::Number(doubt.draws as f64, 0),
        " draws of the inputs, ",
        Piece::Number(doubt.fires_each as f64, 0),
        " fires under each, ",
        luck_number(summary.seed),
        ".",
    ];
    let (doubt, made) = (doubt.clone(), Arc::clone(made));
    let draw = move |reader: &Reader, sheet: &Sheet<'_>| {
        let summary = &made.0;
        let right = [summary.interruption_probability, summary.ci_low, summary.ci_high];
        chart::chance_in_doubt::chart(&ranges(&doubt, right, reader), sheet)
    };
    Picture { name: "in-doubt".into(), title, shows, made_from, draw: Box::new(draw) }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use shuttle_report::batch::Control;
    use shuttle_report::units::Units;

    use super::*;
    use crate::question::Budget;
    use crate::question::risk::risk;

    /// The titles hold the figures of the answer, as values.
    #[test]
    fn titles_are_the_answers_figures() {
        let scenario = scenario_file::read(Path::new("starter.json"), scenario_file::STARTER)
            .expect("the starter is sound");
        let budget = Budget { replications: 600, seed: 1, threads: 2 };
        let answer = risk(&scenario, budget, false, &Control::default());
        let figures = &answer.figures;
        let title = |name: &str| {
            let found = answer.pictures.iter().find(|picture| picture.name == name);
            &found.expect("a picture").title
        };
        let short = |share| Piece::Fires(Chances::of(share, 600));
        assert!(figures.interruption_probability > 0.0);
        assert!(
            title("first-short-of-water").0.contains(&short(figures.interruption_probability)),
            "{:?}",
            title("first-short-of-water")
        );
        // The worst minute and its share, looked for in the figures.
        let worst = figures.short_by_alarm_minute.iter().copied().fold(0.0, f64::max);
        let minute = figures.short_by_alarm_minute.iter().position(|share| *share == worst);
        let levels = &title("levels").0;
        assert!(levels.contains(&short(worst)), "{levels:?}");
        assert!(levels.contains(&Piece::Clock(minute.expect("one") as f64)), "{levels:?}");
        // Driving, filling and the others, summed here from the keys of the figures.
        let of = |keys: &[&str]| keys.iter().filter_map(|key| figures.cycle_min.get(key)).sum();
        let kinds: [f64; 5] = [
            of(&["travel_out", "travel_back"]),
            of(&["fill"]),
            of(&["dump", "pump_off"]),
            of(&["road_wait", "fill_wait", "scene_wait"]),
            of(&[
                "fill_connect",
                "fill_disconnect",
                "dump_position",
                "dump_clear",
                "nurse_connect",
                "nurse_disconnect",
            ]),
        ];
        let reader = Reader { units: Units::Us, tender: false };
        let said = reader.put(title("cycle"));
        let most = kinds.iter().copied().fold(0.0, f64::max);
        let whole: f64 = kinds.iter().sum();
        let wanted = format!(" {most:.1} of the {whole:.1} minutes of a cycle.");
        assert!(said.ends_with(&wanted), "{said} and {wanted}");
        // No picture has a title in common with another: each answers its own question.
        for (place, one) in answer.pictures.iter().enumerate() {
            assert!(answer.pictures[..place].iter().all(|other| other.title != one.title));
        }
    }
}
