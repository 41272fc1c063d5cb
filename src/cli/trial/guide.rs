//! The page on how to make a trial.

use serde::Serialize;

use crate::cli::screen::{CAUTION, Screen};
use crate::cli::told;
use crate::tell;
use crate::trial::guidance::{CLOSE, PAGE};

/// The page as text.
pub(super) fn page(screen: Screen) -> String {
    let title = screen.heading("How to make a sea trial");
    let page = format!("{title}\n{}", screen.blocks(&tell::trial::guide()));
    told::pages(&[page], &[], screen)
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
