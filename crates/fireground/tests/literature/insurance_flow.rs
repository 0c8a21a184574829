//! Water wanted: the insurance guide.

use crate::close;
use fireground::insurance_flow::{
    Contents, DwellingTable, InsuredBuilding, InsuredConstruction, dwelling_flow, needed_fire_flow,
};

#[test]
fn insurance_flow_matches_the_guide() {
    use InsuredConstruction::{FireResistive, Frame, JoistedMasonry, Noncombustible};
    let base = InsuredBuilding {
        effective_area_ft2: 2000.0,
        construction: Frame,
        contents: Contents::Combustible,
        exposure: 0.0,
        communication: 0.0,
    };
    let rows = [
        // (ft2, construction, gpm, source)
        (
            2000.0,
            Frame,
            1250.0,
            "ISO guide, C = 18 F sqrt(A), frame 1.5 (numbers: value from memory)",
        ),
        (
            20_000.0,
            JoistedMasonry,
            2500.0,
            "ISO guide, joisted masonry 1.0 (numbers: value from memory)",
        ),
        // 18 x 1.5 x 100 = 2,700: C 2,750. As a needed fire flow, to the nearest 500, that is 3,000.
        (
            10_000.0,
            Frame,
            3000.0,
            "ISO guide, rounding from 2,500 (derived; numbers: value from memory)",
        ),
        // 18 x 0.8 x 100 = 1,440 and 18 x 0.6 x 100 = 1,080.
        (
            10_000.0,
            Noncombustible,
            1500.0,
            "ISO guide, noncombustible 0.8 (derived; value from memory)",
        ),
        (
            10_000.0,
            FireResistive,
            1000.0,
            "ISO guide, fire resistive 0.6 (derived; value from memory)",
        ),
        // 18 x 1.5 x sqrt(400) = 540, to 500; and the limits themselves.
        (100.0, Frame, 500.0, "ISO guide: 500 gpm at least"),
        (
            1e6,
            JoistedMasonry,
            8000.0,
            "ISO guide: C of frame and joisted masonry ends at 8,000 (value from memory)",
        ),
        (
            1e6,
            FireResistive,
            6000.0,
            "ISO guide: C of the other classes ends at 6,000 (value from memory)",
        ),
    ];
    for (effective_area_ft2, construction, gpm, source) in rows {
        let asked = InsuredBuilding { effective_area_ft2, construction, ..base };
        close("needed fire flow", needed_fire_flow(&asked).unwrap().value, gpm, 0.0, source);
    }

    let source = "ISO guide, C x O x (1 + X + P) (numbers: value from memory)";
    let factors = [
        // C is 1,250 in each; (contents, O, X, P)
        (Contents::Noncombustible, 0.75, 0.0, 0.0),
        (Contents::LimitedCombustible, 0.85, 0.0, 0.0),
        (Contents::Combustible, 1.0, 0.15, 0.0),
        (Contents::FreeBurning, 1.15, 0.0, 0.30),
        (Contents::RapidBurning, 1.25, 0.20, 0.25),
    ];
    for (contents, o, exposure, communication) in factors {
        let asked = InsuredBuilding { contents, exposure, communication, ..base };
        let expected = (1250.0 * o * (1.0 + exposure + communication) / 250.0_f64).round() * 250.0;
        close("needed fire flow", needed_fire_flow(&asked).unwrap().value, expected, 0.0, source);
    }
    let most = InsuredBuilding {
        effective_area_ft2: 1e6,
        contents: Contents::RapidBurning,
        exposure: 0.25,
        communication: 0.35,
        ..base
    };
    close(
        "needed fire flow",
        needed_fire_flow(&most).unwrap().value,
        12_000.0,
        0.0,
        "ISO: 12,000 gpm at most",
    );
}

#[test]
fn insurance_factors_are_those_of_the_guide() {
    let source = "ISO guide (value from memory)";
    let constructions = [
        (InsuredConstruction::Frame, 1.5),
        (InsuredConstruction::JoistedMasonry, 1.0),
        (InsuredConstruction::Noncombustible, 0.8),
        (InsuredConstruction::FireResistive, 0.6),
    ];
    for (construction, factor) in constructions {
        close(&format!("{construction:?}"), construction.factor(), factor, 0.0, source);
    }
    let contents = [
        (Contents::Noncombustible, 0.75),
        (Contents::LimitedCombustible, 0.85),
        (Contents::Combustible, 1.0),
        (Contents::FreeBurning, 1.15),
        (Contents::RapidBurning, 1.25),
    ];
    for (contents, factor) in contents {
        close(&format!("{contents:?}"), contents.factor(), factor, 0.0, source);
    }
}

#[test]
fn dwelling_flow_follows_the_table_of_the_edition_chosen() {
    use DwellingTable::{Newer, Older};
    let older =
        "ISO fire suppression rating schedule, older edition, as quoted by a fire department page";
    let newer = "ISO fire suppression rating schedule, newer edition (value from memory)";
    let rows = [
        (Older, 101.0, 500.0, older),
        (Older, 100.0, 750.0, older),
        (Older, 31.0, 750.0, older),
        (Older, 30.0, 1000.0, older),
        (Older, 11.0, 1000.0, older),
        (Older, 10.0, 1500.0, older),
        (Older, 0.0, 1500.0, older),
        (Newer, 31.0, 500.0, newer),
        (Newer, 30.0, 750.0, newer),
        (Newer, 21.0, 750.0, newer),
        (Newer, 20.0, 1000.0, newer),
        (Newer, 11.0, 1000.0, newer),
        (Newer, 10.0, 1500.0, newer),
        // Between two lines the nearer one, which asks for more.
        (Older, 30.5, 1000.0, "read to the safe side"),
        (Newer, 10.5, 1500.0, "read to the safe side"),
    ];
    for (table, distance, gpm, source) in rows {
        let got = dwelling_flow(distance, table).unwrap().value;
        close(&format!("{table:?}, {distance} ft"), got, gpm, 0.0, source);
    }
}
