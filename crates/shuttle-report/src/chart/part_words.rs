//! The parts of a cycle in words.

use shuttle_sim::Part;

/// The part as charts and tables call it.
pub fn part_words(part: Part) -> &'static str {
    match part {
        Part::TravelOut => "travel out",
        Part::RoadWait => "wait on the road",
        Part::FillWait => "wait to fill",
        Part::FillConnect => "connect",
        Part::Fill => "fill",
        Part::FillDisconnect => "disconnect",
        Part::TravelBack => "travel back",
        Part::SceneWait => "wait at the scene",
        Part::DumpPosition => "position",
        Part::Dump => "dump",
        Part::DumpClear => "clear",
        Part::NurseConnect => "connect to the engine",
        Part::PumpOff => "pump off",
        Part::NurseDisconnect => "disconnect from the engine",
    }
}
