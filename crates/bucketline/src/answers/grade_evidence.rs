//! The evidence sheet of a grading, with blanks for what a scenario does not state.

use std::fmt::Write;

use shuttle_report::evidence::{Evidence, Figure, Source};
use shuttle_report::grade::{GradeAnswer, SiteGrade};
use shuttle_report::units::{Units, minutes, whole};

use crate::answer_text::{Words, paragraph};

const BLANK: &str = "____";
/// Marks figures that the format fills in.
const ASSUMED: &str =
    "a assumed, not stated: the format's usual rates; for waste what NFPA 1142 allows.\n";
/// Sites whose credits fit side by side.
const COLUMNS: usize = 3;

/// The sheet of one scenario, the `place`-th of the answer.
pub fn sheet(
    sheet: &Evidence,
    place: usize,
    found: &GradeAnswer,
    units: Units,
    words: Words,
) -> String {
    let mut text = "\n".to_owned();
    let heading = format!("{}; {BLANK} is what the scenario does not state", sheet.title);
    text.push_str(&paragraph("Evidence", &heading));
    let pump = sheet.pump_at_lift_gpm.map_or_else(
        || format!("rated {BLANK}"),
        |gpm| format!("rated {BLANK}, gives {} at its lift", units.gpm(gpm)),
    );
    text.push_str(&paragraph(
        "Pump",
        &format!("{} at the drop tanks: {pump}", sheet.pumping_engine),
    ));
    let tanks: Vec<String> = sheet.drop_tanks_gal.iter().map(|gal| units.gallons(*gal)).collect();
    let tanks = if tanks.is_empty() { "none".to_owned() } else { tanks.join(", ") };
    text.push_str(&paragraph("Drop tanks", &tanks));
    let road = sheet.station_to_fire_miles.map_or(BLANK.to_owned(), |miles| units.miles(miles));
    text.push_str(&paragraph("Station", &format!("{road} {} to the fire", units.distance_sign())));
    for (number, source) in sheet.sources.iter().enumerate() {
        let label = if number == 0 { "Sources" } else { "" };
        text.push_str(&paragraph(label, &told(source, units)));
    }
    text.push_str(&tankers(sheet, place, found, units, words));
    let drills: Vec<String> = (sheet.drills.iter())
        .map(|drill| {
            format!("{}: {} timed, mean {} min", drill.what, drill.times, minutes(drill.mean_min))
        })
        .collect();
    let drills = if drills.is_empty() { BLANK.to_owned() } else { drills.join("; ") };
    text.push_str(&paragraph("Drills", &format!("{drills}; flow held in a drill: {BLANK}")));
    text
}

fn told(source: &Source, units: Units) -> String {
    let road = source
        .from_fire_miles
        .map_or_else(|| format!("{BLANK} {}", units.distance_sign()), |miles| units.miles(miles));
    let quantity = match (source.quantity_gal, source.recharge_gpm) {
        (Some(gal), Some(more)) if more > 0.0 => {
            format!("{} and {} running in", units.gallons(gal), units.gpm(more))
        }
        (Some(gal), _) => units.gallons(gal),
        (None, _) => format!("{BLANK} {}", units.volume_sign()),
    };
    format!(
        "{}: {road} from the fire; rate {} through {} position{}; quantity {quantity}; all year and in a \
         50-year drought {BLANK}",
        source.name,
        units.gpm(source.rate_gpm),
        source.positions,
        if source.positions == 1 { "" } else { "s" }
    )
}

/// Tank and rates of each, and its hand credit at each fill site alone.
fn tankers(
    sheet: &Evidence,
    place: usize,
    found: &GradeAnswer,
    units: Units,
    words: Words,
) -> String {
    let alone: Vec<&SiteGrade> = (sheet.sources.iter())
        .filter_map(|source| {
            found.ranked.iter().find(|one| {
                one.scenario == place && one.sites.len() == 1 && one.sites[0] == source.name
            })
        })
        .take(COLUMNS)
        .collect();
    let (flow, volume) = (units.flow_sign(), units.volume_sign());
    let mut text = "\n".to_owned();
    let mut head = format!(
        "{:<17} {:>8} {:>9} {:>9} {:>6}",
        words.tanker,
        format!("tank {volume}"),
        "discharge",
        "fill rate",
        "waste"
    );
    for one in &alone {
        let name: String = one.sites[0].chars().take(14).collect();
        let _ = write!(head, " {name:>14}");
    }
    let _ = writeln!(text, "{}", head.trim_end());
    for (number, tanker) in sheet.tankers.iter().enumerate() {
        let name: String = tanker.name.chars().take(17).collect();
        let mut line = format!(
            "{name:<17} {:>8} {:>9} {:>9} {:>6}",
            whole(units.volume(tanker.tank_gal)),
            marked(tanker.discharge_gpm, |gpm| whole(units.flow(gpm))),
            marked(tanker.fill_gpm, |gpm| whole(units.flow(gpm))),
            marked(tanker.waste, |share| format!("{:.0}%", 100.0 * share))
        );
        for one in &alone {
            let credit = one.credits.get(number).map_or(0.0, |credit| credit.credit_gpm);
            let _ = write!(line, " {:>14}", whole(units.flow(credit)));
        }
        let _ = writeln!(text, "{line}");
    }
    if !alone.is_empty() {
        let mut row = |label: &str, gpm: &dyn Fn(&SiteGrade) -> Option<f64>| {
            let mut line = format!("{label:<53}");
            for one in &alone {
                let told = gpm(one).map_or("none".to_owned(), |gpm| whole(units.flow(gpm)));
                let _ = write!(line, " {told:>14}");
            }
            let _ = writeln!(text, "{}", line.trim_end());
        };
        row("hand credit: (tank less 10%) / cycle, summed", &|one| Some(one.hand_gpm));
        row("cap: most that the tightest place passes by hand", &|one| {
            one.tightest.as_ref().map(|(_, gpm)| *gpm)
        });
        row("counts by hand: the lesser", &|one| Some(one.counts_gpm));
    }
    let _ = writeln!(text, "Rates and credits in {flow}.");
    let assumed = (sheet.tankers.iter())
        .flat_map(|one| [one.discharge_gpm, one.fill_gpm, one.waste])
        .any(|figure| figure.assumed);
    if assumed {
        text.push_str(ASSUMED);
    }
    text.push('\n');
    text
}

/// A figure followed by an `a` where it is assumed, and by a blank where it is not.
fn marked(figure: Figure, told: impl Fn(f64) -> String) -> String {
    format!("{}{}", told(figure.value), if figure.assumed { 'a' } else { ' ' })
}
