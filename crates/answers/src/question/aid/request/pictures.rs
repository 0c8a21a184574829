//! The picture of `request`: the request changed a little, and asked for later.

use shuttle_report::chart::Sheet;
use shuttle_report::chart::chances::{Kind, Row, Words, chart};
use shuttle_report::chart::curves::{Below, Late};
use shuttle_report::units::percent;

use super::figures::{ChangeFigures, RequestFigures};
use crate::answer::Basis;
use crate::picture::{Picture, fires_of_each};
use crate::reader::Reader;
use crate::say;
use crate::say::Sentence;
use crate::shared::against::Against;

/// One unit less, one more, all later; none where none of that was tried.
pub fn pictures(figures: &RequestFigures, basis: &Basis, verdict: &Sentence) -> Vec<Picture> {
    if figures.late.is_empty() && figures.one_more.is_empty() {
        return Vec::new();
    }
    let rows = rows(figures, basis);
    let below = Below::Late(late(figures));
    let (stands, target) = (figures.interruption_probability, figures.target);
    let others = changes(figures).map(|(_, change)| change.replications);
    vec![Picture {
        name: "request".into(),
        title: verdict.clone(),
        shows: say![
            "How often the lines run short with the request, without one of its units and with one more, the best \
             first; below, when all of it is asked for later. Whiskers: the 95% interval of the difference from the \
             request.",
        ],
        made_from: fires_of_each(basis.replications, others, "change", basis.seed),
        draw: Box::new(move |_: &Reader, sheet: &Sheet<'_>| {
            let words = Words {
                notes: ["short in", ""],
                stands: (stands, "the request"),
                target: Some(target),
                whole_scale: false,
            };
            chart(&rows, &words, &below, sheet)
        }),
    }]
}

/// Every change that was run, with its words.
fn changes(figures: &RequestFigures) -> impl Iterator<Item = (String, &ChangeFigures)> {
    let without =
        (figures.request.iter()).filter(|unit| figures.leads_call(unit)).filter_map(|unit| {
            let names = figures.of_call(unit.call).join(", ");
            Some((format!("without {names}"), unit.without_it.as_ref()?))
        });
    let more = (figures.one_more.iter())
        .map(|more| (format!("one more: {}", more.names.join(", ")), &more.change));
    let late = (figures.late.iter())
        .map(|late| (format!("asked for {:.0} min later", late.later_by_min), &late.change));
    without.chain(more).chain(late)
}

/// The chance with a change, and the ends of its interval: that of the difference, around the chance itself.
fn at(change: &ChangeFigures) -> [f64; 3] {
    let (chance, apart) = (change.interruption_probability, change.higher_by);
    let end = |end: f64| (chance + end - apart.by).clamp(0.0, 1.0);
    [chance, end(apart.ci_low), end(apart.ci_high)]
}

/// The request itself, and it with one unit less or more; the best first.
fn rows(figures: &RequestFigures, basis: &Basis) -> Vec<Row> {
    let chance = figures.interruption_probability;
    let mut rows = vec![Row {
        heading: None,
        label: "the request".to_owned(),
        at: Some([chance, figures.ci_low, figures.ci_high]),
        kind: Kind::AsItStands,
        notes: [percent(chance, basis.replications), String::new()],
    }];
    let units = changes(figures).take(changes(figures).count() - figures.late.len());
    rows.extend(units.map(|(label, change)| Row {
        heading: None,
        label,
        at: Some(at(change)),
        kind: match change.verdict {
            Against::LowerChance => Kind::Helps,
            Against::HigherChance => Kind::Hurts,
            _ => Kind::Neither,
        },
        notes: [percent(change.interruption_probability, change.replications), String::new()],
    }));
    let of = |row: &Row| row.at.map_or(1.0, |at| at[0]);
    rows.sort_by(|a, b| of(a).total_cmp(&of(b)));
    rows
}

fn late(figures: &RequestFigures) -> Vec<Late> {
    if figures.late.is_empty() {
        return Vec::new();
    }
    let chance = figures.interruption_probability;
    let in_time = Late { by: 0.0, at: [chance, chance, chance] };
    let later = figures.late.iter().map(|one| Late { by: one.later_by_min, at: at(&one.change) });
    std::iter::once(in_time).chain(later).collect()
}
