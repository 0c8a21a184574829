//! How far a chance can be trusted when its inputs rest on readings or guesses.
//!
//! Read in this order: what an input may be ([`posterior`]), the outer draws and the runs under each ([`outer`]),
//! the range of the chance over them ([`range`]), which readings would narrow it ([`readings`]), and the
//! question as a whole ([`asked`]).
//!
//! # What is done, and its error
//!
//! The chance of a plan is worked out under [`DRAWS`] draws of its inputs, a few fires under each; the range told
//! holds 80% of them. Two things must not pass for doubt about the inputs.
//!
//! - *The luck of few fires.* With 128 fires a draw's chance is off by 4 points where it is 30 of 100. Every
//!   draw runs on fires of its own, so that this noise is the same binomial noise for each and independent: the
//!   variance between draws, less the mean of p (1 - p) / (fires - 1), is the variance of the chance over the
//!   inputs without bias. The draws are then drawn together around their mean so that they have that variance
//!   (Louis 1984) and the range is read off them. With the same fires for all draws the mean itself would be off
//!   by 4 points; with fires of their own it stands on all of them.
//! - *Few draws.* Each input with one or two numbers to draw has every part of its distribution once (Latin
//!   hypercube: McKay, Beckman and Conover 1979), which takes most of the error out of the ends. What is left is
//!   at most that of 256 independent draws: an end is off by about a ninth of the standard deviation.
//!
//! Draws and fires are keyed: plans that share their inputs meet the same inputs and the same luck in draw j, so
//! what a change does can be told under each draw by itself.

pub mod asked;

pub mod outer;

pub mod posterior;

pub mod range;

pub mod readings;

/// Draws of the inputs. Judgement: an end of the range is then off by a ninth of its standard deviation at most, and
/// with [`outer::fires_each`] it costs less than twice the runs of the answer itself.
pub const DRAWS: usize = 256;

/// The share of the draws within the range that is told.
pub const LEVEL: f64 = 0.80;
