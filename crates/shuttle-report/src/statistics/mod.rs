//! What a batch of runs says, and with what confidence.
//!
//! Read in this order: a share with its exact interval ([`binomial`]), the sequential test that may be
//! checked after every block of runs ([`sequential`]), two plans run on common random numbers ([`paired`],
//! [`paired_means`]), quantiles of levels in fixed memory ([`histogram`]), and the incomplete beta function
//! under all but the last ([`beta`]).
//!
//! Counts are whole numbers (`u64`), so what is added up by several threads does not depend on
//! the order. A confidence is a share such as 0.95, more than 0 and less than 1.
//!
//! These functions are given counts that the program made and settings that were checked when
//! they were read. More hits than runs, or a confidence of 95 instead of 0.95, is therefore a
//! mistake of the caller, and each function says under "Panics" what it refuses.

pub mod binomial;

pub mod sequential;

pub mod paired;

pub mod paired_means;

pub mod histogram;

pub mod beta;

#[cfg(test)]
mod counted_tests;

/// The confidence that each of `statements` needs so that all hold simultaneously with `confidence`.
///
/// - Given: `confidence` for all simultaneously (0.95); `statements`, how many are made at once.
/// - Returns: 1 - (1 - confidence) / statements, by Bonferroni.
/// - Why not Šidák's slightly larger allowance: it asks for independent statements (or for special forms of
///   dependence). Options run on common random numbers are dependent, and Bonferroni holds whatever the
///   dependence. The price is small: for 20 statements at 95% each is asked for 99.750% instead of 99.744%.
/// - Panics: when `confidence` is not between 0 and 1, or `statements` is 0.
/// - Source: Dunn, "Multiple comparisons among means", J. Am. Stat. Assoc. 56 (1961), 52-64.
pub fn confidence_for_each(confidence: f64, statements: usize) -> f64 {
    assert_confidence(confidence);
    assert!(statements > 0, "statements 0: at least one is needed");
    1.0 - (1.0 - confidence) / statements as f64
}

/// Refuses a confidence that is not a share strictly between 0 and 1 (NaN too).
fn assert_confidence(confidence: f64) {
    assert!(
        confidence > 0.0 && confidence < 1.0,
        "confidence {confidence} is not between 0 and 1 (95% is 0.95)"
    );
}

/// Refuses more hits than runs.
fn assert_counts(hits: u64, of: u64) {
    assert!(hits <= of, "{hits} hits of {of} runs: more hits than runs");
}

/// A small random number generator for the checks by simulation.
///
/// xorshift64*, from Vigna, "An experimental exploration of Marsaglia's xorshift generators,
/// scrambled", ACM Trans. Math. Softw. 42 (2016), article 30.
#[cfg(test)]
pub(crate) struct TestLuck(u64);

#[cfg(test)]
impl TestLuck {
    pub(crate) fn new(seed: u64) -> Self {
        TestLuck(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// Uniform on [0, 1).
    pub(crate) fn uniform(&mut self) -> f64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// True with the given chance.
    pub(crate) fn happens(&mut self, chance: f64) -> bool {
        self.uniform() < chance
    }

    /// Standard normal, by Box and Muller (1958).
    pub(crate) fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.uniform()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_statements_hold_together_when_each_is_made_surer() {
        assert_eq!(confidence_for_each(0.95, 1), 0.95);
        let each = confidence_for_each(0.95, 20);
        assert!((each - 0.9975).abs() < 1e-12);
        // Šidák, J. Am. Stat. Assoc. 62 (1967), 626-633: (0.95)^(1/20), a little less strict.
        let sidak = 0.95_f64.powf(1.0 / 20.0);
        assert!(each > sidak && each - sidak < 1e-4, "{each} against {sidak}");
    }
}
