//! The plan asked for question by question. A wrong answer is explained and asked again.

mod aid;
pub(crate) mod building;
mod prompt;

use std::io::{BufRead, Write};

use scenario_file::Units;

use crate::amount::Amount;
use crate::first_plan::{
    DropTank, Engine, FirstPlan, Source, Start, Tanker, alike, names, nearest_unit, pump_bringer,
};
use crate::scenario_text::{WrongPart, scenario_text};
use crate::sheets::sources_and_plan::units_of;
use prompt::{Draft, Prompt, Refused};

/// Why there is no plan.
#[derive(Debug)]
pub enum AskError {
    /// The answers ended before the questions.
    EndOfAnswers,
    /// The terminal could not be read or written.
    Terminal(std::io::Error),
}

/// Why the questions stop where they are.
enum Halt {
    /// The question before is to be asked again.
    Back,
    /// There will be no plan.
    Ended(AskError),
}

/// What is taken if the answer is left out, in US units and in metric.
struct Usual(&'static str, &'static str);

impl Usual {
    fn of(&self, units: Units) -> &'static str {
        match units {
            Units::Us => self.0,
            Units::Metric => self.1,
        }
    }
}

/// Asks for a plan.
///
/// - Given: the answers, one a line; where questions go; whether the answers are to be repeated there, because
///   nobody sees them typed.
/// - Errors: [`AskError`]; then there is no plan, not half of one.
pub fn ask(
    answers: impl BufRead,
    questions: impl Write,
    repeat_answers: bool,
) -> Result<FirstPlan, AskError> {
    let prompt = Prompt::new(answers, questions, repeat_answers);
    all_asked(prompt, unsaid, Asking::<_, _, FirstPlan>::all)
}

/// Asks every question in turn, and again from the one before where that is wanted.
///
/// - Given: what nobody has said anything of yet; all questions.
fn all_asked<I: BufRead, O: Write, D: Draft>(
    prompt: Prompt<I, O>,
    unsaid: impl Fn() -> D,
    all: impl Fn(&mut Asking<I, O, D>) -> Result<(), Halt>,
) -> Result<D, AskError> {
    let mut asking = Asking { prompt, plan: unsaid() };
    let introduced = asking.prompt.say(
        "One question after the other. In [brackets] is what is usual: Enter takes it. A number may carry its \
         unit (11,000 L). `back` goes to the question before, `?` says what can be answered. Nothing is written \
         before the last answer; Ctrl-C ends.\n",
    );
    let mut asked = introduced.and_then(|()| all(&mut asking));
    loop {
        match asked {
            Ok(()) => return Ok(asking.plan),
            Err(Halt::Ended(why)) => return Err(why),
            Err(Halt::Back) => {
                // It grew answer by answer, so it is made anew from all answers but the last.
                asking.plan = unsaid();
                asking.prompt.go_back();
                asked = all(&mut asking);
            }
        }
    }
}

/// A sound plan that nobody said anything about yet: each answer is checked in its place.
fn unsaid() -> FirstPlan {
    FirstPlan {
        units: Units::Us,
        title: "?".to_owned(),
        flow: Amount::plain(400.0),
        start: None,
        duration: Amount::plain(120.0),
        reserve: Amount::plain(0.0),
        attack_engine: Engine {
            name: "?engine".to_owned(),
            water: Some(Amount::plain(1_000.0)),
            minutes: Amount::plain(10.0),
        },
        supply_engine: None,
        own: vec![unsaid_tanker("?tanker".to_owned())],
        aid: Vec::new(),
        drop_tanks: Vec::new(),
        sources: vec![unsaid_source("?source".to_owned())],
    }
}

fn unsaid_tanker(name: String) -> Tanker {
    Tanker {
        name,
        department: None,
        comes_whole: false,
        alarm: None,
        water: Amount::plain(2_000.0),
        empties_in: None,
        minutes: Amount::plain(10.0),
        turnout: None,
        called_at: None,
    }
}

fn unsaid_source(name: String) -> Source {
    Source {
        name,
        flow: Amount::plain(500.0),
        positions: None,
        ready: Some(Amount::plain(10.0)),
        pumped_by: None,
        pump_draws_in: None,
        road: Amount::plain(2.0),
        speed: None,
        gravel: None,
        gravel_speed: None,
        holds: None,
    }
}

struct Asking<I, O, D> {
    prompt: Prompt<I, O>,
    plan: D,
}

impl Draft for FirstPlan {
    fn units(&self) -> Units {
        self.units
    }

    fn wrong(&self) -> Vec<Refused> {
        let refused =
            |one: WrongPart| Refused { problem: one.problem, limit: one.limit, cure: one.cure };
        scenario_text(self).err().into_iter().flatten().map(refused).collect()
    }
}

impl<I: BufRead, O: Write> Asking<I, O, FirstPlan> {
    fn all(&mut self) -> Result<(), Halt> {
        self.fire()?;
        self.own_units()?;
        self.aid()?;
        self.sources()?;
        self.drop_tanks()
    }

    fn fire(&mut self) -> Result<(), Halt> {
        self.words(
            "Gallons and miles, or litres and kilometres? us or metric",
            Some("us"),
            |plan, word| {
                match units_of(&word.to_lowercase()) {
                    Some(units) => plan.units = units,
                    None => return Err("write us or metric".to_owned()),
                }
                Ok(())
            },
        )?;
        self.words("What is burning, and where? The name of the plan", None, |plan, words| {
            plan.title = words;
            Ok(())
        })?;
        self.amount(
            "How much water do all lines together need",
            &Usual("400 gpm", "1,500 L/min"),
            |plan, flow| {
                plan.flow = flow;
            },
        )?;
        let less = self.optional_amount(
            "With how much do they start, if that is less? Enter: all of it at once",
            |plan, flow| {
                // Checked with a later step that is sound.
                plan.start = Some(Start { flow, until: Amount::plain(1.0) });
            },
        )?;
        if less {
            self.amount(
                "How many minutes after first water is the whole flow wanted",
                &Usual("10", "10"),
                |plan, minutes| {
                    plan.start.iter_mut().for_each(|start| start.until = minutes.clone());
                },
            )?;
        }
        self.amount("For how long, from first water", &Usual("120 min", "120 min"), |plan, time| {
            plan.duration = time;
        })
    }

    fn own_units(&mut self) -> Result<(), Halt> {
        self.words(
            "The engine that pumps the attack lines: its name",
            Some("Engine 1"),
            |plan, name| {
                plan.attack_engine.name = name;
                Ok(())
            },
        )?;
        self.amount(
            "How much water is in its tank",
            &Usual("1,000 gal", "4,000 L"),
            |plan, water| {
                plan.attack_engine.water = Some(water);
            },
        )?;
        self.amount(
            "How many minutes after the alarm is it there",
            &Usual("10", "10"),
            |plan, minutes| {
                plan.attack_engine.minutes = minutes;
            },
        )?;
        self.amount(
            "How much of its tank is kept so that the crew can back out",
            &Usual("300 gal", "1,000 L"),
            |plan, kept| plan.reserve = kept,
        )?;
        let drafts = self.optional_words(
            "A second engine that drafts from the drop tank: its name. Enter: none, the first one drafts",
            |plan, name| {
                plan.supply_engine = Some(Engine { name, water: None, minutes: Amount::plain(10.0) });
                Ok(())
            },
        )?;
        if drafts {
            self.amount(
                "How many minutes after the alarm is it there",
                &Usual("12", "12"),
                |plan, minutes| {
                    plan.supply_engine
                        .iter_mut()
                        .for_each(|engine| engine.minutes = minutes.clone());
                },
            )?;
        }
        self.words("Your own tanker, the first: its name", Some("Tanker 1"), |plan, name| {
            plan.own[0].name = name;
            Ok(())
        })?;
        self.own_tanker()?;
        while self.optional_words(
            "Your next own tanker: its name. Enter: no more",
            |plan, name| {
                plan.own.push(unsaid_tanker(name));
                Ok(())
            },
        )? {
            self.own_tanker()?;
        }
        Ok(())
    }

    /// The tanker that was named last.
    fn own_tanker(&mut self) -> Result<(), Halt> {
        let last = self.plan.own.len() - 1;
        self.amount(
            "How much water does it carry",
            &Usual("2,000 gal", "8,000 L"),
            |plan, water| {
                plan.own[last].water = water;
            },
        )?;
        self.amount(
            "How many minutes after the alarm is it there",
            &Usual("12", "12"),
            |plan, minutes| {
                plan.own[last].minutes = minutes;
            },
        )?;
        self.how_it_comes_and_dumps("always", |plan| &mut plan.own[last])
    }

    /// How often a tanker comes, and how fast it empties.
    fn how_it_comes_and_dumps(
        &mut self,
        usual: &str,
        tanker: impl Fn(&mut FirstPlan) -> &mut Tanker,
    ) -> Result<(), Halt> {
        self.optional_words(
            &format!(
                "How often does it come when it is called? Such as 4 in 5, or 90%. Enter: {usual}"
            ),
            |plan, typed| {
                let often = Amount::how_often(&typed).map_err(|why| {
                    let (problem, cure) = why.told();
                    format!("{problem}; {cure}")
                })?;
                tanker(plan).turnout = Some(often);
                Ok(())
            },
        )?;
        self.optional_amount(
            "How many minutes does it take to dump its water? Enter: not timed",
            |plan, minutes| tanker(plan).empties_in = Some(minutes),
        )?;
        Ok(())
    }

    fn sources(&mut self) -> Result<(), Halt> {
        self.words(
            "Where do tankers fill? The nearest pond, hydrant or other source: its name",
            Some("Pond"),
            |plan, name| {
                plan.sources[0].name = name;
                Ok(())
            },
        )?;
        self.source()?;
        while self.optional_words("Another source: its name. Enter: no more", |plan, name| {
            plan.sources.push(unsaid_source(name));
            Ok(())
        })? {
            self.source()?;
        }
        Ok(())
    }

    /// The source that was named last.
    fn source(&mut self) -> Result<(), Halt> {
        let last = self.plan.sources.len() - 1;
        self.amount(
            "How much does it give to tankers that fill there",
            &Usual("750 gpm", "2,800 L/min"),
            |plan, flow| plan.sources[last].flow = flow,
        )?;
        self.amount(
            "How many tankers can be hooked up there at once",
            &Usual("1", "1"),
            |plan, many| {
                plan.sources[last].positions = Some(many);
            },
        )?;
        self.pump(last)?;
        self.amount(
            "How far is it by road from the fire, one way",
            &Usual("2 mi", "3 km"),
            |plan, road| plan.sources[last].road = road,
        )?;
        self.amount(
            "How fast do tankers drive there on average, posted limits and hills counted",
            &Usual("30 mph", "50 km/h"),
            |plan, speed| plan.sources[last].speed = Some(speed),
        )?;
        let gravel = self.optional_amount(
            "How much of that road is gravel or a track, one way? Enter: none",
            |plan, gravel| {
                // Checked with a speed that is sound.
                plan.sources[last].gravel = Some(gravel);
                plan.sources[last].gravel_speed = Some(Amount::plain(20.0));
            },
        )?;
        if gravel {
            self.amount(
                "How fast do they drive on that; the speed above is then that of the rest",
                &Usual("20 mph", "30 km/h"),
                |plan, speed| plan.sources[last].gravel_speed = Some(speed),
            )?;
        }
        self.optional_amount(
            "How much water does it hold? Enter: more than you can use",
            |plan, holds| {
                plan.sources[last].holds = Some(holds);
            },
        )?;
        Ok(())
    }

    /// Who pumps at the source that was named last, and when it can fill.
    fn pump(&mut self, last: usize) -> Result<(), Halt> {
        self.optional_words(
            "Who pumps there: an engine that drives there, or one of your units or of the aid that brings a pump? Its \
             name. Enter: nobody need, or it is there",
            |plan, typed| {
                plan.sources[last].pumped_by = Some(typed);
                let source = &plan.sources[last];
                if pump_bringer(plan, source).is_some() {
                    plan.sources[last].ready = None;
                }
                Ok(())
            },
        )?;
        let source = &self.plan.sources[last];
        if let Some(bringer) = pump_bringer(&self.plan, source) {
            return self.amount(
                &format!("How many minutes after {bringer} is there does its pump draw"),
                &Usual("8", "8"),
                |plan, minutes| plan.sources[last].pump_draws_in = Some(minutes),
            );
        }
        if let Some(engine) = &source.pumped_by {
            let near = nearest_unit(&self.plan, engine)
                .map(|near| format!("; if you mean {near}, type `back`"))
                .unwrap_or_default();
            let told =
                format!("  {engine} is taken as an engine of its own that drives there{near}.");
            self.prompt.say(&told)?;
        }
        self.amount(
            "From which minute after the alarm can it fill",
            &Usual("15", "15"),
            |plan, minute| {
                plan.sources[last].ready = Some(minute);
            },
        )
    }

    fn drop_tanks(&mut self) -> Result<(), Halt> {
        while self.optional_words(
            if self.plan.drop_tanks.is_empty() {
                "A drop tank: the name of the unit that brings it. Enter: none, tankers pump into the engine"
            } else {
                "Another drop tank: the name of the unit that brings it. Enter: no more"
            },
            |plan, typed| {
                let names = names(plan);
                let Some(brought_by) = names.iter().find(|name| alike(name, &typed)).cloned() else {
                    return Err(format!("no unit of yours is named so; they are {}", names.join(", ")));
                };
                plan.drop_tanks.push(DropTank { brought_by, holds: Amount::plain(2_500.0) });
                Ok(())
            },
        )? {
            let last = self.plan.drop_tanks.len() - 1;
            self.amount("How much does it hold", &Usual("2,500 gal", "9,500 L"), |plan, holds| {
                plan.drop_tanks[last].holds = holds;
            })?;
        }
        Ok(())
    }
}
