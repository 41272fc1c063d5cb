//! What is on the shelf, in order for the boat.

pub(super) mod json;

use std::path::Path;

use super::super::{Failure, shelf};
use crate::balance::Settings;
use crate::boat::Boat;
use crate::doubt::Drawn;
use crate::stock::{Shelf, assess, rank_for};

/// A stock list ranked for the boat.
pub(super) fn ranked(
    path: &Path,
    boats: &[Boat],
    settings: &Settings,
    drawn: Drawn,
) -> Result<Shelf, Failure> {
    let list = shelf::list(path)?;
    let ranking = rank_for(boats, settings, &list, &assess::Settings::default(), drawn)?;
    Ok(Shelf { list, ranking })
}
