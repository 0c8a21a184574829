//! Colours and hatching: one colour, one meaning, throughout.
//!
//! Blue is water, vermillion a line short of water, orange waiting, purple what is lost, green what helps; yellow is
//! handling, grey what is not known, black a limit or a target. The colours are those of Okabe and Ito, "Color
//! Universal Design" (2002, revised 2008), told apart by people with any of the common kinds of colour blindness.
//! Each meaning also has its own hatching or lightness, for copies in black and white.

use shuttle_sim::Part;

use super::svg::Stroke;

/// Okabe-Ito black.
pub const BLACK: &str = "#000000";
/// Okabe-Ito sky blue.
pub const SKY: &str = "#56B4E9";
/// Okabe-Ito bluish green.
pub const GREEN: &str = "#009E73";
/// Okabe-Ito orange.
pub const ORANGE: &str = "#E69F00";
/// Okabe-Ito yellow.
pub const YELLOW: &str = "#F0E442";
/// Okabe-Ito blue.
pub const BLUE: &str = "#0072B2";
/// Okabe-Ito vermillion.
pub const VERMILLION: &str = "#D55E00";
/// Okabe-Ito reddish purple.
pub const PURPLE: &str = "#CC79A7";
/// Paper.
pub const WHITE: &str = "#FFFFFF";
/// Text of second rank.
pub const QUIET: &str = "#444444";
/// Lines that only guide the eye.
pub const GRID: &str = "#DDDDDD";
/// The light ground of waiting that costs no water.
pub const PALE_ORANGE: &str = "#FFE3B0";
/// The light ground of a band or an area.
pub const PALE: &str = "#D3E8F8";

/// What is drawn over a colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hatch {
    /// Nothing.
    None,
    /// Lines that rise to the right.
    Rising,
    /// Lines that fall to the right.
    Falling,
    /// Both.
    Crossed,
    /// Horizontal lines.
    Level,
    /// Vertical lines.
    Upright,
    /// Dots.
    Dots,
}

/// How an area is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Look {
    /// The ground.
    pub colour: &'static str,
    /// What is drawn on it.
    pub hatch: Hatch,
    /// In which colour.
    pub ink: &'static str,
}

impl Look {
    /// A colour alone.
    pub const fn plain(colour: &'static str) -> Look {
        Look::hatched(colour, Hatch::None, BLACK)
    }

    /// A colour with a hatch over it.
    pub const fn hatched(colour: &'static str, hatch: Hatch, ink: &'static str) -> Look {
        Look { colour, hatch, ink }
    }

    /// The value of a `fill` attribute.
    pub fn fill(&self) -> String {
        match self.hatch {
            Hatch::None => self.colour.to_owned(),
            _ => format!("url(#{})", self.id()),
        }
    }

    /// Made of what it looks like, so that charts in one page may share it.
    fn id(&self) -> String {
        format!("{:?}-{}-{}", self.hatch, &self.colour[1..], &self.ink[1..])
    }

    /// The `<pattern>` that `fill` refers to; `None` for a colour alone.
    pub fn definition(&self) -> Option<String> {
        // Lines run on past the tile's corners so that they join without gaps.
        let (tile, shape) = match self.hatch {
            Hatch::None => return None,
            Hatch::Rising => (8, "M-2,2 L2,-2 M0,8 L8,0 M6,10 L10,6"),
            Hatch::Falling => (8, "M-2,6 L2,10 M0,0 L8,8 M6,-2 L10,2"),
            Hatch::Crossed => (6, "M0,0 L6,6 M0,6 L6,0"),
            Hatch::Level => (5, "M0,2.5 L5,2.5"),
            Hatch::Upright => (5, "M2.5,0 L2.5,5"),
            Hatch::Dots => (6, "M2,3 L4,3"),
        };
        let stroke = match self.hatch {
            Hatch::Dots => "stroke-width=\"2\"",
            Hatch::Rising | Hatch::Falling => "stroke-width=\"1.6\"",
            _ => "stroke-width=\"1\"",
        };
        Some(format!(
            "<pattern id=\"{id}\" width=\"{tile}\" height=\"{tile}\" patternUnits=\"userSpaceOnUse\">\
             <rect width=\"{tile}\" height=\"{tile}\" fill=\"{colour}\"/>\
             <path d=\"{shape}\" stroke=\"{ink}\" {stroke} fill=\"none\"/></pattern>",
            id = self.id(),
            colour = self.colour,
            ink = self.ink,
        ))
    }
}

/// Water.
pub const WATER: Look = Look::plain(BLUE);
/// The attack lines are short of water; that makes it happen more often.
pub const SHORT: Look = Look::hatched(VERMILLION, Hatch::Rising, WHITE);
/// Waiting, for a place at a fill site.
pub const WAITING: Look = Look::hatched(ORANGE, Hatch::Crossed, BLACK);
/// Waiting for the road.
pub const WAITING_FOR_ROAD: Look = Look::hatched(ORANGE, Hatch::Level, BLACK);
/// Waiting at the scene, for a place or an intake.
pub const WAITING_AT_SCENE: Look = Look::hatched(ORANGE, Hatch::Falling, BLACK);
/// Waiting at a full drop tank with the load aboard: a light orange of its own, for the lines lack nothing meanwhile.
pub const WAITING_AT_FULL_TANK: Look = Look::hatched(PALE_ORANGE, Hatch::Rising, BLACK);
/// The ground of a stretch in which the lines are short, behind what is drawn over it.
pub const SHORT_GROUND: Look = Look::plain("#FBE3D6");
/// Its outline.
pub const SHORT_OUTLINE: Stroke = Stroke::of(VERMILLION, 1.0);
/// What is lost.
pub const LOST: Look = Look::hatched(PURPLE, Hatch::Falling, BLACK);
/// What helps.
pub const HELPS: Look = Look::hatched(GREEN, Hatch::Dots, WHITE);
/// What is not known.
pub const NOT_KNOWN: Look = Look::hatched("#D0D0D0", Hatch::Upright, "#777777");
/// Driving empty: white, as an empty tank.
pub const OUT: Look = Look::hatched(WHITE, Hatch::Level, "#888888");
/// Driving loaded.
pub const BACK: Look = WATER;
/// Handling: connecting, positioning and their like.
pub const HANDLING: Look = Look::plain(YELLOW);
/// Taking water.
pub const FILLING: Look = Look::hatched(SKY, Hatch::Upright, BLACK);
/// Giving water.
pub const DUMPING: Look = Look::hatched(BLUE, Hatch::Dots, WHITE);
/// On the way for the first time.
pub const RESPONDING: Look = Look::hatched("#EEEEEE", Hatch::Dots, "#888888");
/// Out of service.
pub const OUT_OF_SERVICE: Look = Look::plain(BLACK);

/// How a part of the cycle looks.
pub fn part(part: Part) -> Look {
    match part {
        Part::TravelOut => OUT,
        Part::RoadWait => WAITING_FOR_ROAD,
        Part::FillWait => WAITING,
        Part::FillConnect => HANDLING,
        Part::Fill => FILLING,
        Part::FillDisconnect => Look::hatched(YELLOW, Hatch::Dots, BLACK),
        Part::TravelBack => BACK,
        Part::SceneWait => WAITING_AT_SCENE,
        Part::DumpPosition => Look::hatched(YELLOW, Hatch::Rising, BLACK),
        Part::Dump => DUMPING,
        Part::DumpClear => Look::hatched(YELLOW, Hatch::Falling, BLACK),
        Part::NurseConnect => Look::hatched(YELLOW, Hatch::Crossed, BLACK),
        Part::PumpOff => Look::hatched(BLUE, Hatch::Upright, WHITE),
        Part::NurseDisconnect => Look::hatched(YELLOW, Hatch::Level, BLACK),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_parts_of_a_cycle_look_alike_without_colour() {
        // What survives a photocopy: the hatching, and the lightness of ground and ink.
        let looks: Vec<Look> =
            Part::ALL.into_iter().map(part).chain([WAITING_AT_FULL_TANK]).collect();
        let seen: BTreeSet<_> = (looks.iter())
            .map(|look| {
                let ink = if look.hatch == Hatch::None { "" } else { look.ink };
                (look.hatch, lightness(look.colour) / 10, ink)
            })
            .collect();
        assert_eq!(seen.len(), looks.len());
    }

    #[test]
    fn what_a_tanker_does_differs_in_hatch_or_by_a_fifth_in_lightness() {
        assert_apart(&[
            OUT,
            BACK,
            WAITING,
            WAITING_FOR_ROAD,
            WAITING_AT_SCENE,
            WAITING_AT_FULL_TANK,
            HANDLING,
            FILLING,
            DUMPING,
            RESPONDING,
            OUT_OF_SERVICE,
        ]);
    }

    #[test]
    fn waiting_at_a_full_tank_has_its_own_colour_and_its_own_grey() {
        for other in [WAITING, WAITING_FOR_ROAD, WAITING_AT_SCENE, SHORT, HANDLING] {
            assert_ne!(WAITING_AT_FULL_TANK.colour, other.colour);
        }
        for other in [WAITING, WAITING_FOR_ROAD, WAITING_AT_SCENE, SHORT] {
            let apart = lightness(WAITING_AT_FULL_TANK.colour).abs_diff(lightness(other.colour));
            assert!(apart >= 20, "{other:?}: {apart}");
        }
    }

    #[test]
    fn each_meaning_has_its_own_colour_and_is_told_apart_in_grey() {
        let meanings = [WATER, SHORT, WAITING, LOST, HELPS, HANDLING, NOT_KNOWN];
        assert_apart(&meanings);
        let colours: BTreeSet<_> = meanings.iter().map(|look| look.colour).collect();
        assert_eq!(colours.len(), meanings.len());
    }

    fn assert_apart(looks: &[Look]) {
        for (place, a) in looks.iter().enumerate() {
            for b in &looks[..place] {
                let differ =
                    a.hatch != b.hatch || lightness(a.colour).abs_diff(lightness(b.colour)) >= 20;
                assert!(differ, "{a:?} and {b:?}");
            }
        }
    }

    /// Perceptual lightness, 0 to 100: CIE L* of the sRGB colour (IEC 61966-2-1).
    fn lightness(colour: &str) -> u32 {
        let channel = |place: usize| {
            let value =
                f64::from(u8::from_str_radix(&colour[place..place + 2], 16).expect("two digits"))
                    / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        let luminance = 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
        (116.0 * luminance.cbrt() - 16.0).max(0.0).round() as u32
    }
}
