//! Reading what a grading asks for.

use fireground::travel::{travel_time, travel_time_at_speed};
use shuttle_report::grading_rules::{Class, Condition, GradingRule, RULES, Seen};
use shuttle_report::survey::{
    Address, AddressRoad, Aid, FlowTested, HeldDrill, SiteSurvey, Survey, TankerSurvey,
};
use shuttle_sim::Leg;

use crate::errors::kinds::MistakeKind;
use crate::errors::message::{says, whole_name};
use crate::format::beside::addresses::{OfAddress, OfRoadKm, OfRoadMiles, OfRoadMinutes, Road};
use crate::format::beside::grading::{OfDrill, OfGrading, OfRule, OfSiteSurvey};
use crate::format::fire::incident_and_supply::OfSupply;
use crate::format::haul::fill_sites::OfFillSite;
use crate::format::haul::tankers::OfTanker;
use crate::format::takes::Either;
use crate::format::values::flow_facts::{
    FillFacts, HydrantFacts, OfFlowByHydrant, OfFlowByPump, OfFlowTest, OfPump,
};
use crate::format::whole_files::OfScenario;
use crate::read::reader::Reader;
use crate::read::tankers_and_sites::spread_around;
use crate::structure::entry::Entry;

impl Reader {
    /// All of it.
    pub(crate) fn survey(&mut self, root: &Entry<'_, OfScenario>) -> Survey {
        let grading = root.get(&OfScenario::GRADING);
        let own = root.get(&OfScenario::TANKERS);
        let aid = root.get(&OfScenario::AID);
        let supply = root.get(&OfScenario::SUPPLY);
        let pump = supply.get(&OfSupply::PUMP);
        let rated = pump.as_ref().map(|pump| pump.get(&OfPump::RATED));
        if let (Some(here), Some(there)) = (grading.get(&OfGrading::DRAFTING_PUMP), rated)
            && (here - there).abs() > 1e-9 * there
        {
            let told = (
                "it is not the rating that `supply.pump` states for the same pump".into(),
                Some("one rating for the pump that drafts at the fire".into()),
                "leave `drafting_pump` out, or put the right rating into `supply.pump`".into(),
            );
            self.mistake(grading.at(&OfGrading::DRAFTING_PUMP), MistakeKind::Conflict, told);
        }
        Survey {
            station_miles: (grading.get(&OfGrading::STATION_MILES))
                .or_else(|| grading.get(&OfGrading::STATION_KM)),
            suction_point_ft: grading.get(&OfGrading::SUCTION_POINT),
            large_hose_shown: grading.get(&OfGrading::LARGE_HOSE_SHOWN),
            first_engine_pump_gpm: grading.get(&OfGrading::FIRST_ENGINE_PUMP),
            drafting_pump_gpm: (grading.get(&OfGrading::DRAFTING_PUMP)).or(rated),
            drafting_lift_ft: pump.as_ref().map(|pump| pump.get(&OfPump::LIFT)),
            firefighters: grading.get(&OfGrading::FIREFIGHTERS),
            people_on_water: grading.get(&OfGrading::PEOPLE_ON_WATER),
            training_hours: grading.get(&OfGrading::TRAINING_HOURS),
            buildings_in_reach: grading.get(&OfGrading::BUILDINGS_IN_REACH),
            credit_share: grading.get(&OfGrading::CREDIT),
            alarm_credit: grading.get(&OfGrading::ALARM_CREDIT),
            water_shown_min: grading.get(&OfGrading::WATER_SHOWN),
            renewed_years: grading.get(&OfGrading::RENEWED_YEARS),
            edition: grading.get(&OfGrading::EDITION).map(str::to_owned),
            procedures: grading.get(&OfGrading::PROCEDURES).map(str::to_owned),
            agreements: grading.get(&OfGrading::AGREEMENTS).map(str::to_owned),
            joint_training: grading.get(&OfGrading::JOINT_TRAINING).map(str::to_owned),
            alarm_handling: grading.get(&OfGrading::ALARM_HANDLING).map(str::to_owned),
            communications: grading.get(&OfGrading::COMMUNICATIONS).map(str::to_owned),
            drills: grading.get(&OfGrading::DRILLS).iter().map(drill).collect(),
            tankers: (own.iter().map(|entry| tanker(entry, Aid::Own)))
                .chain(aid.iter().map(|entry| tanker(entry, Aid::Mutual)))
                .collect(),
            departments: (own.iter().chain(&aid))
                .map(|entry| entry.get(&OfTanker::DEPARTMENT).map(str::to_owned))
                .collect(),
            sites: root.get(&OfScenario::FILL_SITES).iter().map(site).collect(),
            rules: self.rules(&grading),
            addresses: self.addresses(root),
        }
    }

    fn rules(&mut self, grading: &Entry<'_, OfGrading>) -> Vec<GradingRule> {
        let mut rules: Vec<GradingRule> = Vec::new();
        for entry in grading.get(&OfGrading::RULES) {
            let rule = rule(&entry);
            let is_taken = |other: &GradingRule| other.key == rule.key;
            if RULES.iter().any(is_taken) || rules.iter().any(is_taken) {
                let told = (
                    says!["a second rule is called ", whole_name(&rule.key)],
                    Some("each rule by a name of its own".into()),
                    "give it another name".into(),
                );
                self.mistake(entry.at(&OfRule::NAME), MistakeKind::Taken, told);
            }
            if rule.higher_within_min.is_some_and(|higher| higher < rule.within_min) {
                let told = (
                    "a higher flow is wanted before the first one".into(),
                    Some("no less than `start_within`".into()),
                    "exchange the two, or leave `higher_within` out".into(),
                );
                self.mistake(entry.at(&OfRule::HIGHER_WITHIN), MistakeKind::Conflict, told);
            }
            rules.push(rule);
        }
        rules
    }

    /// Their names, and where their roads lead, are looked at by `address_names`.
    fn addresses(&mut self, root: &Entry<'_, OfScenario>) -> Vec<Address> {
        (root.get(&OfScenario::ADDRESSES).iter())
            .map(|entry| Address {
                name: entry.get(&OfAddress::NAME).to_owned(),
                station_miles: (entry.get(&OfAddress::STATION_MILES))
                    .or_else(|| entry.get(&OfAddress::STATION_KM)),
                suction_point_ft: entry.get(&OfAddress::SUCTION_POINT),
                roads: (entry.get(&OfAddress::ROADS).into_iter())
                    .map(|(how, road)| self.road(how, &road))
                    .collect(),
            })
            .collect()
    }

    /// As a leg, but without a line for each of thousands of roads on how its time was worked out.
    fn road(&mut self, how: Road, road: &Entry<'_, Road>) -> AddressRoad {
        let (site, miles, mph, cv) = match how {
            Road::Miles => (
                road.get(&OfRoadMiles::TO),
                road.get(&OfRoadMiles::MILES),
                road.get(&OfRoadMiles::MPH),
                road.get(&OfRoadMiles::CV),
            ),
            Road::Km => (
                road.get(&OfRoadKm::TO),
                road.get(&OfRoadKm::KM),
                road.get(&OfRoadKm::KMH),
                road.get(&OfRoadKm::CV),
            ),
            Road::Minutes => {
                let minutes = road.get(&OfRoadMinutes::MINUTES);
                let time = spread_around(minutes, road.get(&OfRoadMinutes::CV));
                let site = road.get(&OfRoadMinutes::TO).to_owned();
                return AddressRoad { site, leg: Leg { miles: None, time } };
            }
        };
        let worked = match mph {
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
        let leg = Leg { miles: Some(miles), time: spread_around(mean, cv) };
        AddressRoad { site: site.to_owned(), leg }
    }
}

fn tanker(entry: &Entry<'_, OfTanker>, silent: Aid) -> TankerSurvey {
    let stated = entry.get(&OfTanker::AID);
    TankerSurvey {
        aid: stated.unwrap_or(silent),
        vacuum: entry.get(&OfTanker::VACUUM).unwrap_or(false),
        // Who stands in the list of aid is no own tanker.
        aid_is_stated: silent != Aid::Own || stated.is_some(),
    }
}

fn site(entry: &Entry<'_, OfFillSite>) -> SiteSurvey {
    let survey = entry.get(&OfFillSite::SURVEY);
    let (mut is_hydrant, mut flow_tested, mut pump) = (false, None, None);
    match entry.get(&OfFillSite::FLOW) {
        Either::That((FillFacts::Hydrant, facts)) => {
            is_hydrant = true;
            if let (HydrantFacts::FlowTest, test) = facts.get(&OfFlowByHydrant::HYDRANT) {
                flow_tested = Some(FlowTested {
                    static_psi: test.get(&OfFlowTest::STATIC),
                    residual_psi: test.get(&OfFlowTest::RESIDUAL),
                    flow_gpm: test.get(&OfFlowTest::FLOW),
                    at_psi: test.get(&OfFlowTest::AT),
                });
            }
        }
        Either::That((FillFacts::Pump, facts)) => pump = Some(facts.get(&OfFlowByPump::PUMP)),
        Either::This(_) | Either::That((FillFacts::Rough, _)) => {}
    }
    SiteSurvey {
        is_hydrant,
        flow_tested,
        all_year: survey.get(&OfSiteSurvey::ALL_YEAR),
        drought_certificate: survey.get(&OfSiteSurvey::DROUGHT_CERTIFICATE).map(str::to_owned),
        flow_test: survey.get(&OfSiteSurvey::FLOW_TEST).map(str::to_owned),
        flow_test_witness: survey.get(&OfSiteSurvey::FLOW_TEST_WITNESS).map(str::to_owned),
        inspected: survey.get(&OfSiteSurvey::INSPECTED).map(str::to_owned),
        agreement: survey.get(&OfSiteSurvey::AGREEMENT).map(str::to_owned),
        main_lasts_hours: survey.get(&OfSiteSurvey::MAIN_LASTS_HOURS),
        pump_to_water_ft: survey.get(&OfSiteSurvey::PUMP_TO_WATER),
        pump_rated_gpm: pump.as_ref().map(|pump| pump.get(&OfPump::RATED)),
        pump_lift_ft: pump.as_ref().map(|pump| pump.get(&OfPump::LIFT)),
    }
}

fn drill(entry: &Entry<'_, OfDrill>) -> HeldDrill {
    HeldDrill {
        date: entry.get(&OfDrill::DATE).to_owned(),
        flow_gpm: entry.get(&OfDrill::FLOW),
        minutes: entry.get(&OfDrill::MINUTES),
        water_shown_min: entry.get(&OfDrill::WATER_SHOWN),
        source_miles: entry.get(&OfDrill::SOURCE_MILES).or_else(|| entry.get(&OfDrill::SOURCE_KM)),
        witness: entry.get(&OfDrill::WITNESS).map(str::to_owned),
    }
}

fn rule(entry: &Entry<'_, OfRule>) -> GradingRule {
    let flag = |row| entry.get::<OfRule, Option<bool>>(row).unwrap_or(false);
    let limit =
        |row, condition: fn(f64) -> Condition| entry.get::<OfRule, Option<f64>>(row).map(condition);
    let conditions: Vec<Condition> = [
        limit(&OfRule::STATION_WITHIN_MILES, Condition::StationWithin),
        limit(&OfRule::SUCTION_POINT_WITHIN, Condition::SuctionPointWithin),
        limit(&OfRule::SOURCE_WITHIN_MILES, Condition::SourceWithin),
        flag(&OfRule::ALL_YEAR).then_some(Condition::AllYear),
        limit(&OfRule::FIRST_ENGINE_PUMP, Condition::FirstEnginePump),
    ]
    .into_iter()
    .flatten()
    .collect();
    let name = entry.get(&OfRule::NAME).to_owned();
    GradingRule {
        class: Class::Own(name.clone()),
        key: name.into(),
        minimum_gpm: entry.get(&OfRule::FLOW),
        within_min: entry.get(&OfRule::START_WITHIN),
        higher_within_min: entry.get(&OfRule::HIGHER_WITHIN),
        duration_min: entry.get(&OfRule::MINUTES),
        own_only: flag(&OfRule::OWN_APPARATUS),
        travels_by_rule: false,
        conditions: conditions.into(),
        sealed_counts_whole: flag(&OfRule::SEALED_COUNTS_WHOLE)
            .then_some("the scenario's own rule"),
        source: entry
            .get(&OfRule::SOURCE)
            .map(str::to_owned)
            .unwrap_or_else(|| "the scenario's own rule".to_owned())
            .into(),
        edition: entry.get(&OfRule::EDITION).map(str::to_owned).map(Into::into),
        seen: Seen::OfTheFile,
    }
}
