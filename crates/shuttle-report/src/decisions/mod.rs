//! When enough runs are made, and what may then be said.
//!
//! Read in this order: how often one looks ([`looks`]), a chance against a target ([`target`]), a plan
//! against another ([`told`]).
//!
//! # What is guaranteed
//!
//! Whenever the runs ended, and for all statements of one table simultaneously, with 95% confidence:
//!
//! - **below or above the target** ([`target`]): decided by a confidence sequence (Ville's inequality), so it
//!   may be looked at after any number of runs; the confidence of each is raised so that all statements of a
//!   table hold at once (Bonferroni);
//! - **better or worse than another plan** ([`told`]): paired intervals on common random numbers, Tango's for
//!   chances and Student's for minutes. They are good for one look at a number of runs fixed beforehand, so
//!   there is a list of looks, fixed before the first run, and the error is shared over all looks, both
//!   measures and all statements (Bonferroni). What stops a plan at a look, its own figures or those of
//!   others, does not matter: every interval of every look would hold at once. They are approximate as Tango's
//!   and Student's intervals are; exact against wrong words at no difference: see the test of [`told`].
//!
//! What is not clear is said to be not clear. Runs end early for three reasons, none of which weakens that:
//! all is clear; a difference is hardly as great as matters; or others are surely worth so much more that it
//! does not matter beside them ("successive elimination"). To end is not to say anything, so the second and
//! third are judged by ordinary 95% intervals.

pub mod looks;

pub mod target;

pub mod told;

#[cfg(test)]
mod verdict_tests;
