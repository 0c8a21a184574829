//! The command line.

mod by_command;

mod command_line;

mod on_paper;

mod plan_changes;

pub mod refused;

mod shared_groups;

mod values;

pub use by_command::{
    CheckArguments, CompareArguments, DrillArguments, FlowArguments, GradeArguments, HoldArguments,
    ImportArguments, LeversArguments, LoseArguments, NewArguments, PageArguments, ReachArguments,
    ReplayArguments, RequestArguments, RiskArguments, SizeArguments,
};
pub use command_line::{Arguments, Command};
pub use on_paper::{Pages, PaperArguments, PaperSize, ReportArguments};
pub use plan_changes::{Changes, PlanChanges};
pub use shared_groups::{Batch, Charts, Hold, Scenario, Showing, threads_or_all};
pub use values::{LostAt, SheetKind, Standard};
