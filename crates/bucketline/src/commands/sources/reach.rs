//! `reach`: how far from water a number of tankers holds a flow.

use answers::question::reach::{Asked, expected_replications, reach};
use scenario_file::{Scenario, load_asked};

use crate::arguments::ReachArguments;
use crate::exit_code::Exit;
use crate::failure::Failure;
use crate::give::Giving;
use crate::progress::{control, with_progress};

/// Runs the command.
pub fn run(arguments: &ReachArguments) -> Result<Exit, Failure> {
    let scenario = load_asked(&arguments.scenario.file, &arguments.changes.asks())?;
    let asked = Asked {
        site: site(&scenario, arguments.site.as_deref())?,
        wanted_gpm: arguments.flow.map(|flow| flow / scenario.units.flow(1.0)),
        share: arguments.hold.share,
    };
    // For a wanted flow there is no picture.
    let charts = Some(&arguments.charts).filter(|_| arguments.flow.is_none());
    let giving = Giving::new(arguments.scenario.showing, charts, &scenario)?;
    let control = control();
    let budget = arguments.hold.budget();
    let answer = with_progress(&control, expected_replications(&scenario, asked), || {
        reach(&scenario, asked, budget, &control)
    });
    giving.give(&answer)
}

/// The place of the site asked for.
fn site(scenario: &Scenario, asked: Option<&str>) -> Result<usize, Failure> {
    let sites = &scenario.plan.facts().fill_sites;
    let Some(asked) = asked else {
        return Ok(0);
    };
    sites.iter().position(|site| site.name == asked).ok_or_else(|| Failure::NoSuchSite {
        asked: asked.to_owned(),
        file: scenario.path.clone(),
        there: sites.iter().map(|site| site.name.clone()).collect(),
    })
}
