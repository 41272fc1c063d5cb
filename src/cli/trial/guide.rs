//! The page on how to make a trial.

use serde::Serialize;

use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::trial::guidance::{CLOSE, PAGE};

/// The page as text.
pub(super) fn page(screen: Screen) -> String {
    let mut text = format!("{}\n", screen.heading("How to make a sea trial"));
    for (title, sentences) in PAGE {
        text.push_str(&format!("\n{}\n", screen.heading(title)));
        for sentence in *sentences {
            text.push_str(&paragraph("  - ", sentence));
        }
    }
    text.push('\n');
    text.push_str(&paragraph("", CLOSE));
    text.push('\n');
    text.push_str(&paragraph("", CAUTION));
    text
}

/// The page as JSON.
#[derive(Serialize)]
pub(super) struct Record {
    program: &'static str,
    version: &'static str,
    guidance: Vec<Section>,
    source: &'static str,
    caution: &'static str,
}

#[derive(Serialize)]
struct Section {
    title: &'static str,
    sentences: &'static [&'static str],
}

pub(super) fn record() -> Record {
    let section = |&(title, sentences): &(&'static str, &'static [&'static str])| Section {
        title,
        sentences,
    };
    Record {
        program: env!("CARGO_PKG_NAME"),
        version: env!("CARGO_PKG_VERSION"),
        guidance: PAGE.iter().map(section).collect(),
        source: CLOSE,
        caution: CAUTION,
    }
}
