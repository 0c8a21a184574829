//! The picture of `grade`: a bar a set of fill sites, one picture a place.

use shuttle_report::chart::held_by_sites::{Bar, Words, chart};
use shuttle_report::chart::{ChartError, Sheet};
use shuttle_report::grade::{GradeAnswer, SiteGrade, Verdict};

use super::figures::Passes;
use super::{letter, rules, site_names};
use crate::picture::{Picture, luck_number};
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, Sentence, name};

/// Most sets in a picture: as many as are simulated of one place.
const MOST_BARS: usize = 26;

/// One picture a place; none where nothing was simulated.
pub fn pictures(found: &GradeAnswer) -> Vec<Picture> {
    let several = found.titles.len() > 1;
    (0..found.titles.len())
        .filter_map(|place| {
            let best = found.ranked.iter().find(|one| one.scenario == place)?;
            let title = title(found, best, several)?;
            let fires: u64 = (sets(found, place).flat_map(|one| &one.results))
                .map(|result| result.replications)
                .sum();
            let found = found.clone();
            Some(Picture {
                name: if several { format!("grade_{}", place + 1).into() } else { "grade".into() },
                title,
                shows: shows(&found, place, several),
                made_from: say![
                    Piece::Number(fires as f64, 0),
                    " simulated fires, ",
                    luck_number(found.seed),
                    ". The grading body alone decides.",
                ],
                draw: Box::new(move |reader: &Reader, sheet: &Sheet<'_>| {
                    draw(&found, place, reader, sheet)
                }),
            })
        })
        .collect()
}

fn sets(found: &GradeAnswer, place: usize) -> impl Iterator<Item = &SiteGrade> {
    found.ranked.iter().filter(move |one| one.scenario == place).take(MOST_BARS)
}

/// "Filling at Quarry pond holds 400 gpm; the least credited is 250 gpm."; `None` where no rule was asked about.
fn title(found: &GradeAnswer, best: &SiteGrade, several: bool) -> Option<Sentence> {
    let (rule, result) = (found.rules.first()?, best.results.first()?);
    let least = Piece::Flow(rule.minimum_gpm);
    let place = if several { say![letter(best.scenario), ": "] } else { Sentence::default() };
    Some(match result.held_gpm {
        Some(gpm) => say![
            place,
            "Filling at ",
            site_names(best),
            " holds ",
            Piece::Flow(gpm),
            "; the least credited is ",
            least,
            ".",
        ],
        None => say![place, "No fill site surely holds a flow; the least credited is ", least, "."],
    })
}

fn shows(found: &GradeAnswer, place: usize, several: bool) -> Sentence {
    let Some(rule) = found.rules.first() else { return Sentence::default() };
    let at = match found.titles.get(place) {
        Some(title) if several => say![letter(place), " is ", name(title), ". "],
        _ => Sentence::default(),
    };
    say![
        at,
        "Flow that holds without a break in at least ",
        Piece::Share(found.share),
        " of fires, by set of fill sites, under ",
        rules::title(rule),
        ". Marks: the credit by hand, each ",
        Piece::Tanker,
        " assigned to one site.",
    ]
}

fn draw(
    found: &GradeAnswer,
    place: usize,
    reader: &Reader,
    sheet: &Sheet<'_>,
) -> Result<String, ChartError> {
    let units = reader.units;
    let bars: Vec<Bar> = sets(found, place).filter_map(|one| bar(one, reader)).collect();
    let Some(rule) = found.rules.first() else {
        return chart(&[], Words { unit: "", rule: (0.0, "") }, sheet);
    };
    let least = reader.put(&say!["the least credited, ", Piece::Flow(rule.minimum_gpm)]);
    let rule = (units.flow(rule.minimum_gpm), least.as_str());
    chart(&bars, Words { unit: units.flow_sign(), rule }, sheet)
}

fn bar(one: &SiteGrade, reader: &Reader) -> Option<Bar> {
    let units = reader.units;
    let result = one.results.first()?;
    let note = match result.verdict {
        Verdict::Fail if super::tables::on_first_loads(result) => "first loads",
        verdict => Passes::of(verdict, super::tables::has_open(result)).word(),
    };
    Some(Bar {
        label: reader.put(&site_names(one)),
        holds: units.flow(result.held_gpm.unwrap_or(0.0)),
        may_hold: result.not_clear_up_to_gpm.map(|gpm| units.flow(gpm)),
        passes: (result.first_loads_gal.and(result.tightest.as_ref()))
            .map(|(_, gpm)| units.flow(*gpm)),
        credit: units.flow(result.hand.credited_gpm),
        note: note.to_owned(),
    })
}
