//! drills
