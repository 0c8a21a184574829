//! Which column holds what: by the usual headings, else by the words in them.

use super::Field;
use crate::guesses::Guess;
use crate::mistakes::{Mistake, Wrong};
use crate::stamp::Stamp;
use crate::table::{Cell, Row, Table};

/// Headings are looked for in the first rows only: below them are times.
const FIRST_ROWS: usize = 20;

/// The columns of a log.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Columns {
    /// The place of the row of headings among the table's rows.
    pub headings: usize,
    /// What each column holds; `None` where it is not used.
    pub fields: Vec<Option<Field>>,
    /// Each heading as written.
    pub written: Vec<String>,
}

/// How many of a row's cells are headings that are known.
pub(crate) fn known_headings(row: &Row) -> usize {
    row.cells.iter().filter(|cell| field_of(&heading(cell)).is_some()).count()
}

/// Finds the row of headings and what its columns hold.
pub(super) fn columns(
    table: &Table,
    guesses: &mut Vec<Guess>,
    mistakes: &mut Vec<Mistake>,
) -> Option<Columns> {
    let known = |place: &usize| known_headings(&table.rows[*place]);
    // Of equals the first.
    let headings = (0..table.rows.len().min(FIRST_ROWS)).rev().max_by_key(known)?;
    if known(&headings) < 2 {
        return None;
    }
    let row = &table.rows[headings];
    let written: Vec<String> = row.cells.iter().map(Cell::shown).collect();
    let plain: Vec<String> = row.cells.iter().map(heading).collect();
    let mut found: Vec<Option<Found>> = plain.iter().map(|text| field_of(text)).collect();
    settle_bare_ones(&mut found);
    let mut fields: Vec<Option<Field>> = Vec::new();
    for (column, one) in found.iter().enumerate() {
        let heading = || written[column].clone();
        let field = match one {
            Some(Found::Usual(field)) => Some(*field),
            Some(Found::Guess(field)) => {
                guesses.push(Guess::Column { heading: heading(), field: *field });
                Some(*field)
            }
            _ => {
                if !plain[column].is_empty() {
                    guesses.push(Guess::Unused { heading: heading() });
                }
                None
            }
        };
        let first = field.and_then(|field| fields.iter().position(|other| *other == Some(field)));
        if let (Some(field), Some(first)) = (field, first) {
            let first = written[first].clone();
            let at = super::spot(table, row.number, &written, Some(column));
            mistakes.push(Mistake { at, wrong: Wrong::ColumnTwice { field, first } });
            fields.push(None);
        } else {
            fields.push(field);
        }
    }
    Some(Columns { headings, fields, written })
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Found {
    Usual(Field),
    Guess(Field),
    /// "left", "arrived": of which place, the columns beside it say.
    Bare(Act),
}

/// A heading in plain words: lower case, letters and digits only, without what stands in brackets.
fn heading(cell: &Cell) -> String {
    let Cell::Text(text) = cell else { return String::new() };
    let text = text.split(['(', '[']).next().unwrap_or("").to_lowercase();
    let spaced: String =
        text.chars().map(|c| if c.is_alphanumeric() || c == '#' { c } else { ' ' }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn field_of(text: &str) -> Option<Found> {
    if text.is_empty() || text.len() > 60 {
        return None;
    }
    let usual = |field| Some(Found::Usual(field));
    if let Some(stamp) = Stamp::ALL.into_iter().find(|stamp| stamp.heading() == text) {
        return usual(Field::At(stamp));
    }
    match text {
        "tanker" | "tender" | "unit" | "apparatus" => return usual(Field::Tanker),
        "trip" | "load" | "load #" | "no" | "trip #" | "trip no" | "trip number" => {
            return usual(Field::Trip);
        }
        "fill site" | "site" => return usual(Field::Site),
        "breakdown" => return usual(Field::Breakdown),
        "remark" | "remarks" | "note" | "notes" | "comment" | "comments" => {
            return usual(Field::Remark);
        }
        "arrived at fill site" => return usual(Field::At(Stamp::ArrivedAtFill)),
        "left fill site" => return usual(Field::At(Stamp::LeftFill)),
        _ => {}
    }
    by_words(text)
}

/// What a word of a heading says.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Says {
    Act(Act),
    Fill,
    Scene,
    Other(Field),
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Act {
    Arrive,
    Connect,
    Full,
    Leave,
    Start,
    End,
    Empty,
}

/// Words with what they say; judgement, and open to more.
const WORDS: [(&str, Says); 69] = [
    ("arrive", Says::Act(Act::Arrive)),
    ("arrived", Says::Act(Act::Arrive)),
    ("arrives", Says::Act(Act::Arrive)),
    ("arrival", Says::Act(Act::Arrive)),
    ("in", Says::Act(Act::Arrive)),
    ("connect", Says::Act(Act::Connect)),
    ("connected", Says::Act(Act::Connect)),
    ("connection", Says::Act(Act::Connect)),
    ("hooked", Says::Act(Act::Connect)),
    ("hook", Says::Act(Act::Connect)),
    ("hookup", Says::Act(Act::Connect)),
    ("coupled", Says::Act(Act::Connect)),
    ("full", Says::Act(Act::Full)),
    ("filled", Says::Act(Act::Full)),
    ("loaded", Says::Act(Act::Full)),
    ("left", Says::Act(Act::Leave)),
    ("leave", Says::Act(Act::Leave)),
    ("leaves", Says::Act(Act::Leave)),
    ("leaving", Says::Act(Act::Leave)),
    ("depart", Says::Act(Act::Leave)),
    ("departed", Says::Act(Act::Leave)),
    ("departs", Says::Act(Act::Leave)),
    ("departure", Says::Act(Act::Leave)),
    ("out", Says::Act(Act::Leave)),
    ("clear", Says::Act(Act::Leave)),
    ("cleared", Says::Act(Act::Leave)),
    ("start", Says::Act(Act::Start)),
    ("started", Says::Act(Act::Start)),
    ("starts", Says::Act(Act::Start)),
    ("begin", Says::Act(Act::Start)),
    ("begins", Says::Act(Act::Start)),
    ("began", Says::Act(Act::Start)),
    ("open", Says::Act(Act::Start)),
    ("opened", Says::Act(Act::Start)),
    ("back", Says::Act(Act::Arrive)),
    ("rolling", Says::Act(Act::Leave)),
    ("end", Says::Act(Act::End)),
    ("ended", Says::Act(Act::End)),
    ("ends", Says::Act(Act::End)),
    ("stop", Says::Act(Act::End)),
    ("stopped", Says::Act(Act::End)),
    ("done", Says::Act(Act::End)),
    ("finish", Says::Act(Act::End)),
    ("finished", Says::Act(Act::End)),
    ("complete", Says::Act(Act::End)),
    ("closed", Says::Act(Act::End)),
    ("dry", Says::Act(Act::Empty)),
    ("empty", Says::Act(Act::Empty)),
    ("emptied", Says::Act(Act::Empty)),
    ("fill", Says::Fill),
    ("filling", Says::Fill),
    ("source", Says::Fill),
    ("pond", Says::Fill),
    ("hydrant", Says::Fill),
    ("scene", Says::Scene),
    ("fire", Says::Scene),
    ("valve", Says::Scene),
    ("dump", Says::Scene),
    ("dumping", Says::Scene),
    ("dumped", Says::Scene),
    ("drop", Says::Scene),
    ("tanker", Says::Other(Field::Tanker)),
    ("tender", Says::Other(Field::Tanker)),
    ("truck", Says::Other(Field::Tanker)),
    ("vehicle", Says::Other(Field::Tanker)),
    ("round", Says::Other(Field::Trip)),
    ("run", Says::Other(Field::Trip)),
    ("broken", Says::Other(Field::Breakdown)),
    ("problem", Says::Other(Field::Remark)),
];

/// A word that is one slip away from a known one of five letters or more counts as it.
fn says(word: &str) -> Option<Says> {
    let exactly = WORDS.iter().find(|(known, _)| *known == word);
    let nearly = || {
        WORDS.iter().find(|(known, _)| known.len() >= 5 && strsim::osa_distance(known, word) == 1)
    };
    exactly.or_else(nearly).map(|(_, says)| *says)
}

fn by_words(text: &str) -> Option<Found> {
    let all: Vec<Says> = text.split(' ').filter_map(says).collect();
    let act = all.iter().find_map(|one| match one {
        Says::Act(act) => Some(*act),
        _ => None,
    });
    let (fill, scene) = (all.contains(&Says::Fill), all.contains(&Says::Scene));
    let guess = |stamp| Some(Found::Guess(Field::At(stamp)));
    match (act, fill, scene) {
        (Some(Act::Connect), _, false) => guess(Stamp::Connected),
        (Some(Act::Full), _, false) => guess(Stamp::Full),
        (Some(Act::Empty), false, _) => guess(Stamp::Empty),
        (Some(Act::Start), true, false) => guess(Stamp::Connected),
        (Some(Act::End), true, false) => guess(Stamp::Full),
        (Some(Act::Start), false, true) => guess(Stamp::StartedDump),
        (Some(Act::End), false, true) => guess(Stamp::Empty),
        (Some(Act::Arrive), true, false) => guess(Stamp::ArrivedAtFill),
        (Some(Act::Arrive), false, true) => guess(Stamp::ArrivedAtScene),
        (Some(Act::Leave), true, false) => guess(Stamp::LeftFill),
        (Some(Act::Leave), false, true) => guess(Stamp::LeftScene),
        (Some(act @ (Act::Arrive | Act::Leave)), false, false) => Some(Found::Bare(act)),
        // "at scene", "at pond".
        (None, true, false) if text.starts_with("at ") => guess(Stamp::ArrivedAtFill),
        (None, false, true) if text.starts_with("at ") => guess(Stamp::ArrivedAtScene),
        (None, true, false) if text == "source" || text == "fill source" => {
            Some(Found::Guess(Field::Site))
        }
        (None, false, true) if text == "dumping" || text == "dump" => guess(Stamp::StartedDump),
        (None, false, false) => all.iter().find_map(|one| match one {
            Says::Other(field) => Some(Found::Guess(*field)),
            _ => None,
        }),
        _ => None,
    }
}

/// "arrived" and "left" by themselves: of the place whose columns they stand before or behind.
fn settle_bare_ones(found: &mut [Option<Found>]) {
    let stamp_at = |found: &[Option<Found>], place: usize| match found[place] {
        Some(Found::Usual(Field::At(stamp)) | Found::Guess(Field::At(stamp))) => Some(stamp),
        _ => None,
    };
    for place in 0..found.len() {
        let Some(Found::Bare(act)) = found[place] else { continue };
        let before = (0..place).rev().find_map(|at| stamp_at(found, at));
        let behind = (place + 1..found.len()).find_map(|at| stamp_at(found, at));
        let stamp = match (act, before, behind) {
            (Act::Leave, Some(before), _) if before < Stamp::LeftFill => Some(Stamp::LeftFill),
            (Act::Leave, Some(_), _) => Some(Stamp::LeftScene),
            (Act::Arrive, _, Some(behind)) if behind <= Stamp::LeftFill => {
                Some(Stamp::ArrivedAtFill)
            }
            (Act::Arrive, _, Some(_)) => Some(Stamp::ArrivedAtScene),
            _ => None,
        };
        found[place] = stamp.map(|stamp| Found::Guess(Field::At(stamp)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_as(line: &str) -> Vec<Option<Field>> {
        let cells = line.split(',').map(|text| Cell::Text(text.to_owned())).collect();
        let table = Table { rows: vec![Row { number: 1, cells }], ..Table::default() };
        let (mut guesses, mut mistakes) = (Vec::new(), Vec::new());
        let columns = columns(&table, &mut guesses, &mut mistakes).expect("headings");
        assert_eq!(mistakes, []);
        columns.fields
    }

    #[test]
    fn usual_headings_are_known_in_any_order() {
        use Stamp::*;
        let at = |stamp| Some(Field::At(stamp));
        let all = [
            ArrivedAtFill,
            Connected,
            Full,
            LeftFill,
            ArrivedAtScene,
            StartedDump,
            Empty,
            LeftScene,
        ];
        for (line, from) in [
            ("arrived at fill,connected,full,left,arrived at scene,started dump,empty,left", 0),
            (
                "Arrive Fill,Hooked up,Filled,Leave fill,Arrive dump site,Begin dump,Emptied,Leave dump site",
                0,
            ),
            ("Fill in,Start fill,End fill,Fill out,Scene in,Start dump,End dump,Scene out", 0),
            ("at fill,hookup,full,out,at scene,dump start,dump done,out", 0),
            ("arrived,connectd,Full (hh:mm),depart,arrived,dump start,dump end,depart", 0),
        ] {
            let expected: Vec<_> = all[from..].iter().map(|stamp| at(*stamp)).collect();
            assert_eq!(read_as(line), expected, "{line}");
        }
        assert_eq!(
            read_as("empty,Tender,weather,full,Trip #,Comments"),
            [
                at(Empty),
                Some(Field::Tanker),
                None,
                at(Full),
                Some(Field::Trip),
                Some(Field::Remark)
            ]
        );
    }
}
