//! Reading what a grading asks for.

use fireground::travel::{travel_time, travel_time_at_speed};
use shuttle_report::grading_rules::{Class, Condition, GradingRule, RULES, Seen};
use shuttle_report::survey::{
    Address, AddressRoad, Aid, FlowTested, HeldDrill, SiteSurvey, Survey, TankerSurvey,
};
use shuttle_sim::{Leg, TimeTaken};

use super::reader::Reader;
use crate::structure::entry::Entry;

fn text(entry: &Entry<'_>, key: &str) -> Option<String> {
    entry.some_text(key).map(str::to_owned)
}

fn station(entry: &Entry<'_>) -> Option<f64> {
    entry.some_number("station_miles").or_else(|| entry.some_number("station_km"))
}

impl Reader {
    /// All of it.
    pub(crate) fn survey(&mut self, root: &Entry<'_>) -> Survey {
        let grading = root.entry("grading");
        let own = root.list("tankers");
        let aid = root.list("aid");
        let supply = root.entry("supply");
        let pump = supply.some_entry("pump");
        let rated = pump.as_ref().map(|pump| pump.number_stated("rated"));
        if let (Some(here), Some(there)) = (grading.some_number("drafting_pump"), rated)
            && (here - there).abs() > 1e-9 * there
        {
            self.mistake(
                grading.at("drafting_pump"),
                "it is not the rating that `supply.pump` states for the same pump".to_owned(),
                Some("one rating for the pump that drafts at the fire".to_owned()),
                "leave `drafting_pump` out, or put the right rating into `supply.pump`",
            );
        }
        Survey {
            station_miles: station(&grading),
            suction_point_ft: grading.some_number("suction_point"),
            large_hose_shown: grading.some_flag("large_hose_shown"),
            first_engine_pump_gpm: grading.some_number("first_engine_pump"),
            drafting_pump_gpm: (grading.some_number("drafting_pump")).or(rated),
            drafting_lift_ft: pump.as_ref().map(|pump| pump.number_stated("lift")),
            firefighters: grading.some_number("firefighters"),
            people_on_water: grading.some_number("people_on_water"),
            training_hours: grading.some_number("training_hours"),
            buildings_in_reach: grading.some_number("buildings_in_reach"),
            credit_share: grading.some_number("credit"),
            alarm_credit: grading.some_number("alarm_credit"),
            water_shown_min: grading.some_number("water_shown"),
            renewed_years: grading.some_number("renewed_years"),
            edition: text(&grading, "edition"),
            procedures: text(&grading, "procedures"),
            agreements: text(&grading, "agreements"),
            joint_training: text(&grading, "joint_training"),
            alarm_handling: text(&grading, "alarm_handling"),
            communications: text(&grading, "communications"),
            drills: grading.list("drills").iter().map(drill).collect(),
            tankers: (own.iter().map(|entry| tanker(entry, Aid::Own)))
                .chain(aid.iter().map(|entry| tanker(entry, Aid::Mutual)))
                .collect(),
            departments: (own.iter().chain(&aid)).map(|entry| text(entry, "department")).collect(),
            sites: root.list("fill_sites").iter().map(site).collect(),
            rules: self.rules(&grading),
            addresses: self.addresses(root),
        }
    }

    fn rules(&mut self, grading: &Entry<'_>) -> Vec<GradingRule> {
        let mut rules: Vec<GradingRule> = Vec::new();
        for entry in grading.list("rules") {
            let rule = rule(&entry);
            let is_taken = |other: &GradingRule| other.key == rule.key;
            if RULES.iter().any(is_taken) || rules.iter().any(is_taken) {
                self.mistake(
                    entry.at("name"),
                    format!("a second rule is called \"{}\"", rule.key),
                    Some("each rule by a name of its own".to_owned()),
                    "give it another name",
                );
            }
            if rule.higher_within_min.is_some_and(|higher| higher < rule.within_min) {
                self.mistake(
                    entry.at("higher_within"),
                    "a higher flow is wanted before the first one".to_owned(),
                    Some("no less than `start_within`".to_owned()),
                    "exchange the two, or leave `higher_within` out",
                );
            }
            rules.push(rule);
        }
        rules
    }

    /// Their names, and where their roads lead, are looked at by `address_names`.
    fn addresses(&mut self, root: &Entry<'_>) -> Vec<Address> {
        (root.list("addresses").iter())
            .map(|entry| Address {
                name: entry.text_stated("name"),
                station_miles: station(entry),
                suction_point_ft: entry.some_number("suction_point"),
                roads: (entry.list("roads").iter())
                    .map(|road| AddressRoad { site: road.text_stated("to"), leg: self.road(road) })
                    .collect(),
            })
            .collect()
    }

    /// As a leg, but without a line for each of thousands of roads on how its time was worked out.
    fn road(&mut self, road: &Entry<'_>) -> Leg {
        let (distance, speed) = match road.shape() {
            "road_miles" => ("miles", "mph"),
            "road_km" => ("km", "kmh"),
            _ => {
                return Leg {
                    miles: None,
                    time: spread(road.number_stated("minutes"), road.some_number("cv")),
                };
            }
        };
        let miles = road.number_stated(distance);
        let worked = match road.some_number(speed) {
            Some(mph) => travel_time_at_speed(miles, mph),
            None => travel_time(miles),
        };
        let mean = match worked {
            Ok(worked) => worked.value,
            Err(error) => {
                self.bad_fact(road, &error);
                1.0
            }
        };
        Leg { miles: Some(miles), time: spread(mean, road.some_number("cv")) }
    }
}

fn spread(mean: f64, cv: Option<f64>) -> TimeTaken {
    match cv {
        Some(cv) if cv > 0.0 => TimeTaken::Lognormal { mean, cv },
        _ => TimeTaken::Fixed(mean),
    }
}

fn tanker(entry: &Entry<'_>, silent: Aid) -> TankerSurvey {
    let aid = match entry.some_text("aid") {
        Some("own") => Aid::Own,
        Some("automatic") => Aid::Automatic,
        Some(_) => Aid::Mutual,
        None => silent,
    };
    TankerSurvey {
        aid,
        vacuum: entry.some_flag("vacuum").unwrap_or(false),
        // Who stands in the list of aid is no own tanker.
        aid_is_stated: silent != Aid::Own || entry.some_text("aid").is_some(),
    }
}

fn site(entry: &Entry<'_>) -> SiteSurvey {
    let survey = entry.entry("survey");
    let pump = entry.some_entry("flow").filter(|flow| flow.shape() == "flow_by_pump");
    let pump = pump.map(|flow| flow.entry_stated("pump"));
    let hydrant = entry.some_entry("flow").filter(|flow| flow.shape() == "flow_by_hydrant");
    let hydrant = hydrant.map(|flow| flow.entry_stated("hydrant"));
    SiteSurvey {
        is_hydrant: hydrant.is_some(),
        flow_tested: hydrant.filter(|test| test.shape() == "hydrant_flow_test").map(|test| {
            FlowTested {
                static_psi: test.number_stated("static"),
                residual_psi: test.number_stated("residual"),
                flow_gpm: test.number_stated("flow"),
                at_psi: test.number("at"),
            }
        }),
        all_year: survey.some_flag("all_year"),
        drought_certificate: text(&survey, "drought_certificate"),
        flow_test: text(&survey, "flow_test"),
        flow_test_witness: text(&survey, "flow_test_witness"),
        inspected: text(&survey, "inspected"),
        agreement: text(&survey, "agreement"),
        main_lasts_hours: survey.some_number("main_lasts_hours"),
        pump_to_water_ft: survey.some_number("pump_to_water"),
        pump_rated_gpm: pump.as_ref().map(|pump| pump.number_stated("rated")),
        pump_lift_ft: pump.as_ref().map(|pump| pump.number_stated("lift")),
    }
}

fn drill(entry: &Entry<'_>) -> HeldDrill {
    HeldDrill {
        date: entry.text_stated("date"),
        flow_gpm: entry.some_number("flow"),
        minutes: entry.some_number("minutes"),
        water_shown_min: entry.some_number("water_shown"),
        source_miles: entry.some_number("source_miles").or_else(|| entry.some_number("source_km")),
        witness: text(entry, "witness"),
    }
}

fn rule(entry: &Entry<'_>) -> GradingRule {
    let flag = |key: &str| entry.some_flag(key).unwrap_or(false);
    let limit = |key: &str, condition: fn(f64) -> Condition| entry.some_number(key).map(condition);
    let conditions: Vec<Condition> = [
        limit("station_within_miles", Condition::StationWithin),
        limit("suction_point_within", Condition::SuctionPointWithin),
        limit("source_within_miles", Condition::SourceWithin),
        flag("all_year").then_some(Condition::AllYear),
        limit("first_engine_pump", Condition::FirstEnginePump),
    ]
    .into_iter()
    .flatten()
    .collect();
    let name = entry.text_stated("name");
    GradingRule {
        class: Class::Own(name.clone()),
        key: name.into(),
        minimum_gpm: entry.number_stated("flow"),
        within_min: entry.number("start_within"),
        higher_within_min: entry.some_number("higher_within"),
        duration_min: entry.number_stated("minutes"),
        own_only: flag("own_apparatus"),
        travels_by_rule: false,
        conditions: conditions.into(),
        sealed_counts_whole: flag("sealed_counts_whole").then_some("the scenario's own rule"),
        source: text(entry, "source")
            .unwrap_or_else(|| "the scenario's own rule".to_owned())
            .into(),
        edition: text(entry, "edition").map(Into::into),
        seen: Seen::OfTheFile,
    }
}
