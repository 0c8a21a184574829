//! One module a command. Each loads, runs, and turns the figures into an answer.

pub mod check;

pub mod risk;

pub mod size;

pub mod compare;

pub mod request;

pub mod lose;

pub mod levers;

pub mod hold;

pub mod grade;

pub mod reach;

pub mod replay;

pub mod new;

pub mod import;

pub mod flow;

pub mod drill;

pub mod page;

pub mod card;

pub mod handout;

pub mod report;
