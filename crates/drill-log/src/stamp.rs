//! The eight moments of a trip that a recorder writes down.

/// A moment of a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(usize)]
pub enum Stamp {
    /// It comes to the fill site.
    ArrivedAtFill = 0,
    /// The hose is on.
    Connected,
    /// The tank is full.
    Full,
    /// It leaves the fill site.
    LeftFill,
    /// It comes to the scene.
    ArrivedAtScene,
    /// It opens its dump.
    StartedDump,
    /// The tank is empty.
    Empty,
    /// It leaves the scene.
    LeftScene,
}

impl Stamp {
    /// All of them, in the order in which they happen.
    pub const ALL: [Stamp; 8] = [
        Stamp::ArrivedAtFill,
        Stamp::Connected,
        Stamp::Full,
        Stamp::LeftFill,
        Stamp::ArrivedAtScene,
        Stamp::StartedDump,
        Stamp::Empty,
        Stamp::LeftScene,
    ];

    /// Its heading on the recorder's sheet.
    pub fn heading(self) -> &'static str {
        match self {
            Stamp::ArrivedAtFill => "arrived at fill",
            Stamp::Connected => "connected",
            Stamp::Full => "full",
            Stamp::LeftFill => "left fill",
            Stamp::ArrivedAtScene => "arrived at scene",
            Stamp::StartedDump => "started dump",
            Stamp::Empty => "empty",
            Stamp::LeftScene => "left scene",
        }
    }
}
