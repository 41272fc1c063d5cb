//! What is on the shelf, in order for the boat.

pub(super) mod json;

use std::path::Path;

use super::super::doubt::progress::Bar;
use super::super::{Failure, shelf};
use crate::balance::Settings;
use crate::boat::Boat;
use crate::doubt::Drawn;
use crate::stock::{Shelf, assess, rank_for};

/// A stock list ranked for the boat; a long one takes its time, which a bar shows.
pub(super) fn ranked(
    path: &Path,
    boats: &[Boat],
    settings: &Settings,
    drawn: Drawn,
) -> Result<Shelf, Failure> {
    let list = shelf::list(path)?;
    let steps = list.parts.len() as u64 + u64::from(drawn.draws);
    let bar = Bar::counting(steps, "parts judged and boats drawn");
    let gear = assess::Settings::default();
    let ranking = rank_for(boats, settings, &list, &gear, drawn, &|done| bar.advance(done))?;
    bar.finish();
    Ok(Shelf { list, ranking })
}
