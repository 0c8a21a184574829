//! What the tanker boss judges, at the bounds that the rules name.

use super::super::boss::{only_a_tenth_is_left, takes_whole_load};

#[test]
fn a_rest_of_just_a_tenth_is_a_tenth() {
    assert!(only_a_tenth_is_left(300.0, 3000.0, 3000.0));
    assert!(!only_a_tenth_is_left(300.01, 3000.0, 3000.0));
    // A load that was no more than a tenth to begin with waits until it is gone.
    assert!(!only_a_tenth_is_left(200.0, 300.0, 3000.0));
    assert!(only_a_tenth_is_left(200.0, 300.01, 3000.0));
}

#[test]
fn room_for_just_the_load_is_room_for_it() {
    assert!(takes_whole_load(1500.0, 500.0, 2000.0));
    assert!(!takes_whole_load(1499.99, 500.0, 2000.0));
}
