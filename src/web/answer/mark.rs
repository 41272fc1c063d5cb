//! Where the planes tried stand on the transom, as `planewright mark` has it.

use super::Sized;
use crate::boat::PlanePair;
use crate::document::Document;
use crate::mark::{MarkError, Placement, sheet_with_drawing};
use crate::stock::{Ranked, Standing};
use crate::units::UnitSystem;
use crate::web::ask::Ask;

/// Where a pair stands, or why it does not.
pub(in crate::web) struct Marked {
    /// The part of the shelf that has this size, which brings its own hinge and actuator.
    pub part: Option<String>,
    /// Where; none without planes.
    pub placement: Option<Result<Placement, MarkError>>,
    /// Units of the written figures: fractions of an inch, or millimetres.
    pub units: UnitSystem,
}

impl Marked {
    /// The sheet with its drawing.
    pub fn sheet(&self) -> Option<Document> {
        let placement = self.placement.as_ref()?.as_ref().ok()?;
        Some(sheet_with_drawing(placement, self.units))
    }
}

/// A pair on the transom of a boat, with the hinge and actuator of the part on the shelf that has its size.
pub(in crate::web) fn marked(sized: &Sized, pair: Option<PlanePair>, ask: &Ask) -> Marked {
    let part = pair.and_then(|pair| part(sized, pair));
    let placed = |pair| {
        let placement = Placement::for_all(&sized.boats, pair, part.map(|ranked| &ranked.part))?;
        Ok(placement.with_checksum(&format!("CRC-32 {}", sized.file.checksum())))
    };
    let units = match ask.system {
        UnitSystem::Imperial => UnitSystem::Imperial,
        _ => UnitSystem::Metric,
    };
    Marked { part: part.map(|ranked| ranked.part.name.clone()), placement: pair.map(placed), units }
}

fn part(sized: &Sized, pair: PlanePair) -> Option<&Ranked> {
    let shelf = sized.shelf.as_ref()?.ranked.as_ref().ok()?;
    let mut ranked = shelf.ranking.ranked.iter();
    ranked.find(|ranked| ranked.part.pair() == pair && ranked.standing <= Standing::Misses)
}
