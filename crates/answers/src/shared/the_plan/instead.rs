//! How often the lines run short with a change, and how often without.

use crate::say;
use crate::say::{Chances, Piece, Sentence, digits_apart};

/// "in 6 fires of 100 instead of 29", with decimals only where it takes them to tell the two apart.
pub fn instead(with: Chances, without: Chances) -> Sentence {
    let digits = digits_apart(with, without);
    let of_a_hundred = with.is_of_a_hundred() && without.is_of_a_hundred();
    match (of_a_hundred, digits) {
        (true, 0) if with.share >= 0.015 => {
            say!["in ", Piece::Fires(with), " instead of ", Piece::OfHundred(without, 0)]
        }
        (true, digits) if digits > 0 => say![
            "in ",
            Piece::OfHundred(with, digits),
            " fires of 100 instead of ",
            Piece::OfHundred(without, digits),
        ],
        _ => say!["in ", Piece::Fires(with), " instead of ", Piece::Fires(without)],
    }
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::Reader;

    #[test]
    fn both_are_told_in_the_same_count_where_that_can_be() {
        let reader = Reader { units: Units::Us, tender: false };
        let rows = [
            (0.06, 0.29, "in 6 fires of 100 instead of 29"),
            (0.034, 0.036, "in 3.4 fires of 100 instead of 3.6"),
            (0.011, 0.29, "in 1 fire of 100 instead of 29 fires of 100"),
            (0.0, 0.29, "in none of 20,000 fires instead of 29 fires of 100"),
            (0.0004, 0.0012, "in 1 fire of 2,500 instead of 1 fire of 830"),
            (0.29, 1.0, "in 29 fires of 100 instead of every one of 20,000 fires"),
        ];
        for (with, without, said) in rows {
            let of = |share| Chances::of(share, 20_000);
            assert_eq!(reader.put(&instead(of(with), of(without))), said);
        }
    }
}
