//! The plan asked for question by question. A wrong answer is explained and asked again.
//!
//! What most plans need is asked; the rest is taken as usual, told in the summary at the end, and asked of whatever the
//! chief names there.

mod aid;
mod besides;
pub(crate) mod building;
mod figure;
mod fire;
mod sources;
mod summary;
mod taken_out;
mod tankers;
mod terminal;
mod unsaid;

use std::io::{BufRead, Write};

use scenario_file::Units;

use crate::first_plan::FirstPlan;
use crate::scenario_text::{WrongPart, checked};
use crate::sentences::Topic;
use terminal::prompt::{Draft, Prompt, Refused};
use unsaid::unsaid;

/// Why there is no plan.
#[derive(Debug)]
pub enum AskError {
    /// The answers ended before the questions.
    EndOfAnswers,
    /// The terminal could not be read or written.
    Terminal(std::io::Error),
}

/// Why the questions stop where they are.
enum Halt {
    /// The question before is to be asked again.
    Back,
    /// What was said with what is to be mended was not taken, and is no answer to anything else: nothing was mended.
    NotMended,
    /// There will be no plan.
    Ended(AskError),
}

/// How much is asked.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Depth {
    /// What most plans need.
    Usual,
    /// Everything: of what is mended.
    All,
}

/// Asks for a plan.
///
/// - Given: the answers, one a line or with semicolons between them; where questions go; whether the answers are to be
///   repeated there, because nobody sees them typed.
/// - Errors: [`AskError`]; then there is no plan, not half of one.
pub fn ask(
    answers: impl BufRead,
    questions: impl Write,
    repeat_answers: bool,
) -> Result<FirstPlan, AskError> {
    let prompt = Prompt::new(answers, questions, repeat_answers);
    let asked = all_asked(prompt, BEGIN, || unsaid(Units::Us), Asking::<_, _, FirstPlan>::all);
    asked.map(FirstPlan::settled)
}

/// Shows a plan that is there, and asks for what is named of it.
///
/// - Given: a sound plan; the rest, and errors: as [`ask`].
/// - Returns: `None` where nothing was changed.
pub fn ask_to_mend(
    plan: &FirstPlan,
    answers: impl BufRead,
    questions: impl Write,
    repeat_answers: bool,
) -> Result<Option<FirstPlan>, AskError> {
    let prompt = Prompt::new(answers, questions, repeat_answers);
    let asked = all_asked(prompt, OPEN, || plan.clone(), Asking::<_, _, FirstPlan>::summary);
    let is_changed = |mended: &FirstPlan| *mended != plan.clone().settled();
    asked.map(|mended| Some(mended.settled()).filter(is_changed))
}

/// What is said first.
const BEGIN: &str = "Enter takes what stands in [brackets], `back` goes to the question before, `?` helps. Several answers may \
                     stand on one line: Tanker 5; 2,000 gal; 13. Nothing is written before you have seen all of it.\n";

/// The same of a plan that is there.
const OPEN: &str = "The plan is there: name what is to be changed. Enter keeps what stands in [brackets], `back` goes to the \
                    question before, `?` helps. Nothing is written before you say so.";

/// Asks every question in turn, and again from the one before where that is wanted.
///
/// - Given: what is said first; what nobody has said anything of yet; all questions.
fn all_asked<I: BufRead, O: Write, D: Draft>(
    prompt: Prompt<I, O>,
    first: &str,
    unsaid: impl Fn() -> D,
    all: impl Fn(&mut Asking<I, O, D>) -> Result<(), Halt>,
) -> Result<D, AskError> {
    let mut asking = Asking { prompt, plan: unsaid(), odd: Vec::new() };
    // What is odd about a plan that is there stands in its summary.
    asking.odd = asking.plan.checked().unwrap_or_default();
    let introduced = asking.prompt.say(first);
    let mut asked = introduced.and_then(|()| all(&mut asking));
    loop {
        match asked {
            Ok(()) => return Ok(asking.plan),
            Err(Halt::Ended(why)) => return Err(why),
            Err(Halt::NotMended) => unreachable!("where something is mended it is shown as it was"),
            Err(Halt::Back) => {
                // It grew answer by answer, so it is made anew from all answers but the last.
                (asking.plan, asking.odd) = (unsaid(), Vec::new());
                asking.prompt.go_back();
                asked = all(&mut asking);
            }
        }
    }
}

struct Asking<I, O, D> {
    prompt: Prompt<I, O>,
    plan: D,
    /// What is odd about the plan, and was said when it came to be.
    odd: Vec<String>,
}

impl Draft for FirstPlan {
    fn units(&self) -> Units {
        self.units
    }

    fn checked(&self) -> Result<Vec<String>, Vec<Refused>> {
        match checked(self) {
            // What is odd about the whole may be so until all is said.
            Ok((_, warnings)) => Ok((crate::careful::careful(self, &warnings).into_iter())
                .filter(|one| one.part.is_some())
                .map(|one| one.told)
                .collect()),
            Err(wrong) => Err(wrong.into_iter().map(|one| refused(self, one)).collect()),
        }
    }
}

fn refused(plan: &FirstPlan, wrong: WrongPart) -> Refused {
    let slip = wrong.part.and_then(|part| crate::careful::likely_slip(plan, part));
    let cure = slip.map_or(wrong.cure.clone(), |slip| format!("{} (is {slip} meant?)", wrong.cure));
    Refused { problem: wrong.problem, limit: wrong.limit, cure }
}

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    fn all(&mut self) -> Result<(), Halt> {
        self.units()?;
        self.title(Depth::Usual)?;
        self.usual_of(Topic::Fire)?;
        self.name_of_attack_engine(Depth::Usual)?;
        self.usual_of(Topic::AttackEngine)?;
        self.name_of_supply_engine()?;
        self.usual_of(Topic::SupplyEngine)?;
        self.own_tankers()?;
        self.aid()?;
        self.sources()?;
        self.drop_tanks()?;
        self.summary()
    }
}
