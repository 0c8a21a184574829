//! The command `bucketline`: one question, one answer.

use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use bucketline::arguments::{Arguments, Command};
use bucketline::commands::{
    check, compare, flow, grade, levers, lose, new, reach, replay, request, risk, size,
};
use bucketline::exit_code::Exit;
use bucketline::failure::Failure;
use bucketline::output::{complain, print};

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        // What was typed is quoted in it.
        Err(wrong) if wrong.use_stderr() => {
            complain(&wrong.render().to_string());
            return Exit::WrongCommand.into();
        }
        Err(help) => help.exit(),
    };
    std::panic::set_hook(Box::new(|bug| {
        complain(&format!(
            "bucketline: this is our own fault: {bug}\n  cure: please report it with the scenario\n"
        ));
    }));
    std::panic::catch_unwind(|| answer(&arguments)).unwrap_or_else(|_| Exit::OurFault.into())
}

fn answer(arguments: &Arguments) -> ExitCode {
    let ended = match &arguments.command {
        Command::Check(arguments) => check::run(arguments),
        Command::Risk(arguments) => risk::run(arguments),
        Command::Size(arguments) => size::run(arguments),
        Command::Compare(arguments) => compare::run(arguments),
        Command::Request(arguments) => request::run(arguments),
        Command::Lose(arguments) => lose::run(arguments),
        Command::Levers(arguments) => levers::run(arguments),
        Command::Grade(arguments) => grade::run(arguments),
        Command::Reach(arguments) => reach::run(arguments),
        Command::Replay(arguments) => replay::run(arguments),
        Command::New(arguments) => new::run(arguments),
        Command::Flow(arguments) => flow::run(arguments),
        Command::Schema { building, answers } => schema(*building, *answers),
        Command::Completions { shell } => completions(*shell),
        Command::Man => man(),
    };
    match ended {
        Ok(exit) => exit.into(),
        Err(failure) => {
            complain(&format!("bucketline: {failure}\n"));
            failure.exit().into()
        }
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
