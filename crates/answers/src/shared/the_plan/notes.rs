//! What a person should know of a scenario and need not mend.

use scenario_file::{Scenario, Warning};
use shuttle_sim::Brought;

use crate::answer::{Block, Label};
use crate::say;
use crate::say::{FileNote, Piece, Sentence, name, on_command};

/// A draft that can pass this many times what the lines ever want is not what limits them, however roughly its pump
/// and lay are known. Judgement: ratings at other pressures and altitudes differ by less.
const AMPLE: f64 = 1.5;
/// Where the pump at the draft and the lay behind it are stated.
const OF_THE_DRAFT: [&str; 2] = ["supply.pump", "supply.lay"];

/// The notes that can change the answer to a question about the flow that is wanted: all but those on a draft that
/// passes far more. `check` tells them all.
pub fn notes_that_matter(scenario: &Scenario) -> Vec<Sentence> {
    let facts = scenario.plan.facts();
    let wanted = facts.incident.attack_flow.iter().map(|step| step.flow).fold(0.0, f64::max);
    let is_ample = facts.supply.draft_limit() >= AMPLE * wanted;
    let is_of_the_draft =
        |one: &&Warning| OF_THE_DRAFT.iter().any(|place| one.place.starts_with(place));
    (not_counted(scenario)).filter(|one| !(is_ample && is_of_the_draft(one))).map(note).collect()
}

/// The notes that can change the answer to any question about the plan. One sentence a note, with the line of the file it
/// is about; one about what was asked for beside it has none.
pub fn notes(scenario: &Scenario) -> Vec<Sentence> {
    not_counted(scenario).map(note).collect()
}

/// Every note, where the plan is checked.
pub fn every_note(scenario: &Scenario) -> Vec<Sentence> {
    scenario.warnings.iter().map(note).collect()
}

/// What the runs of the plan do not show by themselves.
fn not_counted(scenario: &Scenario) -> impl Iterator<Item = &Warning> {
    scenario.warnings.iter().filter(|one| !one.is_counted)
}

/// What to know of one place in the file.
pub fn note(warning: &Warning) -> Sentence {
    let note = FileNote {
        kind: warning.kind,
        line: (warning.line > 0).then_some(warning.line),
        field: warning.place.clone(),
        about: warning.subject.clone(),
        told: warning.text.clone(),
        on_page: false,
    };
    say![Piece::FileNote(Box::new(note))]
}

/// That the file lists aid which this answer does not count on; `None` where it lists none, or all of it comes.
pub fn aid_not_asked(scenario: &Scenario) -> Option<Block> {
    let everyone = scenario.aid.everyone.facts().tankers.len();
    let listed = everyone.saturating_sub(scenario.plan.facts().tankers.len());
    let (are, how) = if listed == 1 {
        (
            " of the aid is listed and not asked for",
            "; `request` says whom to ask, `--all-aid` lets it come",
        )
    } else {
        (
            " of the aid are listed and not asked for",
            "; `request` says whom to ask, `--all-aid` lets them come",
        )
    };
    let told = say![Piece::TankerCount(listed), are, on_command(how), "."];
    let told = told.then(pumps_not_asked(scenario));
    (listed > 0).then_some(Block::Point(Label::Aid, told))
}

/// "Until Creek tender is asked for, nobody fills at Quarry pond: it brings the pump."; nothing where no pump of a fill
/// site stays away with aid that is not asked for.
pub fn pumps_not_asked(scenario: &Scenario) -> Sentence {
    let everyone = scenario.aid.everyone.facts();
    let comes =
        |name: &String| scenario.plan.facts().tankers.iter().any(|tanker| tanker.name == *name);
    (everyone.fill_sites.iter())
        .filter_map(|site| match site.source_pump.as_ref()?.brought {
            Brought::ByTanker(place) => Some((site, &everyone.tankers[place].name)),
            _ => None,
        })
        .filter(|(_, bringer)| !comes(bringer))
        .fold(Sentence::default(), |told, (site, bringer)| {
            told.then(say![
                "Until ",
                name(bringer),
                " is asked for nobody fills at ",
                name(&site.name),
                ": it brings the pump."
            ])
        })
}
