//! What describes a file format: objects, their fields, and what each field may hold.

use crate::quantities::quantity::{Bounds, Quantity};

/// One kind of object.
pub(crate) struct Object {
    /// What it is, with its article: "a tanker".
    pub(crate) what: &'static str,
    /// Its name in the JSON Schema.
    pub(crate) def: &'static str,
    /// One sentence.
    pub(crate) doc: &'static str,
    /// Its fields, in the order of the schema.
    pub(crate) fields: &'static [Field],
    /// What its fields ask of each other.
    pub(crate) rules: &'static [Rule],
    /// Keys that people put here by mistake, each with the cure.
    pub(crate) strays: &'static [(&'static str, &'static str)],
}

/// One field of an object.
pub(crate) struct Field {
    /// Its key.
    pub(crate) key: &'static str,
    /// What it holds.
    pub(crate) kind: Kind,
    /// What silence means.
    pub(crate) silence: Silence,
    /// A sentence or two, with what bare numbers mean where the kind does not say it.
    pub(crate) doc: &'static str,
}

/// What it means when a field is not there.
#[derive(Clone, Copy)]
pub(crate) enum Silence {
    /// A mistake.
    Required,
    /// This value.
    Means(Default),
    /// This value, with a warning that gives what is usual.
    Assumes(Default, &'static str),
    /// Something that no value of the field expresses, in words.
    Says(&'static str),
}

/// A value that stands in for silence.
#[derive(Clone, Copy)]
pub(crate) enum Default {
    /// A number or fixed duration, in the model's units.
    Number(f64),
    /// One of the field's choices, or a name.
    Word(&'static str),
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
    /// Any of these; no two of them accept the same JSON type.
    Any(&'static [Kind]),
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

impl Field {
    pub(crate) const fn required(key: &'static str, kind: Kind, doc: &'static str) -> Field {
        Field { key, kind, silence: Silence::Required, doc }
    }

    pub(crate) const fn number(
        key: &'static str,
        kind: Kind,
        default: f64,
        doc: &'static str,
    ) -> Field {
        Field { key, kind, silence: Silence::Means(Default::Number(default)), doc }
    }

    pub(crate) const fn word(
        key: &'static str,
        kind: Kind,
        default: &'static str,
        doc: &'static str,
    ) -> Field {
        Field { key, kind, silence: Silence::Means(Default::Word(default)), doc }
    }

    pub(crate) const fn assumed(
        key: &'static str,
        kind: Kind,
        default: f64,
        usual: &'static str,
        doc: &'static str,
    ) -> Field {
        Field { key, kind, silence: Silence::Assumes(Default::Number(default), usual), doc }
    }

    pub(crate) const fn nothing(key: &'static str, kind: Kind, doc: &'static str) -> Field {
        Field { key, kind, silence: Silence::Means(Default::Nothing), doc }
    }

    pub(crate) const fn optional(
        key: &'static str,
        kind: Kind,
        silent: &'static str,
        doc: &'static str,
    ) -> Field {
        Field { key, kind, silence: Silence::Says(silent), doc }
    }
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
        Kind::Any(kinds) => kinds.iter().for_each(|kind| collect(kind, found)),
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

impl Field {
    /// The shape of an object field that has only one.
    pub(crate) fn only_shape(&self) -> Option<&'static Object> {
        match self.kind {
            Kind::Shapes([shape]) => Some(shape),
            _ => None,
        }
    }
}

impl Kind {
    /// The kinds it is made of: itself, or the alternatives.
    pub(crate) fn alternatives(&self) -> Vec<Kind> {
        match self {
            Kind::Any(kinds) => kinds.iter().flat_map(Kind::alternatives).collect(),
            other => vec![*other],
        }
    }

    /// What belongs there, in words.
    pub(crate) fn what(&self) -> String {
        match self {
            Kind::Text(_) | Kind::LongText => "text in quotes".to_string(),
            Kind::Switch => "true or false".to_string(),
            Kind::Null => "null".to_string(),
            Kind::Anything => "any value".to_string(),
            Kind::Choice(choices) => (choices.iter())
                .map(|(word, _)| format!("\"{word}\""))
                .collect::<Vec<_>>()
                .join(" or "),
            Kind::Count(_) => "a whole number".to_string(),
            Kind::Number(quantity, _) => match quantity {
                Quantity::Share => "a number, or text such as \"10%\"".to_string(),
                Quantity::Plain => "a number".to_string(),
                other => format!("{}: a number, or text with a unit", other.what()),
            },
            Kind::Shapes([shape]) => format!("{}: an object in braces", shape.what),
            Kind::Shapes(shapes) => {
                let all: Vec<&str> = shapes.iter().map(|shape| shape.what).collect();
                format!("an object in braces: {}", all.join(", or "))
            }
            Kind::List(..) => "a list in square brackets".to_string(),
            Kind::Any(kinds) => (kinds.iter().map(Kind::what)).collect::<Vec<_>>().join("; or "),
        }
    }
}
