//! What is on the shelf, in order for the boat.

pub(super) mod json;

use std::path::Path;

use super::super::{Failure, shelf};
use crate::balance::Settings;
use crate::boat::Boat;
use crate::doubt::Drawn;
use crate::stock::{Ranking, StockList, assess, rank_for};

/// A stock list and its order for the boat.
pub(super) struct Shelf {
    pub(super) list: StockList,
    pub(super) ranking: Ranking,
}

impl Shelf {
    /// Reads a list and ranks it.
    pub(super) fn ranked(
        path: &Path,
        boats: &[Boat],
        settings: &Settings,
        drawn: Drawn,
    ) -> Result<Self, Failure> {
        let list = shelf::list(path)?;
        let ranking = rank_for(boats, settings, &list, &assess::Settings::default(), drawn)?;
        Ok(Self { list, ranking })
    }
}
