//! Reading tankers, their handling times, and fill sites with the roads to them.

use shuttle_report::evidence::Stated;
use shuttle_sim::{DumpCurve, FillOrder, FillSite, Handling, Leg, Plan, Tanker, TimeTaken};

use super::aid::{Alarm, Called};
use super::reader::Reader;
use crate::quantities::figures::plain;
use crate::structure::entry::Entry;

/// What tankers do at the scene in this scenario.
#[derive(Clone, Copy)]
pub(crate) struct Uses {
    /// Some may nurse.
    pub(crate) nursing: bool,
    /// There are drop tanks to dump into.
    pub(crate) dumping: bool,
}

impl Uses {
    /// Whether a handling time can ever be spent.
    fn meets(self, key: &str) -> bool {
        (self.nursing || !key.starts_with("nurse")) && (self.dumping || !key.starts_with("dump"))
    }
}

/// What a tanker is assigned to, and what to do where it is not there.
const ASSIGNED: (&str, &str) = (
    "fill site",
    "name a fill site that is listed, or leave `fill_site` out: the tanker goes where it should be back first",
);

/// Most measured times of all tankers together, groups spelled out: each tanker has its own. Judgement: drills
/// give dozens; the memory of a plan stays in proportion to its file.
const MOST_SAMPLES: usize = 200_000;

const HANDLING: [&str; 6] = [
    "nurse_connect",
    "nurse_disconnect",
    "dump_position",
    "dump_clear",
    "fill_connect",
    "fill_disconnect",
];

/// How all entries are called, those of `aid` behind the others.
pub(crate) fn called(root: &Entry<'_>) -> Vec<Called> {
    let entries = root.list("tankers").into_iter().chain(root.list("aid"));
    entries
        .map(|entry| Called {
            department: entry.some_text("department").map(str::to_owned),
            comes_whole: entry.some_flag("comes_whole").unwrap_or(false),
            alarm: entry.some_text("alarm").and_then(Alarm::of),
        })
        .collect()
}

impl Reader {
    /// The tankers, groups spelled out.
    pub(crate) fn tankers(&mut self, root: &Entry<'_>, sites: &[&str], uses: Uses) -> Vec<Tanker> {
        let mut entries = root.list("tankers");
        entries.extend(root.list("aid"));
        let counts: Vec<u32> = entries.iter().map(count_of).collect();
        let total: u64 = counts.iter().map(|count| u64::from(*count)).sum();
        if total > Plan::LIMITS.tankers as u64 {
            let greatest = (0..entries.len()).max_by_key(|index| counts[*index]);
            self.mistake(
                entries[greatest.unwrap_or(0)].at("count"),
                format!("there are {} tankers in all", plain(total as f64)),
                Some(format!("up to {} tankers", plain(Plan::LIMITS.tankers as f64))),
                "check `count` for extra digits",
            );
        }
        self.handling_not_stated(root, &entries, uses);
        let common = root.entry("handling");
        let mut tankers = Vec::new();
        let mut samples = 0;
        for (listed, entry) in entries.iter().enumerate() {
            let mut tanker = self.tanker(entry, listed, &common, sites);
            self.minute_of_alarm(root, entry, &mut tanker);
            samples += samples_of(&tanker) * counts[listed] as usize;
            if samples > MOST_SAMPLES {
                self.mistake(
                    entry.place.clone(),
                    "with this tanker there are too many measured times".to_string(),
                    Some(format!("up to {} for all tankers together", plain(MOST_SAMPLES as f64))),
                    "state the times as {\"low\": 1, \"likely\": 2, \"high\": 4}, or list fewer",
                );
                break;
            }
            let grouped = entry.stated("count").is_some();
            for number in 1..=counts[listed] {
                if tankers.len() >= Plan::LIMITS.tankers {
                    break;
                }
                let name =
                    if grouped { format!("{} {number}", tanker.name) } else { tanker.name.clone() };
                tankers.push(Tanker { name, ..tanker.clone() });
            }
        }
        tankers
    }

    /// Asks for a tanker at the minute of its alarm, where it states no minute of its own.
    fn minute_of_alarm(&mut self, root: &Entry<'_>, entry: &Entry<'_>, tanker: &mut Tanker) {
        let Some(alarm) = entry.some_text("alarm").filter(|alarm| *alarm != "first") else {
            return;
        };
        match root.entry("alarms").some_number(alarm) {
            None => self.mistake(
                entry.at("alarm"),
                format!(
                    "it is on the {alarm} alarm, and `alarms` does not say when that is struck"
                ),
                None,
                format!(
                    "add \"alarms\": {{\"{alarm}\": 5}}, minutes after the alarm, to the scenario"
                ),
            ),
            Some(minute) if entry.stated("requested_at").is_none() => {
                tanker.call.requested_at = minute;
            }
            Some(_) => {}
        }
    }

    /// One warning for all handling times that some tanker has neither of its own nor in common.
    fn handling_not_stated(&mut self, root: &Entry<'_>, entries: &[Entry<'_>], uses: Uses) {
        let common = root.entry("handling");
        let own: Vec<Entry<'_>> = entries.iter().map(|entry| entry.entry("handling")).collect();
        let silent: Vec<String> = (HANDLING.into_iter())
            .filter(|key| uses.meets(key) && own.iter().any(|own| own.stated(key).is_none()))
            .filter_map(|key| Some(format!("`{key}` ({})", common.silent_but_usual(key)?)))
            .collect();
        if !silent.is_empty() {
            let text = format!(
                "not stated and counted as no time; in brackets what is usual: {}",
                silent.join(", ")
            );
            self.warn("handling".to_string(), text);
        }
    }

    fn tanker(
        &mut self,
        entry: &Entry<'_>,
        listed: usize,
        common: &Entry<'_>,
        sites: &[&str],
    ) -> Tanker {
        let fill_site = entry
            .some_text("fill_site")
            .and_then(|name| self.resolve(entry.at("fill_site"), name, sites, ASSIGNED));
        let dump_curve = match entry.text("dump_curve").as_str() {
            "gravity" => DumpCurve::Gravity,
            _ => DumpCurve::Steady,
        };
        let repair = self.some_time(entry, "repair");
        if repair.is_some() && entry.number("breakdown_per_trip") == 0.0 {
            let text = "a repair without `breakdown_per_trip`: it never breaks down";
            self.warn(entry.at("repair"), text.to_string());
        }
        let name = match entry.some_text("name") {
            Some(name) => name.to_string(),
            None => format!("Tanker {}", listed + 1),
        };
        Tanker {
            name,
            listed,
            capacity: entry.number("capacity"),
            call: self.call(entry),
            dump_rate: entry.number("dump_rate"),
            dump_curve,
            pump_off: entry.number("pump_off"),
            fill_limit: entry.some_number("fill_limit"),
            waste: entry.number("waste"),
            residual: entry.number("residual"),
            breakdown_per_trip: entry.number("breakdown_per_trip"),
            repair,
            fill_site,
            handling: self.handling(&entry.entry("handling"), common),
            crew_cv: entry.number("crew_cv"),
            drive_factor: entry.number("drive_factor"),
            self_fill: entry.some_number("self_fill"),
        }
    }

    fn handling(&self, own: &Entry<'_>, common: &Entry<'_>) -> Handling {
        let time = |key: &str| -> TimeTaken {
            match self.some_time(own, key) {
                Some(time) => time,
                None => self.time(common, key),
            }
        };
        Handling {
            nurse_connect: time("nurse_connect"),
            nurse_disconnect: time("nurse_disconnect"),
            dump_position: time("dump_position"),
            dump_clear: time("dump_clear"),
            fill_connect: time("fill_connect"),
            fill_disconnect: time("fill_disconnect"),
        }
    }

    /// The fill sites.
    pub(crate) fn fill_sites(&mut self, entries: &[Entry<'_>]) -> Vec<FillSite> {
        let mut sites = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let fill_order = match entry.text("fill_order").as_str() {
                "shared" => FillOrder::Shared,
                _ => FillOrder::OneByOne,
            };
            let name = match entry.some_text("name") {
                Some(name) => name.to_string(),
                None => format!("Fill site {}", index + 1),
            };
            sites.push(FillSite {
                name,
                flow: self.fill_flow(entry),
                pump: self.fill_pump(entry),
                positions: entry.count("positions"),
                ready: self.time(entry, "ready"),
                fill_order,
                volume: self.site_volume(entry),
                recharge: entry.number("recharge"),
                failure: self.failure(entry),
                // Who brings it is known once the tankers are.
                source_pump: None,
                self_fill: entry.some_flag("self_fill").unwrap_or(false),
                out: self.leg(&entry.entry_stated("out")),
                back: self.leg(&entry.entry_stated("back")),
            });
        }
        sites
    }

    fn leg(&mut self, entry: &Entry<'_>) -> Leg {
        let (distance, speed) = match entry.shape() {
            "leg_miles" => ("miles", "mph"),
            "leg_km" => ("km", "kmh"),
            "leg_stretches" => return self.leg_of_stretches(entry),
            _ => {
                return Leg { miles: None, time: self.time_stated(entry, "minutes") };
            }
        };
        let miles = entry.number(distance);
        let mean = self.driving_time(entry, miles, entry.some_number(speed));
        Leg { miles: Some(miles), time: spread_around(mean, entry) }
    }

    /// Each stretch at its own speed.
    fn leg_of_stretches(&mut self, entry: &Entry<'_>) -> Leg {
        let (mut all_miles, mut mean) = (0.0, 0.0);
        for stretch in entry.list("stretches") {
            let (distance, speed) = match stretch.shape() {
                "stretch_km" => ("km", "kmh"),
                _ => ("miles", "mph"),
            };
            let miles = stretch.number(distance);
            all_miles += miles;
            mean += self.driving_time(&stretch, miles, stretch.some_number(speed));
        }
        Leg { miles: Some(all_miles), time: spread_around(mean, entry) }
    }
}

/// The time of a leg with its `cv`.
fn spread_around(mean: f64, leg: &Entry<'_>) -> TimeTaken {
    match leg.some_number("cv") {
        Some(cv) if cv > 0.0 => TimeTaken::Lognormal { mean, cv },
        _ => TimeTaken::Fixed(mean),
    }
}

/// Which figures of each listed tanker the file states, those of `aid` behind the others: as
/// [`Tanker::listed`] counts them.
pub(crate) fn stated_of_tankers(root: &Entry<'_>) -> Vec<Stated> {
    let mut entries = root.list("tankers");
    entries.extend(root.list("aid"));
    (entries.iter())
        .map(|entry| Stated {
            dump_rate: entry.stated("dump_rate").is_some(),
            fill_limit: entry.stated("fill_limit").is_some(),
            waste: entry.stated("waste").is_some(),
        })
        .collect()
}

/// Measured times of one tanker.
fn samples_of(tanker: &Tanker) -> usize {
    let mut times = vec![&tanker.call.response];
    times.extend(tanker.repair.as_ref());
    times.extend(tanker.handling.each().map(|(_, time)| time));
    let samples = |time: &TimeTaken| match time {
        TimeTaken::Samples(samples) => samples.len(),
        _ => 0,
    };
    times.into_iter().map(samples).sum()
}

fn count_of(entry: &Entry<'_>) -> u32 {
    if entry.stated("count").is_some() { entry.count("count") } else { 1 }
}

/// Fill sites with a pump of their own: all but hydrants.
pub(crate) fn fill_pumps(root: &Entry<'_>) -> u32 {
    let by_hydrant = |site: &Entry<'_>| {
        site.some_entry("flow").is_some_and(|facts| facts.shape() == "flow_by_hydrant")
    };
    root.list("fill_sites").iter().filter(|site| !by_hydrant(site)).count() as u32
}
