//! What `compare` says.

use scenario_file::Scenario;

use super::figures::{CompareFigures, OptionFigures};
use super::tables;
use crate::answer::{Advice, Basis, Block, Label, Told};
use crate::say;
use crate::say::{Piece, Sentence, either, joined, name};
use crate::shared::against::{Against, digits_of};
use crate::shared::instead::instead;
use crate::shared::never_binds::never_bind;
use crate::shared::note;
use crate::shared::{aid_not_asked, headline, notes};

/// So many options are told at once.
const MOST_ADVICE: usize = 3;

/// The answer in words.
pub fn told(scenarios: &[Scenario], figures: &CompareFigures, basis: &Basis) -> Told {
    let headline = headline(&scenarios[0].plan);
    let notes = what_to_know(scenarios);
    if basis.replications == 0 {
        let verdict = say!["Ended before the first fires were simulated: nothing to say."];
        return Told {
            headline,
            verdict,
            points: Vec::new(),
            advice: Vec::new(),
            more: Vec::new(),
            notes,
            small_print: Vec::new(),
            ask_next: vec!["risk"],
        };
    }
    let mut points = Vec::new();
    if let Some(unlike) = &figures.unlike {
        points.push(Block::Point(Label::Careful, unlike.words()));
    }
    if let [alone] = scenarios {
        points.extend(aid_not_asked(alone));
    }
    points.extend(cost(figures).map(|cost| Block::Point(Label::Cost, cost)));
    let alone = figures.best.map(|best| &figures.options[best]);
    let together = [figures.together.pair_words(alone), figures.together.budget_words()];
    let labels = [Label::Together, Label::Blank].into_iter();
    points.extend(
        labels.zip(together.into_iter().flatten()).map(|(label, told)| Block::Point(label, told)),
    );
    points
        .extend(never_bind(&without_effect(figures)).map(|told| Block::Point(Label::NoGain, told)));
    points.extend(shortest(figures).map(|told| Block::Point(Label::Shorter, told)));
    points.extend([Block::Gap, Block::Table(tables::at_a_glance(figures))]);
    let advice = advice(figures);
    if !advice.is_empty() {
        points.push(Block::Gap);
    }
    Told {
        headline,
        verdict: verdict(figures, &Base::of(scenarios)),
        points,
        advice,
        more: tables::by_measure(figures),
        notes,
        small_print: small_print(figures),
        ask_next: vec!["risk", "size", "levers"],
    }
}

/// Options that change nothing in any fire, each with its fires.
fn without_effect(figures: &CompareFigures) -> Vec<(Sentence, u64)> {
    (figures.options.iter())
        .filter(|one| one.never_binds)
        .map(|one| (say![name(&one.name)], one.replications))
        .collect()
}

/// What the options are held against, in words.
struct Base {
    /// "as it stands", or the name of the first file's plan.
    stands: Sentence,
    /// "options" of one file, "others" among several.
    others: &'static str,
}

impl Base {
    fn of(scenarios: &[Scenario]) -> Base {
        match scenarios {
            [first, _, ..] => {
                Base { stands: say!["with ", name(&first.plan.facts().title)], others: "others" }
            }
            _ => Base { stands: say!["as it stands"], others: "options" },
        }
    }
}

fn verdict(figures: &CompareFigures, words: &Base) -> Sentence {
    let base = &figures.options[0];
    let best = figures.best.map(|best| &figures.options[best]);
    if figures.none_saves {
        return none_saves(best, base, words);
    }
    let bought = figures.worth_buying();
    match (bought.as_slice(), best, &figures.options[1..]) {
        ([only], ..) => {
            say![
                "Buy ",
                name(&only.name),
                price(only),
                ": the lines then run short ",
                versus(only, base)
            ]
        }
        ([.., dearest], ..) => several_worth(&bought, dearest, base),
        ([], Some(_), _) if figures.has_costs() => say![
            "Buy none of these: none surely does better than what costs less. As it stands the lines run short \
             in ",
            Piece::Fires(base.chances()),
            ".",
        ],
        ([], Some(best), _) => {
            say!["Best is ", name(&best.name), ": the lines then run short ", versus(best, base)]
        }
        ([], None, [only]) if only.verdict == Some(Against::HigherChance) => {
            say![
                "It gets worse with ",
                name(&only.name),
                ": the lines then run short ",
                versus(only, base)
            ]
        }
        ([], None, options) => {
            let what = match options {
                [only] => say!["Shortfalls get no rarer with ", name(&only.name)],
                several => {
                    say![
                        "None of the ",
                        Piece::Count(several.len()),
                        " ",
                        words.others,
                        " makes shortfalls rarer"
                    ]
                }
            };
            let fires = Piece::Fires(base.chances());
            say![what, ": the lines run short in ", fires, " ", words.stands.clone(), "."]
        }
    }
}

/// Where no option makes shortfalls rarer: the one with which they are shortest.
fn shortest(figures: &CompareFigures) -> Option<Sentence> {
    let one = figures.shortest().filter(|_| figures.best.is_none())?;
    let minutes = |value| Piece::Number(value, 1);
    Some(say![
        "shortest with ",
        name(&one.name),
        ": short for ",
        minutes(one.interrupted_minutes_mean),
        " minutes a fire, as it stands for ",
        minutes(figures.options[0].interrupted_minutes_mean),
        "."
    ])
}

/// What the best option does that is not good enough; without one, that none lowers the chance.
fn none_saves(best: Option<&OptionFigures>, base: &OptionFigures, words: &Base) -> Sentence {
    match best {
        Some(best) => say![
            "None of these saves the plan: even with the best of them, ",
            name(&best.name),
            ", the lines run short in ",
            Piece::Fires(best.chances()),
            ".",
        ],
        None => say![
            "None of these saves the plan: the lines run short in ",
            Piece::Fires(base.chances()),
            " ",
            words.stands.clone(),
            ", and nothing here makes that rarer.",
        ],
    }
}

/// "in 6 fires of 100 instead of 29."
fn versus(with: &OptionFigures, base: &OptionFigures) -> Sentence {
    say![instead(with.chances(), base.chances()), "."]
}

/// " for 900"
fn price(option: &OptionFigures) -> Sentence {
    match option.cost {
        Some(cost) if cost > 0.0 => say![" for ", Piece::Number(cost, 0)],
        Some(_) => say![" at no cost"],
        None => say![],
    }
}

/// Several are worth having, each for its price.
fn several_worth(
    bought: &[&OptionFigures],
    dearest: &OptionFigures,
    base: &OptionFigures,
) -> Sentence {
    let each = bought.iter().map(|one| say![name(&one.name), price(one)]);
    say![
        "Worth their money, the dearer the better: ",
        either(each),
        ". With the last the lines run short ",
        versus(dearest, base),
    ]
}

/// What a fire of 100 fewer costs, of what is worth buying.
fn cost(figures: &CompareFigures) -> Option<Sentence> {
    if figures.none_saves {
        return None;
    }
    let mut priced: Vec<(&OptionFigures, f64)> = (figures.worth_buying().into_iter())
        .filter_map(|one| Some((one, one.cost_of_one_in_100?)))
        .filter(|(_, price)| *price > 0.0)
        .collect();
    priced.sort_by(|a, b| a.1.total_cmp(&b.1));
    let each = priced.iter().map(|(one, price)| match priced.len() {
        1 => say![two_figures(*price)],
        _ => say![two_figures(*price), " with ", name(&one.name)],
    });
    (!priced.is_empty()).then(|| {
        say!["each fire of 100 that no longer runs short costs ", joined(each, ", ", " and "), "."]
    })
}

/// Money with no more digits than a simulated difference supports.
fn two_figures(price: f64) -> Piece {
    if price < 1.0 {
        return Piece::Number(price, 2);
    }
    let step = 10f64.powf(price.log10().floor() - 1.0);
    Piece::Number((price / step).round() * step, usize::from(step < 1.0))
}

/// What lowers the chance, the best first: of what costs money only what is worth it; nothing where nothing
/// saves the plan.
fn advice(figures: &CompareFigures) -> Vec<Advice> {
    if figures.none_saves {
        return Vec::new();
    }
    let base = figures.options[0].chances();
    let mut helping: Vec<(&OptionFigures, _)> = (figures.options.iter())
        .filter(|one| one.lowers_chance() && one.worth_having != Some(false))
        .filter_map(|one| Some((one, one.higher_by.as_ref()?.interruption_probability)))
        .collect();
    helping.sort_by(|a, b| a.1.by.total_cmp(&b.1.by));
    (helping.into_iter().take(MOST_ADVICE))
        .map(|(one, higher_by)| Advice {
            what: say![name(&one.name)],
            before: base,
            after: one.chances(),
            higher_by,
            cost: one.cost,
        })
        .collect()
}

/// Of one file: what to know of it, then of each option and not of it. Of several: of each, with its name.
fn what_to_know(scenarios: &[Scenario]) -> Vec<Sentence> {
    match scenarios {
        [only] => {
            let of_options = only.options.iter().flat_map(|option| &option.warnings).map(note);
            notes(only).into_iter().chain(of_options).collect()
        }
        several => (several.iter())
            .flat_map(|scenario| {
                let file = scenario.path.display().to_string();
                notes(scenario).into_iter().map(move |note| say![name(&file), ", ", note])
            })
            .collect(),
    }
}

/// The option that the verdict is about: the best, or the only one where it is worse.
fn subject(figures: &CompareFigures) -> Option<&OptionFigures> {
    let only = || match &figures.options[1..] {
        [only] if only.verdict == Some(Against::HigherChance) => Some(only),
        _ => None,
    };
    figures.best.map(|best| &figures.options[best]).or_else(only)
}

fn small_print(figures: &CompareFigures) -> Vec<Sentence> {
    let mut told = Vec::new();
    let base = &figures.options[0];
    if let Some((option, apart)) =
        subject(figures).and_then(|one| Some((one, one.higher_by.as_ref()?)))
    {
        let apart = apart.interruption_probability;
        let of = |one: &OptionFigures| Piece::Percent(one.chances());
        let is_less = apart.by < 0.0;
        let (sign, ends) = if is_less {
            (-100.0, [apart.ci_high, apart.ci_low])
        } else {
            (100.0, [apart.ci_low, apart.ci_high])
        };
        let places = digits_of([apart]);
        let points = |by: f64| Piece::Number(sign * by, places);
        told.push(say![
            "In percent, with ",
            name(&option.name),
            ": ",
            of(option),
            " instead of ",
            of(base),
            ", ",
            points(apart.by),
            " percentage points ",
            if is_less { "less" } else { "more" },
            ", 95% interval ",
            points(ends[0]),
            " to ",
            points(ends[1]),
            ".",
        ]);
    }
    let most = figures.options.iter().map(|one| one.replications).max().unwrap_or(0);
    told.push(say![
        "Up to ",
        Piece::Number(most as f64, 0),
        " fires of each on the same luck. Changes: the option less the plan as it stands, chances in \
         percentage points. What is called better or worse holds at 95% for all options at once. Flow: \
         delivered over the watch.",
    ]);
    told
}

#[cfg(test)]
mod tests;
