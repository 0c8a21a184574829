//! Quantities that were worked out, to no more than three figures where they are turned into metric ones.

use fireground::told::{Part, Unit};

use crate::say::Piece;

/// A flow, from gpm.
pub fn flow(gpm: f64) -> Piece {
    Piece::Worked(Part::Of(gpm, Unit::Gpm, 0))
}

/// A flow without its unit, from gpm.
pub fn bare_flow(gpm: f64) -> Piece {
    Piece::Worked(Part::Bare(gpm, Unit::Gpm, 0))
}

/// A volume, from gallons.
pub fn volume(gallons: f64) -> Piece {
    Piece::Worked(Part::Of(gallons, Unit::Gallons, 0))
}

/// A length of hose or road, from feet, whole.
pub fn length(feet: f64) -> Piece {
    Piece::Worked(Part::Of(feet, Unit::Feet, 0))
}

/// A size of a building, from feet, to a tenth where it is not whole.
pub fn size(feet: f64) -> Piece {
    Piece::Worked(Part::Of(feet, Unit::Feet, 1))
}

/// A pressure, from psi.
pub fn pressure(psi: f64) -> Piece {
    Piece::Worked(Part::Of(psi, Unit::Psi, 0))
}

/// A count in digits, for a paragraph that has other digits.
pub fn count(number: impl Into<u64>) -> Piece {
    Piece::Number(number.into() as f64, 0)
}
