//! The tables of `grade`: the ranking, the sets by hand, who goes where, the conditions of each rule.

use shuttle_report::by_aid::HeldWith;
use shuttle_report::grade::{GradeAnswer, RuleResult, SiteGrade, Verdict};
use shuttle_report::site_sets::HandCredit;
use shuttle_report::survey::Aid;
use shuttle_report::worksheet::assignment::SiteBound;

use shuttle_report::conditions::State;

use super::figures::Passes;
use super::{letter, rules, sites};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, list, name};
use crate::shared::holding::{held_or_open, signs};

/// Sets of sites that a short table shows.
const MOST_ROWS: usize = 8;

/// The best sets: how far, what is credited by hand, what holds, and which rules it passes.
pub fn short(found: &GradeAnswer) -> Table {
    let mut table = ranking(found, MOST_ROWS);
    let left_out = found.ranked.len().saturating_sub(MOST_ROWS);
    if left_out > 0 {
        let sets = if left_out == 1 { " set" } else { " sets" };
        table.feet.push(say!["Not shown here: ", Piece::Count(left_out), sets, " behind these."]);
    }
    table
}

/// All sets in the same way; `None` where the short table has them all.
pub fn full(found: &GradeAnswer) -> Option<Table> {
    (found.ranked.len() > MOST_ROWS).then(|| ranking(found, found.ranked.len()))
}

fn ranking(found: &GradeAnswer, most: usize) -> Table {
    let mut columns = vec![
        (say![""], Align::Right),
        (say!["fill sites"], Align::Left),
        (say!["road, ", Piece::DistanceSign], Align::Right),
        (say!["credit, ", Piece::FlowSign], Align::Right),
        // In the unit of the credit beside it, as the foot says.
        (say!["by road"], Align::Right),
        (say!["holds, ", Piece::FlowSign], Align::Right),
    ];
    columns.extend(found.rules.iter().map(|rule| (rules::short_title(rule), Align::Left)));
    let mut table = Table::new(columns);
    for (place, one) in found.ranked.iter().take(most).enumerate() {
        let mut cells = vec![say![Piece::Number((place + 1) as f64, 0)], sites(one, found)];
        cells.extend([one_way(one), credited(one)]);
        cells.extend([by_travel_rule(one), holds(one)]);
        cells.extend(one.results.iter().map(passes));
        table.row(cells);
    }
    table.feet = feet(found);
    table
}

/// Whether the rule credits any of its sites, as far as the file says.
fn is_credited(one: &SiteGrade) -> bool {
    one.hand().is_some_and(|hand| hand.sites.iter().any(|site| site.creditable))
}

fn credited(one: &SiteGrade) -> Sentence {
    match one.hand() {
        Some(hand) if is_credited(one) => say![Piece::BareFlow(hand.credited_gpm)],
        _ => say!["-"],
    }
}

fn by_travel_rule(one: &SiteGrade) -> Sentence {
    match one.hand().filter(|_| is_credited(one)).and_then(|hand| hand.by_travel_rule_gpm) {
        Some(gpm) => say![Piece::BareFlow(gpm)],
        None => say!["-"],
    }
}

/// All sets by hand: what the tankers make, what their sites pass, what counts of it, and with whose tankers.
pub fn by_hand(found: &GradeAnswer) -> Table {
    let mut table = Table::new(vec![
        (say!["fill sites, by hand, ", Piece::FlowSign], Align::Left),
        (say!["made"], Align::Right),
        (say!["sites"], Align::Right),
        (say!["scene"], Align::Right),
        (say!["counts"], Align::Right),
        (say!["speeds"], Align::Right),
        (say!["by road"], Align::Right),
        (say!["own"], Align::Right),
        (say!["+auto"], Align::Right),
        (say!["+all aid"], Align::Right),
        (say!["fires"], Align::Right),
    ]);
    for one in &found.ranked {
        let Some(hand) = one.hand() else { continue };
        let scene = match &hand.scene {
            Some((_, gpm)) => say![Piece::BareFlow(*gpm)],
            None => say!["-"],
        };
        let fires: u64 = one.results.iter().map(|result| result.replications).sum();
        let flow = |gpm: f64| say![Piece::BareFlow(gpm)];
        table.row(vec![
            sites(one, found),
            flow(hand.made_gpm),
            flow(hand.passes_gpm),
            scene,
            flow(hand.counts_gpm),
            flow(hand.by_speeds_gpm),
            by_travel_rule(one),
            flow(hand.own_gpm),
            flow(hand.automatic_gpm),
            flow(hand.all_gpm),
            say![Piece::Number(fires as f64, 0)],
        ]);
    }
    table.feet.push(say![
        "Made: (tank less 10%) / cycle, summed, each ",
        Piece::Tanker,
        " at one site. Sites: what they pass of it. Scene: the most that unloading and the draft pass. Counts: \
         the least of them, by the speeds stated or by road. Own, +auto, +all aid: with the own ",
        Piece::Tankers,
        ", with those on automatic aid, with all that are listed.",
    ]);
    if found.ranked.iter().any(|one| one.hand().is_some_and(|hand| !hand.exact)) {
        table.feet.push(say![
            "Not every assignment of ",
            Piece::Tankers,
            " to sites was weighed: for the larger sets it was searched for, and a better one may exist.",
        ]);
    }
    table
}

/// Who goes where by hand under the first rule, set by set.
pub fn assigned(found: &GradeAnswer) -> Table {
    let mut table = Table::new(vec![
        (say!["set"], Align::Right),
        (say!["fill site"], Align::Left),
        (say![Piece::Tankers, " assigned to it"], Align::Left),
        (say!["make, ", Piece::FlowSign], Align::Right),
        (say!["pass"], Align::Right),
        (say!["bound by"], Align::Left),
    ]);
    for (place, one) in found.ranked.iter().enumerate() {
        let Some(hand) = one.hand() else { continue };
        for (row, site) in hand.sites.iter().enumerate() {
            let number =
                if row == 0 { say![Piece::Number((place + 1) as f64, 0)] } else { say![""] };
            let who: Vec<Sentence> = (hand.tankers.iter())
                .filter(|tanker| tanker.fill_site == site.name)
                .map(|tanker| say![name(&tanker.name)])
                .collect();
            let unused = match (site.creditable, who.is_empty()) {
                (false, _) => Some(say!["not credited by the rule"]),
                (true, true) => Some(say!["left unused"]),
                _ => None,
            };
            let is_unused = unused.is_some();
            let flow = |gpm: f64| if is_unused { say!["-"] } else { say![Piece::BareFlow(gpm)] };
            table.row(vec![
                number,
                say![name(&site.name)],
                unused.unwrap_or_else(|| list(who)),
                flow(site.credit.made_gpm),
                flow(site.credit.gpm),
                if is_unused { say![""] } else { bound(site.credit.bound) },
            ]);
        }
    }
    for (what, who) in standing(found) {
        table.feet.push(say![what, list(who.into_iter().map(|one| say![name(one)])), "."]);
    }
    table.feet.push(say![
        "A site whose positions are kept busy beyond their number passes positions / busy of what its ",
        Piece::Tankers,
        " make; busy: the sum of service / cycle. No site passes more than its flow, nor more than its \
         quantity over the rule's time.",
    ]);
    table
}

/// Who is not assigned in one of the sets or another, and why.
fn standing(found: &GradeAnswer) -> Vec<(&'static str, Vec<&String>)> {
    let of = |which: fn(&HandCredit) -> &Vec<String>| -> Vec<&String> {
        let mut names: Vec<&String> =
            found.ranked.iter().filter_map(SiteGrade::hand).flat_map(which).collect();
        names.sort();
        names.dedup();
        names
    };
    [
        (
            "Left to stand in one set or another, since in line less would pass: ",
            of(|hand| &hand.stand_by),
        ),
        ("There too late to count: ", of(|hand| &hand.late)),
    ]
    .into_iter()
    .filter(|(_, who)| !who.is_empty())
    .collect()
}

/// What binds a site, in a word.
pub fn bound(bound: SiteBound) -> Sentence {
    match bound {
        SiteBound::Tankers => say!["its ", Piece::Tankers],
        SiteBound::Positions => say!["positions"],
        SiteBound::Flow => say!["flow"],
        SiteBound::Quantity => say!["quantity"],
    }
}

/// What is credited and holds by whose tankers come; `None` where no aid is listed.
///
/// - Given: the scenario, counted from 0.
pub fn by_aid(found: &GradeAnswer, scenario: usize) -> Option<Table> {
    let here = || found.held_with.iter().filter(|one| one.scenario == scenario);
    here().next()?;
    let several = found.titles.len() > 1;
    let mut table = Table::new(vec![
        (say!["who comes"], Align::Left),
        (say![Piece::Tankers], Align::Right),
        (say!["credit, ", Piece::FlowSign], Align::Right),
        (say!["with"], Align::Left),
        (say!["holds, ", Piece::FlowSign], Align::Right),
        (say!["with"], Align::Left),
    ]);
    let sites = |names: &[String]| joined(names.iter().map(|site| say![name(site)]), " + ", " + ");
    for one in here() {
        let who = match one.aid {
            Aid::Own => say!["own ", Piece::Tankers, " alone"],
            Aid::Automatic => say!["with automatic aid"],
            Aid::Mutual => say!["with all aid that is listed"],
        };
        table.row(vec![
            if several { say![letter(one.scenario), ": ", who] } else { who },
            say![Piece::Number(one.tankers as f64, 0)],
            say![Piece::BareFlow(one.credit_gpm)],
            sites(&one.credit_with),
            holds_with(one),
            sites(&one.held_with),
        ]);
    }
    table.feet.push(say!["Each with the best set of fill sites for it, under the first rule."]);
    Some(table)
}

fn holds_with(one: &HeldWith) -> Sentence {
    let held = one.held_gpm.map(|gpm| say![Piece::BareFlow(gpm)]);
    held_or_open(held, one.not_clear_up_to_gpm.is_some())
}

/// Every condition of every rule, for the set that is best under it; `None` where no rule has any.
pub fn conditions(found: &GradeAnswer, scenario: usize) -> Option<Table> {
    let mut table = Table::new(vec![
        (say!["rule"], Align::Left),
        (say!["asks for"], Align::Left),
        (say![""], Align::Left),
    ]);
    for (place, rule) in found.rules.iter().enumerate() {
        let Some((_, result)) = found.best(scenario, place) else { continue };
        let flow = match result.flow {
            Verdict::Pass if !result.by_hand_reached => "NOT MET by hand",
            Verdict::Pass => "met",
            Verdict::Fail => "NOT MET",
            Verdict::NotClear => "too close to tell",
        };
        table.row(vec![rules::short_title(rule), rules::title(rule), say![flow]]);
        for (condition, state) in &result.conditions {
            table.row(vec![say![""], rules::condition(condition), say![rules::state(*state)]]);
        }
    }
    let any = found.rules.iter().any(|rule| !rule.conditions.is_empty());
    any.then_some(table)
}

/// One way to each of two sites, or to the nearest and the farthest of more.
fn one_way(one: &SiteGrade) -> Sentence {
    let told = |miles: &Option<f64>| match miles {
        Some(miles) => say![Piece::BareDistance(*miles)],
        None => say!["-"],
    };
    match one.site_miles.as_slice() {
        few @ ([_] | [_, _]) => joined(few.iter().map(told), "/", "/"),
        many => match many.iter().copied().collect::<Option<Vec<f64>>>() {
            Some(all) => {
                let nearest = all.iter().copied().fold(f64::INFINITY, f64::min);
                let farthest = all.iter().copied().fold(0.0, f64::max);
                say![Piece::BareDistance(nearest), "-", Piece::BareDistance(farthest)]
            }
            None => say!["-"],
        },
    }
}

fn holds(one: &SiteGrade) -> Sentence {
    // What would hold at sources that the rule does not credit is no matter.
    if !is_credited(one) {
        return say!["-"];
    }
    let first = one.results.first();
    held_or_open(
        first.and_then(|first| first.held_gpm).map(|gpm| say![Piece::BareFlow(gpm)]),
        first.is_some_and(|first| first.not_clear_up_to_gpm.is_some()),
    )
}

/// Whether first loads alone carry the flow that holds.
pub fn on_first_loads(result: &RuleResult) -> bool {
    !result.by_hand_reached && result.minimum_above_cap && result.flow == Verdict::Pass
}

fn passes(result: &RuleResult) -> Sentence {
    if result.verdict == Verdict::Fail && on_first_loads(result) {
        return say!["fails*"];
    }
    say![Passes::of(result.verdict, has_open(result)).word()]
}

/// Whether the file says nothing of something the rule asks for.
pub fn has_open(result: &RuleResult) -> bool {
    result.conditions.iter().any(|(_, state)| *state == State::NotKnown)
}

/// What the signs in the table mean, where they stand.
fn feet(found: &GradeAnswer) -> Vec<Sentence> {
    let any = |test: &dyn Fn(&RuleResult) -> bool| {
        found.ranked.iter().any(|one| one.results.iter().any(test))
    };
    let first = found.ranked.iter().filter_map(|one| one.results.first());
    let mut feet = signs(
        first.map(|result| (result.held_gpm.is_some(), result.not_clear_up_to_gpm.is_some())),
    );
    let once = any(&on_first_loads)
        .then(|| say!["* held on first loads and full tanks only, used up once."]);
    let open = any(&|result| result.verdict == Verdict::Pass && has_open(result))
        .then(|| say!["passes?: not all of it is stated."]);
    let both = joined(once.into_iter().chain(open), " ", " ");
    if !both.is_empty() {
        feet.push(both);
    }
    if any(&|result| result.verdict == Verdict::NotClear) {
        feet.push(say![
            "Open: too close to tell; more fires",
            crate::say::on_command(" (--runs)"),
            " would."
        ]);
    }
    let rules = joined(found.rules.iter().map(rules::title), "; ", "; ");
    let unknown = found.ranked.iter().any(|one| {
        !is_credited(one) || one.hand().is_some_and(|hand| hand.by_travel_rule_gpm.is_none())
    });
    let takes_lower = found.rules.first().is_some_and(|rule| rule.travels_by_rule);
    feet.push(say![
        "Credit: by hand",
        if takes_lower {
            ", the lower of the speeds stated and the travel rule"
        } else {
            ", by the speeds stated"
        },
        ". By road: with the travel rule, ",
        rules::travel_rule(),
        if unknown { "; - no distance stated, or not credited. " } else { ". " },
        if found.rules.len() == 1 { "Rule: " } else { "Rules: " },
        rules,
        ".",
    ]);
    feet
}
