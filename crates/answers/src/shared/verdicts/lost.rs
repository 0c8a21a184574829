//! What is lost, in words.

use shuttle_report::losses::Lost;

use crate::say;
use crate::say::{Chances, Piece, Sentence, joined, list, name, on_command};

/// "Tanker 5, with the drop tank it brings", "Quarry pond".
pub fn lost_words(lost: &Lost) -> Sentence {
    match lost {
        Lost::OneTankerOf { names, drop_tanks } => match names.as_slice() {
            [only] if only.len() == 1 => say![name(&only[0]), its_tanks(*drop_tanks)],
            several => say!["one of ", named_together(several), its_tanks(*drop_tanks)],
        },
        Lost::FillSite { name: site } => say![name(site)],
        Lost::HalfTheFlow { site } => say!["half the flow at ", name(site)],
        Lost::DropTank { of: 1, .. } => say!["the drop tank"],
        Lost::DropTank { place, .. } => {
            say!["drop tank ", Piece::Number((place + 1) as f64, 0)]
        }
        Lost::SourcePump { name: pump, brought_by: Some(bringer), .. } => {
            say![name(pump), ", which ", name(bringer), " brings"]
        }
        Lost::SourcePump { name: pump, site, brought_by: None } => {
            say![name(pump), ", which pumps at ", name(site)]
        }
        Lost::SupplyEngine { name: engine, drop_tanks } => {
            say![name(engine), its_tanks(*drop_tanks)]
        }
        Lost::Department { name: department, drop_tanks, .. } => {
            say!["all of ", name(department), their_tanks(*drop_tanks)]
        }
    }
}

/// The same without what goes with it: "Tanker 5".
pub fn lost_alone(lost: &Lost) -> Sentence {
    match lost {
        Lost::OneTankerOf { names, .. } => {
            lost_words(&Lost::OneTankerOf { names: names.clone(), drop_tanks: 0 })
        }
        Lost::SupplyEngine { name: engine, .. } => say![name(engine)],
        Lost::SourcePump { name: pump, .. } => say![name(pump)],
        Lost::Department { name: department, .. } => say!["all of ", name(department)],
        other => lost_words(other),
    }
}

/// "Tanker 1 to Tanker 3 and Tanker 5": those listed one behind the other by the first and last of them.
fn named_together(names: &[Vec<String>]) -> Sentence {
    list(names.iter().map(|run| match run.as_slice() {
        [first, .., last] => say![name(first), " to ", name(last)],
        one => list(one.iter().map(|one| say![name(one)])),
    }))
}

fn its_tanks(drop_tanks: usize) -> &'static str {
    match drop_tanks {
        0 => "",
        1 => ", with the drop tank it brings",
        _ => ", with the drop tanks it brings",
    }
}

fn their_tanks(drop_tanks: usize) -> &'static str {
    match drop_tanks {
        0 => "",
        1 => ", with the drop tank they bring",
        _ => ", with the drop tanks they bring",
    }
}

/// "if all of Maple Ford stay home, short in 9 fires of 100; if all of Birch Hill, in 7 fires of 100." - departments of
/// which each tanker may stay home by itself.
///
/// - Given: those worth a word, each with how often the lines then run short.
pub fn all_at_home<'a>(departments: impl Iterator<Item = (&'a Lost, Chances)>) -> Option<Sentence> {
    /// More than these are told as so many more.
    const MOST: usize = 2;
    let all: Vec<(&Lost, Chances)> = departments.collect();
    if all.is_empty() {
        return None;
    }
    let told = all.iter().take(MOST).enumerate().map(|(place, (lost, chances))| {
        let stay_home = if place == 0 { " stay home, short in " } else { ", in " };
        say!["if ", lost_alone(lost), stay_home, Piece::Fires(*chances)]
    });
    let more = all.len().saturating_sub(MOST);
    let more = (more > 0).then(|| say!["; ", Piece::Count(more), " more", on_command(": --more")]);
    Some(say![
        joined(told, "; ", "; "),
        more,
        ". They do not come as one, so that is more than one loss."
    ])
}
