//! While a long answer is being worked out: what is known so far and a progress bar for a person, and Ctrl-C or
//! another signal to end.

use std::io::IsTerminal;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use answers::Reader;
use answers::question::so_far;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use shuttle_report::batch::Control;
use shuttle_report::units::Units;

/// What is known so far holds no quantity with a unit, and no tanker.
const NO_UNITS: Reader = Reader { units: Units::Us, tender: false };

/// A control that Ctrl-C stops, or the signals to terminate and to hang up: the first one ends with the results so
/// far, a second one at once.
pub fn control() -> Arc<Control> {
    let control = Arc::new(Control::default());
    let seen = Arc::clone(&control);
    // Without a handler a signal simply ends the program, which is acceptable.
    let _ = ctrlc::set_handler(move || {
        if seen.stop.swap(true, Ordering::Relaxed) {
            std::process::exit(130);
        }
    });
    control
}

/// Does the work while showing how far it is, if a person is watching standard error.
pub fn with_progress<T>(control: &Control, expected: u64, work: impl FnOnce() -> T) -> T {
    if !std::io::stderr().is_terminal() {
        return work();
    }
    let bar = ProgressBar::with_draw_target(Some(expected), ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template(
        "{msg}{bar:40} {human_pos} of {human_len} simulated fires, {eta} to go",
    ) {
        bar.set_style(style);
    }
    let ended = AtomicBool::new(false);
    std::thread::scope(|scope| {
        let watch = || {
            while !ended.load(Ordering::Relaxed) {
                bar.set_position(control.done.load(Ordering::Relaxed).min(expected));
                if let Some(plan) = control.as_it_stands.get() {
                    bar.set_message(format!("{}\n", NO_UNITS.put(&so_far(*plan))));
                }
                std::thread::park_timeout(Duration::from_millis(50));
            }
            bar.finish_and_clear();
        };
        // Where the system refuses another thread, nobody watches.
        let _ = std::thread::Builder::new().spawn_scoped(scope, watch);
        let _ends = EndsWatch(&ended);
        work()
    })
}

/// Ends the watch also when the work panics.
struct EndsWatch<'a>(&'a AtomicBool);

impl Drop for EndsWatch<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}
