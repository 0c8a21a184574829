//! The picture of `lose`: how often the lines run short without each thing, and what can be spared.

use shuttle_report::chart::Sheet;
use shuttle_report::chart::chances::{Kind, Row, Words, chart};
use shuttle_report::chart::curves::Below;
use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{Kind as LostKind, LossAnswer, LossRow, Stands};

use super::told::shows_no_harm;
use super::{chances, words_of_loss};
use crate::picture::{Picture, fires_of_each};
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, Sentence};

/// One picture; none where nothing was simulated.
pub fn pictures(found: LossAnswer, verdict: &Sentence) -> Vec<Picture> {
    if found.whole.replications == 0 {
        return Vec::new();
    }
    let others = found.losses.iter().map(|row| row.replications);
    vec![Picture {
        name: "losses".into(),
        title: verdict.clone(),
        shows: say![
            "How often the lines run short when one thing is lost, on a scale to 100 fires of 100. ",
            if found.stands == Stands::NotEvenWhole {
                "The plan is above its target with everything in service: what makes it worse is missed, in how often \
                 the lines run short or only in how long. Whiskers: how much more often, on the same luck."
            } else {
                "What brings the plan above its target cannot be spared."
            },
            if found.losses.iter().any(|row| row.kind == Some(LostKind::NamedDepartment)) {
                " All of a department is more than one thing where it does not come whole."
            } else {
                ""
            },
            " The line through all: with everything in service.",
        ],
        made_from: fires_of_each(found.whole.replications, others, "loss", found.seed),
        draw: Box::new(move |reader: &Reader, sheet: &Sheet<'_>| {
            let words = Words {
                notes: ["short in", if fails_anyhow(&found) { "min a fire" } else { "" }],
                stands: (found.whole.interruption_probability, "everything in service"),
                target: Some(found.target),
                whole_scale: true,
            };
            chart(&rows(&found, reader), &words, &Below::Nothing, sheet)
        }),
    }]
}

/// What cannot be spared, what is too close to tell, what can be spared; in each part the worst first.
fn rows(found: &LossAnswer, reader: &Reader) -> Vec<Row> {
    let mut rows = Vec::new();
    // A plan that fails with everything spares nothing; what the fires miss can still be told.
    for (heading, kind) in [
        ("Cannot be spared", Kind::Lost),
        ("Missed", Kind::LostAndMissed),
        ("Missed for its minutes alone", Kind::LostAndLonger),
        ("Too close to tell", Kind::LostAndOpen),
        ("Can be spared", Kind::LostAndSpared),
        ("Not missed in these fires", Kind::LostAndNotMissed),
    ] {
        let mut heading = Some(heading.to_owned());
        rows.extend((found.losses.iter()).filter(|row| kind_of(row, found) == kind).map(|row| {
            Row {
                heading: heading.take(),
                label: reader.put(&words_of_loss(row)),
                at: (row.verdict != Verdict::CannotWork).then(|| at(row, found)),
                kind,
                notes: [
                    reader.put(&match row.verdict {
                        Verdict::CannotWork => say!["no water"],
                        _ => say![Piece::Percent(chances(row))],
                    }),
                    if fails_anyhow(found) {
                        reader.put(&say![Piece::Number(row.interrupted_minutes_mean, 1)])
                    } else {
                        String::new()
                    },
                ],
            }
        }));
    }
    rows
}

/// How often the lines run short without it, with the ends of its whisker: of a plan that fails anyhow those of the
/// difference, by which it is told whether it is missed.
fn at(row: &LossRow, found: &LossAnswer) -> [f64; 3] {
    let share = row.interruption_probability;
    match row.higher_by.filter(|_| fails_anyhow(found)) {
        Some(apart) => {
            let end = |by: f64| (found.whole.interruption_probability + by).clamp(0.0, 1.0);
            [share, end(apart.ci_low).min(share), end(apart.ci_high).max(share)]
        }
        None => [share, row.ci_low, row.ci_high],
    }
}

/// Whether it runs short too often with everything in service.
fn fails_anyhow(found: &LossAnswer) -> bool {
    found.stands == Stands::NotEvenWhole
}

pub(super) fn kind_of(row: &LossRow, found: &LossAnswer) -> Kind {
    let fails_anyhow = fails_anyhow(found);
    let is_surely_oftener = row.higher_by.is_none_or(|apart| apart.ci_low > 0.0);
    match row.verdict {
        Verdict::Above if fails_anyhow && shows_no_harm(row, &found.whole) => {
            Kind::LostAndNotMissed
        }
        Verdict::Above if fails_anyhow && !is_surely_oftener => Kind::LostAndLonger,
        Verdict::Above | Verdict::CannotWork if fails_anyhow => Kind::LostAndMissed,
        Verdict::Above | Verdict::CannotWork => Kind::Lost,
        Verdict::NotClear => Kind::LostAndOpen,
        Verdict::Below => Kind::LostAndSpared,
    }
}
