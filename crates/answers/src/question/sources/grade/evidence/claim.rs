//! What is claimed under each rule, and how it comes about: verdicts, the flow that holds, who fills where, what
//! else is asked for.

use shuttle_report::conditions::State;
use shuttle_report::evidence::Evidence;
use shuttle_report::grade::{GradeAnswer, RuleResult, SiteGrade, Verdict};
use shuttle_report::grading_rules::{Condition, GradingRule, RULES};
use shuttle_report::site_sets::Travel;

use super::super::told::against;
use super::super::{cautions, rules, tables};
use super::{TICK, asked, blank};
use crate::say;
use crate::say::{Align, Piece, Sentence, Table, joined, list, name};

/// Each rule with the set of fill sites that is best under it.
pub fn best_by_rule(
    found: &GradeAnswer,
    place: usize,
) -> impl Iterator<Item = (&GradingRule, &SiteGrade, &RuleResult)> {
    (found.rules.iter().enumerate()).filter_map(move |(number, rule)| {
        let (set, result) = found.best(place, number)?;
        Some((rule, set, result))
    })
}

fn sites(names: &[String]) -> Sentence {
    joined(names.iter().map(|site| say![name(site)]), " + ", " + ")
}

/// One row a rule: what is claimed, where it is filled, and whether it passes.
pub fn verdicts(sheet: &Evidence, found: &GradeAnswer, place: usize) -> Table {
    let mut table = Table::new(vec![
        (say!["rule"], Align::Left),
        (say!["claimed, by hand, ", Piece::FlowSign], Align::Right),
        (say!["filling at"], Align::Left),
        (say!["verdict"], Align::Left),
        (say!["seen"], Align::Left),
    ]);
    for (rule, _, result) in best_by_rule(found, place) {
        table.row(vec![
            rules::title(rule),
            say![Piece::BareFlow(result.hand.credited_gpm)],
            if is_credited(result) { sites(&used_by_hand(result)) } else { say!["no source"] },
            verdict(result, rule, sheet),
            say![TICK],
        ]);
    }
    table.feet.push(say![
        "Claimed: what counts by hand, each ",
        Piece::Tanker,
        " at one fill site or left to stand; a rule without a higher flow credits its own flow and no more. Where the \
         grading body reckons the road by ",
        rules::travel_rule(),
        ", the lower of that and the speeds stated. Verdict: as far as the file says; the grading body alone decides.",
    ]);
    let others = joined(
        others_known(&found.rules).map(|rule| say![rules::title(rule), " (", name(&rule.key), ")"]),
        "; ",
        "; ",
    );
    if !others.is_empty() {
        let option = crate::say::on_command(" (--rule)");
        table.feet.push(say!["Known and not asked about here", option, ": ", others, "."]);
    }
    table
}

/// Rules that are known and are none of these.
pub fn others_known(asked: &[GradingRule]) -> impl Iterator<Item = &'static GradingRule> {
    RULES.iter().filter(|rule| !asked.iter().any(|asked| asked.key == rule.key))
}

fn is_credited(result: &RuleResult) -> bool {
    result.hand.sites.iter().any(|site| site.creditable)
}

/// The sites that have a tanker by hand.
fn used_by_hand(result: &RuleResult) -> Vec<String> {
    let used = result.hand.sites.iter().filter(|site| site.credit.tankers > 0);
    used.map(|site| site.name.clone()).collect()
}

/// "PASSES", "FAILS: road to the station 5.0 mi or less", "OPEN: the file does not say ...".
fn verdict(result: &RuleResult, rule: &GradingRule, sheet: &Evidence) -> Sentence {
    let conditions = |which: State| {
        let those = result.conditions.iter().filter(move |(_, state)| *state == which);
        those.map(|(condition, _)| rules::condition(condition))
    };
    match result.verdict {
        Verdict::Fail => {
            let flow = (result.flow == Verdict::Fail).then(|| say!["the flow does not hold"]);
            let against = against(result, rule, Some(sheet));
            say!["FAILS: ", joined(against.into_iter().chain(flow), "; ", "; ")]
        }
        Verdict::NotClear => say!["OPEN: too close to tell whether the flow holds"],
        Verdict::Pass => {
            let lacks = cautions::not_shown(&result.not_shown);
            let mut told = say!["the flow holds"];
            if tables::has_open(result) {
                told.push("; not stated: ");
                told.push(joined(conditions(State::NotKnown), "; ", "; "));
            }
            match (tables::has_open(result), lacks.is_empty()) {
                (true, true) => say!["OPEN: ", told],
                (true, false) => say!["OPEN: ", told, "; not shown: ", lacks],
                (false, false) => say!["FIGURES PASS; not shown: ", lacks],
                (false, true) => say!["PASSES: ", told, " and nothing stated stands against it"],
            }
        }
    }
}

/// The flow that holds under each rule, from which minute, and by hand with whose tankers.
pub fn flows(found: &GradeAnswer, place: usize) -> Table {
    let mut rows = Vec::new();
    for (rule, _, result) in best_by_rule(found, place) {
        let held = match result.held_gpm {
            Some(gpm) => say![
                Piece::Flow(gpm),
                " unbroken for ",
                Piece::Duration(rule.duration_min),
                " in ",
                Piece::Share(found.share),
                " of simulated fires",
            ],
            None => say!["no flow"],
        };
        rows.push((
            rules::title(rule),
            say![held, ", filling at ", sites(&result.held_with), from_minute(rule)],
        ));
        if let Some((rule_flow, gallons)) = result.held_gpm.zip(result.first_loads_gal) {
            rows.push((
                say!["of that on first loads"],
                say![
                    "about ",
                    Piece::Volume(gallons),
                    " of it come once, with first loads and full tanks, at ",
                    Piece::Flow(rule_flow),
                ],
            ));
        }
        let by_rule = match result.hand.by_travel_rule_gpm {
            Some(gpm) => say![Piece::Flow(gpm)],
            None => blank(),
        };
        let claimed = match result.hand.travel {
            _ if !rule.travels_by_rule => "; claimed: the speeds stated",
            Travel::Stated => "; claimed: the lower, the speeds stated",
            Travel::Rule => "; claimed: the lower, that rule",
        };
        rows.push((
            say!["the same by hand"],
            say![
                Piece::Flow(result.hand.by_speeds_gpm),
                " with the speeds stated, ",
                by_rule,
                " by ",
                rules::travel_rule(),
                claimed,
            ],
        ));
    }
    asked(say!["flow that holds"], rows)
}

fn from_minute(rule: &GradingRule) -> Sentence {
    let minute = |value: f64| Piece::Number(value, usize::from(value.fract() != 0.0));
    let begins = say![
        "; ",
        Piece::Flow(rule.minimum_gpm),
        " from minute ",
        minute(rule.within_min),
        " after the first engine's arrival",
    ];
    match rule.higher_within_min {
        Some(higher) => say![begins, ", all of it from minute ", minute(higher)],
        None => begins,
    }
}

/// Who fills where by hand under each rule, with the sums: from this the claim can be checked.
pub fn assignments(found: &GradeAnswer, place: usize) -> Table {
    let mut table = Table::new(vec![
        (say!["claim by hand"], Align::Left),
        (say![Piece::Tankers, " assigned"], Align::Left),
        (say!["make, ", Piece::FlowSign], Align::Right),
        (say!["busy"], Align::Right),
        (say!["pass, ", Piece::FlowSign], Align::Right),
        (say!["bound by"], Align::Left),
    ]);
    let gpm = |gpm: f64| say![Piece::BareFlow(gpm)];
    let nothing = || say![""];
    for (rule, _, result) in best_by_rule(found, place) {
        let hand = &result.hand;
        let road = match hand.travel {
            Travel::Stated => say!["road: as stated"],
            Travel::Rule => say!["road: ", rules::travel_rule()],
        };
        table.row(vec![
            say![rules::title(rule), ":"],
            road,
            nothing(),
            nothing(),
            nothing(),
            nothing(),
        ]);
        for site in &hand.sites {
            let here = hand.tankers.iter().filter(|one| one.fill_site == site.name);
            let who: Vec<Sentence> = here.map(|one| say![name(&one.name)]).collect();
            let (who, is_used) = match (site.creditable, who.is_empty()) {
                (false, _) => (say!["not credited by this rule"], false),
                (true, true) => (say!["left unused"], false),
                (true, false) => (list(who), true),
            };
            let shown = |value: Sentence| if is_used { value } else { say!["-"] };
            table.row(vec![
                say![name(&site.name)],
                who,
                shown(gpm(site.credit.made_gpm)),
                shown(say![Piece::Number(site.credit.busy, 2)]),
                shown(gpm(site.credit.gpm)),
                shown(tables::bound(site.credit.bound)),
            ]);
        }
        let aside = [
            ("left to stand", &hand.stand_by, ": in line with them less would pass"),
            ("there too late", &hand.late, ": not counted"),
        ];
        for (what, who, why) in aside.into_iter().filter(|(_, who, _)| !who.is_empty()) {
            let who = list(who.iter().map(|one| say![name(one)]));
            table.row(vec![say![what], say![who, why], nothing(), nothing(), nothing(), nothing()]);
        }
        let mut sum = |what: Sentence, value: f64| {
            table.row(vec![what, nothing(), nothing(), nothing(), gpm(value), nothing()]);
        };
        sum(say!["all sites together"], hand.passes_gpm);
        if let Some((station, most)) = &hand.scene {
            sum(say!["most through ", crate::shared::station::station_words(station)], *most);
        }
        if rule.higher_within_min.is_none() {
            sum(say!["the rule credits no more than"], rule.minimum_gpm);
        }
        sum(say!["claimed: the least"], hand.credited_gpm);
    }
    table.feet.push(say![
        "Make: the sum of (tank less 10%) / cycle. Busy: fill positions kept busy, the sum of service / cycle, \
         service being connect, fill and disconnect; beyond the positions a site passes positions / busy of what \
         they make, and no more than its flow, nor its quantity over the rule's time. Most through the dump site: \
         dump positions x the sum of (tank less 10%) / the sum of (get into place, dump, pull clear). No pump counts \
         for more than its rating.",
    ]);
    table
}

/// Every condition of every rule with what is stated.
pub fn conditions(sheet: &Evidence, found: &GradeAnswer, place: usize) -> Option<Table> {
    let mut table = Table::new(vec![
        (say!["asked for by the rule"], Align::Left),
        (say![""], Align::Left),
        (say!["seen"], Align::Left),
    ]);
    for (rule, _, result) in best_by_rule(found, place) {
        let flow = match result.flow {
            Verdict::Pass if !result.by_hand_reached => {
                "the flow holds; by hand it is NOT CREDITED"
            }
            Verdict::Pass => "the flow holds",
            Verdict::Fail => "the flow DOES NOT HOLD",
            Verdict::NotClear => "too close to tell",
        };
        table.row(vec![say![rules::title(rule)], say![flow], say![TICK]]);
        for (condition, state) in &result.conditions {
            let certificates = *condition == Condition::AllYear
                && *state == State::Met
                && lacks_certificate(sheet, result);
            let told = if certificates {
                say!["met as stated; certificate still to be shown"]
            } else {
                say![rules::state(*state)]
            };
            table.row(vec![say!["- ", rules::condition(condition)], told, say![TICK]]);
        }
    }
    (!table.rows.is_empty()).then_some(table)
}

/// Whether one of the sources used is said to be there all year and no certificate is stated.
fn lacks_certificate(sheet: &Evidence, result: &RuleResult) -> bool {
    let used = sheet.sources.iter().filter(|source| result.held_with.contains(&source.name));
    used.into_iter().any(|source| source.survey.drought_certificate.is_none())
}
