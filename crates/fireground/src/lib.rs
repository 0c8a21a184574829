//! The fire trade's arithmetic, as plain functions: how much water a building wants, what a hydrant, a pump
//! at draft, a dry hydrant or a pond gives, what hose loses, how long the road takes, and how much of a
//! drop tank can be used.
//!
//! Every function takes bare numbers whose names carry the unit (US units only: feet, inches, miles,
//! gallons, gpm, psi, minutes) and returns a [`Worked`] value: the number, its unit, the sum written out,
//! the source of the rule and any warning. What a person got wrong comes back as a [`FactError`].
//! Results are not rounded unless the rule itself rounds; only `how`, when it is said, is.
//!
//! Read in this order: the shape of an answer ([`told`], [`worked`], [`error`]); `water_wanted` ([`quick_flow_rules`],
//! [`minimum_supply`], [`insurance_flow`], [`surveyed_building`], [`side_by_side`], [`attack_lines`],
//! [`heat`]); `sources` ([`hydrant`], [`pump`], [`suction`], [`pond`]); `moving` it ([`hose`], [`lay`],
//! [`relay`], [`long_lay`], [`travel`]); storing it ([`drop_tank`]); staffing it ([`crew`]).
//!
//! # A hydrant and a flow rule
//!
//! ```
//! use fireground::hydrant::{OutletKind, PitotReading, outlet_flow};
//! use fireground::quick_flow_rules::{AreaRule, area_rule};
//!
//! // A 2-1/2 in outlet at 25 psi: 839 gpm in the table of NFPA 291 (value from memory).
//! let hydrant = outlet_flow(&PitotReading {
//!     kind: OutletKind::Hose,
//!     diameter_in: 2.5,
//!     coefficient: 0.9,
//!     pitot_psi: 25.0,
//! })?;
//! assert!((hydrant.value - 839.0).abs() < 0.6);
//! assert_eq!(hydrant.how.to_string(), "29.83 x 0.9 x 2.5^2 x sqrt(25) = 839 gpm");
//!
//! // A house of 50 x 30 ft, half of it burning: 1,500 ft2 / 3 x 50%.
//! let wanted = area_rule(&AreaRule {
//!     length_ft: 50.0,
//!     width_ft: 30.0,
//!     floors: 1,
//!     share_involved: 0.5,
//!     exposures: 0,
//! })?;
//! assert_eq!(wanted.value, 250.0);
//! assert!(hydrant.value > wanted.value);
//! # Ok::<(), fireground::FactError>(())
//! ```
//!
//! These are planning figures. Local codes, the authority having jurisdiction, the makers' limits and the
//! incident commander come first.

mod figures;

mod hose_size;

pub mod told;

pub mod worked;

pub mod error;

mod fact_checks;

mod water_wanted;

mod sources;

mod moving;

pub mod drop_tank;

pub mod crew;

pub use error::FactError;
pub use moving::{hose, lay, long_lay, relay, travel};
pub use sources::{hydrant, pond, pump, suction};
pub use told::Told;
pub use water_wanted::{
    attack_lines, canadian_flow, heat, insurance_flow, lost_fire, minimum_supply, quick_flow_rules,
    side_by_side, surveyed_building,
};
pub use worked::Worked;

/// US gallons in a cubic foot: 1,728 cubic inches over the 231 cubic inches of the US gallon (exact, by
/// definition of the gallon).
pub const GALLONS_PER_CUBIC_FOOT: f64 = 1728.0 / 231.0;

/// Pressure of a foot of water, psi. Source: pump operator texts (the fireground shortcut is 0.5).
pub const PSI_PER_FOOT: f64 = 0.434;
