//! Places of the plan in the text: where the file states what a mistake or a warning is about.

use std::collections::HashSet;

use shuttle_sim::Mistake;

use super::path_of_place::path;
use super::plan_words::{self, Told};
use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::Message;
use crate::errors::position::Span;
use crate::format::haul::tankers::OfTanker;
use crate::format::whole_files::OfScenario;
use crate::quantities::quantity::Units;
use crate::structure::checked_value::{Node, Value};

/// A value that fits its field but not the rest of the scenario.
pub(crate) struct Misfit {
    pub(crate) place: String,
    pub(crate) kind: MistakeKind,
    pub(crate) problem: Message,
    pub(crate) limit: Option<Message>,
    pub(crate) cure: Message,
}

/// Finds paths of the plan in the text.
pub(crate) struct Places<'n> {
    pub(crate) root: &'n Node,
}

impl Places<'_> {
    /// What to mark for a path: the value, or what would hold it.
    pub(crate) fn mark(&self, place: &str) -> Span {
        self.root.reach(place).0.mark()
    }

    /// How many entries `tankers` has; the plan counts those of `aid` on from there.
    pub(crate) fn own_tankers(&self) -> usize {
        match self.root.child(OfScenario::TANKERS.key()).map(|node| &node.value) {
            Some(Value::List(entries)) => entries.len(),
            _ => 0,
        }
    }

    /// `tankers[7].capacity` as `aid[2].capacity` where the file lists five tankers of its own.
    fn in_aid(&self, place: String) -> String {
        let tankers = place.strip_prefix(OfScenario::TANKERS.key());
        let aid = tankers.and_then(|rest| rest.strip_prefix('[')).and_then(|rest| {
            let (listed, rest) = rest.split_once(']')?;
            let listed = listed.parse::<usize>().ok()?.checked_sub(self.own_tankers())?;
            Some(format!("{}[{listed}]{rest}", OfScenario::AID.key()))
        });
        aid.unwrap_or(place)
    }

    /// The path by which the file states a value: handling times of a tanker may stand in the
    /// common `handling`, and a tanker may stand in `aid`.
    fn as_stated(&self, place: String) -> String {
        let place = self.in_aid(place);
        if let (_, false) = self.root.reach(&place)
            && let Some((_, key)) = place.split_once(&format!(".{}.", OfTanker::HANDLING.key()))
        {
            let common = |key: &str| format!("{}.{key}", OfScenario::HANDLING.key());
            let (whole, _) = key.split_once('.').unwrap_or((key, ""));
            if let (_, true) = self.root.reach(&common(whole)) {
                return common(key);
            }
        }
        place
    }
}

/// Misfits as findings, at their places in the text.
pub(crate) fn findings_of_misfits(misfits: Vec<Misfit>, places: &Places<'_>) -> Vec<Finding> {
    (misfits.into_iter())
        .map(|misfit| Finding {
            span: places.mark(&misfit.place),
            place: misfit.place,
            kind: misfit.kind,
            problem: misfit.problem,
            limit: misfit.limit,
            cure: misfit.cure,
        })
        .collect()
}

/// The mistakes of a plan as findings, each once: tankers may share their handling times.
pub(crate) fn findings_of(
    mistakes: Vec<Mistake>,
    places: &Places<'_>,
    units: Units,
) -> Vec<Finding> {
    let mut seen = HashSet::new();
    let mut findings = Vec::new();
    for Mistake { place, wrong } in mistakes {
        let place = places.as_stated(path(&place));
        let Told { kind, problem, limit, cure } = plan_words::mistake(&wrong, units);
        if seen.insert((place.clone(), problem.in_file())) {
            let span = places.mark(&place);
            findings.push(Finding { place, span, kind, problem, limit: Some(limit), cure });
        }
    }
    findings
}
