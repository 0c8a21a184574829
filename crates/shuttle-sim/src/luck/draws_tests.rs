//! From a word of bits to a number between 0 and 1.

use rand::rand_core::TryRng;

use super::draws::{KeyedStream, unit};
use super::purpose::Purpose;

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

#[test]
fn the_stream_makes_each_word_of_two_numbers_as_the_engine_draws_them() {
    let stream = KeyedStream::new(1, 2, "Tanker 3");
    let halves = |stream: &mut KeyedStream| {
        [Purpose::TravelOut, Purpose::TravelBack]
            .map(|purpose| (stream.next_uniform(purpose) * libm::exp2(32.0)).floor() as u64)
    };
    let mut numbers = stream.clone();
    let ([high, low], [next_high, _]) = (halves(&mut numbers), halves(&mut numbers));
    let mut words = stream.clone();
    let Ok(first) = words.try_next_u64();
    assert_eq!(first, high * (1 << 32) + low);
    let Ok(second) = words.try_next_u32();
    assert_eq!(u64::from(second), next_high);
    let mut bytes = [0; 11];
    let Ok(()) = stream.clone().try_fill_bytes(&mut bytes);
    assert_eq!(bytes[..8], first.to_le_bytes());
    assert_ne!(bytes[8..], [0; 3]);
}
