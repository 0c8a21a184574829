//! Values of a plan and what stands behind them.

mod building;

mod grading;

mod rests_on;

mod sources_and_roads;
