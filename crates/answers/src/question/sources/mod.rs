//! Where the water comes from: gradings of fill sites, and how far one may be.

pub mod grade;

pub mod reach;
