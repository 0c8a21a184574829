//! An answer as JSON: an interface for programs, described by [`schemas`].
//!
//! Figures are kept in US units under keys that say so (`_gal`, `_gpm`, `_mi`, `_ft`, `_mph`, `_psi`); for
//! a metric reader both keys and values are turned into metric ones in `units`, and nowhere else.

mod units;

use scenario_file::{Asked, NoteKind};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::{Value, json};
use shuttle_report::options_compared::Apart;
use shuttle_report::units::Units;

pub use self::units::metric_key;
use self::units::{metric, metric_schema};
use crate::answer::{Advice, Answer, Basis, Block, Label, Told};
use crate::reader::Reader;
use crate::say::{Piece, Sentence, Table};
use crate::shared::asked::{AskedFigures, asked_words};
use crate::shared::closed_words::{one_of_or_null, some_of};
use crate::shared::sums::{SumPart, quantities};
use crate::text::{CAUTION, label_word};

/// The format of results; a change that a program could stumble over raises it.
pub const FORMAT: u32 = 2;

/// A result as it is printed.
#[derive(Serialize, JsonSchema)]
struct Whole<F> {
    /// The format of results.
    format: u32,
    /// The version of the program that made it.
    version: String,
    /// The command that was asked.
    question: String,
    /// The scenario's title.
    title: String,
    /// The units of all figures: `us` or `metric`.
    units: String,
    /// What was changed in the scenario beside its file; empty: it was asked as it stands.
    asked: Vec<AskedFigures>,
    /// Every sentence that the text has, in the reader's words.
    told: ToldInWords,
    #[serde(flatten)]
    basis: BasisFigures,
    #[serde(flatten)]
    figures: F,
}

/// Every sentence that the text has.
#[derive(Serialize, JsonSchema)]
struct ToldInWords {
    /// What was changed in the scenario beside its file; null: nothing.
    changed: Option<String>,
    /// The fire and the plan in a line.
    headline: String,
    /// Its quantities.
    headline_values: Vec<SumPart>,
    /// The answer.
    verdict: String,
    /// Its quantities.
    verdict_values: Vec<SumPart>,
    /// Why, when, what else.
    points: Vec<BlockInWords>,
    /// What to change, best first, each with the runs behind it.
    advice: Vec<AdviceInWords>,
    /// Tables and paragraphs for who asks for more.
    more: Vec<BlockInWords>,
    /// What a person should know of the file.
    notes: Vec<NoteInWords>,
    /// How the figures came about.
    small_print: Vec<PrintInWords>,
    /// Commands to ask next.
    #[schemars(schema_with = "commands")]
    ask_next: Vec<&'static str>,
    /// Whose word comes first.
    caution: &'static str,
}

/// A sentence of the small print.
#[derive(Serialize, JsonSchema)]
struct PrintInWords {
    /// What it says.
    says: String,
    /// Its quantities.
    values: Vec<SumPart>,
}

/// What a person should know of the file.
#[derive(Serialize, JsonSchema)]
struct NoteInWords {
    /// What it says.
    says: String,
    /// The line of the file that it is about, from 1; null where it is about no line.
    line: Option<usize>,
    /// Path of keys of what it is about; null as above.
    field: Option<String>,
    /// What kind of note it is; null where it is none of the file's check.
    #[schemars(schema_with = "note_kind_or_null")]
    note_kind: Option<&'static str>,
    /// Its quantities.
    values: Vec<SumPart>,
}

/// A paragraph or a table.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum BlockInWords {
    /// A paragraph.
    Paragraph {
        /// What it is about; null where it has no label.
        label: Option<String>,
        /// The same as one of a closed set; null where it has no label.
        topic: Option<Label>,
        /// What it says.
        says: String,
        /// Its quantities.
        values: Vec<SumPart>,
    },
    /// A table, as the text has it; the figures behind it stand elsewhere in the result.
    Table {
        /// Heads of its columns.
        columns: Vec<String>,
        /// Its rows.
        rows: Vec<Vec<String>>,
        /// What stands under it.
        feet: Vec<String>,
    },
}

/// What an answer rests on.
#[derive(Serialize, JsonSchema)]
struct BasisFigures {
    /// Simulated fires of the plan as it stands; null where nothing was simulated.
    replications: Option<u64>,
    /// Seed of their luck; null where nothing was simulated.
    seed: Option<u64>,
    /// Whether it was ended before all that was wanted had been run.
    ended_early: bool,
}

impl BasisFigures {
    fn of(basis: &Basis) -> BasisFigures {
        let has_run = basis.replications > 0;
        BasisFigures {
            replications: has_run.then_some(basis.replications),
            seed: has_run.then_some(basis.seed),
            ended_early: basis.ended_early,
        }
    }
}

/// A change that was run.
#[derive(Serialize, JsonSchema)]
struct AdviceInWords {
    /// What to do.
    says: String,
    /// Its quantities.
    values: Vec<SumPart>,
    /// Simulated fires with it.
    replications: u64,
    /// Share of fires in which the lines run short as it stands.
    interruption_probability_before: f64,
    /// Share with the change.
    interruption_probability: f64,
    /// The difference, with the change less as it stands.
    higher_by: Apart,
    /// What it costs, in the scenario's own currency.
    cost: Option<f64>,
}

/// Every command that an answer may send to.
pub(crate) const COMMANDS: [&str; 16] = [
    "check", "risk", "hold", "size", "request", "compare", "lose", "levers", "grade", "reach",
    "replay", "flow", "drill", "card", "handout", "report",
];

/// The kinds of notes of the file's check, or null.
fn note_kind_or_null(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    let kinds: Vec<&'static str> = NoteKind::ALL.iter().map(|kind| kind.key()).collect();
    one_of_or_null(&kinds)
}

fn commands(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    some_of(&COMMANDS)
}

/// The same word, or null.
pub(crate) fn command_or_null(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    one_of_or_null(&COMMANDS)
}

/// The answer as a JSON object.
pub fn json<F: Serialize>(answer: &Answer<F>, reader: &Reader) -> Value {
    let whole = Whole {
        format: FORMAT,
        version: env!("CARGO_PKG_VERSION").to_owned(),
        question: answer.question.to_owned(),
        title: answer.title.clone(),
        units: units_word(reader.units).to_owned(),
        asked: answer.asked.changes.iter().map(AskedFigures::from).collect(),
        told: told(&answer.asked, &answer.told, reader),
        basis: BasisFigures::of(&answer.basis),
        figures: &answer.figures,
    };
    let value = serde_json::to_value(whole).unwrap_or_default();
    match reader.units {
        Units::Us => value,
        Units::Metric => metric(value),
    }
}

fn units_word(units: Units) -> &'static str {
    match units {
        Units::Us => "us",
        Units::Metric => "metric",
    }
}

/// What an answer says, for the planner page: as JSON, without words of the command line.
pub fn told_for_page<F>(answer: &Answer<F>, reader: &Reader) -> Value {
    let told = told(&answer.asked, &answer.told.for_page(), reader);
    serde_json::to_value(told).unwrap_or_default()
}

fn told(asked: &Asked, told: &Told, reader: &Reader) -> ToldInWords {
    let blocks = |blocks: &[Block]| {
        blocks.iter().filter_map(|block| block_in_words(block, reader)).collect()
    };
    ToldInWords {
        changed: asked_words(asked).map(|asked| reader.put(&asked)),
        headline: reader.put(&told.headline),
        headline_values: quantities(&told.headline),
        verdict: reader.put(&told.verdict),
        verdict_values: quantities(&told.verdict),
        points: blocks(&told.points),
        advice: told.advice.iter().map(|one| advice(one, reader)).collect(),
        more: blocks(&told.more),
        notes: told.notes.iter().map(|note| note_in_words(note, reader)).collect(),
        small_print: (told.small_print.iter())
            .map(|one| PrintInWords { says: reader.put(one), values: quantities(one) })
            .collect(),
        ask_next: told.ask_next.clone(),
        caution: CAUTION,
    }
}

fn note_in_words(note: &Sentence, reader: &Reader) -> NoteInWords {
    let values = quantities(note);
    match note.0.as_slice() {
        [Piece::FileNote(note)] => NoteInWords {
            says: reader.note(note),
            line: note.line.filter(|_| !note.on_page),
            field: note.line.filter(|_| !note.on_page).map(|_| note.field.clone()),
            note_kind: Some(note.kind.key()),
            values,
        },
        _ => {
            NoteInWords { says: reader.put(note), line: None, field: None, note_kind: None, values }
        }
    }
}

fn block_in_words(block: &Block, reader: &Reader) -> Option<BlockInWords> {
    match block {
        Block::Point(label, sentence) => Some(BlockInWords::Paragraph {
            label: Some(label_word(*label).to_lowercase()),
            topic: (*label != Label::Blank).then_some(*label),
            says: reader.put(sentence),
            values: quantities(sentence),
        }),
        Block::Paragraph(sentence) => Some(BlockInWords::Paragraph {
            label: None,
            topic: None,
            says: reader.put(sentence),
            values: quantities(sentence),
        }),
        Block::Table(table) => Some(table_in_words(table, reader)),
        Block::Gap => None,
    }
}

fn table_in_words(table: &Table, reader: &Reader) -> BlockInWords {
    let all = |of: &[Sentence]| of.iter().map(|one| reader.put(one)).collect();
    BlockInWords::Table {
        columns: table.columns.iter().map(|column| reader.put(&column.head)).collect(),
        rows: table.rows.iter().map(|cells| all(cells)).collect(),
        feet: all(&table.feet),
    }
}

fn advice(one: &Advice, reader: &Reader) -> AdviceInWords {
    AdviceInWords {
        says: reader.put(&one.what),
        values: quantities(&one.what),
        replications: one.after.fires,
        interruption_probability_before: one.before.share,
        interruption_probability: one.after.share,
        higher_by: one.higher_by,
        cost: one.cost,
    }
}

/// The schema of a question's results, of a US and of a metric reader.
pub fn schemas<F: JsonSchema>(question: &str) -> [Value; 2] {
    [Units::Us, Units::Metric].map(|units| {
        let mut schema = schemars::schema_for!(Whole<F>).to_value();
        if units == Units::Metric {
            schema = metric_schema(schema);
        }
        schema["$id"] = format!("{question}-{}", units_word(units)).into();
        schema["title"] = question.into();
        schema["properties"]["question"] = json!({"const": question});
        schema["properties"]["units"] = json!({"const": units_word(units)});
        schema
    })
}
