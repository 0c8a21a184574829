//! What to change, and by how much it helps: the answers that hold plans against a target or each other.
//!
//! Read in this order: the chance as it stands and what would help ([`what_would_help`]), how many tankers
//! ([`fleet_size`]), options side by side ([`options_compared`]) and together ([`option_sets`]), what each input is worth ([`levers`]), what
//! the plan cannot do without ([`losses`], and of departments [`departments`]), what to gate down to when a tanker is lost on the way ([`tanker_lost`]),
//! whom to ask for ([`request`]), what asking later costs ([`asked_later`]), and what each tanker and source does in the
//! fires of a plan: how long a tanker is away and when a source runs dry ([`turnarounds`]).

pub mod what_would_help;

pub mod fleet_size;

pub mod options_compared;

pub mod option_sets;

pub mod levers;

pub mod losses;

pub mod departments;

mod lost;

pub mod tanker_lost;

pub mod request;

pub mod asked_later;

pub mod turnarounds;
