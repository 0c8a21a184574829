//! The usual cautions of hauling water.

/// On every card, in few words. Source: USFA FA-248 and the usual rules of tanker operations.
pub const ON_THE_ROAD: &str = "Belts on. No racing: posted limits, slower in curves. Run full or empty. A spotter for every backing move.";

/// In full, for the report and the handout. Figures: USFA FA-248 (1990-2001).
pub const IN_FULL: [&str; 5] = [
    "The incident commander decides. Local codes, the authority having jurisdiction and the makers' limits of the \
     apparatus come first.",
    "Tankers are about 3% of fire apparatus and about 22% of firefighter deaths in apparatus crashes; in two of \
     three the right wheels left the road first, and most of the dead wore no belt (USFA FA-248, 1990-2001).",
    "Belts on before the wheels turn. Posted limits, slower in curves. Run full or empty, never half full.",
    "A one-way circuit where there is one. A spotter for every backing move; all stop when the spotter is out of \
     sight. Lights as local rules say.",
    "Relief for drivers. Water for backing out is no water for the attack.",
];
