//! What is known of a question while the rest is worked out.

use shuttle_report::batch::AsItStands;

use crate::say;
use crate::say::{Chances, Piece, Sentence};

/// "As planned the lines run short in 6 fires of 100." for whoever waits for the rest of the answer.
pub fn so_far(plan: AsItStands) -> Sentence {
    let share = plan.interrupted as f64 / plan.runs as f64;
    let chances = Chances::of(share, plan.runs);
    if chances.is_never() {
        say![
            "As planned the lines keep their flow in all of ",
            Piece::Number(plan.runs as f64, 0),
            " fires."
        ]
    } else {
        say!["As planned the lines run short in ", Piece::Fires(chances), "."]
    }
}

#[cfg(test)]
mod tests {
    use scenario_file::Units;

    use super::*;
    use crate::Reader;

    #[test]
    fn says_what_the_whole_answer_will_say_of_the_plan() {
        let told = |interrupted| {
            let reader = Reader { units: Units::Us, tender: false };
            reader.put(&so_far(AsItStands { interrupted, runs: 20_000 }))
        };
        assert_eq!(told(1_256), "As planned the lines run short in 6 fires of 100.");
        assert_eq!(told(0), "As planned the lines keep their flow in all of 20,000 fires.");
    }
}
