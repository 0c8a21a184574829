//! Steps that took far longer or shorter than the scenario had them: a guess that was off, or the wrong scenario.

use drill_log::Step;
use shuttle_sim::{PlanDraft, Tanker, TimeTaken};

use super::super::Found;
use super::super::course::everyone;
use super::super::timed::ENOUGH;
use super::step_words;
use crate::say;
use crate::say::{Piece, Sentence, name};

/// Half as long again, or two thirds, is far. Judgement.
const FAR: f64 = 1.5;
/// Minutes: less than this between two means is told by no clipboard. Judgement.
const NEAR: f64 = 0.5;

/// A time of a tanker.
type OfTanker = fn(&Tanker) -> &TimeTaken;

/// The step that the scenario had most wrong.
pub(super) fn all(found: &Found<'_>) -> Option<Sentence> {
    let facts = everyone(found.scenario);
    let most = most(found)?;
    let is_drive = matches!(most.step, Step::DriveOut | Step::DriveBack);
    Some(say![
        "the scenario has ",
        Piece::Number(most.stated, 1),
        " min for the step: ",
        step_words(most.step),
        most.site.map(|site| say![", ", name(&facts.fill_sites[site].name)]),
        "; the drill took ",
        Piece::Number(most.took, 1),
        if is_drive { ". Is it the scenario of this drill?" } else { "." },
    ])
}

/// The step that the scenario had most wrong; `None` where none is far off.
pub(in super::super) fn most(found: &Found<'_>) -> Option<Apart> {
    let farther = |a: &Apart, b: &Apart| a.off().total_cmp(&b.off());
    let steps = steps(everyone(found.scenario), found);
    steps.into_iter().filter(Apart::is_far).max_by(farther)
}

/// A step as stated and as it was, minutes.
pub(in super::super) struct Apart {
    pub step: Step,
    pub site: Option<usize>,
    pub stated: f64,
    pub took: f64,
}

impl Apart {
    fn off(&self) -> f64 {
        (self.took.max(0.01) / self.stated.max(0.01)).ln().abs()
    }

    fn is_far(&self) -> bool {
        self.off() > FAR.ln() && (self.took - self.stated).abs() >= NEAR
    }
}

fn steps(facts: &PlanDraft, found: &Found<'_>) -> Vec<Apart> {
    let took = |step, site| {
        found.timed.figures(step, None, site).filter(|of| of.readings >= ENOUGH).map(|of| of.mean)
    };
    let handling: [(Step, OfTanker); 4] = [
        (Step::FillConnect, |one| &one.handling.fill_connect),
        (Step::FillDisconnect, |one| &one.handling.fill_disconnect),
        (Step::DumpPosition, |one| &one.handling.dump_position),
        (Step::DumpClear, |one| &one.handling.dump_clear),
    ];
    let first = facts.tankers.first();
    let mut all: Vec<Apart> = (handling.into_iter())
        .filter_map(|(step, of)| {
            Some(Apart { step, site: None, stated: of(first?).mean(), took: took(step, None)? })
        })
        .collect();
    for (at, site) in facts.fill_sites.iter().enumerate() {
        for (step, leg) in [(Step::DriveOut, &site.out), (Step::DriveBack, &site.back)] {
            if let Some(took) = took(step, Some(at)) {
                all.push(Apart { step, site: Some(at), stated: leg.time.mean(), took });
            }
        }
    }
    all
}
