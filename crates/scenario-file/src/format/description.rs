//! What describes a file format: objects, their fields, and what each field may hold.

use fireground::told::Part as Worked;

use super::takes::Word;
use crate::errors::message::{Message, Part, joined, on_file, on_page, says};
use crate::quantities::quantity::{Bounds, Quantity};

/// One kind of object.
pub(crate) struct Object {
    /// What it is, with its article: "a tanker".
    pub(crate) what: &'static str,
    /// Its name in the JSON Schema.
    pub(crate) def: &'static str,
    /// One sentence.
    pub(crate) doc: &'static str,
    /// What a page says in place of it, where that has other means.
    pub(crate) on_page: Option<&'static str>,
    /// Its fields, in the order of the schema.
    pub(crate) fields: &'static [Field],
    /// What its fields ask of each other.
    pub(crate) rules: &'static [Rule],
    /// Keys that people put here by mistake, each with the cure.
    pub(crate) strays: &'static [(&'static str, &'static str)],
}

/// One field of an object.
#[derive(Clone, Copy)]
pub(crate) struct Field {
    /// Its key.
    pub(crate) key: &'static str,
    /// What it holds.
    pub(crate) kind: Kind,
    /// What silence means.
    pub(crate) silence: Silence,
    /// A sentence or two, with what bare numbers mean where the kind does not say it.
    pub(crate) doc: &'static str,
    /// What a page says in place of it, where that has other means.
    pub(crate) on_page: Option<&'static str>,
}

/// What it means when a field is not there.
#[derive(Clone, Copy)]
pub(crate) enum Silence {
    /// A mistake.
    Required,
    /// This value.
    Means(Default),
    /// This value, with a warning that gives what is usual.
    Assumes(Default, &'static [Worked]),
    /// Something that no value of the field expresses, in words that begin with what is silent.
    Says(&'static str),
}

/// A value that stands in for silence.
#[derive(Clone, Copy)]
pub(crate) enum Default {
    /// A number or fixed duration, in the model's units.
    Number(f64),
    /// Text.
    Text(&'static str),
    /// One of the field's choices.
    Word(&'static dyn Word),
    /// Yes or no.
    Flag(bool),
    /// An object with nothing stated, or an empty list.
    Nothing,
}

/// What a field may hold.
#[derive(Clone, Copy)]
pub(crate) enum Kind {
    /// Text on one line, with its greatest length in characters.
    Text(usize),
    /// Any text, with line breaks.
    LongText,
    /// `true` or `false`.
    Switch,
    /// `null`.
    Null,
    /// Any value at all; it is not interpreted here.
    Anything,
    /// One of these words, each with what it means.
    Choice(&'static [(&'static str, &'static str)]),
    /// A whole number.
    Count(Bounds),
    /// A number, or text with a unit.
    Number(Quantity, Bounds),
    /// An object of one of these shapes.
    Shapes(&'static [&'static Object]),
    /// A list, with its least and greatest number of entries.
    List(&'static Kind, usize, usize),
    /// One or the other; no two of what they are made of accept the same JSON type.
    Either(&'static Kind, &'static Kind),
}

/// What the fields of one object ask of each other.
pub(crate) enum Rule {
    /// One of these and no more than one.
    ExactlyOne(&'static [&'static str], &'static str),
    /// The first only where the second is; then the cure.
    OnlyWith(&'static str, &'static str, &'static str),
    /// The first never beside the second; then the cure.
    NeverWith(&'static str, &'static str, &'static str),
}

impl Object {
    /// The field with this key.
    pub(crate) fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.key == key)
    }
}

impl Object {
    /// What it is.
    pub(crate) fn about(&self) -> Message {
        about(self.doc, self.on_page)
    }
}

impl Field {
    /// What it is.
    pub(crate) fn about(&self) -> Message {
        about(self.doc, self.on_page)
    }
}

fn about(doc: &'static str, page: Option<&'static str>) -> Message {
    match page {
        Some(page) => says![on_file(doc), on_page(page)],
        None => doc.into(),
    }
}

/// One of the words of a choice.
pub(crate) fn choice(word: &'static str) -> Message {
    says!["\"", on_file(word), on_page(Part::Key(word.into())), "\""]
}

/// Every object that can be reached from this one, itself first, each once.
pub(crate) fn reachable(root: &'static Object) -> Vec<&'static Object> {
    let mut found = vec![root];
    let mut next = 0;
    while next < found.len() {
        for field in found[next].fields {
            collect(&field.kind, &mut found);
        }
        next += 1;
    }
    found
}

fn collect(kind: &Kind, found: &mut Vec<&'static Object>) {
    match kind {
        Kind::Shapes(shapes) => {
            for &shape in *shapes {
                if !found.iter().any(|known| known.def == shape.def) {
                    found.push(shape);
                }
            }
        }
        Kind::List(element, _, _) => collect(element, found),
        Kind::Either(this, that) => {
            collect(this, found);
            collect(that, found);
        }
        Kind::Text(_)
        | Kind::LongText
        | Kind::Switch
        | Kind::Null
        | Kind::Anything
        | Kind::Choice(_)
        | Kind::Count(_)
        | Kind::Number(..) => {}
    }
}

impl Kind {
    /// The kinds it is made of: itself, or the alternatives.
    pub(crate) fn alternatives(&self) -> Vec<Kind> {
        match self {
            Kind::Either(this, that) => {
                this.alternatives().into_iter().chain(that.alternatives()).collect()
            }
            other => vec![*other],
        }
    }

    /// What its numbers measure, where it may be a number with a unit.
    pub(crate) fn quantity(&self) -> Option<Quantity> {
        (self.alternatives().into_iter()).find_map(|kind| match kind {
            Kind::Number(quantity, _) => Some(quantity),
            _ => None,
        })
    }

    /// What belongs there.
    pub(crate) fn what(&self) -> Message {
        match self {
            Kind::Text(_) | Kind::LongText => says!["text", on_file(" in quotes")],
            Kind::Switch => "{true} or {false}".into(),
            Kind::Null => says![on_file("null"), on_page("nothing")],
            Kind::Anything => "any value".into(),
            Kind::Choice(choices) => joined(choices.iter().map(|(word, _)| choice(word)), " or "),
            Kind::Count(_) => "a whole number".into(),
            Kind::Number(quantity, _) => match quantity {
                Quantity::Share => {
                    says!["a number, or ", on_file("text such as "), "\"10%\""]
                }
                Quantity::Plain => "a number".into(),
                other => says![
                    other.what(),
                    on_file(": a number, or text with a unit"),
                    on_page(": a number, with its unit or without")
                ],
            },
            Kind::Shapes([shape]) => says![shape.what, on_file(": an object in braces")],
            Kind::Shapes(shapes) => {
                let all = joined(shapes.iter().map(|shape| shape.what.into()), ", or ");
                says![on_file("an object in braces: "), all]
            }
            Kind::List(..) => says!["a list", on_file(" in square brackets")],
            Kind::Either(this, that) => says![this.what(), "; or ", that.what()],
        }
    }
}
