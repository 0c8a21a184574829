//! The model told as stories: a ladder from one tanker on an empty road (`a01`) to the water balance
//! and the luck (`l`, `m`), and what a tanker boss decides (`o` to `t`). Read from top to bottom they
//! tell what the simulation means, one rule a story.
//!
//! Each story draws its world in a comment, in this shorthand, and works out by hand what must happen:
//!
//! ```text
//! T1(2000) 0:05 -> [3000] => E(1000) 500 gpm     Pond{1000} 5 out 5 back
//! ```
//!
//! Tanker T1 of 2,000 gal is on scene at minute 5 and dumps into a drop tank of 3,000 gal, from
//! which the attack engine (own tank 1,000 gal) is fed; its lines want 500 gpm; the Pond gives
//! 1,000 gpm, 5 minutes out and 5 back. `[3000/200]` has 200 gal unusable; `)` in place of `[3000] =>`
//! means nursing straight into the engine. What the drawing leaves out takes no time, wastes
//! nothing and breaks nothing. Unless a story says otherwise a tanker dumps and fills at up to
//! 1,000 gpm and pumps off at up to 500, the engine takes up to 500 gpm of refill, nobody nurses, and
//! the pump is hooked up at once, draws from 300 gal above unusable and loses prime at unusable.
//!
//! All expected values come from the rules and arithmetic in the comment, none from a run.

#[path = "../common/mod.rs"]
mod common;

/// The road, the queue, the dump and the fill.
mod trips {
    mod a_clock;
    mod b_scene_queue;
    mod c_dumping;
    mod d_trips;
    mod e_filling;
    mod f_road;
}

/// Drop tanks, prime and transfer, and where every gallon is.
mod water {
    mod g_drop_tank;
    mod h_prime;
    mod i_transfer;
    mod j_established;
    mod k_causes;
    mod l_accounts;
}

/// What a tanker boss decides.
mod boss {
    mod n_one_instant;
    mod o_lines_first;
    mod p_water_needed;
    mod q_break_off;
    mod r_which_tank;
    mod s_rest;
    mod t_low_sites;
}

/// Luck, what a whole fire shares, who comes and what fails.
mod whole {
    mod aa_as_it_is_told;
    mod m_luck;
    mod u_whole_fire;
    mod v_turnout;
    mod w_failure;
    mod x_taken_out;
    mod y_of_which;
    mod z_sources;
}
