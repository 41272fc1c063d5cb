//! Where the planes tried stand on the transom, as `planewright mark` has it.

use super::Sized;
use crate::boat::PlanePair;
use crate::document::Document;
use crate::mark::{MarkError, Placement, SheetUnits, sheet_with_drawing};
use crate::size::{PairSource, PairUsed};
use crate::stock::{Ranked, Standing};
use crate::web::ask::Ask;

/// Where a pair stands, or why it does not.
pub(in crate::web) struct Marked {
    /// The part of the shelf that has this size, which brings its own hinge and actuator.
    pub part: Option<String>,
    /// Where; none without planes.
    pub placement: Option<Result<Placement, MarkError>>,
    /// Units of the written figures: fractions of an inch, millimetres, or both beside each other.
    pub units: SheetUnits,
}

impl Marked {
    /// The sheet with its drawing.
    pub fn sheet(&self) -> Option<Document> {
        let placement = self.placement.as_ref()?.as_ref().ok()?;
        Some(sheet_with_drawing(placement, self.units))
    }
}

/// A pair on the transom of a boat, with the hinge and actuator of the part on the shelf that has its size.
pub(in crate::web) fn marked(sized: &Sized, used: PairUsed, ask: &Ask) -> Marked {
    let PairUsed { pair, source } = used;
    let part = pair.and_then(|pair| part(sized, pair));
    let source = if part.is_some() { PairSource::Listed } else { source };
    let placed = |pair| {
        let placement = Placement::for_all(&sized.boats, pair, part.map(|ranked| &ranked.part))?;
        let checksum = format!("CRC-32 {}", sized.file.checksum());
        Ok(placement.from_source(source).with_checksum(&checksum))
    };
    let units = if ask.both_units() { SheetUnits::Both } else { ask.system.into() };
    Marked { part: part.map(|ranked| ranked.part.name.clone()), placement: pair.map(placed), units }
}

fn part(sized: &Sized, pair: PlanePair) -> Option<&Ranked> {
    let shelf = sized.shelf.as_ref()?.ranked.as_ref().ok()?;
    let mut ranked = shelf.ranking.ranked.iter();
    ranked.find(|ranked| ranked.part.pair() == pair && ranked.standing <= Standing::Misses)
}
