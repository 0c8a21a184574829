//! The picture of `grade`: a bar a set of fill sites, one picture a place.

use shuttle_report::chart::ChartError;
use shuttle_report::chart::held_by_sites::{Bar, Words, chart};
use shuttle_report::grade::{GradeAnswer, SiteGrade, Verdict};

use super::{letter, rules, site_names};
use crate::answer::Picture;
use crate::reader::Reader;
use crate::say;
use crate::say::{Piece, name};

/// Most sets in a picture: as many as are simulated of one place.
const MOST_BARS: usize = 26;

/// One picture a place; none where nothing was simulated.
pub fn pictures(found: &GradeAnswer) -> Vec<Picture> {
    let several = found.titles.len() > 1;
    (0..found.titles.len())
        .filter(|place| found.ranked.iter().any(|one| one.scenario == *place))
        .map(|place| {
            let found = found.clone();
            Picture {
                name: if several { format!("grade_{}", place + 1).into() } else { "grade".into() },
                draw: Box::new(move |reader| draw(&found, place, reader)),
            }
        })
        .collect()
}

fn draw(found: &GradeAnswer, place: usize, reader: &Reader) -> Result<String, ChartError> {
    let units = reader.units;
    let sets = || found.ranked.iter().filter(|one| one.scenario == place).take(MOST_BARS);
    let bars: Vec<Bar> = sets().filter_map(|one| bar(one, reader)).collect();
    let fires: u64 = sets().flat_map(|one| &one.results).map(|result| result.replications).sum();
    let Some(rule) = found.rules.first() else {
        return chart(
            &[],
            Words { title: "", shows: "", unit: "", rule: (0.0, ""), made_from: "" },
        );
    };
    let title = if found.titles.len() > 1 {
        say![letter(place), ": ", name(&found.titles[place])]
    } else {
        say![name(&found.titles[place])]
    };
    let shows = say![
        "Flow that holds without a break in at least ",
        Piece::Share(found.share),
        " of fires, by set of fill sites, under ",
        rules::title(rule),
        ". Marks: the credit by hand, each ",
        Piece::Tanker,
        " assigned to one site.",
    ];
    let least = say!["the least credited, ", Piece::Flow(rule.minimum_gpm)];
    let made_from = say![
        Piece::Number(fires as f64, 0),
        " simulated fires, seed ",
        Piece::Words(found.seed.to_string().into()),
        ". The grading body alone decides.",
    ];
    chart(
        &bars,
        Words {
            title: &reader.put(&title),
            shows: &reader.put(&shows),
            unit: units.flow_sign(),
            rule: (units.flow(rule.minimum_gpm), &reader.put(&least)),
            made_from: &reader.put(&made_from),
        },
    )
}

fn bar(one: &SiteGrade, reader: &Reader) -> Option<Bar> {
    let units = reader.units;
    let result = one.results.first()?;
    let note = match result.verdict {
        Verdict::Pass if super::tables::on_first_loads(result) => "first loads",
        Verdict::Pass => "passes",
        Verdict::Fail => "fails",
        Verdict::NotClear => "open",
    };
    Some(Bar {
        label: reader.put(&site_names(one)),
        holds: units.flow(result.held_gpm.unwrap_or(0.0)),
        may_hold: result.not_clear_up_to_gpm.map(|gpm| units.flow(gpm)),
        passes: (result.first_loads_gal.and(result.tightest.as_ref()))
            .map(|(_, gpm)| units.flow(*gpm)),
        credit: units.flow(result.hand.counts_gpm),
        note: note.to_owned(),
    })
}
