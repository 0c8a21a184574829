//! Jobs on any number of threads, with their results merged in the order of the jobs.
//!
//! Jobs are taken in order by whichever thread is free, and each result waits until all before it are merged:
//! no floating-point sum depends on which thread was faster. When it is stopped the jobs already taken are
//! finished, so what is merged is always an unbroken beginning.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

use super::control::Control;

/// Does jobs 0 to `jobs` - 1.
///
/// - Given: `room`, what a thread makes once and reuses for its jobs; `work`, a job, whose result depends on
///   its number alone; `merge`, called with each result in the order of the jobs.
/// - Returns: the rooms, in no particular order.
pub(crate) fn in_order<Room: Send, Done: Send>(
    jobs: u64,
    threads: usize,
    control: &Control,
    room: impl Fn() -> Room + Sync,
    work: impl Fn(&mut Room, u64) -> Done + Sync,
    merge: impl FnMut(u64, Done) + Send,
) -> Vec<Room> {
    let next_job = AtomicU64::new(0);
    let merged = Mutex::new((0_u64, BTreeMap::<u64, Done>::new(), merge));
    let rooms = Mutex::new(Vec::new());
    let thread = || {
        let mut room = room();
        while !control.is_stopped() {
            let job = next_job.fetch_add(1, Ordering::Relaxed);
            if job >= jobs {
                break;
            }
            let done = work(&mut room, job);
            // A panic on another thread ends everything anyway when the threads are joined.
            let mut merged = merged.lock().unwrap_or_else(PoisonError::into_inner);
            let (next, waiting, merge) = &mut *merged;
            waiting.insert(job, done);
            while let Some(done) = waiting.remove(next) {
                merge(*next, done);
                *next += 1;
            }
        }
        rooms.lock().unwrap_or_else(PoisonError::into_inner).push(room);
    };
    let threads = threads.min(usize::try_from(jobs).unwrap_or(usize::MAX));
    if threads <= 1 {
        thread();
    } else {
        std::thread::scope(|scope| {
            // Where the system refuses a thread, those there are do the work: the results are the same.
            for _ in 1..threads {
                if std::thread::Builder::new().spawn_scoped(scope, thread).is_err() {
                    break;
                }
            }
            thread();
        });
    }
    rooms.into_inner().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_are_merged_in_the_order_of_the_jobs_on_any_number_of_threads() {
        for threads in [1, 2, 8] {
            let mut merged = Vec::new();
            let work = |_: &mut (), job: u64| {
                // The later of two jobs is done first.
                std::thread::sleep(std::time::Duration::from_micros(200 * (1 - job % 2)));
                job * job
            };
            in_order(
                50,
                threads,
                &Control::default(),
                || (),
                work,
                |job, done| {
                    merged.push((job, done));
                },
            );
            let expected: Vec<(u64, u64)> = (0..50).map(|job| (job, job * job)).collect();
            assert_eq!(merged, expected, "{threads} threads");
        }
    }

    #[test]
    fn what_is_merged_when_stopped_is_an_unbroken_beginning() {
        let control = Control::default();
        let mut merged = Vec::new();
        let work = |_: &mut (), job: u64| {
            if job == 20 {
                control.stop.store(true, Ordering::Relaxed);
            }
            job
        };
        in_order(1_000, 4, &control, || (), work, |job, _| merged.push(job));
        assert!(merged.len() > 20 && merged.len() < 1_000, "{}", merged.len());
        let expected: Vec<u64> = (0..merged.len() as u64).collect();
        assert_eq!(merged, expected);
    }
}
