//! The numbers of runs at which one looks whether all is clear: few at first, then twice as many each time.

/// Runs before the first look, unless fewer are allowed: intervals of paired differences are approximate, and
/// good enough from here on.
pub const FIRST_LOOK: u64 = 512;

/// The looks, rising, the last of them after `most` runs. All but the last are whole blocks.
pub fn looks(most: u64) -> Vec<u64> {
    looks_from(FIRST_LOOK, most)
}

/// The same with another first look, a multiple of 64.
pub fn looks_from(first: u64, most: u64) -> Vec<u64> {
    let mut looks = vec![first.min(most)];
    while let Some(last) = looks.last().copied().filter(|last| *last < most) {
        looks.push((2 * last).min(most));
    }
    looks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn looks_double_up_to_all_the_runs_allowed() {
        assert_eq!(looks(20_000), [512, 1024, 2048, 4096, 8192, 16_384, 20_000]);
        assert_eq!(looks(512), [512]);
        assert_eq!(looks(100), [100]);
        assert_eq!(looks_from(64, 200), [64, 128, 200]);
    }
}
