//! Who comes beyond the file's plan, and who or what is left out.

use serde_json::Value as Json;

use super::changes::{Ask, AskedChange, Gone};
use super::document::Document;
use crate::by_name::entries::{
    NamedList, Thing, list_of, listed, members, named, names_of, tanker_name, thing,
};
use crate::errors::asked_mistakes::AskedMistake;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, quoted, says, whole_name};
use crate::errors::similar_words::nearest;
use crate::format::fire::incident_and_supply::{OfSupply, OfSupplyEngine};
use crate::format::haul::drop_tanks::OfDropTank;
use crate::format::haul::fill_sites::{OfFillSite, OfSourcePump};
use crate::format::haul::roads::OfOneLane;
use crate::format::haul::tankers::OfTanker;
use crate::format::whole_files::OfScenario;
use crate::read::plan_draft::draft_of;
use crate::read::reader::differ_in_number;
use crate::structure::entry::Entry;
use crate::structure::sound_text::scenario_structure;

const SUPPLY: &str = OfScenario::SUPPLY.key();

/// Longer than any watch: the greatest time that a plan may state, minutes.
const NEVER: f64 = match shuttle_sim::Plan::LIMITS.minutes.1 {
    std::ops::Bound::Included(most) | std::ops::Bound::Excluded(most) => most,
    std::ops::Bound::Unbounded => f64::MAX,
};

impl Document {
    /// A unit of the aid joins.
    pub(super) fn join(&mut self, ask: Ask<'_>, number: usize, name: &str) {
        match thing(&self.json, name) {
            Some(Thing::Entry { list: NamedList::Aid, place, member }) => {
                let place = match member {
                    Some(member) => self.spelled_out(NamedList::Aid, place, member),
                    None => place,
                };
                let names = self.move_to_tankers(place, number);
                self.changes.push((number, AskedChange::With(names)));
            }
            Some(_) => {
                let problem = "it comes anyway: only units of the file's `aid` can join".into();
                let cure = self.name_an_aid_unit();
                self.wrong(ask, MistakeKind::NoSuchChange, problem, cure);
            }
            None => {
                let problem = says!["no aid is called ", quoted(name)];
                let aid =
                    self.names(|thing| matches!(thing, Thing::Entry { list: NamedList::Aid, .. }));
                let cure = nearest_cure(name, &aid).unwrap_or_else(|| self.name_an_aid_unit());
                self.wrong(ask, MistakeKind::NoSuchName, problem, cure);
            }
        }
    }

    /// All aid joins.
    pub(super) fn join_all(&mut self, ask: Ask<'_>, number: usize) {
        let mut names = Vec::new();
        while !list_of(&self.json, NamedList::Aid).is_empty() {
            names.extend(self.move_to_tankers(0, number));
        }
        let others_joined = self.changes.iter().any(|(_, one)| matches!(one, AskedChange::With(_)));
        if names.is_empty() && !others_joined {
            let cure = self.name_an_aid_unit();
            self.wrong(ask, MistakeKind::NoSuchName, "the file lists no aid".into(), cure);
            return;
        }
        self.changes.push((number, AskedChange::With(names)));
    }

    fn move_to_tankers(&mut self, place: usize, number: usize) -> Vec<String> {
        let names = members(&self.json, NamedList::Aid, place);
        let one = self.take(NamedList::Aid, place);
        self.touched.push((one.1.clone(), number));
        self.put(NamedList::Tankers, None, one);
        names
    }

    fn name_an_aid_unit(&self) -> Message {
        let aid = self.names(|thing| matches!(thing, Thing::Entry { list: NamedList::Aid, .. }));
        if aid.is_empty() {
            "list those who could be asked for in `aid`".into()
        } else {
            says!["name one of ", listed(&aid)]
        }
    }

    /// Something is left out, with what it brings.
    ///
    /// - Given: `there`, everything that was there before anything was left out.
    pub(super) fn leave_out(
        &mut self,
        ask: Ask<'_>,
        number: usize,
        name: &str,
        there: &[(String, Thing)],
    ) {
        let goes_too = match thing(&self.json, name) {
            Some(Thing::Entry { list, place, member }) if list.hauls() => {
                self.leave_out_tanker(number, list, place, member)
            }
            Some(Thing::Entry { list: NamedList::FillSites, place, .. }) => {
                self.leave_out_fill_site(number, place)
            }
            Some(Thing::Entry { list, place, .. }) => {
                let (_, origin) = self.take(list, place);
                self.touched.push((origin, number));
                self.touch(list.key(), number);
                if place == 0 {
                    self.fit_restart_level();
                }
                Vec::new()
            }
            Some(Thing::SourcePump(site)) => {
                self.keep_pump_away(number, site);
                Vec::new()
            }
            Some(Thing::SupplyEngine) => self.leave_out_supply_engine(number, name),
            Some(Thing::AttackEngine) => {
                let problem = "it is the attack engine, whose lines are asked about".into();
                let cure = "leave out a {tanker}, a source or a drop tank".into();
                self.wrong(ask, MistakeKind::NoSuchChange, problem, cure);
                return;
            }
            // It went with something else.
            None if there.iter().any(|(known, _)| known == name) => Vec::new(),
            None => {
                let names: Vec<String> = there.iter().map(|(name, _)| name.clone()).collect();
                let problem = says!["no unit, source or drop tank is called ", quoted(name)];
                let cure = nearest_cure(name, &names)
                    .unwrap_or_else(|| says!["name one of ", listed(&names)]);
                self.wrong(ask, MistakeKind::NoSuchName, problem, cure);
                return;
            }
        };
        self.changes.push((number, AskedChange::Without { name: name.to_owned(), goes_too }));
    }

    fn leave_out_tanker(
        &mut self,
        number: usize,
        list: NamedList,
        place: usize,
        member: Option<u64>,
    ) -> Vec<Gone> {
        let (place, names) = match member {
            Some(member) if self.is_group(list, place) => {
                let place = self.spelled_out(list, place, member);
                (place, vec![tanker_name(&self.json, list, place)])
            }
            _ => (place, members(&self.json, list, place)),
        };
        self.keep_as_often(&names);
        let (_, origin) = self.take(list, place);
        self.touched.push((origin, number));
        self.touch(list.key(), number);
        self.leave_out_drop_tanks_of(number, &names)
    }

    /// What is left of a department that comes whole comes no more often without the one that comes least: a truck that is
    /// missed makes no crew surer.
    fn keep_as_often(&mut self, names: &[String]) {
        let text = self.json.to_string();
        let Ok(structure) = scenario_structure(std::path::Path::new(""), &text) else { return };
        if !structure.findings.is_empty() {
            return;
        }
        let draft = draft_of(&Entry::root(&structure.root), self.units).draft;
        let leaves = draft.tankers.into_iter().find(|tanker| names.contains(&tanker.name));
        let Some(leaves) = leaves else { return };
        let Some(department) = leaves.comes_with else { return };
        for list in [NamedList::Tankers, NamedList::Aid] {
            let entries = self.json[list.key()].as_array_mut().into_iter().flatten();
            let of_it = entries.filter(|one| one[OfTanker::DEPARTMENT.key()] == *department);
            for one in of_it {
                one[OfTanker::TURNOUT.key()] = leaves.call.turnout.into();
                one[OfTanker::COMES_WHOLE.key()] = true.into();
            }
        }
    }

    fn leave_out_drop_tanks_of(&mut self, number: usize, names: &[String]) -> Vec<Gone> {
        let brought = |tank: &Json| {
            let by = tank.get(OfDropTank::BROUGHT_BY.key()).and_then(Json::as_str);
            by.is_some_and(|by| names.iter().any(|name| name == by))
        };
        let mut gone = self.leave_out_pumps_of(number, names);
        let mut first_went = false;
        while let Some(place) = list_of(&self.json, NamedList::DropTanks).iter().position(brought) {
            first_went |= place == 0;
            let (_, origin) = self.take(NamedList::DropTanks, place);
            self.touched.push((origin, number));
            gone.push(Gone::DropTank);
        }
        if first_went {
            self.fit_restart_level();
        }
        gone
    }

    fn leave_out_pumps_of(&mut self, number: usize, names: &[String]) -> Vec<Gone> {
        let mut gone = Vec::new();
        for place in 0..list_of(&self.json, NamedList::FillSites).len() {
            let by = list_of(&self.json, NamedList::FillSites)[place]
                [OfFillSite::SOURCE_PUMP.key()][OfSourcePump::BROUGHT_BY.key()]
            .as_str();
            if by.is_some_and(|by| names.iter().any(|name| name == by)) {
                let site = names_of(&self.json, NamedList::FillSites, place).remove(0);
                self.keep_pump_away(number, place);
                gone.push(Gone::PumpAt(site));
            }
        }
        gone
    }

    /// The pump of a fill site never comes: the site serves nobody but those who fill themselves.
    fn keep_pump_away(&mut self, number: usize, site: usize) {
        self.touch(&format!("{}[{site}]", NamedList::FillSites.key()), number);
        let Some(pump) = self.json[NamedList::FillSites.key()][site][OfFillSite::SOURCE_PUMP.key()]
            .as_object_mut()
        else {
            return;
        };
        let stay = [OfSourcePump::NAME.key(), OfSourcePump::SETUP.key()];
        pump.retain(|key, _| stay.contains(&key.as_str()));
        pump.insert(OfSourcePump::RESPONSE.key().to_owned(), NEVER.into());
    }

    /// Drivers know that it is out of service and go elsewhere; if it is the only one they find no water there.
    fn leave_out_fill_site(&mut self, number: usize, place: usize) -> Vec<Gone> {
        let name = names_of(&self.json, NamedList::FillSites, place).remove(0);
        self.touch(&format!("{}[{place}]", NamedList::FillSites.key()), number);
        if list_of(&self.json, NamedList::FillSites).len() == 1 {
            if let Some(site) = self.json[NamedList::FillSites.key()][place].as_object_mut() {
                let go = [OfFillSite::SOURCE_PUMP.key(), OfFillSite::SELF_FILL.key()];
                site.retain(|key, _| !go.contains(&key.as_str()));
                site.insert(OfFillSite::READY.key().to_owned(), NEVER.into());
            }
            return Vec::new();
        }
        self.take(NamedList::FillSites, place);
        let mut gone = Vec::new();
        for list in NamedList::HAULING {
            for place in 0..list_of(&self.json, list).len() {
                let names = members(&self.json, list, place);
                let tanker = self.json[list.key()][place].as_object_mut();
                let assigned = tanker.and_then(|tanker| {
                    let key = OfTanker::FILL_SITE.key();
                    let is_assigned = tanker.get(key).and_then(Json::as_str) == Some(&name);
                    is_assigned.then(|| tanker.shift_remove(key))
                });
                if assigned.is_some() {
                    gone.extend(names.into_iter().map(Gone::AssignmentOf));
                }
            }
        }
        let is_near =
            |lane: &Json| lane.get(OfOneLane::NEAR.key()).and_then(Json::as_str) == Some(&name);
        if self.json.get(NamedList::OneLane.key()).is_some_and(is_near) {
            self.json.as_object_mut().map(|root| root.shift_remove(NamedList::OneLane.key()));
            gone.push(Gone::OneLane);
        }
        while let Some(lane) = list_of(&self.json, NamedList::OneLane).iter().position(is_near) {
            self.take(NamedList::OneLane, lane);
            gone.push(Gone::OneLane);
        }
        gone
    }

    /// The attack engine drafts itself, with the supply engine's time to hook up. Where a lay lies between them
    /// it stands too far from the drop tanks for that.
    fn leave_out_supply_engine(&mut self, number: usize, name: &str) -> Vec<Gone> {
        self.touch(&format!("{SUPPLY}.{}", OfSupply::ENGINE.key()), number);
        let mut gone = self.leave_out_drop_tanks_of(number, &[name.to_owned()]);
        let Some(supply) = self.json.get_mut(SUPPLY).and_then(Json::as_object_mut) else {
            return gone;
        };
        let engine = supply.shift_remove(OfSupply::ENGINE.key());
        if let Some(setup) =
            engine.as_ref().and_then(|engine| engine.get(OfSupplyEngine::SETUP.key()))
        {
            supply.insert(OfSupply::SETUP.key().to_owned(), setup.clone());
        }
        let lay = supply.shift_remove(OfSupply::LAY.key()).filter(Json::is_object);
        if lay.is_some() && !list_of(&self.json, NamedList::DropTanks).is_empty() {
            while !list_of(&self.json, NamedList::DropTanks).is_empty() {
                self.take(NamedList::DropTanks, 0);
            }
            gone = vec![Gone::AllDropTanks];
        }
        gone
    }

    /// Where another drop tank has become the first one, the level at which the pump draws again may lie beyond
    /// what it can offer: then the pump draws at its top, or a gallon above its unusable water.
    fn fit_restart_level(&mut self) {
        let text = self.json.to_string();
        let Ok(structure) = scenario_structure(std::path::Path::new(""), &text) else { return };
        if !structure.findings.is_empty() {
            return;
        }
        let mut draft = draft_of(&Entry::root(&structure.root), self.units).draft;
        let stated = draft.supply.restart_level;
        shuttle_report::variation::fit_restart_level(&mut draft);
        if let (Some(level), true) =
            (draft.supply.restart_level, draft.supply.restart_level != stated)
        {
            self.json[SUPPLY][OfSupply::RESTART_LEVEL.key()] = format!("{level} gal").into();
        }
    }

    fn names(&self, which: impl Fn(&Thing) -> bool) -> Vec<String> {
        let all = named(&self.json).into_iter().filter(|(_, thing)| which(thing));
        all.map(|(name, _)| name).collect()
    }

    fn wrong(&mut self, ask: Ask<'_>, kind: MistakeKind, problem: Message, cure: Message) {
        let argument = ask.argument();
        self.mistakes.push(AskedMistake { argument, kind, problem, limit: None, cure });
    }
}

/// The known name that was likely meant; a name told apart by its number alone was not.
fn nearest_cure(name: &str, known: &[String]) -> Option<Message> {
    nearest(name, known.iter().map(String::as_str))
        .filter(|near| !differ_in_number(name, near))
        .map(|near| says!["a similar name is there: ", whole_name(near)])
}
