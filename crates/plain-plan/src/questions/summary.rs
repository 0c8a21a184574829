//! All that was answered, in plain sentences, before it is written; and the way to mend one of them.

use std::cell::Cell;
use std::io::{BufRead, Write};

use scenario_file::Units;

use super::prompt::{Draft, Question};
use super::{Asking, Depth, Halt};
use crate::amount::Amount;
use crate::careful::careful;
use crate::first_plan::{DropTank, FirstPlan, Source, Tanker, alike, pump_bringer};
use crate::scenario_text::checked;

/// Something that was told, and can be mended.
#[derive(Clone, Copy)]
enum Topic {
    Fire,
    AttackEngine,
    SupplyEngine,
    Own(usize),
    Aid(usize),
    Source(usize),
    DropTank(usize),
}

/// What may be added, by the words for it.
const MORE: [(&str, More); 5] = [
    ("own tanker", More::Own),
    ("aid tanker", More::Aid),
    ("source", More::Source),
    ("drop tank", More::DropTank),
    ("supply engine", More::SupplyEngine),
];

#[derive(Clone, Copy)]
enum More {
    Own,
    Aid,
    Source,
    DropTank,
    SupplyEngine,
}

/// What is wanted at the summary.
#[derive(Clone, Copy)]
enum Wanted {
    Mend(Topic),
    Add(More),
}

/// What Enter means there.
const WRITE: &str = "yes, write it";

const HELP: &str = "Nothing is written yet. A number, or a name, asks everything about that one again, with what it has \
                    in brackets: also how often it comes, how long it dumps, the alarm it is on, gravel, how much a pond \
                    holds. `none` for its name takes it out.";

impl<I: BufRead, O: Write, D: Draft> Asking<I, O, D> {
    /// Shows what was answered until it is right, and mends what is named.
    ///
    /// - Given: all of it in words, with the question below; what `?` says; what is wanted by a number or a name; what
    ///   mends that.
    pub(super) fn until_right<T: Copy>(
        &mut self,
        told: impl Fn(&D) -> String,
        help: &str,
        wanted_of: impl Fn(&D, &str) -> Result<T, String>,
        mend: impl Fn(&mut Self, T) -> Result<(), Halt>,
    ) -> Result<(), Halt> {
        loop {
            let asked = told(&self.plan);
            let wanted = Cell::new(None);
            self.words(Question(&asked, help), Some(WRITE), |plan, typed| {
                if !is_yes(&typed) {
                    wanted.set(Some(wanted_of(plan, &typed)?));
                }
                Ok(())
            })?;
            match wanted.take() {
                None => return Ok(()),
                Some(wanted) => mend(self, wanted)?,
            }
        }
    }
}

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    /// Shows the plan until it is right.
    pub(super) fn summary(&mut self) -> Result<(), Halt> {
        self.until_right(told, HELP, wanted_of, |asking, wanted| match wanted {
            Wanted::Mend(topic) => asking.mend(topic),
            Wanted::Add(more) => asking.add(more),
        })
    }

    fn mend(&mut self, topic: Topic) -> Result<(), Halt> {
        match topic {
            Topic::Fire => self.fire(Depth::All),
            Topic::AttackEngine => self.attack_engine(Depth::All),
            Topic::SupplyEngine => self.supply_engine(),
            Topic::Own(place) => self.mend_own(place),
            Topic::Aid(place) => self.mend_aid(place),
            Topic::Source(place) => self.mend_source(place),
            Topic::DropTank(place) => self.mend_drop_tank(place),
        }
    }

    fn add(&mut self, more: More) -> Result<(), Halt> {
        match more {
            More::Own => self.next_own_tanker().map(|_| ()),
            More::Aid => self.next_aid().map(|_| ()),
            More::Source => self.next_source().map(|_| ()),
            More::DropTank => self.next_drop_tank().map(|_| ()),
            More::SupplyEngine => self.supply_engine(),
        }
    }
}

fn is_yes(typed: &str) -> bool {
    matches!(typed.to_lowercase().as_str(), WRITE | "yes" | "y" | "ok" | "write" | "write it")
}

/// What was meant by a number or a name.
fn wanted_of(plan: &FirstPlan, typed: &str) -> Result<Wanted, String> {
    let topics = topics(plan);
    let more = MORE.iter().find(|(words, _)| alike(words, typed)).map(|(_, more)| *more);
    if let Some(more) = more {
        return Ok(Wanted::Add(more));
    }
    // A unit may be called by a number alone, and is then meant by it.
    let named =
        topics.iter().find(|topic| names_of(plan, **topic).iter().any(|one| alike(one, typed)));
    let counted = typed.parse::<usize>().ok().and_then(|number| topics.get(number.checked_sub(1)?));
    named.or(counted).map(|topic| Wanted::Mend(*topic)).ok_or_else(|| {
        format!(
            "write a number from 1 to {}, or a name as it stands there; Enter alone writes the plan",
            topics.len()
        )
    })
}

/// All that can be mended, in the order of the summary.
fn topics(plan: &FirstPlan) -> Vec<Topic> {
    let mut all = vec![Topic::Fire, Topic::AttackEngine, Topic::SupplyEngine];
    all.extend((0..plan.own.len()).map(Topic::Own));
    all.extend((0..plan.aid.len()).map(Topic::Aid));
    all.extend((0..plan.sources.len()).map(Topic::Source));
    all.extend((0..plan.drop_tanks.len()).map(Topic::DropTank));
    all
}

/// What a topic may be called by.
fn names_of(plan: &FirstPlan, topic: Topic) -> Vec<String> {
    match topic {
        Topic::Fire => ["fire", "the fire", &plan.title, "flow"].map(str::to_owned).to_vec(),
        Topic::AttackEngine => vec![plan.attack_engine.name.clone(), "attack engine".to_owned()],
        Topic::SupplyEngine => plan.supply_engine.iter().map(|one| one.name.clone()).collect(),
        Topic::Own(place) => vec![plan.own[place].name.clone()],
        Topic::Aid(place) => vec![plan.aid[place].name.clone()],
        Topic::Source(place) => vec![plan.sources[place].name.clone()],
        Topic::DropTank(place) => {
            vec![format!("drop tank of {}", plan.drop_tanks[place].brought_by)]
        }
    }
}

/// The plan in plain sentences, one a line, and what is odd about it.
fn told(plan: &FirstPlan) -> String {
    let say = Say(plan.units);
    let mut told = String::from("\nThe plan, as you said it:\n");
    for (place, topic) in topics(plan).into_iter().enumerate() {
        told.push_str(&format!("{:>4}  {}\n", place + 1, say.topic(plan, topic)));
    }
    if plan.drop_tanks.is_empty() {
        told.push_str("      No drop tank: tankers pump into the engine, one after another.\n");
    }
    let warnings = checked(plan).map(|(_, warnings)| warnings).unwrap_or_default();
    for one in careful(plan, &warnings) {
        told.push_str(&format!("      Careful: {}\n", one.told));
    }
    told + "\nIs it right? A number or a name mends that one or says more of it; `own tanker`, `aid tanker`, `source`, \
            `drop tank` or `supply engine` adds one"
}

/// The words for one part of the plan, in its units.
struct Say(Units);

impl Say {
    fn pick(&self, us: &'static str, metric: &'static str) -> &'static str {
        if self.0 == Units::Us { us } else { metric }
    }

    fn volume(&self, amount: &Amount) -> String {
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

    fn topic(&self, plan: &FirstPlan, topic: Topic) -> String {
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
                Some(engine) => format!(
                    "{} drafts from the drop tank. It is there {} after the alarm.",
                    engine.name,
                    engine.minutes.told_in("min")
                ),
                None => format!("No supply engine: {} drafts itself.", plan.attack_engine.name),
            },
            Topic::Own(place) => {
                self.tanker(&plan.own[place], "your own", "the alarm", "to every fire")
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

    fn tanker(&self, tanker: &Tanker, whose: &str, from: &str, usual: &str) -> String {
        let comes = match &tanker.turnout {
            Some(often) => format!("to {} of fires", often.told_as_share()),
            None => usual.to_owned(),
        };
        let dumps = match &tanker.empties_in {
            Some(minutes) => format!("it dumps in {}", minutes.told_in("min")),
            None => "its dumping was not timed".to_owned(),
        };
        format!(
            "{}, {whose}: {}, there {} after {from}. It comes {comes}; {dumps}.",
            tanker.name,
            self.volume(&tanker.water),
            tanker.minutes.told_in("min")
        )
    }

    fn aid(&self, plan: &FirstPlan, tanker: &Tanker) -> String {
        let whose = match &tanker.department {
            Some(department) => format!("which you could ask {department} for"),
            None => "which you could ask for".to_owned(),
        };
        let told = self.tanker(tanker, &whose, "its call", "to 90% of fires");
        let called = match tanker.alarm {
            Some(alarm) => format!("It is on the {} alarm.", alarm.key()),
            None => match &tanker.called_at {
                Some(minute) if *minute != Amount::plain(0.0) => {
                    format!("It can be called from minute {} after the alarm on.", minute.told())
                }
                _ => "It can be called at the alarm.".to_owned(),
            },
        };
        let whole =
            plan.aid.iter().any(|one| one.comes_whole && one.department == tanker.department);
        let whole = if whole { " All of its department come or none." } else { "" };
        format!("{told} {called}{whole}")
    }

    fn source(&self, plan: &FirstPlan, source: &Source) -> String {
        let at_once = match &source.positions {
            Some(many) if *many != Amount::plain(1.0) => {
                format!("{} tankers at once", many.told())
            }
            _ => "one tanker at a time".to_owned(),
        };
        let ready = |minute: &Amount| format!("from minute {} after the alarm", minute.told());
        let pump = match (pump_bringer(plan, source), &source.pumped_by) {
            (Some(bringer), _) => {
                let after = source.pump_draws_in.as_ref();
                let after = after.map_or("8 min".to_owned(), |after| after.told_in("min"));
                format!("with the pump that {bringer} brings, {after} after it is there")
            }
            (None, Some(engine)) => {
                let from = source.ready.as_ref().map(ready).unwrap_or_default();
                format!("with {engine}, which drives there to pump, {from}")
            }
            (None, None) => source.ready.as_ref().map(ready).unwrap_or_default(),
        };
        let speed = source.speed.as_ref().map(|speed| format!(" at {}", self.speed(speed)));
        let gravel = source.gravel.as_ref().zip(source.gravel_speed.as_ref());
        let gravel = gravel.map_or(String::new(), |(gravel, speed)| {
            format!(", {} of it gravel at {}", self.road(gravel), self.speed(speed))
        });
        let holds = match &source.holds {
            Some(holds) => format!("it holds {}", self.volume(holds)),
            None => "water without end".to_owned(),
        };
        format!(
            "{} fills {at_once} at {}, {pump}. {} by road one way{}{gravel}; {holds}.",
            source.name,
            self.flow(&source.flow),
            self.road(&source.road),
            speed.unwrap_or_default()
        )
    }

    fn drop_tank(&self, tank: &DropTank, place: usize) -> String {
        let first = if place == 0 { "; it is the one that is drafted from" } else { "" };
        format!("Drop tank of {}: {}{first}.", tank.brought_by, self.volume(&tank.holds))
    }
}
