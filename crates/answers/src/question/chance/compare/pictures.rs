//! The picture of `compare`: how often the lines run short with each option, and what money buys.

use shuttle_report::chart::Sheet;
use shuttle_report::chart::chances::{Kind, Row, Words, chart};
use shuttle_report::chart::curves::{Below, Priced};
use shuttle_report::units::{percent, whole};

use super::figures::{CompareFigures, OptionFigures};
use crate::answer::Basis;
use crate::picture::{Picture, fires_of_each};
use crate::reader::Reader;
use crate::say;
use crate::say::Sentence;
use crate::shared::against::Against;

/// One picture; none where nothing was run.
pub fn pictures(figures: &CompareFigures, basis: &Basis, verdict: &Sentence) -> Vec<Picture> {
    let Some(base) = figures.options.first().filter(|_| basis.replications > 0) else {
        return Vec::new();
    };
    let has_costs = figures.has_costs();
    let rows = rows(figures, has_costs);
    let below = if has_costs { Below::Costs(priced(figures)) } else { Below::Nothing };
    let stands = (base.interruption_probability, base.name.clone());
    let shows = say![
        "How often the lines run short with each option, the best first; as it stands is the line through all.",
        if has_costs {
            " Below, each option by what it costs: along the line nothing cheaper does as well."
        } else {
            ""
        },
    ];
    let others = figures.options.iter().skip(1).map(|option| option.replications);
    vec![Picture {
        name: "options".into(),
        title: verdict.clone(),
        shows,
        made_from: fires_of_each(base.replications, others, "option", basis.seed),
        draw: Box::new(move |_: &Reader, sheet: &Sheet<'_>| {
            let words = Words {
                notes: ["short in", if has_costs { "cost" } else { "" }],
                stands: (stands.0, &stands.1),
                target: None,
                whole_scale: false,
            };
            chart(&rows, &words, &below, sheet)
        }),
    }]
}

/// The options numbered as they were given, as it stands 0, those that run short least often first.
fn in_order(figures: &CompareFigures) -> Vec<(usize, &OptionFigures)> {
    let mut options: Vec<(usize, &OptionFigures)> = figures.options.iter().enumerate().collect();
    options.sort_by(|a, b| {
        let of = |option: &OptionFigures| option.interruption_probability;
        of(a.1).total_cmp(&of(b.1)).then(a.0.cmp(&b.0))
    });
    options
}

fn rows(figures: &CompareFigures, has_costs: bool) -> Vec<Row> {
    let row = |(place, option): (usize, &OptionFigures)| Row {
        heading: None,
        // The number is what stands beside its mark below.
        label: if has_costs { format!("{place}: {}", option.name) } else { option.name.clone() },
        at: Some([option.interruption_probability, option.ci_low, option.ci_high]),
        kind: match (place, option.verdict) {
            (0, _) => Kind::AsItStands,
            (_, Some(Against::LowerChance)) => Kind::Helps,
            (_, Some(Against::HigherChance)) => Kind::Hurts,
            _ => Kind::Neither,
        },
        notes: [
            percent(option.interruption_probability, option.replications),
            option.cost.map(whole).unwrap_or_default(),
        ],
    };
    in_order(figures).into_iter().map(row).collect()
}

/// Every option whose cost is known, and the plan as it stands, which costs nothing more.
fn priced(figures: &CompareFigures) -> Vec<Priced> {
    let priced = |(place, option): (usize, &OptionFigures)| {
        let cost = if place == 0 { option.cost.or(Some(0.0)) } else { option.cost };
        Some(Priced {
            label: place.to_string(),
            cost: cost?,
            chance: option.interruption_probability,
            on_the_frontier: place == 0
                || option.worth_having == Some(true) && option.lowers_chance(),
        })
    };
    figures.options.iter().enumerate().filter_map(priced).collect()
}
