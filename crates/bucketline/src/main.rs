//! The command `bucketline`: one question, one answer.

use std::process::ExitCode;

use answers::refusal::{Refusal, Refused};
use clap::{CommandFactory, Parser};

use bucketline::arguments::refused::of_command_line;
use bucketline::arguments::{Arguments, Command};
use bucketline::commands::{
    card, check, compare, drill, flow, grade, handout, hold, import, levers, lose, new, page,
    reach, replay, report, request, risk, size,
};
use bucketline::exit_code::Exit;
use bucketline::failure::Failure;
use bucketline::output::{complain, print, print_json};

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        // What was typed is quoted in it.
        Err(wrong) if wrong.use_stderr() => {
            if asks_for_json() {
                refuse(of_command_line(&wrong));
            } else {
                complain(&wrong.render().to_string());
            }
            return Exit::WrongCommand.into();
        }
        Err(help) => help.exit(),
    };
    std::panic::set_hook(Box::new(|bug| {
        let (problem, cure) =
            (format!("this is our own fault: {bug}"), "please report it with the scenario");
        if asks_for_json() {
            refuse(Refusal::new(
                Refused::Bug,
                Exit::OurFault as u8,
                problem,
                Some(cure.to_owned()),
            ));
        } else {
            complain(&format!("bucketline: {problem}\n  cure: {cure}\n"));
        }
    }));
    std::panic::catch_unwind(|| answer(&arguments)).unwrap_or_else(|_| Exit::OurFault.into())
}

fn answer(arguments: &Arguments) -> ExitCode {
    let ended = match &arguments.command {
        Command::Check(arguments) => check::run(arguments),
        Command::Risk(arguments) => risk::run(arguments),
        Command::Hold(arguments) => hold::run(arguments),
        Command::Size(arguments) => size::run(arguments),
        Command::Compare(arguments) => compare::run(arguments),
        Command::Request(arguments) => request::run(arguments),
        Command::Lose(arguments) => lose::run(arguments),
        Command::Levers(arguments) => levers::run(arguments),
        Command::Grade(arguments) => grade::run(arguments),
        Command::Reach(arguments) => reach::run(arguments),
        Command::Replay(arguments) => replay::run(arguments),
        Command::New(arguments) => new::run(arguments),
        Command::Import(arguments) => import::run(arguments),
        Command::Flow(arguments) => flow::run(arguments),
        Command::Drill(arguments) => drill::run(arguments),
        Command::Page(arguments) => page::run(arguments),
        Command::Card(arguments) => card::run(arguments),
        Command::Handout(arguments) => handout::run(arguments),
        Command::Report(arguments) => report::run(arguments),
        Command::Schema { building, answers } => schema(*building, *answers),
        Command::Completions { shell } => completions(*shell),
        Command::Man => man(),
    };
    match ended {
        Ok(exit) => exit.into(),
        Err(failure) => {
            if asks_for_json() {
                refuse(failure.refusal());
            } else {
                complain(&format!("bucketline: {failure}\n"));
            }
            failure.exit().into()
        }
    }
}

/// Whether a program is to read what comes, also where the command line is wrong otherwise.
fn asks_for_json() -> bool {
    std::env::args_os().take_while(|word| word != "--").any(|word| word == "--json")
}

/// Prints why there is no answer where a program would look for the result.
fn refuse(refusal: Refusal) {
    let words = std::env::args_os().skip(1).map(|word| word.to_string_lossy().into_owned());
    let refusal = refusal.asked_by(words);
    if let Err(failure) = print_json(&refusal.json()) {
        complain(&format!("bucketline: {failure}\n"));
    }
}

fn schema(building: bool, answers: bool) -> Result<Exit, Failure> {
    let text = match (building, answers) {
        (true, _) => format!("{:#}\n", scenario_file::building_schema()),
        // On one line: it is for programs, and half a megabyte otherwise.
        (_, true) => format!("{}\n", answers::schema::answers_schema()),
        _ => format!("{:#}\n", scenario_file::json_schema()),
    };
    print(&text)?;
    Ok(Exit::Answered)
}

fn completions(shell: clap_complete::Shell) -> Result<Exit, Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "bucketline", &mut script);
    print(&String::from_utf8_lossy(&script))?;
    Ok(Exit::Answered)
}

fn man() -> Result<Exit, Failure> {
    let mut page = Vec::new();
    clap_mangen::Man::new(Arguments::command())
        .render(&mut page)
        .map_err(|error| Failure::CannotWrite { path: "the manual page".into(), error })?;
    print(&String::from_utf8_lossy(&page))?;
    Ok(Exit::Answered)
}
