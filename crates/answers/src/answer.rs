//! What an answer is made of.

use scenario_file::Asked;
use serde::Serialize;
use shuttle_report::options_compared::Apart;

use crate::picture::Picture;
use crate::say::{Chances, Sentence, Table};

/// What stands at the left of a paragraph.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Label {
    /// When the lines run short.
    When,
    /// Why they do.
    Why,
    /// The change that helps most, and those after it.
    Best,
    /// What flow can be held.
    Hold,
    /// What cures a cause.
    Cure,
    /// What the plan can and cannot lose.
    Spare,
    /// Whom to ask for.
    Ask,
    /// Aid that is listed and not asked for.
    Aid,
    /// The water kept for backing out.
    Reserve,
    /// What limits the plan, by hand.
    AtMost,
    /// What is left to do where a building is given up.
    GivenUp,
    /// What fails, and what that calls for.
    Fails,
    /// What to mind.
    Careful,
    /// What more of the same does.
    More,
    /// What makes no difference.
    NoGain,
    /// What makes shortfalls no rarer and yet shorter.
    Shorter,
    /// What makes it worse.
    Worse,
    /// What it costs.
    Cost,
    /// What options do together.
    Together,
    /// What too few runs were made for.
    Unclear,
    /// What units that may not come cost.
    Turnout,
    /// What happens if aid is asked for later.
    Late,
    /// The start of the fire, first water and first loads.
    Start,
    /// One cycle of a tanker.
    Cycle,
    /// How busy each place is.
    Busy,
    /// People for the plan.
    People,
    /// Hose in place of tankers.
    Hose,
    /// How a figure was worked out from facts.
    Facts,
    /// Which of the runs to look at.
    Watch,
    /// Trips made.
    Trips,
    /// The balance of water.
    Water,
    /// What binds.
    Binds,
    /// Nothing: a paragraph that goes on.
    Blank,
    /// The attack lines that carry a flow.
    Lines,
    /// What was brought on a day, beside what was expected.
    Day,
    /// Waiting, which is no work.
    Waiting,
    /// What broke down.
    Breakdown,
    /// What a reader is asked to look at.
    Asked,
    /// How a file was read.
    Read,
    /// What was written into a file.
    Written,
    /// What a loss does.
    Lost,
    /// What a whole fire was taken to share.
    Luck,
    /// What doubt about the inputs leaves open.
    Doubt,
    /// What to time.
    TimeIt,
    /// The level of the water at which to act.
    TripWire,
}

/// A part of an answer, in the order it is read.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph under a label.
    Point(Label, Sentence),
    /// A paragraph from edge to edge.
    Paragraph(Sentence),
    /// A table.
    Table(Table),
    /// An empty line.
    Gap,
}

/// A change that was run on the luck of the plan, and what it does.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// What to do.
    pub what: Sentence,
    /// How often the lines run short as it stands.
    pub before: Chances,
    /// How often with the change.
    pub after: Chances,
    /// The difference, after less before, with its interval.
    pub higher_by: Apart,
    /// What it costs, in the scenario's own currency.
    pub cost: Option<f64>,
}

/// What an answer rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Basis {
    /// Simulated fires of the plan as it stands; 0 where nothing was simulated.
    pub replications: u64,
    /// Seed of their luck.
    pub seed: u64,
    /// Whether it was ended before all that was wanted had been run.
    pub ended_early: bool,
}

/// The part of an answer that a person reads.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// The fire and the plan in a line.
    pub headline: Sentence,
    /// The answer: what a chief would say on the radio.
    pub verdict: Sentence,
    /// Why, when, what else: with the verdict and the advice no more than a screen.
    pub points: Vec<Block>,
    /// What to change, best first; empty where nothing helps or nothing was tried.
    pub advice: Vec<Advice>,
    /// Tables and paragraphs for who asks for more.
    pub more: Vec<Block>,
    /// What a person should know of the file and need not mend; only what can change the answer.
    pub notes: Vec<Sentence>,
    /// How the figures came about, for who asks for more.
    pub small_print: Vec<Sentence>,
    /// What to ask next: names of commands.
    pub ask_next: Vec<&'static str>,
}

impl Told {
    /// The same for the planner page: nothing of the command line; what the page has a button for, and notes that stand
    /// beside their sentence of the plan, are left out.
    pub fn for_page(&self) -> Told {
        let sentences = |of: &[Sentence]| of.iter().map(Sentence::for_page).collect();
        let blocks = |of: &[Block]| of.iter().filter_map(Block::for_page).collect();
        let notes = self.notes.iter().filter(|note| !note.is_about_a_line());
        Told {
            headline: self.headline.for_page(),
            verdict: self.verdict.for_page(),
            points: blocks(&self.points),
            advice: (self.advice.iter())
                .map(|one| Advice { what: one.what.for_page(), ..one.clone() })
                .collect(),
            more: blocks(&self.more),
            notes: notes.map(Sentence::for_page).collect(),
            small_print: sentences(&self.small_print),
            // Commands: a page has its questions beside each other.
            ask_next: Vec::new(),
        }
    }
}

impl Block {
    fn for_page(&self) -> Option<Block> {
        Some(match self {
            Block::Point(Label::Watch | Label::Aid, _) => return None,
            Block::Point(label, sentence) => {
                Block::Point(*label, sentence.for_page().without_commands())
            }
            Block::Paragraph(sentence) => Block::Paragraph(sentence.for_page()),
            Block::Table(table) => Block::Table(table.for_page()),
            Block::Gap => Block::Gap,
        })
    }
}

/// The answer to one question.
#[derive(Debug)]
pub struct Answer<F> {
    /// The question: the name of the command.
    pub question: &'static str,
    /// The scenario's title.
    pub title: String,
    /// What was changed in the scenario beside its file.
    pub asked: Asked,
    /// What a person reads.
    pub told: Told,
    /// What it rests on.
    pub basis: Basis,
    /// The figures behind it.
    pub figures: F,
    /// The pictures that go with it.
    pub pictures: Vec<Picture>,
}
