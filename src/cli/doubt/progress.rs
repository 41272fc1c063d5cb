//! A bar on stderr for work that takes longer than a second.

use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::error::Appearance;

/// Time after which a person wonders whether anything is being done.
const PATIENCE: Duration = Duration::from_secs(1);

/// A bar that shows itself only after a while, and only on a terminal.
pub(in crate::cli) struct Bar {
    bar: ProgressBar,
    began: Instant,
    is_shown: AtomicBool,
}

impl Bar {
    /// A bar for so many draws.
    pub fn of(draws: u64) -> Self {
        Self::counting(draws, "boats drawn")
    }

    /// A bar for so many of these.
    pub fn counting(all: u64, of: &str) -> Self {
        let style = ProgressStyle::with_template(&format!("{{bar:40}} {{pos}} of {{len}} {of}"))
            .unwrap_or_else(|_| ProgressStyle::default_bar())
            .progress_chars("=> ");
        let bar = ProgressBar::with_draw_target(Some(all), ProgressDrawTarget::hidden());
        Self { bar: bar.with_style(style), began: Instant::now(), is_shown: AtomicBool::new(false) }
    }

    /// So many more are done.
    pub fn advance(&self, done: u64) {
        let is_late =
            self.began.elapsed() > PATIENCE && Appearance::of_stderr() != Appearance::Ascii;
        if is_late && !self.is_shown.swap(true, Ordering::Relaxed) {
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
        }
        self.bar.inc(done);
    }

    /// All are done; the bar goes.
    pub fn finish(&self) {
        self.bar.finish_and_clear();
    }
}
