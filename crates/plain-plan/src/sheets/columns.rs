//! The columns of the sheets: how they are headed, what else they may be called, whether they may be missing.

/// A column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Column {
    Unit,
    Kind,
    Department,
    ComesWhole,
    Alarm,
    Water,
    Empties,
    Minutes,
    Turnout,
    EarliestCall,
    DropTank,
    Source,
    Flow,
    AtOnce,
    Ready,
    PumpedBy,
    PumpTurnout,
    Road,
    Speed,
    Gravel,
    GravelSpeed,
    Holds,
    Fire,
    StartFlow,
    StartMinutes,
    HowLong,
    KeptBack,
    Units,
    Option,
    Cost,
    Of,
    What,
    Becomes,
    Remarks,
}

/// The columns of each sheet, in the order in which they are handed out.
pub(crate) const UNITS: [Column; 12] = [
    Column::Unit,
    Column::Kind,
    Column::Department,
    Column::ComesWhole,
    Column::Alarm,
    Column::Water,
    Column::Empties,
    Column::Minutes,
    Column::Turnout,
    Column::EarliestCall,
    Column::DropTank,
    Column::Remarks,
];
pub(crate) const SOURCES: [Column; 12] = [
    Column::Source,
    Column::Flow,
    Column::AtOnce,
    Column::Ready,
    Column::PumpedBy,
    Column::PumpTurnout,
    Column::Road,
    Column::Speed,
    Column::Gravel,
    Column::GravelSpeed,
    Column::Holds,
    Column::Remarks,
];
pub(crate) const PLAN: [Column; 8] = [
    Column::Fire,
    Column::Flow,
    Column::StartFlow,
    Column::StartMinutes,
    Column::HowLong,
    Column::KeptBack,
    Column::Units,
    Column::Remarks,
];

pub(crate) const OPTIONS: [Column; 6] =
    [Column::Option, Column::Cost, Column::Of, Column::What, Column::Becomes, Column::Remarks];

impl Column {
    /// Its heading as handed out.
    pub(crate) fn heading(self) -> &'static str {
        self.headings()[0]
    }

    /// What it may be headed, as handed out first.
    pub(crate) fn headings(self) -> &'static [&'static str] {
        match self {
            Column::Unit => &["unit", "name", "apparatus"],
            Column::Kind => &["kind", "type"],
            Column::Department => &["department", "dept", "from"],
            Column::ComesWhole => &["department comes whole", "comes whole", "whole"],
            Column::Alarm => &["alarm", "on alarm"],
            Column::Water => &["water", "capacity", "tank"],
            Column::Minutes => &["minutes to the fire", "minutes", "response"],
            Column::Empties => &["minutes to empty", "minutes to dump", "empties in"],
            Column::Turnout => &["how often it comes", "turnout", "comes"],
            Column::PumpedBy => &["pumped by", "pump", "who pumps"],
            Column::PumpTurnout => &["how often the engine comes", "how often it comes", "turnout"],
            Column::EarliestCall => &["earliest call", "called at", "called at minute"],
            Column::DropTank => &["brings a drop tank of", "drop tank"],
            Column::Source => &["source", "name", "fill site"],
            Column::Flow => &["flow"],
            Column::AtOnce => &["tankers at once", "tenders at once", "positions"],
            Column::Ready => &["ready at minute", "ready"],
            Column::Road => &["road one way", "road", "distance"],
            Column::Speed => &["speed"],
            Column::Gravel => &["of that on gravel", "gravel"],
            Column::GravelSpeed => &["speed on gravel"],
            Column::Holds => &["holds", "volume"],
            Column::Fire => &["fire", "title", "name"],
            Column::StartFlow => &["flow at first", "first flow"],
            Column::StartMinutes => {
                &["minutes from first water to full flow", "minutes until full flow"]
            }
            Column::HowLong => &["how long", "duration"],
            Column::KeptBack => &["kept in the engine", "reserve"],
            Column::Units => &["units"],
            Column::Option => &["what could be bought or changed", "option", "change"],
            Column::Cost => &["cost", "price"],
            Column::Of => &["of which unit or source", "of", "unit or source"],
            Column::What => &["which column", "column", "what"],
            Column::Becomes => &["becomes", "new value"],
            Column::Remarks => &["remarks", "remark", "notes"],
        }
    }

    /// Whether a sheet without it says too little.
    pub(crate) fn is_needed(self) -> bool {
        match self {
            Column::Unit
            | Column::Kind
            | Column::Water
            | Column::Minutes
            | Column::Source
            | Column::Flow
            | Column::Ready
            | Column::Road
            | Column::Fire
            | Column::HowLong
            | Column::Option
            | Column::What
            | Column::Becomes => true,
            Column::Department
            | Column::ComesWhole
            | Column::Alarm
            | Column::Empties
            | Column::Turnout
            | Column::PumpedBy
            | Column::PumpTurnout
            | Column::EarliestCall
            | Column::DropTank
            | Column::AtOnce
            | Column::Speed
            | Column::Gravel
            | Column::GravelSpeed
            | Column::Holds
            | Column::StartFlow
            | Column::StartMinutes
            | Column::KeptBack
            | Column::Units
            | Column::Cost
            | Column::Of
            | Column::Remarks => false,
        }
    }

    /// What to write into it, for the cure of a blank cell.
    pub(crate) fn example(self) -> &'static str {
        match self {
            Column::Unit => "Tanker 3",
            Column::Kind => "own tanker",
            Column::Department => "Birch Hill",
            Column::ComesWhole => "yes",
            Column::Alarm => "second",
            Column::Water | Column::DropTank => "3,000 gal",
            Column::Minutes => "11",
            Column::Empties => "2.5",
            Column::Turnout | Column::PumpTurnout => "9 in 10",
            Column::PumpedBy => "Engine 12",
            Column::EarliestCall => "4",
            Column::Source => "Quarry pond",
            Column::Flow => "750 gpm",
            Column::AtOnce => "2",
            Column::Ready => "15",
            Column::Road => "2.4 mi",
            Column::Speed => "32 mph",
            Column::Gravel => "0.5 mi",
            Column::GravelSpeed => "20 mph",
            Column::Holds => "30,000 gal",
            Column::Fire => "Hay barn, Quarry Lane",
            Column::StartFlow => "150 gpm",
            Column::StartMinutes => "10",
            Column::HowLong => "120 min",
            Column::KeptBack => "400 gal",
            Column::Units => "us",
            Column::Option => "a second drop tank",
            Column::Cost => "1,900",
            Column::Of => "Tanker 5",
            Column::What => "brings a drop tank of",
            Column::Becomes => "2,500 gal",
            Column::Remarks => "",
        }
    }
}
