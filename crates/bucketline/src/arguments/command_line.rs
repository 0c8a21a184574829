//! The command line as a whole: the commands there are, and the help.

use clap::{Parser, Subcommand};

use super::by_command::{
    CheckArguments, CompareArguments, DrillArguments, FlowArguments, GradeArguments, HoldArguments,
    ImportArguments, LeversArguments, LoseArguments, NewArguments, PageArguments, ReachArguments,
    ReplayArguments, RequestArguments, RiskArguments, SizeArguments,
};
use super::on_paper::{PaperArguments, ReportArguments};
use crate::exit_code;

/// Plans hauled water for a rural fire.
#[derive(Debug, Parser)]
#[command(
    name = "bucketline",
    version,
    about = "Plans hauled water for a rural fire: the chance that the attack lines lose water, why, \
             and how many tankers to ask for.",
    after_help = "\
Examples:
  bucketline new barn.json --ask       a plan, question by question
  bucketline new --csv barn            or three spreadsheets to fill in, then: bucketline import barn
  bucketline check barn.json           is it sound, and what does a pencil say
  bucketline flow my_barn.json         how much water a building asks for
  bucketline hold barn.json            what flow can be held, and from which minute
  bucketline risk barn.json            the chance of losing water, why, and what would help
  bucketline size barn.json            how many tankers to ask for
  bucketline compare barn.json         its options side by side: what to buy
  bucketline request barn.json         whom to ask for
  bucketline lose barn.json            what if one thing is lost
  bucketline levers barn.json          what a minute or 100 gpm is worth
  bucketline grade barn.json           fill sites compared for an insurance grading
  bucketline reach barn.json           how far from water so many tankers hold a flow
  bucketline replay barn.json --run 7  one simulated fire, minute by minute
  bucketline drill log.csv barn.json   what a drill measured, and what to train
  bucketline card barn.json            the run card, to laminate
  bucketline handout barn.json         a sheet for a drill night
  bucketline report barn.json          the plan as a chief reads it, on paper
  bucketline page barn.json            all of it as one file for a browser or phone

A plan on paper. The incident commander, local rules and what you see on the ground come first.",
    after_long_help = exit_code_help(),
    disable_help_subcommand = true
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

fn exit_code_help() -> String {
    format!(
        "Examples:\n  \
         bucketline new barn.json --ask       a plan, question by question\n  \
         bucketline new --csv barn            or three spreadsheets to fill in, then: bucketline import barn\n  \
         bucketline check barn.json           is it sound, and what does a pencil say\n  \
         bucketline flow my_barn.json         how much water a building asks for\n  \
         bucketline hold barn.json            what flow can be held, and from which minute\n  \
         bucketline risk barn.json            the chance of losing water, why, and what would help\n  \
         bucketline size barn.json            how many tankers to ask for\n  \
         bucketline compare barn.json         its options side by side: what to buy\n  \
         bucketline request barn.json         whom to ask for\n  \
         bucketline lose barn.json            what if one thing is lost\n  \
         bucketline levers barn.json          what a minute or 100 gpm is worth\n  \
         bucketline grade barn.json           fill sites compared for an insurance grading\n  \
         bucketline reach barn.json           how far from water so many tankers hold a flow\n  \
         bucketline replay barn.json --run 7  one simulated fire, minute by minute\n  \
         bucketline drill log.csv barn.json   what a drill measured, and what to train\n  \
         bucketline card barn.json            the run card, to laminate\n  \
         bucketline handout barn.json         a sheet for a drill night\n  \
         bucketline report barn.json          the plan as a chief reads it, on paper\n  \
         bucketline page barn.json            all of it as one file for a browser or phone\n\n\
         {}\n\n\
         A plan on paper. The incident commander, local rules and what you see on the ground come \
         first.",
        exit_code::IN_HELP
    )
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check a scenario and work it out by hand: cycles, gpm, caps, water on wheels
    #[command(after_help = "Example:\n  bucketline check scenarios/hay_barn_two_tankers.json")]
    Check(CheckArguments),
    /// The chance that the attack lines lose water, why, and what would help
    #[command(after_help = "Examples:\n  \
        bucketline risk scenarios/hay_barn_two_tankers.json\n  \
        bucketline risk scenarios/hay_barn_two_tankers.json --runs 100000 --seed 7 --json")]
    Risk(RiskArguments),
    /// What flow can be held, and from which minute after the alarm
    #[command(after_help = "Examples:\n  \
        bucketline hold scenarios/feed_mill_mutual_aid.json\n  \
        bucketline hold scenarios/feed_mill_mutual_aid.json --from 12,20,40 --share 98%")]
    Hold(HoldArguments),
    /// The fewest tankers that keep that chance below a target
    #[command(after_help = "Example:\n  \
        bucketline size scenarios/hay_barn_two_tankers.json --target 5%")]
    Size(SizeArguments),
    /// Options side by side: what to buy, what to change
    #[command(after_help = "Examples:\n  \
        bucketline compare scenarios/hay_barn_what_to_buy.json\n  \
        bucketline compare scenarios/hay_barn_two_tankers.json scenarios/hay_barn_second_drop_tank.json")]
    Compare(CompareArguments),
    /// The mutual-aid request: the fewest of the aid there is that keep that chance below a target
    #[command(after_help = "Example:\n  \
        bucketline request scenarios/feed_mill_mutual_aid.json --target 5%")]
    Request(RequestArguments),
    /// What the plan cannot do without: everything lost once
    #[command(after_help = "Example:\n  \
        bucketline lose scenarios/sawmill_two_fill_sites.json --target 5%")]
    Lose(LoseArguments),
    /// What one minute or one hundred gpm is worth, for every input
    #[command(after_help = "Example:\n  \
        bucketline levers scenarios/hay_barn_two_tankers.json")]
    Levers(LeversArguments),
    /// Fill sites compared for an insurance grading, with the evidence sheet
    #[command(after_help = "Examples:\n  \
        bucketline grade scenarios/schoolhouse_three_fill_sites.json\n  \
        bucketline grade north.json east.json --share 98% --rule us-2h --rule class-8b\n  \
        bucketline grade scenarios/schoolhouse_three_fill_sites.json --sheet sheet.html\n  \
        bucketline grade scenarios/mill_crossing_addresses.json --csv")]
    Grade(GradeArguments),
    /// How far from water so many tankers hold a flow: table and wall chart
    #[command(after_help = "Examples:\n  \
        bucketline reach scenarios/sawmill_two_fill_sites.json\n  \
        bucketline reach scenarios/sawmill_two_fill_sites.json --flow 500")]
    Reach(ReachArguments),
    /// One simulated fire, told minute by minute
    #[command(after_help = "Examples:\n  \
        bucketline replay scenarios/hay_barn_two_tankers.json --run 7\n  \
        bucketline replay scenarios/hay_barn_two_tankers.json --planned")]
    Replay(ReplayArguments),
    /// Write a starter scenario that runs, or ask for a plan question by question
    #[command(after_help = "Examples:\n  \
        bucketline new barn.json --ask\n  \
        bucketline new --csv barn\n  \
        bucketline new barn.json\n  \
        bucketline new house.json --building")]
    New(NewArguments),
    /// Make a scenario from three spreadsheets: units, sources, plan
    #[command(after_help = "Examples:\n  \
        bucketline new --csv barn\n  \
        bucketline import barn\n  \
        bucketline import barn barn.json")]
    Import(ImportArguments),
    /// How much water a building wants: every rule side by side, the lines that carry it
    #[command(after_help = "Examples:\n  \
        bucketline flow scenarios/buildings/hay_barn.json\n  \
        bucketline flow scenarios/buildings/hay_barn.json --standard minimum-supply\n  \
        bucketline flow scenarios/buildings/hay_barn.json --write barn.json")]
    Flow(FlowArguments),
    /// A drill's log: what was timed, whether the plan holds with it, what to train
    #[command(after_help = "Examples:\n  \
        bucketline drill scenarios/logs/spring_drill.csv scenarios/logs/quarry_lane_drill.json\n  \
        bucketline drill log.xlsx barn.json --alarm 13:02 --lost \"Tanker 5@40\"\n  \
        bucketline drill log.csv barn.json --write\n  \
        bucketline drill --sheet > log.csv")]
    Drill(DrillArguments),
    /// Write the planner as one file for a browser or phone: the plan, its answers, the clock, without network
    #[command(after_help = "Examples:\n  \
        bucketline page\n  \
        bucketline page scenarios/hay_barn_two_tankers.json")]
    Page(PageArguments),
    /// The run card, to laminate: whom to ask and when, the clock, the trip wires
    #[command(after_help = "Examples:\n  \
        bucketline card scenarios/hay_barn_two_tankers.json\n  \
        bucketline card scenarios/feed_mill_mutual_aid.json --all-aid --paper a4")]
    Card(PaperArguments),
    /// A sheet for a drill night: the cycle to time, findings, questions, the form for the log
    #[command(after_help = "Example:\n  \
        bucketline handout scenarios/hay_barn_two_tankers.json")]
    Handout(PaperArguments),
    /// The plan as a chief reads it, with what it rests on: several answers on paper
    #[command(after_help = "Example:\n  \
        bucketline report scenarios/feed_mill_mutual_aid.json --target 5%")]
    Report(ReportArguments),
    /// Print the JSON Schema of scenario files, for editors
    #[command(after_help = "Examples:\n  bucketline schema > scenario.schema.json\n  \
        bucketline schema --answers > results.schema.json")]
    Schema {
        /// That of building files instead
        #[arg(long)]
        building: bool,
        /// That of every command's result with --json instead
        #[arg(long, conflicts_with = "building")]
        answers: bool,
    },
    /// Print completions for a shell
    #[command(
        after_help = "Example:\n  bucketline completions bash > /etc/bash_completion.d/bucketline"
    )]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    #[command(after_help = "Example:\n  bucketline man > bucketline.1")]
    Man,
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_command_line_is_sound() {
        Arguments::command().debug_assert();
    }
}
