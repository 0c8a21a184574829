//! Values that are more than a number: durations, what they rest on, flows worked out from facts.

pub(crate) mod durations;

pub(crate) mod flow_facts;

pub(crate) mod rests_on;

pub(crate) mod rough_values;
