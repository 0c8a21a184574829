//! What `lose` says at its edges: one, many, none, nothing simulated.

use shuttle_report::fleet_size::Verdict;
use shuttle_report::losses::{LossAnswer, LossRow, Lost, Stands};
use shuttle_report::options_compared::{Apart, Interval};
use shuttle_report::units::Units;

use super::told::told;
use crate::answer::{Block, Label, Told};
use crate::reader::Reader;
use crate::shared::in_tests::{self, starter};

const US: Reader = Reader { units: Units::Us, tender: false };

fn row(lost: Option<Lost>, share: f64, verdict: Verdict) -> LossRow {
    LossRow {
        kind: lost.as_ref().map(Lost::kind),
        higher_by: lost.as_ref().map(|_| Apart {
            by: share,
            ci_low: share - 0.01,
            ci_high: share + 0.01,
            interval: Interval::AllAtOnce,
        }),
        lost,
        replications: 1_000,
        interruption_probability: share,
        ci_low: share,
        ci_high: share,
        interrupted_minutes_mean: share,
        verdict,
    }
}

fn tanker(name: &str) -> Lost {
    Lost::OneTankerOf { names: vec![vec![name.to_owned()]], drop_tanks: 0 }
}

fn found(stands: Stands, whole: f64, losses: &[(&str, f64, Verdict)]) -> LossAnswer {
    LossAnswer {
        title: "Barn".to_owned(),
        target: 0.05,
        stands,
        whole: row(None, whole, Verdict::Below),
        losses: (losses.iter())
            .map(|(name, share, verdict)| row(Some(tanker(name)), *share, *verdict))
            .collect(),
        seed: 1,
        ended_early: false,
    }
}

fn said(found: &LossAnswer) -> Told {
    told(&starter(), found)
}

fn point(told: &Told, wanted: Label) -> Option<String> {
    in_tests::point(told, wanted, &US)
}

#[test]
fn what_breaks_the_plan_is_named_one_or_several_or_the_first_of_many() {
    let names = ["Tanker 3,000 gal", "B", "C", "D", "E", "F", "12"];
    let of = |count: usize| {
        let losses: Vec<_> =
            names[..count].iter().map(|name| (*name, 0.6, Verdict::Above)).collect();
        US.put(&said(&found(Stands::NotAnyOne, 0.0, &losses)).verdict)
    };
    let rest = "the lines run short in more than 5% of fires. With everything in service: none of 1,000 \
                fires.";
    assert_eq!(of(1), format!("The plan can't lose Tanker 3,000 gal: without it {rest}"));
    let each = "without any one of them";
    assert_eq!(of(2), format!("The plan can't lose Tanker 3,000 gal; or B: {each} {rest}"));
    assert_eq!(
        of(7),
        format!("The plan can't lose Tanker 3,000 gal; B; C; D; E; or two more: {each} {rest}")
    );
}

#[test]
fn what_can_be_spared_is_told_where_not_all_can() {
    let losses = [("A", 0.6, Verdict::Above), ("B", 0.001, Verdict::Below)];
    let told = said(&found(Stands::NotAnyOne, 0.0, &losses));
    assert_eq!(point(&told, Label::Spare).as_deref(), Some("it can lose B."));
    assert_eq!(point(&told, Label::Fails), None, "the verdict names it");
    let told = said(&found(Stands::AnyOne, 0.0, &losses[1..]));
    assert_eq!(point(&told, Label::Spare), None);
    let worst = "worst to lose is B: then the lines run short in 1 fire of 1,000.";
    assert_eq!(point(&told, Label::Fails).as_deref(), Some(worst));
}

/// Where the lines run short in every fire anyway, a loss can only make it longer: that is harm.
#[test]
fn more_minutes_short_are_harm_where_it_cannot_be_more_often() {
    let mut found =
        found(Stands::NotEvenWhole, 1.0, &[("A", 1.0, Verdict::Above), ("B", 1.0, Verdict::Above)]);
    found.whole.interrupted_minutes_mean = 60.0;
    for (row, minutes) in found.losses.iter_mut().zip([107.0, 60.2]) {
        row.higher_by =
            Some(Apart { by: 0.0, ci_low: 0.0, ci_high: 0.0, interval: Interval::AllAtOnce });
        row.interrupted_minutes_mean = minutes;
    }
    let told = said(&found);
    let worst = "worst to lose is A: then the lines are short for 107 minutes a fire, with everything for \
                 60.0.";
    assert_eq!(point(&told, Label::Fails).as_deref(), Some(worst));
    // Dry without B as with it: that is no proof that B can be spared.
    assert_eq!(point(&told, Label::Spare), None);
}

#[test]
fn where_no_fire_was_simulated_there_is_nothing_to_say() {
    let mut found = found(Stands::NotClear, 0.0, &[("A", 0.0, Verdict::NotClear)]);
    found.whole.replications = 0;
    let told = said(&found);
    assert_eq!(
        US.put(&told.verdict),
        "Ended before the first fires were simulated: nothing to say."
    );
    assert!(told.points.is_empty() && told.more.is_empty() && told.small_print.is_empty());
}

/// Rows that are equal to the last digit look like a slip where nobody says why.
#[test]
fn equal_losses_are_told_as_such() {
    let losses = [
        ("A", 0.30, Verdict::Above),
        ("B", 0.20, Verdict::Above),
        ("C", 0.20, Verdict::Above),
        ("D", 0.02, Verdict::Below),
    ];
    let mut found = found(Stands::NotAnyOne, 0.02, &losses);
    found.losses[3].higher_by =
        Some(Apart { by: 0.0, ci_low: 0.0, ci_high: 0.0, interval: Interval::AllAtOnce });
    let told = said(&found);
    let feet = told.points.iter().find_map(|block| match block {
        Block::Table(table) => Some(table.feet.iter().map(|foot| US.put(foot)).collect::<Vec<_>>()),
        _ => None,
    });
    let feet = feet.expect("a table").join(" ");
    assert!(feet.contains("Equal are B and C: on the same luck one is missed as much"), "{feet}");
    assert!(feet.contains("Without D no fire is short that was not short with it."), "{feet}");
    assert!(!feet.contains("A and") && !feet.contains("every fire is short"), "{feet}");
    for loss in &mut found.losses[..2] {
        loss.interruption_probability = 1.0;
    }
    let told = said(&found);
    let says = told.points.iter().any(|block| {
        matches!(block, Block::Table(table) if table.feet.iter().any(|foot| {
            US.put(foot).starts_with("Of losses with which every fire is short, the minutes short")
        }))
    });
    assert!(says, "rows of 100 are told apart");
}

/// A mark that says "missed" where an interval reaches the plan's own line would say more than the fires do.
#[test]
fn what_a_failing_plan_misses_only_in_minutes_is_marked_so() {
    use super::pictures::kind_of;
    use shuttle_report::chart::chances::Kind;

    let names = ["oftener", "longer", "unmissed"];
    let losses = names.map(|name| (name, 0.5, Verdict::Above));
    let mut found = found(Stands::NotEvenWhole, 0.4, &losses);
    found.whole.interrupted_minutes_mean = 4.0;
    for (row, (low, minutes)) in
        found.losses.iter_mut().zip([(0.02, 9.0), (-0.01, 6.0), (-0.01, 4.0)])
    {
        row.higher_by =
            Some(Apart { by: 0.03, ci_low: low, ci_high: 0.08, interval: Interval::AllAtOnce });
        row.interrupted_minutes_mean = minutes;
    }
    let kinds: Vec<Kind> = found.losses.iter().map(|row| kind_of(row, &found)).collect();
    assert_eq!(kinds, [Kind::LostAndMissed, Kind::LostAndLonger, Kind::LostAndNotMissed]);
}
