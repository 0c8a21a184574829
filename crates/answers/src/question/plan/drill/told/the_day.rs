//! The day beside what the model expects, in words.

use shuttle_report::playback::assumptions::Assumption;

use super::super::Found;
use super::super::course::everyone;
use super::super::figures::played_back::poured;
use super::super::played::Played;
use super::clock_minute;
use crate::say;
use crate::say::{Piece, Sentence, joined, name};
use crate::shared::quantities::{count, flow, volume};

/// "31 loads, 83,700 gal, from minute 11 to 102: 920 gpm. From the measured times the model expects 79,000 to
/// 88,000 gal."
pub(in super::super) fn the_day(played: &Played) -> Sentence {
    let loads = &played.day.loads;
    let all = poured(&played.day);
    let last = |values: &[f64]| values.last().copied().unwrap_or(0.0);
    say![
        count(loads.len() as u64),
        " loads, ",
        volume(all.gallons),
        " in ",
        Piece::Minutes(all.minutes.round()),
        ", ",
        flow(all.gallons / all.minutes),
        "; from these times the model expects ",
        volume(last(&played.expected.low)),
        " to ",
        volume(last(&played.expected.high)),
        " (9 runs of 10).",
    ]
}

/// Where the day and the model part, and what would explain it.
pub(super) fn parts(found: &Found<'_>, played: &Played) -> Sentence {
    let Some(at) = played.fit.parts_at else {
        return say!["The day lies within what the model expects throughout."];
    };
    let last = |values: &[f64]| values.last().copied().unwrap_or(0.0);
    let end = last(&played.poured);
    let other_end = if played.fit.is_below && end > last(&played.expected.high) {
        " and ends above it"
    } else if !played.fit.is_below && end < last(&played.expected.low) {
        " and ends below it"
    } else {
        ""
    };
    let told = say![
        "From ",
        Piece::Clock(clock_minute(at)),
        " on the day lies ",
        if played.fit.is_below { "below" } else { "above" },
        " what the model expects",
        other_end,
    ];
    let mut explained = played.explained_by();
    match explained.next() {
        None => say![
            told,
            "; none of the ",
            count(played.tried.len() as u64),
            " assumptions that were tried explains it: look at the log again for a wrong time.",
        ],
        Some(best) => {
            let others: Vec<Sentence> = explained
                .take(2)
                .map(|one| assumption_words(found, played, one.assumption))
                .collect();
            let others =
                (!others.is_empty()).then(|| say!["; or this: ", joined(others, "; or ", "; or ")]);
            let best = assumption_words(found, played, best.assumption);
            say![told, ". This would explain it: ", best, others, "."]
        }
    }
}

/// An assumption in words.
pub(in super::super) fn assumption_words(
    found: &Found<'_>,
    played: &Played,
    assumption: Assumption,
) -> Sentence {
    let facts = everyone(found.scenario);
    let site = |site: usize| name(&facts.fill_sites[site].name);
    let times = |times: f64| say![Piece::Number(times, 2), " times as long"];
    match assumption {
        Assumption::FillPositions { site: at, positions } => {
            say![count(positions), " fill position", plural(positions), " at ", site(at)]
        }
        Assumption::DumpPositions { tank, positions } => say![
            "drop tank ",
            Piece::Number((tank + 1) as f64, 0),
            " with ",
            count(positions),
            " dump position",
            plural(positions),
        ],
        Assumption::Fill { site: at, share } => {
            say![site(at), " gave ", Piece::Share(share), " of the flow that was measured"]
        }
        Assumption::AttackFlow { share } => {
            say!["the lines took ", Piece::Share(share), " of the planned flow"]
        }
        Assumption::Driving { times: of } => say!["every drive took ", times(of)],
        Assumption::Handling { times: of } => say!["all handling took ", times(of)],
        Assumption::Out(absent) => {
            let tanker = played.day.places.iter().position(|place| *place == Some(absent.tanker));
            let who = tanker.map(|tanker| say![name(&facts.tankers[tanker].name)]);
            let for_minutes =
                absent.minutes.map(|minutes| say![" for ", Piece::Minutes(minutes.round())]);
            let after = Piece::Clock(clock_minute(absent.from));
            say!["the breakdown of ", who, ", out", for_minutes, " after ", after]
        }
    }
}

fn plural(count: u32) -> &'static str {
    if count == 1 { "" } else { "s" }
}

/// What losing a tanker would have done, and how the day lies to it.
pub(super) fn lost(found: &Found<'_>, played: &Played) -> Option<Sentence> {
    let (lost, band, fit) = played.lost.as_ref()?;
    let last = |values: &[f64]| values.last().copied().unwrap_or(0.0);
    let who = name(&everyone(found.scenario).tankers[lost.tanker].name);
    Some(say![
        "with ",
        who,
        " lost at ",
        Piece::Clock(clock_minute(lost.minute)),
        " the model expects ",
        volume(last(&band.low)),
        " to ",
        volume(last(&band.high)),
        ", in the middle ",
        volume((last(&played.expected.middle) - last(&band.middle)).abs()),
        " less; the day ",
        match fit.parts_at {
            None => say!["lies within that."],
            Some(at) => say![
                "lies ",
                if fit.is_below { "below" } else { "above" },
                " that from ",
                Piece::Clock(clock_minute(at)),
                " on."
            ],
        },
    ])
}
