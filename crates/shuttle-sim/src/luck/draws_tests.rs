//! From a word of bits to a number between 0 and 1.

use super::draws::unit;

#[test]
fn the_ends_are_half_a_step_from_0_and_1_and_turning_every_bit_turns_the_number() {
    // 2^52 numbers, a step of 2^-52 apart, half a step from either end.
    let half_a_step = libm::exp2(-53.0);
    assert_eq!(unit(0), half_a_step);
    assert_eq!(unit(u64::MAX), 1.0 - half_a_step);
    assert_eq!(unit(1 << 63), 0.5 + half_a_step);
    assert_eq!(unit(3 << 62), 0.75 + half_a_step);
    for word in [0, 1 << 12, 0x0123_4567_89ab_cdef, 0xfedc_ba98_7654_3210, u64::MAX] {
        assert_eq!(1.0 - unit(word), unit(!word), "{word:x}");
    }
}
