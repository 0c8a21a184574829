//! What a whole fire was taken to share: said in one line, as it decides how bad a bad night is.

use schemars::JsonSchema;
use serde::Serialize;
use shuttle_sim::{Brought, Plan};

use crate::answer::{Block, Label};
use crate::say;
use crate::say::{Piece, Sentence, list};

/// What a whole fire was taken to share.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SharedLuck {
    /// Whether nothing is shared: every trip by itself, everybody comes and nothing fails.
    pub independent: bool,
    /// Coefficient of variation of all driving from fire to fire.
    pub driving_cv: f64,
    /// Of all handling.
    pub handling_cv: f64,
    /// Of all responses.
    pub response_cv: f64,
    /// The greatest of any crew's own.
    pub crew_cv_most: f64,
    /// The least chance of any unit to come at all.
    pub turnout_least: f64,
    /// How many of the drafting pump and the fill sites may fail.
    pub may_fail: usize,
}

impl SharedLuck {
    /// As a plan states it.
    pub fn of(plan: &Plan) -> SharedLuck {
        let facts = plan.facts();
        let tankers = || facts.tankers.iter();
        let turnouts = tankers()
            .map(|tanker| tanker.call.turnout)
            .chain(facts.supply.engine.iter().map(|engine| engine.call.turnout))
            .chain(facts.drop_tanks.iter().filter_map(|tank| match &tank.brought {
                Brought::Itself(call) => Some(call.turnout),
                _ => None,
            }))
            .chain(
                facts
                    .fill_sites
                    .iter()
                    .filter_map(|site| site.source_pump.as_ref()?.call().map(|call| call.turnout)),
            );
        let sites = facts.fill_sites.iter().map(|site| site.failure.as_ref());
        let may_fail = sites
            .chain([facts.supply.failure.as_ref()])
            .flatten()
            .filter(|failure| failure.chance > 0.0)
            .count();
        SharedLuck {
            independent: !facts.shares_luck(),
            driving_cv: facts.whole_fire.driving_cv,
            handling_cv: facts.whole_fire.handling_cv,
            response_cv: facts.whole_fire.response_cv,
            crew_cv_most: tankers().map(|tanker| tanker.crew_cv).fold(0.0, f64::max),
            turnout_least: turnouts.fold(1.0, f64::min),
            may_fail,
        }
    }

    /// Nothing is shared.
    #[cfg(test)]
    pub fn nothing() -> SharedLuck {
        SharedLuck {
            independent: true,
            driving_cv: 0.0,
            handling_cv: 0.0,
            response_cv: 0.0,
            crew_cv_most: 0.0,
            turnout_least: 1.0,
            may_fail: 0,
        }
    }

    /// The line of the answer.
    pub fn line(&self) -> Block {
        Block::Point(Label::Luck, self.told())
    }

    fn told(&self) -> Sentence {
        if self.independent {
            return say![
                "every trip was taken as independent and every unit as coming: a bad night is worse."
            ];
        }
        say!["taken into account: ", list(self.parts()), "."]
    }

    /// "whole fires differ (driving by 10%) and some may not come": which fires a chance is a share of.
    pub fn of_which_fires(&self) -> Sentence {
        if self.independent {
            return say![
                "every trip by itself, everybody comes and nothing fails, so a bad night is worse"
            ];
        }
        list(self.parts())
    }

    fn parts(&self) -> Vec<Sentence> {
        let differs = [
            ("driving", self.driving_cv),
            ("handling", self.handling_cv),
            ("responses", self.response_cv),
            ("a crew", self.crew_cv_most),
        ];
        let differs: Vec<Sentence> = (differs.into_iter())
            .filter(|(_, cv)| *cv > 0.0)
            .map(|(what, cv)| say![what, " by ", Piece::Share(cv)])
            .collect();
        let mut parts = Vec::new();
        if !differs.is_empty() {
            parts.push(say!["whole fires differ (", list(differs), ")"]);
        }
        if self.turnout_least < 1.0 {
            parts.push(say!["some may not come"]);
        }
        if self.may_fail > 0 {
            parts.push(say!["pumps or sites may fail"]);
        }
        parts
    }
}

#[cfg(test)]
mod tests {
    use shuttle_report::units::Units;

    use super::*;
    use crate::Reader;

    #[test]
    fn what_is_shared_is_said_in_a_line() {
        let nothing = SharedLuck::nothing();
        let reader = Reader { units: Units::Us, tender: false };
        assert!(reader.put(&nothing.told()).contains("every trip was taken as independent"));
        let some = SharedLuck {
            independent: false,
            driving_cv: 0.1,
            response_cv: 0.15,
            turnout_least: 0.9,
            ..nothing.clone()
        };
        assert_eq!(
            reader.put(&some.told()),
            "taken into account: whole fires differ (driving by 10% and responses by 15%) and some may not come."
        );
        let fails = SharedLuck { independent: false, may_fail: 1, ..nothing };
        assert_eq!(reader.put(&fails.told()), "taken into account: pumps or sites may fail.");
    }
}
