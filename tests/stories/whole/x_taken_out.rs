//! A tanker taken out on purpose: a drill's loss or breakdown played back.

use crate::common::telling::Telling;
use crate::common::world::World;
use shuttle_sim::{Luck, Shuttle};

/// T1(2000) 0:05 -> [3000] => E 100 gpm; five minutes each way, fills in two.
fn taken_out(from: f64, minutes: Option<f64>) -> Telling {
    let plan = World::new().attack_flow(100.0).tanker("T1", 2000.0, 5.0).watched(33.0).plan();
    let mut shuttle = Shuttle::new(&plan);
    shuttle.take_out(0, from, minutes);
    // The second run, so that what the first has used up is there again.
    shuttle.run(Luck::Planned);
    let (result, trace) = shuttle.run_traced(Luck::Planned);
    Telling::new(&plan, result, trace)
}

#[test]
fn x01_it_still_delivers_the_load_it_has() {
    let told = taken_out(3.0, None);
    assert_eq!(told.tanker("T1"), "T1 comes 0:05 | dump -0:07 | out of service ...");
    assert_eq!(told.result.tankers[0].trips, 1);
}

#[test]
fn x02_one_that_comes_empty_to_the_fill_site_stays_there() {
    let told = taken_out(10.0, None);
    assert_eq!(told.tanker("T1"), "T1 comes 0:05 | dump -0:07 | out -0:12 | out of service ...");
}

#[test]
fn x03_one_that_is_filling_brings_that_load() {
    let told = taken_out(13.0, None);
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:05 | dump -0:07 | out -0:12 | fill -0:14 | back -0:19 | dump -0:21 | out of service ..."
    );
}

#[test]
fn x04_for_a_time_it_is_out_once() {
    let told = taken_out(3.0, Some(10.0));
    assert_eq!(
        told.tanker("T1"),
        "T1 comes 0:05 | dump -0:07 | repair -0:17 | out -0:22 | fill -0:24 | back -0:29 | dump -0:31 | out ..."
    );
}

#[test]
fn x05_what_comes_after_the_watch_changes_no_bit() {
    let plan = World::new().attack_flow(100.0).tanker("T1", 2000.0, 5.0).plan();
    let whole = Shuttle::new(&plan).run_traced(Luck::Planned);
    let mut shuttle = Shuttle::new(&plan);
    shuttle.take_out(0, 10_000.0, None);
    assert_eq!(shuttle.run_traced(Luck::Planned), whole);
}
