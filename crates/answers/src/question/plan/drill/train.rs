//! What time saved at each step is worth: the levers of the plan with the measured times, those that a crew can
//! train. Driving is none of them: nobody is asked to drive faster.

use drill_log::{Figures, Step};
use scenario_file::Scenario;
use shuttle_report::batch::Control;
use shuttle_report::changes::input::Input;
use shuttle_report::levers::{LeverAnswer, LeverRow, worth_of};
use shuttle_report::moved_inputs::levers;
use shuttle_report::options_compared::Verdict;
use shuttle_report::side_by_side::SameLuck;

use super::Budget;
use super::timed::Timed;

/// What time saved at each step is worth.
#[derive(Debug, Clone)]
pub(super) struct Training {
    /// The levers of the steps, the best first.
    pub worth: LeverAnswer,
    /// For each of them what was read of it.
    pub read: Vec<Option<Figures>>,
}

/// The step behind an input that a crew trains; `None` where it is none, or no log shows it.
fn step_of(input: &Input) -> Option<Step> {
    match input {
        Input::FillConnect => Some(Step::FillConnect),
        Input::FillDisconnect => Some(Step::FillDisconnect),
        Input::DumpPosition => Some(Step::DumpPosition),
        Input::DumpClear => Some(Step::DumpClear),
        _ => None,
    }
}

fn is_trained(input: &Input) -> bool {
    step_of(input).is_some()
        || matches!(
            input,
            Input::NurseConnect
                | Input::NurseDisconnect
                | Input::FirstDropTankSetup
                | Input::DraftSetup
        )
}

/// Moves the steps that a crew trains, on the same luck.
pub(super) fn training(
    scenario: &Scenario,
    timed: &Timed,
    budget: Budget,
    control: &Control,
) -> Training {
    let luck = SameLuck { seed: budget.seed, threads: budget.threads };
    let mut all = levers(&scenario.plan, scenario.units);
    all.retain(|lever| is_trained(&lever.input));
    for lever in &mut all {
        // What takes longer is not trained.
        lever.worse = None;
    }
    all.retain(|lever| lever.better.is_some());
    let mut worth = worth_of(&scenario.plan, all, budget.replications, luck, control);
    worth.rows.retain(|row| row.better.as_ref().is_some_and(|better| better.replications > 0));
    let read = (worth.rows.iter())
        .map(|row| step_of(&row.input).and_then(|step| timed.figures(step, None, None)))
        .collect();
    Training { worth, read }
}

/// Whether the time saved surely helps.
pub(super) fn helps(row: &LeverRow) -> bool {
    row.better.as_ref().is_some_and(|better| {
        better.verdict == Verdict::LowerChance || (better.verdict == Verdict::FewerMinutes)
    })
}
