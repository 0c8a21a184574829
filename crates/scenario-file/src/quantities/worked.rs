//! Parts of the trade's arithmetic in a message: what it warns of, and what is usual.

use fireground::told::Part as Worked;

use super::quantity::Units;
use crate::errors::message::{Figure, Message, Part};

/// Words with quantities, in the units of a file.
pub(crate) fn worked(of: &[Worked], units: Units) -> Message {
    Message(of.iter().map(|part| in_units(part, units)).collect())
}

fn in_units(part: &Worked, units: Units) -> Part {
    let told = match units {
        Units::Us => part.in_us_units(),
        Units::Metric => part.in_metric_units(),
    };
    let figure = match *part {
        Worked::Words(words) => return Part::Words(words),
        Worked::Tanker => return Part::Words("{tanker}"),
        Worked::Constant { .. } => return Part::Typed(told),
        Worked::Number(value, _) => Figure::Plain(value),
        Worked::Share(share) => Figure::Share(share),
        Worked::Of(value, unit, _) | Worked::Bare(value, unit, _) => Figure::Of(value, unit),
        Worked::Hose(size) => Figure::Of(size.diameter_in(), fireground::told::Unit::Inches),
    };
    Part::Figure { figure, told }
}
