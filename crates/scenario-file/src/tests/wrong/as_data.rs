//! Mistakes as data: what kind each is, what it is about, its figures; and how a page is told of it.

use fireground::told::Unit;

use crate::tests::{changed, mistakes};
use crate::{Before, Figure, MistakeKind};

#[test]
fn a_mistake_says_its_kind_what_it_is_about_and_its_figures() {
    let gal = |value| Figure::Of(value, Unit::Gallons);
    let rows = [
        (
            "\"waste\": 0.05",
            "\"waste\": 5",
            MistakeKind::OutOfRange,
            "Tanker 3",
            vec![Figure::Share(5.0)],
        ),
        ("\"unusable\": 200", "\"unusabel\": 200", MistakeKind::UnknownKey, "drop tank 1", vec![]),
        ("\"nurse\": true", "\"nurse\": \"yes\"", MistakeKind::WrongType, "the supply", vec![]),
        ("\"setup\": 5}", "\"setup\": \"5 gal\"}", MistakeKind::WrongUnit, "Engine 8", vec![]),
        (
            "\"reserve\": 500",
            "\"reserve\": 1500",
            MistakeKind::Conflict,
            "the incident",
            vec![gal(1500.0)],
        ),
        (
            "\"count\": 2",
            "\"count\": 2.5",
            MistakeKind::BadNumber,
            "Aid tanker",
            vec![Figure::Plain(2.5)],
        ),
        (
            "\"fill_site\": \"Quarry pond\"",
            "\"fill_site\": \"Otter\"",
            MistakeKind::NoSuchName,
            "Aid tanker",
            vec![],
        ),
        (
            "\"miles\": 2.4, \"mph\": 35",
            "\"mph\": 35",
            MistakeKind::Missing,
            "Quarry pond, the way out",
            vec![],
        ),
    ];
    for (from, to, kind, about, figures) in rows {
        let found = mistakes(&changed(from, to));
        let one = &found[0];
        let got = (one.kind, one.subject.in_file(), one.problem.figures());
        assert_eq!(got, (kind, about.to_owned(), figures), "{to}: {one}");
    }
}

#[test]
fn the_limit_of_a_value_is_data_too() {
    // 400 gal to 12,000 gal is no limit, only a doubt: the limits are those of the plan.
    let found = mistakes(&changed("\"capacity\": 1800", "\"capacity\": 3"));
    let limits = shuttle_sim::Plan::LIMITS.capacity;
    let ends = [limits.0, limits.1].map(|end| match end {
        std::ops::Bound::Included(end) | std::ops::Bound::Excluded(end) => {
            Figure::Of(end, Unit::Gallons)
        }
        std::ops::Bound::Unbounded => panic!("tanks have limits"),
    });
    assert_eq!(found[0].limit.as_ref().unwrap().figures(), ends);
}

#[test]
fn a_page_is_told_the_same_without_the_file() {
    let page = Before::Page { tender: true };
    let rows = [
        (
            "\"unusable\": 200",
            "\"unusabel\": 200",
            "a drop tank has no unusabel",
            "a field with a similar name exists: unusable",
        ),
        ("\"waste\": 0.05", "\"waste\": 5", "5 is out of range", "a share, not a percentage: 0.05"),
        ("\"capacity\": 1800", "\"tank\": 1800", "a tender needs capacity", "state it: Its tank."),
        ("\"nurse\": true", "\"nurse\": \"yes\"", "text does not belong here", "state yes or no"),
        (
            "\"tolerance\": 0.1",
            "\"tolerance\": null",
            "an empty value does not belong here",
            "leave it empty where there is nothing to say",
        ),
    ];
    for (from, to, problem, cure) in rows {
        let found = mistakes(&changed(from, to));
        let is_it = |one: &&crate::FileMistake| one.problem.to(page) == problem;
        let one = found.iter().find(is_it).unwrap_or_else(|| panic!("{to}: {found:#?}"));
        assert_eq!(one.cure.to(page), cure, "{to}");
    }
}

/// Names are the file's own, whatever they hold.
#[test]
fn a_name_is_told_letter_by_letter() {
    let text =
        changed("\"fill_site\": \"Quarry pond\"", "\"fill_site\": \"`old_tanker` {tanker}\"");
    let one = &mistakes(&text)[0];
    for before in [Before::File, Before::Page { tender: true }] {
        let told = one.problem.to(before);
        assert_eq!(told, "there is no fill site called \"`old_tanker` {tanker}\"");
    }
}
