//! Reading tankers, their handling times, and fill sites with the roads to them.

use shuttle_report::evidence::Stated;
use shuttle_sim::{self as sim, Call, FillSite, Handling, Plan, Tanker, TimeTaken};

use super::aid::Called;
use super::reader::Reader;
use crate::errors::kinds::{MistakeKind, NoteKind};
use crate::errors::message::{Message, joined, key as a_key, on_file, on_page, says, typed};
use crate::format::haul::alarms::{Alarm, OfAlarms};
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::haul::roads::{
    Leg, OfLegKm, OfLegMiles, OfLegMinutes, OfLegStretches, OfStretchKm, OfStretchMiles, Stretch,
};
use crate::format::haul::tankers::{OfHandling, OfTanker};
use crate::format::rows::Row;
use crate::format::takes::{Duration, Either};
use crate::format::values::flow_facts::FillFacts;
use crate::format::whole_files::OfScenario;
use crate::quantities::figures::plain;
use crate::quantities::quantity::{Quantity, Units};
use crate::quantities::worked::worked;
use crate::read::facts::times::failure;
use crate::read::facts::worked_facts::fill_pump;
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
    /// Which handling times can ever be spent, in the order of the file.
    fn handling(self) -> Vec<Row<OfHandling, Duration>> {
        let mut rows = Vec::new();
        if self.nursing {
            rows.extend([OfHandling::NURSE_CONNECT, OfHandling::NURSE_DISCONNECT]);
        }
        if self.dumping {
            rows.extend([OfHandling::DUMP_POSITION, OfHandling::DUMP_CLEAR]);
        }
        rows.extend([OfHandling::FILL_CONNECT, OfHandling::FILL_DISCONNECT]);
        rows
    }
}

/// What a tanker is assigned to, and what to do where it is not there.
const ASSIGNED: (&str, &str) = (
    "fill site",
    "name a fill site that is listed, or leave `fill_site` out: the {tanker} goes where it should be back first",
);

/// Most measured times of all tankers together, groups spelled out: each tanker has its own. Judgement: drills
/// give dozens; the memory of a plan stays in proportion to its file.
const MOST_SAMPLES: usize = 200_000;

/// All entries that haul, those of `aid` behind the others: as [`Tanker::listed`] counts them.
pub(super) fn hauling<'n>(root: &Entry<'n, OfScenario>) -> Vec<Entry<'n, OfTanker>> {
    let mut entries = root.get(&OfScenario::TANKERS);
    entries.extend(root.get(&OfScenario::AID));
    entries
}

/// How all entries are called, those of `aid` behind the others.
pub(crate) fn called(root: &Entry<'_, OfScenario>) -> Vec<Called> {
    (hauling(root).iter())
        .map(|entry| Called {
            department: entry.get(&OfTanker::DEPARTMENT).map(str::to_owned),
            comes_whole: entry.get(&OfTanker::COMES_WHOLE).unwrap_or(false),
            alarm: entry.get(&OfTanker::ALARM),
        })
        .collect()
}

/// The department that comes whole or not at all, and with it a tanker of this entry; one entry that says so is enough.
fn comes_with(called: &[Called], listed: usize) -> Option<String> {
    let department = called[listed].department.as_ref()?;
    let of_it = |one: &&Called| one.department.as_ref() == Some(department);
    called.iter().filter(of_it).any(|one| one.comes_whole).then(|| department.clone())
}

/// The least chance to come of any entry of the department of this one.
fn least_turnout(entries: &[Entry<'_, OfTanker>], called: &[Called], listed: usize) -> f64 {
    (entries.iter().zip(called))
        .filter(|(_, one)| one.department == called[listed].department)
        .map(|(entry, _)| entry.get(&OfTanker::TURNOUT))
        .fold(1.0, f64::min)
}

impl Reader {
    /// Lets a tanker come with its department, as often as the one of it that comes least: none comes without that one.
    fn comes_with(
        &mut self,
        entry: &Entry<'_, OfTanker>,
        tanker: &mut Tanker,
        department: String,
        least: f64,
    ) {
        if least < tanker.call.turnout {
            let text = says![
                typed(&tanker.name),
                " comes only with all of ",
                typed(&department),
                ", and that is as often as the one that comes least: ",
                Quantity::Share.told(least, format!("{}%", plain(least * 100.0)))
            ];
            self.warn(entry.at(&OfTanker::TURNOUT), NoteKind::DepartmentComesWhole, text);
        }
        (tanker.call.turnout, tanker.comes_with) = (least, Some(department));
    }

    /// The tankers, groups spelled out.
    pub(crate) fn tankers(
        &mut self,
        root: &Entry<'_, OfScenario>,
        sites: &[&str],
        uses: Uses,
    ) -> Vec<Tanker> {
        let entries = hauling(root);
        let counts: Vec<u32> = entries.iter().map(count_of).collect();
        let total: u64 = counts.iter().map(|count| u64::from(*count)).sum();
        if total > Plan::LIMITS.tankers as u64 {
            let greatest = (0..entries.len()).max_by_key(|index| counts[*index]);
            let many = |count: f64| Quantity::Plain.show(count, Units::Us);
            let told = (
                says!["there are ", many(total as f64), " {tankers} in all"],
                Some(says!["up to ", many(Plan::LIMITS.tankers as f64), " {tankers}"]),
                "check `count` for extra digits".into(),
            );
            let place = entries[greatest.unwrap_or(0)].at(&OfTanker::COUNT);
            self.mistake(place, MistakeKind::TooMuch, told);
        }
        self.handling_not_stated(root, &entries, uses);
        let common = root.get(&OfScenario::HANDLING);
        let called = called(root);
        let mut tankers = Vec::new();
        let mut samples = 0;
        for (listed, entry) in entries.iter().enumerate() {
            let mut tanker = self.tanker(entry, listed, &common, sites);
            if let Some(department) = comes_with(&called, listed) {
                self.comes_with(
                    entry,
                    &mut tanker,
                    department,
                    least_turnout(&entries, &called, listed),
                );
            }
            self.minute_of_alarm(root, entry, &mut tanker);
            samples += samples_of(&tanker) * counts[listed] as usize;
            if samples > MOST_SAMPLES {
                let most = Quantity::Plain.show(MOST_SAMPLES as f64, Units::Us);
                let told = (
                    "with this {tanker} there are too many measured times".into(),
                    Some(says!["up to ", most, " for all {tankers} together"]),
                    says![
                        on_file("state the times as {\"low\": 1, \"likely\": 2, \"high\": 4}"),
                        on_page("state the times by least, likely and most"),
                        ", or list fewer"
                    ],
                );
                self.mistake(entry.place.clone(), MistakeKind::TooMuch, told);
                break;
            }
            let grouped = entry.states(&OfTanker::COUNT);
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
    fn minute_of_alarm(
        &mut self,
        root: &Entry<'_, OfScenario>,
        entry: &Entry<'_, OfTanker>,
        tanker: &mut Tanker,
    ) {
        let struck = match entry.get(&OfTanker::ALARM) {
            None | Some(Alarm::First) => return,
            Some(Alarm::Second) => OfAlarms::SECOND,
            Some(Alarm::Third) => OfAlarms::THIRD,
            Some(Alarm::Fourth) => OfAlarms::FOURTH,
            Some(Alarm::Fifth) => OfAlarms::FIFTH,
        };
        let alarm = struck.key();
        match root.get(&OfScenario::ALARMS).get(&struck) {
            None => {
                let problem = says![
                    "it is on the ",
                    alarm,
                    " alarm, and `alarms` does not say when that is struck"
                ];
                let add = says![
                    "add \"alarms\": {\"",
                    alarm,
                    "\": 5}, minutes after the alarm, to the scenario"
                ];
                let state = says!["state under alarms when the ", alarm, " alarm can be struck"];
                let cure = says![on_file(add), on_page(state)];
                let place = entry.at(&OfTanker::ALARM);
                self.mistake(place, MistakeKind::Missing, (problem, None, cure));
            }
            Some(minute) if !entry.states(&OfTanker::REQUESTED_AT) => {
                tanker.call.requested_at = minute;
            }
            Some(_) => {}
        }
    }

    /// One warning for all handling times that some tanker has neither of its own nor in common.
    fn handling_not_stated(
        &mut self,
        root: &Entry<'_, OfScenario>,
        entries: &[Entry<'_, OfTanker>],
        uses: Uses,
    ) {
        let common = root.get(&OfScenario::HANDLING);
        let own: Vec<Entry<'_, OfHandling>> =
            entries.iter().map(|entry| entry.get(&OfTanker::HANDLING)).collect();
        let silent: Vec<Message> = (uses.handling().into_iter())
            .filter(|row| own.iter().any(|own| !own.states(row)))
            .filter_map(|row| {
                let usual = worked(common.silent_but_usual(&row)?, self.units);
                Some(says![a_key(row.key()), " (", usual, ")"])
            })
            .collect();
        if !silent.is_empty() {
            let text = says![
                "not stated and counted as no time; in brackets what is usual: ",
                joined(silent, ", ")
            ];
            self.warn(common.place, NoteKind::NotStated, text);
        }
    }

    fn tanker(
        &mut self,
        entry: &Entry<'_, OfTanker>,
        listed: usize,
        common: &Entry<'_, OfHandling>,
        sites: &[&str],
    ) -> Tanker {
        let fill_site = entry
            .get(&OfTanker::FILL_SITE)
            .and_then(|name| self.resolve(entry.at(&OfTanker::FILL_SITE), name, sites, ASSIGNED));
        let repair = entry.get(&OfTanker::REPAIR);
        if repair.is_some() && entry.get(&OfTanker::BREAKDOWN_PER_TRIP) == 0.0 {
            let text = "a repair without `breakdown_per_trip`: it never breaks down".into();
            self.warn(entry.at(&OfTanker::REPAIR), NoteKind::NoEffect, text);
        }
        let name = match entry.get(&OfTanker::NAME) {
            Some(name) => name.to_string(),
            None => format!("Tanker {}", listed + 1),
        };
        Tanker {
            name,
            listed,
            capacity: entry.get(&OfTanker::CAPACITY),
            call: Call {
                requested_at: entry.get(&OfTanker::REQUESTED_AT),
                response: entry.get(&OfTanker::RESPONSE),
                turnout: entry.get(&OfTanker::TURNOUT),
            },
            dump_rate: entry.get(&OfTanker::DUMP_RATE),
            dump_curve: entry.get(&OfTanker::DUMP_CURVE),
            pump_off: entry.get(&OfTanker::PUMP_OFF),
            fill_limit: entry.get(&OfTanker::FILL_LIMIT),
            waste: entry.get(&OfTanker::WASTE),
            residual: entry.get(&OfTanker::RESIDUAL),
            breakdown_per_trip: entry.get(&OfTanker::BREAKDOWN_PER_TRIP),
            repair,
            fill_site,
            handling: handling(&entry.get(&OfTanker::HANDLING), common),
            crew_cv: entry.get(&OfTanker::CREW_CV),
            drive_factor: entry.get(&OfTanker::DRIVE_FACTOR),
            // The other entries of its department have a say in it.
            comes_with: None,
            self_fill: entry.get(&OfTanker::SELF_FILL),
        }
    }

    /// The fill sites.
    pub(crate) fn fill_sites(&mut self, entries: &[Entry<'_, OfFillSite>]) -> Vec<FillSite> {
        let mut sites = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let name = match entry.get(&OfFillSite::NAME) {
                Some(name) => name.to_string(),
                None => format!("Fill site {}", index + 1),
            };
            sites.push(FillSite {
                name,
                flow: self.fill_flow(entry),
                pump: fill_pump(entry),
                positions: entry.get(&OfFillSite::POSITIONS),
                ready: entry.get(&OfFillSite::READY),
                fill_order: entry.get(&OfFillSite::FILL_ORDER),
                volume: self.site_volume(entry),
                recharge: entry.get(&OfFillSite::RECHARGE),
                failure: entry.get(&OfFillSite::FAILURE).as_ref().map(failure),
                // Who brings it is known once the tankers are.
                source_pump: None,
                self_fill: entry.get(&OfFillSite::SELF_FILL).unwrap_or(false),
                out: self.leg(entry.get(&OfFillSite::OUT)),
                back: self.leg(entry.get(&OfFillSite::BACK)),
            });
        }
        sites
    }

    fn leg(&mut self, (how, leg): (Leg, Entry<'_, Leg>)) -> sim::Leg {
        let (miles, mean, cv) = match how {
            Leg::Minutes => {
                return sim::Leg { miles: None, time: leg.get(&OfLegMinutes::MINUTES) };
            }
            Leg::Miles => {
                let miles = leg.get(&OfLegMiles::MILES);
                let mean = self.driving_time(&leg, miles, leg.get(&OfLegMiles::MPH));
                (miles, mean, leg.get(&OfLegMiles::CV))
            }
            Leg::Km => {
                let miles = leg.get(&OfLegKm::KM);
                let mean = self.driving_time(&leg, miles, leg.get(&OfLegKm::KMH));
                (miles, mean, leg.get(&OfLegKm::CV))
            }
            // Each stretch at its own speed.
            Leg::Stretches => {
                let (mut all_miles, mut mean) = (0.0, 0.0);
                for (how, stretch) in leg.get(&OfLegStretches::STRETCHES) {
                    let (miles, mph) = match how {
                        Stretch::Miles => {
                            (stretch.get(&OfStretchMiles::MILES), stretch.get(&OfStretchMiles::MPH))
                        }
                        Stretch::Km => {
                            (stretch.get(&OfStretchKm::KM), stretch.get(&OfStretchKm::KMH))
                        }
                    };
                    all_miles += miles;
                    mean += self.driving_time(&stretch, miles, Some(mph));
                }
                (all_miles, mean, leg.get(&OfLegStretches::CV))
            }
        };
        sim::Leg { miles: Some(miles), time: spread_around(mean, cv) }
    }
}

/// Each time of a tanker's own, or else the common one.
fn handling(own: &Entry<'_, OfHandling>, common: &Entry<'_, OfHandling>) -> Handling {
    let time =
        |row: &Row<OfHandling, Duration>| own.if_stated(row).unwrap_or_else(|| common.get(row));
    Handling {
        nurse_connect: time(&OfHandling::NURSE_CONNECT),
        nurse_disconnect: time(&OfHandling::NURSE_DISCONNECT),
        dump_position: time(&OfHandling::DUMP_POSITION),
        dump_clear: time(&OfHandling::DUMP_CLEAR),
        fill_connect: time(&OfHandling::FILL_CONNECT),
        fill_disconnect: time(&OfHandling::FILL_DISCONNECT),
    }
}

/// A driving time with its `cv`.
pub(super) fn spread_around(mean: f64, cv: Option<f64>) -> TimeTaken {
    match cv {
        Some(cv) if cv > 0.0 => TimeTaken::Lognormal { mean, cv },
        _ => TimeTaken::Fixed(mean),
    }
}

/// Which figures of each listed tanker the file states, those of `aid` behind the others: as
/// [`Tanker::listed`] counts them.
pub(crate) fn stated_of_tankers(root: &Entry<'_, OfScenario>) -> Vec<Stated> {
    (hauling(root).iter())
        .map(|entry| Stated {
            dump_rate: entry.states(&OfTanker::DUMP_RATE),
            fill_limit: entry.states(&OfTanker::FILL_LIMIT),
            waste: entry.states(&OfTanker::WASTE),
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

fn count_of(entry: &Entry<'_, OfTanker>) -> u32 {
    entry.get(&OfTanker::COUNT).unwrap_or(1)
}

/// Fill sites with a pump of their own: all but hydrants.
pub(crate) fn fill_pumps(root: &Entry<'_, OfScenario>) -> u32 {
    let by_hydrant = |site: &Entry<'_, OfFillSite>| {
        matches!(site.get(&OfFillSite::FLOW), Either::That((FillFacts::Hydrant, _)))
    };
    root.get(&OfScenario::FILL_SITES).iter().filter(|site| !by_hydrant(site)).count() as u32
}
