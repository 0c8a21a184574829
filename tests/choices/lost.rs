//! What a loss does to a plan.

use shuttle_report::batch::Control;
use shuttle_report::departments::Department;
use shuttle_report::fleet_size::Verdict as Side;
use shuttle_report::losses::{Kind, LossAnswer, Lost, Stands, losses, what_a_loss_does};
use shuttle_sim::{Brought, DraftLimitReason, Plan, TimeTaken};

use super::common::world::World;
use super::luck;

/// Everything takes a fixed time: a tanker of 1,000 gal that fills in 1 minute, dumps in 1, and
/// drives 5 out and 5 back brings 1,000 gal each 12 minutes: 83.3 gpm.
pub(super) fn fixed_world(tankers: usize, gpm: f64) -> World {
    let with_one = |world: World, place| world.tanker(&format!("Tanker {place}"), 1000.0, 0.0);
    let world = World::new().watched(60.0).attack_flow(gpm).throttling();
    // Two positions at each end, so that nobody waits.
    let world = world.pond(|site| {
        site.positions = 5;
        site.flow = 5000.0;
    });
    let world = world.first_tank(|tank| {
        tank.dump_positions = 5;
        tank.capacity = 8000.0;
    });
    (1..=tankers).fold(world, with_one)
}

#[test]
fn a_plan_stands_the_loss_of_a_tanker_when_the_others_make_the_flow() {
    // First loads 3,000 gal, engine 1,000 gal; from then on 83.3 gpm a tanker (fixed times, by hand).
    // Three make 250 gpm; two 167 gpm: over an hour 240 gpm want 14,400 gal, and two bring 1,000 (engine)
    // + 2,000 + 2 x 1,000 x (60 - 1) / 12 = at most 12,800.
    let stands = |gpm| {
        let plan = fixed_world(3, gpm).plan();
        let found = what_a_loss_does(&plan, &[], 0.05, 2000, luck(1), &Control::default());
        let tanker = found.losses.iter().find(|row| row.kind == Some(Kind::Tanker));
        (tanker.expect("a tanker can be lost").verdict, found)
    };
    let (verdict, found) = stands(240.0);
    assert_eq!(verdict, Side::Above);
    assert_eq!(found.stands, Stands::NotAnyOne);
    let (verdict, found) = stands(150.0);
    assert_eq!(verdict, Side::Below);
    // Still not: the only fill site and the only drop tank.
    assert_eq!(found.stands, Stands::NotAnyOne);
    assert_eq!(found.losses[0].kind, Some(Kind::DropTank));
    assert_eq!(found.losses[0].verdict, Side::CannotWork);
    // Three bring at most 1,000 + 3,000 + 3 x 1,000 x 59 / 12 = 18,750 gal of the 19,800 that 330 gpm want.
    let (_, found) = stands(330.0);
    assert_eq!(found.stands, Stands::NotEvenWhole);
    // With a second site, a second drop tank, and enough tankers it stands any one.
    let twice = fixed_world(3, 150.0)
        .fill_site_with("Hydrant", 5.0, 5.0, |site| {
            site.positions = 5;
            site.flow = 5000.0;
        })
        .drop_tank_with(8000.0, |tank| tank.dump_positions = 5)
        .plan();
    let found = what_a_loss_does(&twice, &[], 0.05, 2000, luck(1), &Control::default());
    assert_eq!(found.stands, Stands::AnyOne, "{found:?}");
}

#[test]
fn everything_is_lost_once_and_equal_tankers_count_as_one() {
    let plan = fixed_world(3, 150.0)
        .fill_site("Hydrant", 5.0, 5.0)
        .supply_engine(0.0, 2.0)
        .draft_limit(1000.0)
        .nursing()
        .plan();
    let all: Vec<Lost> = losses(&plan).into_iter().map(|loss| loss.lost).collect();
    let names = [["Tanker 1", "Tanker 2", "Tanker 3"].map(str::to_owned).to_vec()].to_vec();
    let (pond, hydrant) = (|| "Pond".to_owned(), || "Hydrant".to_owned());
    let expected = [
        Lost::OneTankerOf { names, drop_tanks: 0 },
        Lost::FillSite { name: pond() },
        Lost::HalfTheFlow { site: pond() },
        Lost::FillSite { name: hydrant() },
        Lost::HalfTheFlow { site: hydrant() },
        Lost::DropTank { place: 0, of: 1 },
        Lost::SupplyEngine { name: "Engine 2".to_owned(), drop_tanks: 0 },
    ];
    assert_eq!(all, expected);
    let lost = |plan: &Plan, kind| {
        let loss =
            losses(plan).into_iter().find(|loss| loss.lost.kind() == kind).expect("it is there");
        loss.plan.expect("it can work").facts().clone()
    };
    // Without the supply engine the attack engine drafts, with the same minutes to hook up.
    let facts = lost(&plan, Kind::SupplyEngine);
    assert!(facts.supply.engine.is_none() && facts.supply.setup == TimeTaken::Fixed(2.0));
    assert_eq!(facts.drop_tanks.len(), 1);
    // Over a lay it cannot: tankers can only nurse.
    let lay = plan.facts().clone();
    let lay =
        World::new().with(|draft| *draft = lay).limited_by(DraftLimitReason::Lay, 500.0).plan();
    let facts = lost(&lay, Kind::SupplyEngine);
    assert!(facts.drop_tanks.is_empty() && facts.supply.draft_limits.len() == 1);
    // Who was assigned to the lost site goes where he likes, to the other he still goes.
    let assigned = World::new()
        .with(|draft| *draft = plan.facts().clone())
        .with(|draft| {
            draft.tankers[0].fill_site = Some(0);
            draft.tankers[1].fill_site = Some(1);
        })
        .plan();
    let facts = lost(&assigned, Kind::FillSite);
    let sites: Vec<Option<usize>> = facts.tankers.iter().map(|tanker| tanker.fill_site).collect();
    assert_eq!(sites, [None, Some(0), None]);
    assert_eq!(facts.fill_sites[0].name, "Hydrant");
}

#[test]
fn equal_tankers_share_a_loss_wherever_they_are_listed() {
    let named = |names: &[(&str, f64)]| {
        let world = fixed_world(0, 150.0);
        names.iter().fold(world, |world, (name, gal)| world.tanker(name, *gal, 0.0)).plan()
    };
    // "A | C D" is one of A, C and D, of which the last two stand together; "+1" with a drop tank.
    let tankers = |plan: &Plan| -> Vec<String> {
        (losses(plan).into_iter())
            .filter_map(|loss| match loss.lost {
                Lost::OneTankerOf { names, drop_tanks } => {
                    let groups: Vec<String> = names.iter().map(|group| group.join(" ")).collect();
                    let tanks = if drop_tanks > 0 { format!(" +{drop_tanks}") } else { "".into() };
                    Some(format!("{}{tanks}", groups.join(" | ")))
                }
                _ => None,
            })
            .collect()
    };
    let (small, large) = (1000.0, 3000.0);
    let plan = named(&[("A", small), ("B", large), ("C", small)]);
    assert_eq!(tankers(&plan), ["A | C", "B"]);
    let rows = [
        ("A", small),
        ("B", large),
        ("C", small),
        ("D", small),
        ("E", large),
        ("F", large),
        ("G", small),
        ("H", 2000.0),
    ];
    assert_eq!(tankers(&named(&rows)), ["A | C D | G", "B | E F", "H"]);
    // One loss is of one of them; the other stays.
    let plan = losses(&plan).remove(0).plan.expect("it can work");
    let left: Vec<&str> = plan.facts().tankers.iter().map(|one| one.name.as_str()).collect();
    assert_eq!(left, ["B", "C"]);
    // One that brings a drop tank is like no other.
    let plan = World::new()
        .with(|draft| *draft = named(&[("A", small), ("B", large), ("C", small)]).facts().clone())
        .first_tank(|tank| tank.brought = Brought::ByTanker(2))
        .plan();
    assert_eq!(tankers(&plan), ["A", "B", "C +1"]);
}

#[test]
fn a_department_that_stays_home_is_one_loss_only_where_it_comes_whole() {
    // By hand as above: three of these tankers make 240 gpm, two do not. Of four any one can stay home, and two cannot.
    let plan = fixed_world(4, 240.0)
        .fill_site_with("Hydrant", 5.0, 5.0, |site| {
            site.positions = 5;
            site.flow = 5000.0;
        })
        .drop_tank_with(8000.0, |tank| tank.dump_positions = 5)
        .plan();
    let found = |tankers: &[&str], comes_whole: bool| {
        let tankers = tankers.iter().map(|name| (*name).to_owned()).collect();
        let department = Department { name: "Maple Ford".to_owned(), tankers, comes_whole };
        what_a_loss_does(&plan, &[department], 0.05, 2000, luck(1), &Control::default())
    };
    // One of the three is asked for elsewhere: this plan does not have it.
    let two = ["Tanker 2", "Tanker 4", "Tanker 7"];
    for (comes_whole, kind, stands) in [
        (true, Kind::WholeDepartment, Stands::NotAnyOne),
        (false, Kind::NamedDepartment, Stands::AnyOne),
    ] {
        let found = found(&two, comes_whole);
        assert_eq!(found.stands, stands, "{found:?}");
        let worst = &found.losses[0];
        let lost = Lost::Department {
            name: "Maple Ford".to_owned(),
            tankers: ["Tanker 2", "Tanker 4"].map(str::to_owned).to_vec(),
            comes_whole,
            drop_tanks: 0,
        };
        assert_eq!((worst.lost.as_ref(), worst.kind), (Some(&lost), Some(kind)));
        assert_eq!((worst.verdict, worst.interruption_probability), (Side::Above, 1.0));
    }
    // A single one is a tanker like any other, and with all at home no water comes.
    let is_told = |found: &LossAnswer| {
        found.losses.iter().find(|row| row.kind == Some(Kind::WholeDepartment)).cloned()
    };
    assert!(is_told(&found(&["Tanker 2", "Tanker 7"], true)).is_none());
    let all = ["Tanker 1", "Tanker 2", "Tanker 3", "Tanker 4"];
    let all = is_told(&found(&all, true)).expect("it is tried");
    assert_eq!(all.verdict, Side::CannotWork);
}
