//! Sizes of fire hose as the trade writes them.

/// Nominal size of fire hose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HoseSize {
    /// 1 in.
    One,
    /// 1-1/2 in.
    OneAndHalf,
    /// 1-3/4 in.
    OneAndThreeQuarter,
    /// 2 in.
    Two,
    /// 2-1/2 in.
    TwoAndHalf,
    /// 3 in with 2-1/2 in couplings.
    ThreeWithSmallCouplings,
    /// 3 in with 3 in couplings.
    Three,
    /// 3-1/2 in.
    ThreeAndHalf,
    /// 4 in.
    Four,
    /// 4-1/2 in.
    FourAndHalf,
    /// 5 in.
    Five,
    /// 6 in.
    Six,
}

impl HoseSize {
    /// Every size, smallest first.
    pub const ALL: [HoseSize; 12] = [
        HoseSize::One,
        HoseSize::OneAndHalf,
        HoseSize::OneAndThreeQuarter,
        HoseSize::Two,
        HoseSize::TwoAndHalf,
        HoseSize::ThreeWithSmallCouplings,
        HoseSize::Three,
        HoseSize::ThreeAndHalf,
        HoseSize::Four,
        HoseSize::FourAndHalf,
        HoseSize::Five,
        HoseSize::Six,
    ];

    /// The size as written on a hose bed: "1-3/4 in".
    pub fn name(self) -> &'static str {
        match self {
            HoseSize::One => "1 in",
            HoseSize::OneAndHalf => "1-1/2 in",
            HoseSize::OneAndThreeQuarter => "1-3/4 in",
            HoseSize::Two => "2 in",
            HoseSize::TwoAndHalf => "2-1/2 in",
            HoseSize::ThreeWithSmallCouplings => "3 in (2-1/2 in couplings)",
            HoseSize::Three => "3 in (3 in couplings)",
            HoseSize::ThreeAndHalf => "3-1/2 in",
            HoseSize::Four => "4 in",
            HoseSize::FourAndHalf => "4-1/2 in",
            HoseSize::Five => "5 in",
            HoseSize::Six => "6 in",
        }
    }

    /// The size as written where hose is sold by the millimetre: "45 mm". Common practice, values from
    /// memory: each is the size in inches, rounded by up to 3%.
    pub fn metric_name(self) -> &'static str {
        match self {
            HoseSize::One => "25 mm",
            HoseSize::OneAndHalf => "38 mm",
            HoseSize::OneAndThreeQuarter => "45 mm",
            HoseSize::Two => "52 mm",
            HoseSize::TwoAndHalf => "65 mm",
            HoseSize::ThreeWithSmallCouplings => "75 mm (65 mm couplings)",
            HoseSize::Three => "75 mm (75 mm couplings)",
            HoseSize::ThreeAndHalf => "90 mm",
            HoseSize::Four => "100 mm",
            HoseSize::FourAndHalf => "115 mm",
            HoseSize::Five => "125 mm",
            HoseSize::Six => "150 mm",
        }
    }
}
