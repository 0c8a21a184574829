//! One run told in lines of text, so that a test can state what it expects in one line.
//!
//! Times are hours and minutes after the alarm, `0:03`, with seconds where they are not whole
//! minutes, `0:03:30` or `0:03:07.5`, to a hundredth of a second.

use shuttle_sim::{Doing, Happening, Plan, RunResult, Subject, Trace};

/// A run and its story.
#[derive(Debug)]
pub struct Telling {
    tankers: Vec<String>,
    sites: Vec<String>,
    tanks: usize,
    /// What the run gave.
    pub result: RunResult,
    /// What happened.
    pub trace: Trace,
}

impl Telling {
    /// The story of this result and trace of this plan.
    pub fn new(plan: &Plan, result: RunResult, trace: Trace) -> Telling {
        let facts = plan.facts();
        Telling {
            tankers: facts.tankers.iter().map(|t| t.name.clone()).collect(),
            sites: facts.fill_sites.iter().map(|s| s.name.clone()).collect(),
            tanks: facts.drop_tanks.len(),
            result,
            trace,
        }
    }

    /// What one tanker did: `T1 comes 0:05 | dump -0:07 | out -0:12 | fill ...`.
    ///
    /// Each part ends at the time after its dash and begins where the one before it ended; a part
    /// of no length is left out; `...` marks what was still going on when the watch ended. Where
    /// there are several drop tanks the part names the tank by its place, from 1; where there are
    /// several fill sites, the site by name.
    #[track_caller]
    pub fn tanker(&self, name: &str) -> String {
        let mut line = String::from(name);
        let mut last: Option<(f64, Doing)> = None;
        for (minute, doing) in self.doings(name) {
            match last {
                None => line += &format!(" comes {}", clock(minute)),
                // Kept on deck or not, it waits.
                Some((_, before)) if self.words(before) == self.words(doing) => continue,
                Some((since, before)) if !same_time(since, minute) => {
                    line += &format!(" | {} -{}", self.words(before), clock(minute));
                }
                Some(_) => {}
            }
            last = Some((minute, doing));
        }
        if let Some((_, doing)) = last {
            line += &format!(" | {} ...", self.words(doing));
        }
        line
    }

    /// The minutes at which a tanker began to do this.
    #[track_caller]
    pub fn began(&self, name: &str, what: Doing) -> Vec<f64> {
        let begins = self.doings(name).filter(|(_, doing)| *doing == what);
        begins.map(|(minute, _)| minute).collect()
    }

    /// Whether a tanker was doing this when the watch ended.
    #[track_caller]
    pub fn ends_up(&self, name: &str, what: Doing) -> bool {
        self.doings(name).last().is_some_and(|(_, doing)| doing == what)
    }

    #[track_caller]
    fn doings(&self, name: &str) -> impl Iterator<Item = (f64, Doing)> {
        let place = self.tankers.iter().position(|known| known == name);
        let place = place.unwrap_or_else(|| panic!("there is no tanker {name}"));
        self.trace.notes.iter().filter_map(move |note| match note.happening {
            Happening::Tanker(who, doing) if who == place => Some((note.minute, doing)),
            _ => None,
        })
    }

    /// What became of the drafting pump:
    /// `hooked up 0:05 | primed 0:06 | prime lost 0:10 | level back 0:12 | prime back 0:13`.
    pub fn pump(&self) -> String {
        self.told(|happening| match happening {
            Happening::HookedUp => Some("hooked up".to_string()),
            Happening::Primed => Some("primed".to_string()),
            Happening::PumpFailed => Some("failed".to_string()),
            Happening::PumpRepaired => Some("repaired".to_string()),
            Happening::PrimeLost => Some("prime lost".to_string()),
            Happening::Repriming => Some("level back".to_string()),
            Happening::PrimeBack => Some("prime back".to_string()),
            _ => None,
        })
    }

    /// Who and what came to the scene, and when things were ready; tankers left out.
    pub fn arrivals(&self) -> String {
        self.told(|happening| match happening {
            Happening::AttackEngineArrived => Some("attack engine".to_string()),
            Happening::FirstWater => Some("first water".to_string()),
            Happening::SupplyEngineArrived => Some("supply engine".to_string()),
            Happening::StaysAway(unit) => Some(format!("{} missed", self.name_of(unit))),
            Happening::DropTankArrived(tank) => Some(format!("drop tank {} there", tank + 1)),
            Happening::DropTankReady(tank) => Some(format!("drop tank {} ready", tank + 1)),
            _ => None,
        })
    }

    fn name_of(&self, unit: Subject) -> String {
        match unit {
            Subject::AttackEngine => "attack engine".to_string(),
            Subject::SupplyEngine => "supply engine".to_string(),
            Subject::DropTank(tank) => format!("drop tank {}", tank + 1),
            Subject::Tanker(tanker) => self.tankers[tanker].clone(),
            Subject::FillSite(site) => self.sites[site].clone(),
            Subject::SourcePump(site) => format!("pump at {}", self.sites[site]),
        }
    }

    /// What became of the fill sites: `Pond failed 0:05 | Pond repaired 0:09`.
    pub fn sites(&self) -> String {
        self.told(|happening| match happening {
            Happening::FillSiteFailed(site) => Some(format!("{} failed", self.sites[site])),
            Happening::FillSiteRepaired(site) => Some(format!("{} repaired", self.sites[site])),
            _ => None,
        })
    }

    fn told(&self, words: impl Fn(Happening) -> Option<String>) -> String {
        let told = self.trace.notes.iter().filter_map(|note| {
            let words = words(note.happening)?;
            Some(format!("{words} {}", clock(note.minute)))
        });
        listed(told)
    }

    /// The interruptions, each with its cause and the side of the supply:
    /// `0:02-0:05 aid_not_arrived, before supply | 0:09-0:10 haul_too_long, after supply`.
    pub fn interruptions(&self) -> String {
        listed(self.result.interruptions.iter().map(|interruption| {
            let end = interruption.start + interruption.minutes;
            let side = if interruption.before_supply { "before" } else { "after" };
            let (start, end) = (clock(interruption.start), clock(end));
            format!("{start}-{end} {}, {side} supply", interruption.cause.key())
        }))
    }

    /// Why each interruption began: the cause, what held within it, and whom or what that is about:
    /// `draft_not_up: draft_to_come (supply engine)`.
    pub fn reasons(&self) -> String {
        listed(self.result.interruptions.iter().map(|one| {
            let kind = one.kind.map_or(String::new(), |kind| format!(": {}", kind.key()));
            let about =
                one.about.map_or(String::new(), |about| format!(" ({})", self.name_of(about)));
            format!("{}{kind}{about}", one.cause.key())
        }))
    }

    /// The interruptions, times only: `0:02-0:05 | 0:09-0:10`.
    pub fn interrupted(&self) -> String {
        listed(self.result.interruptions.iter().map(|interruption| {
            let end = interruption.start + interruption.minutes;
            format!("{}-{}", clock(interruption.start), clock(end))
        }))
    }

    /// When the supply was established: `0:05`, or `never`.
    pub fn established(&self) -> String {
        self.result.established.map_or("never".to_string(), clock)
    }

    /// Minutes short and gallons unmet, before and after the supply was established:
    /// `before 0.5 min 250 gal | after none`.
    pub fn shortfalls(&self) -> String {
        let sides = ["before", "after"].into_iter().enumerate();
        listed(sides.map(|(place, side)| {
            let (minutes, gal) = (self.result.minutes_short[place], self.result.unmet[place]);
            if minutes == 0.0 && gal == 0.0 {
                format!("{side} none")
            } else {
                format!("{side} {} min {} gal", plain(minutes), plain(gal))
            }
        }))
    }

    /// The levels of a drop tank (by place, from 1) at these whole minutes after first water:
    /// `0:02 1000 | 0:03 1500`, with the time after the alarm.
    #[track_caller]
    pub fn tank_levels(&self, tank: usize, minutes: &[usize]) -> String {
        assert!((1..=self.tanks).contains(&tank), "there is no drop tank {tank}");
        self.levels(tank - 1, minutes)
    }

    /// The levels of the attack engine's tank at these whole minutes after first water.
    #[track_caller]
    pub fn engine_levels(&self, minutes: &[usize]) -> String {
        self.levels(self.tanks, minutes)
    }

    #[track_caller]
    fn levels(&self, column: usize, minutes: &[usize]) -> String {
        listed(minutes.iter().map(|&minute| {
            let after_alarm = self.result.first_water + minute as f64;
            format!("{} {}", clock(after_alarm), plain(self.level(column, minute)))
        }))
    }

    /// One level, gal, at a whole minute after first water: the drop tanks by place from 0, then
    /// the attack engine's tank.
    #[track_caller]
    pub fn level(&self, column: usize, minute: usize) -> f64 {
        let place = minute * (self.tanks + 1) + column;
        *(self.result.levels.get(place)).unwrap_or_else(|| panic!("not watched at {minute} min"))
    }

    fn words(&self, doing: Doing) -> String {
        let tank = |words: &str, tank: usize| match self.tanks {
            1 => words.to_string(),
            _ => format!("{words} in {}", tank + 1),
        };
        let site = |words: &str, site: usize| match self.sites.len() {
            1 => words.to_string(),
            _ => format!("{words} {}", self.sites[site]),
        };
        match doing {
            Doing::Responding => "respond".to_string(),
            Doing::WaitingAtScene | Doing::OnDeck => "wait".to_string(),
            Doing::NurseConnecting => "connect to engine".to_string(),
            Doing::PumpingOff => "nurse".to_string(),
            Doing::NurseDisconnecting => "disconnect from engine".to_string(),
            Doing::Positioning(place) => tank("position", place),
            Doing::Dumping(place) => tank("dump", place),
            Doing::Clearing(_) => "clear".to_string(),
            Doing::BreakingOff(_) => "break off".to_string(),
            Doing::InRepair => "repair".to_string(),
            Doing::OutOfService => "out of service".to_string(),
            Doing::StandingBy => "stand by".to_string(),
            Doing::WaitingForRoad => "wait for road".to_string(),
            Doing::CrossingOneLane => "cross".to_string(),
            Doing::TravelingOut(place) => site("out", place),
            Doing::WaitingToFill(_) => "wait to fill".to_string(),
            Doing::Connecting(_) => "connect".to_string(),
            Doing::Filling(_) => "fill".to_string(),
            Doing::Disconnecting(_) => "disconnect".to_string(),
            Doing::TravelingBack => "back".to_string(),
        }
    }
}

fn same_time(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-7
}

fn listed(parts: impl Iterator<Item = String>) -> String {
    let parts: Vec<String> = parts.collect();
    if parts.is_empty() { "none".to_string() } else { parts.join(" | ") }
}

/// Minutes after the alarm as `0:03` or `0:03:07.5`.
pub fn clock(minutes: f64) -> String {
    let hundredths = (minutes * 6000.0).round() as u64;
    let (whole, rest) = (hundredths / 6000, hundredths % 6000);
    let (hours, minutes) = (whole / 60, whole % 60);
    match (rest / 100, rest % 100) {
        (0, 0) => format!("{hours}:{minutes:02}"),
        (seconds, 0) => format!("{hours}:{minutes:02}:{seconds:02}"),
        (seconds, part) => {
            let text = format!("{hours}:{minutes:02}:{seconds:02}.{part:02}");
            text.trim_end_matches('0').to_string()
        }
    }
}

/// A number to two decimals, without idle zeros.
pub fn plain(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_string()
}
