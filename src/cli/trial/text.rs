//! What a trial tells, as text for a person.

use super::Trial;
use crate::cli::screen::Screen;
use crate::cli::told;
use crate::tell::trial as tell;

/// All of it.
pub(super) fn report(trial: &Trial, screen: Screen) -> String {
    let title = format!("{}, sea trial", trial.boat().name());
    let head = format!("{}\n{}", screen.heading(&title), screen.paragraph("", &origin(trial)));
    let outcome = trial.outcome.as_ref();
    let mut blocks = match outcome {
        Ok(outcome) => tell::all(&tell::TrialText {
            file: &trial.file.name,
            learned: &outcome.learned,
            calibrated: &outcome.calibrated,
            written: outcome.written.as_deref(),
            units: trial.units,
        }),
        Err(refusal) => tell::refused(refusal),
    };
    let learned = outcome.ok().map(|outcome| &outcome.learned);
    blocks.extend(tell::notes(&trial.log, &trial.pairing, learned));
    let charts = outcome.map_or(&[][..], |outcome| &outcome.charts);
    let page = told::page(&head, &blocks, &trial.file, charts, screen);
    told::pages(&[page], &[], screen)
}

fn origin(trial: &Trial) -> String {
    format!(
        "{}, CRC-32 {}, and {}, CRC-32 {}, by planewright {}",
        trial.log.name,
        trial.log.checksum,
        trial.file.name,
        trial.file.checksum(),
        env!("CARGO_PKG_VERSION")
    )
}
