//! Which of the shapes allowed at a place an object was likely meant to have.

use jsonc_parser::ast;

use crate::errors::similar_words::likest;
use crate::format::description::{Field, Kind, Object, Silence};

/// The shape that was likely meant: the one that shares most keys with the object, or similar ones.
pub(super) fn best_shape(object: &ast::Object<'_>, shapes: &[&'static Object]) -> &'static Object {
    let mut best = shapes[0];
    for shape in &shapes[1..] {
        if fitness(object, shape) > fitness(object, best) {
            best = shape;
        }
    }
    best
}

/// How well a shape fits the keys of an object. A required key counts most, a similar key counts a little,
/// and a missing required key breaks ties.
fn fitness(object: &ast::Object<'_>, shape: &Object) -> f64 {
    const NEEDED: f64 = 6.0;
    const KNOWN: f64 = 2.0;
    const MISSING: f64 = -1.0;
    // Alternative shapes have few keys: the first ones are enough.
    let keys = || object.properties.iter().take(10).map(|p| p.name.as_str());
    let needed = |field: &Field| matches!(field.silence, Silence::Required);
    let told: f64 = keys()
        .map(|key| match shape.field(key) {
            Some(field) if needed(field) => NEEDED,
            Some(_) => KNOWN,
            None => match likest(key, shape.fields.iter().map(|field| field.key)) {
                Some((likeness, near)) if shape.field(near).is_some_and(needed) => {
                    NEEDED / 2.0 * likeness
                }
                Some((likeness, _)) => KNOWN / 2.0 * likeness,
                None => 0.0,
            },
        })
        .sum();
    let missing =
        (shape.fields.iter()).any(|field| needed(field) && !keys().any(|key| key == field.key));
    told + if missing { MISSING } else { 0.0 }
}

/// Whether values of this kind may have the JSON type of this one.
pub(super) fn begins_like(kind: &Kind, value: &ast::Value<'_>) -> bool {
    if matches!(kind, Kind::Anything) {
        return true;
    }
    match value {
        ast::Value::StringLit(_) => {
            matches!(kind, Kind::Text(_) | Kind::LongText | Kind::Choice(_) | Kind::Number(..))
        }
        ast::Value::NumberLit(_) => matches!(kind, Kind::Number(..) | Kind::Count(_)),
        ast::Value::BooleanLit(_) => matches!(kind, Kind::Switch),
        ast::Value::NullKeyword(_) => matches!(kind, Kind::Null),
        ast::Value::Object(_) => matches!(kind, Kind::Shapes(_)),
        ast::Value::Array(_) => matches!(kind, Kind::List(..)),
    }
}
