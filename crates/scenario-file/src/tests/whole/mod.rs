//! Whole scenarios: sound ones, the same in other units, the schema.

mod notes;

mod same_in_metric;

mod schema_agrees;

mod sound_scenarios;
