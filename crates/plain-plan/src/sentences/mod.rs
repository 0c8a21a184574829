//! A plan in plain sentences: what is told before it is written, and of what was imported.

pub(crate) mod brief;

use scenario_file::Units;

use crate::amount::Amount;
use crate::first_plan::{DropTank, FirstPlan, Source, Tanker, pump_bringer};
use crate::source_text::arrival;

/// Columns of a line.
const WIDTH: usize = 100;

/// Something that a sentence is about, and that can be mended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Topic {
    Fire,
    AttackEngine,
    SupplyEngine,
    Own(usize),
    Aid(usize),
    Source(usize),
    DropTank(usize),
}

/// All there is to tell of a plan, in order.
pub(crate) fn topics(plan: &FirstPlan) -> Vec<Topic> {
    let mut all = vec![Topic::Fire, Topic::AttackEngine, Topic::SupplyEngine];
    all.extend((0..plan.own.len()).map(Topic::Own));
    all.extend((0..plan.aid.len()).map(Topic::Aid));
    all.extend((0..plan.sources.len()).map(Topic::Source));
    all.extend((0..plan.drop_tanks.len()).map(Topic::DropTank));
    all
}

/// Words line by line broken to the width; what follows is set in as the text of the line is.
pub(crate) fn broken(words: &str) -> String {
    let broken = |line: &str| {
        let text = line.trim_start_matches(|c: char| c == ' ' || c.is_ascii_digit());
        // "   4  Tanker 3": a number in the margin, and the text behind it.
        let margin = if line.starts_with("  ") { line.len() - text.len() } else { 0 };
        let options = textwrap::Options::new(WIDTH)
            .break_words(false)
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        textwrap::fill(line, options.subsequent_indent(&" ".repeat(margin)))
    };
    words.split('\n').map(broken).collect::<Vec<_>>().join("\n")
}

/// What is taken where the sentence of a unit or source says nothing.
fn unsaid(plan: &FirstPlan) -> String {
    let is_later = |one: &Tanker| {
        one.alarm.is_some() || one.called_at.as_ref().is_some_and(|at| !at.is_number_of(0.0))
    };
    let asked_for = plan.own.iter().any(|one| one.of_others);
    let others = match (plan.aid.is_empty(), plan.aid.iter().all(is_later)) {
        (true, _) if asked_for => ", others to 90% of fires",
        (true, _) => "",
        (false, true) => ", others to 90% of fires",
        (false, false) => ", others to 90% of fires and can be called at the alarm",
    };
    let timed = plan.own.iter().chain(&plan.aid).any(|one| one.empties_in.is_some());
    let dumps = if timed { "other dumps are not timed" } else { "no dump was timed" };
    format!(
        "Where nothing is said of it: your own come to every fire{others}; {dumps}, and no source runs dry."
    )
}

/// That all of its department come or none; nothing where each comes for itself.
fn comes_whole(plan: &FirstPlan, tanker: &Tanker) -> &'static str {
    let says_so = |one: &Tanker| {
        one.comes_whole && one.department.is_some() && one.department == tanker.department
    };
    let whole = plan.own.iter().chain(&plan.aid).any(says_so);
    if whole { " All of its department come or none." } else { "" }
}

/// The minute of an alarm behind the first.
fn at_minute(tanker: &Tanker) -> String {
    let minute = tanker.called_at.as_ref();
    minute.map_or(String::new(), |minute| format!(", from minute {} on", minute.told()))
}

/// What is in no topic, each a line.
pub(crate) fn besides(plan: &FirstPlan) -> Vec<String> {
    let mut lines = vec![unsaid(plan)];
    if plan.drop_tanks.is_empty() {
        lines.push("No drop tank: tankers pump into the engine, one after another.".to_owned());
    }
    let count = |value: &serde_json::Value| match value.as_array() {
        Some(list) => format!(" ({})", list.len()),
        None => String::new(),
    };
    let mut kept: Vec<String> =
        plan.beside.iter().map(|(key, value)| format!("`{key}`{}", count(value))).collect();
    kept.extend(plan.drafting.keys().map(|key| format!("`supply/{key}`")));
    if !plan.notes.is_empty() {
        kept.push(format!("notes of your own ({})", plan.notes.len()));
    }
    if !kept.is_empty() {
        lines.push(format!("The file has besides, and keeps as it is: {}.", kept.join(", ")));
    }
    lines
}

/// The words for one part of a plan, in its units.
pub(crate) struct Say(pub(crate) Units);

impl Say {
    fn pick(&self, us: &'static str, metric: &'static str) -> &'static str {
        if self.0 == Units::Us { us } else { metric }
    }

    pub(super) fn volume(&self, amount: &Amount) -> String {
        amount.told_in(self.pick("gal", "L"))
    }

    fn flow(&self, amount: &Amount) -> String {
        amount.told_in(self.pick("gpm", "L/min"))
    }

    fn road(&self, amount: &Amount) -> String {
        amount.told_in(self.pick("mi", "km"))
    }

    fn speed(&self, amount: &Amount) -> String {
        amount.told_in(self.pick("mph", "km/h"))
    }

    pub(crate) fn topic(&self, plan: &FirstPlan, topic: Topic) -> String {
        match topic {
            Topic::Fire => self.fire(plan),
            Topic::AttackEngine => {
                let engine = &plan.attack_engine;
                let water =
                    engine.water.as_ref().map(|water| self.volume(water)).unwrap_or_default();
                format!(
                    "{} pumps the attack lines. It is there {} after the alarm with {water}, of which {} are kept for \
                     backing out.",
                    engine.name,
                    engine.minutes.told_in("min"),
                    self.volume(&plan.reserve)
                )
            }
            Topic::SupplyEngine => match &plan.supply_engine {
                Some(engine) => {
                    let second = plan.second_supply_engine.as_ref();
                    let second = second.map(|second| format!(" {} drafts beside it.", second.name));
                    format!(
                        "{} drafts from the drop tank. It is there {} after the alarm.{}",
                        engine.name,
                        engine.minutes.told_in("min"),
                        second.unwrap_or_default()
                    )
                }
                None => format!("No supply engine: {} drafts itself.", plan.attack_engine.name),
            },
            Topic::Own(place) => {
                let tanker = &plan.own[place];
                // It comes with the alarm, unless somebody has to ask for it.
                let called = tanker.called_at.as_ref().filter(|minute| !minute.is_number_of(0.0));
                let from = called.map_or("the alarm".to_owned(), |minute| {
                    format!("its call at minute {}", minute.told())
                });
                let whose = if tanker.of_others { "of others, asked for" } else { "your own" };
                format!("{}{}", self.tanker(tanker, whose, &from), comes_whole(plan, tanker))
            }
            Topic::Aid(place) => self.aid(plan, &plan.aid[place]),
            Topic::Source(place) => self.source(plan, &plan.sources[place]),
            Topic::DropTank(place) => self.drop_tank(&plan.drop_tanks[place], place),
        }
    }

    fn fire(&self, plan: &FirstPlan) -> String {
        let start = match &plan.start {
            None => "from first water on".to_owned(),
            Some(start) => format!(
                "{} at first and all of it {} after first water",
                self.flow(&start.flow),
                start.until.told_in("min")
            ),
        };
        format!(
            "The fire: {}. The lines need {}, {start}, for {}.",
            plan.title,
            self.flow(&plan.flow),
            plan.duration.told_in("min")
        )
    }

    /// What was said of a tanker; what was not is told once of all.
    fn tanker(&self, tanker: &Tanker, whose: &str, from: &str) -> String {
        let of = tanker.department.as_ref().map(|department| format!(" of {department}"));
        let comes = tanker.turnout.as_ref();
        let comes = comes.map(|often| format!(", comes to {} of fires", often.told_as_share()));
        let dumps = tanker.empties_in.as_ref();
        let dumps = dumps.map(|minutes| format!(", dumps in {}", minutes.told_in("min")));
        format!(
            "{}{}, {whose}: {}, there {} after {from}{}{}.",
            tanker.name,
            of.unwrap_or_default(),
            self.volume(&tanker.water),
            tanker.minutes.told_in("min"),
            comes.unwrap_or_default(),
            dumps.unwrap_or_default()
        )
    }

    fn aid(&self, plan: &FirstPlan, tanker: &Tanker) -> String {
        let told = self.tanker(tanker, "to be asked for", "its call");
        let called = match (tanker.alarm, &tanker.called_at) {
            (Some(alarm), _) => {
                format!(" It is on the {} alarm{}.", alarm.key(), at_minute(tanker))
            }
            (None, Some(minute)) if !minute.is_number_of(0.0) => {
                format!(" It can be called from minute {} after the alarm on.", minute.told())
            }
            _ => String::new(),
        };
        format!("{told}{called}{}", comes_whole(plan, tanker))
    }

    fn source(&self, plan: &FirstPlan, source: &Source) -> String {
        let at_once = match &source.positions {
            Some(many) if !many.is_number(1.0) => {
                format!("{} tankers at once", many.told())
            }
            _ => "one tanker at a time".to_owned(),
        };
        let ready = |minute: &Amount| format!("from minute {} after the alarm", minute.told());
        let pump = match (pump_bringer(plan, source), &source.pumped_by) {
            (Some(bringer), _) => {
                let after = source.pump_draws_in.as_ref();
                let after = after.map_or("some 8 min".to_owned(), |after| after.told_in("min"));
                let draws_in =
                    source.pump_draws_in.as_ref().and_then(|after| after.json().as_f64());
                let minute = draws_in.zip(arrival(plan, &bringer)).map(|(after, there)| {
                    format!(" (minute {} after the alarm)", Amount::plain(there + after).told())
                });
                let minute = minute.unwrap_or_default();
                format!("with the pump that {bringer} brings, {after} after it is there{minute}")
            }
            (None, Some(engine)) => {
                let from = source.ready.as_ref().map(ready).unwrap_or_default();
                let comes = source
                    .pump_turnout
                    .as_ref()
                    .map(|often| format!(" and comes to {} of fires", often.told_as_share()));
                format!(
                    "with {engine}, which drives there to pump{}, {from}",
                    comes.unwrap_or_default()
                )
            }
            (None, None) => source.ready.as_ref().map(ready).unwrap_or_default(),
        };
        let speed = source.speed.as_ref().map(|speed| format!(" at {}", self.speed(speed)));
        let gravel = source.gravel.as_ref().zip(source.gravel_speed.as_ref());
        let gravel = gravel.map_or(String::new(), |(gravel, speed)| {
            format!(", {} of it gravel at {}", self.road(gravel), self.speed(speed))
        });
        let holds = source.holds.as_ref().map(|holds| format!("; it holds {}", self.volume(holds)));
        format!(
            "{} fills {at_once} at {}, {pump}. {} by road one way{}{gravel}{}.",
            source.name,
            self.flow(&source.flow),
            self.road(&source.road),
            speed.unwrap_or_else(|| " by the travel rule".to_owned()),
            holds.unwrap_or_default()
        )
    }

    fn drop_tank(&self, tank: &DropTank, place: usize) -> String {
        let first = if place == 0 { "; it is the one that is drafted from" } else { "" };
        format!("Drop tank of {}: {}{first}.", tank.brought_by, self.volume(&tank.holds))
    }
}
