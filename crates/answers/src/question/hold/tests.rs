//! `hold` in words, of figures made up for the purpose.

use shuttle_report::units::Units;

use crate::Reader;
use crate::shared::holding::held_in_words;

#[test]
fn the_flows_are_one_sentence() {
    let reader = Reader { units: Units::Us, tender: false };
    type Row = (&'static [(f64, f64)], Option<&'static str>);
    let rows: [Row; 6] = [
        (&[], None),
        (&[(12.0, 250.0)], Some("250 gpm from minute 12")),
        (
            &[(12.0, 250.0), (20.0, 260.0), (30.0, 500.0), (45.0, 820.0)],
            Some("250 gpm from minute 12, 500 gpm from minute 30, 820 gpm from minute 45"),
        ),
        (
            &[(12.0, 250.0), (30.0, 810.0), (45.0, 820.0)],
            Some("250 gpm from minute 12, 810 gpm from minute 30; 820 is all you can get"),
        ),
        // The last is had long before the last minute asked about: 310 is less than 1.15 times 270 and so
        // is told at the end, from the minute at which the table first has it.
        (
            &[(14.0, 270.0), (15.0, 280.0), (20.0, 310.0), (30.0, 310.0), (45.0, 310.0)],
            Some("270 gpm from minute 14, 310 gpm from minute 20; 310 is all you can get"),
        ),
        (&[(12.0, 240.0), (15.0, 240.0)], Some("240 gpm from minute 12; 240 is all you can get")),
    ];
    for (flows, said) in rows {
        let told = held_in_words(flows).map(|told| reader.put(&told));
        assert_eq!(told.as_deref(), said);
    }
}
