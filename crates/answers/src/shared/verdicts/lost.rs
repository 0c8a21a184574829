//! What is lost, in words.

use shuttle_report::losses::Lost;

use crate::say;
use crate::say::{Piece, Sentence, list, name};

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
