//! While a long answer is being worked out: a progress bar for a person, and Ctrl-C.

use std::io::IsTerminal;
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use shuttle_report::batch::Control;

/// A control that Ctrl-C stops: the first one ends with the results so far, a second one at once.
pub fn control() -> Arc<Control> {
    let control = Arc::new(Control::default());
    let seen = Arc::clone(&control);
    // Without a handler Ctrl-C simply ends the program, which is acceptable.
    let _ = ctrlc::set_handler(move || {
        if seen.stop.swap(true, Ordering::Relaxed) {
            std::process::exit(130);
        }
    });
    control
}

/// Does the work while showing how far it is, if a person is watching standard error.
pub fn with_progress<T: Send>(
    control: &Control,
    expected: u64,
    work: impl FnOnce() -> T + Send,
) -> T {
    if !std::io::stderr().is_terminal() {
        return work();
    }
    let bar = ProgressBar::with_draw_target(Some(expected), ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template(
        "{bar:40} {human_pos} of {human_len} simulated fires, {eta} to go",
    ) {
        bar.set_style(style);
    }
    std::thread::scope(|scope| {
        let working = scope.spawn(work);
        while !working.is_finished() {
            bar.set_position(control.done.load(Ordering::Relaxed).min(expected));
            std::thread::sleep(Duration::from_millis(50));
        }
        bar.finish_and_clear();
        working.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))
    })
}
