//! The placement as one JSON object: SI units, angles in degrees, holes of one side; the other is its mirror image.

use uom::si::f64::Length;

use crate::field::{InSi, written};
use crate::mark::holes::Hole;
use crate::mark::{Bracket, Note, Placement, SheetUnits};

/// The caution that belongs to drilling and fitting.
const CAUTION_OF_THE_WORK: &str = "Measure twice on the boat itself, look behind the transom before any hole, and follow the makers of parts, boat and sealant, local codes and licensed practice.";

/// The whole placement.
pub(super) struct Written<'a>(pub &'a Placement);

/// Why there is none.
pub(super) struct Refused<'a> {
    pub word: &'static str,
    pub problem: &'a str,
    pub remedy: &'a str,
}

/// A hole of it.
struct Drilled<'a>(&'a Placement, &'a Hole);

impl Written<'_> {
    fn holes(&self) -> Vec<Drilled<'_>> {
        self.0.holes.iter().map(|hole| Drilled(self.0, hole)).collect()
    }

    /// Off the centreline, level, of a point on the bottom edge.
    fn level_m(&self, along: Length) -> f64 {
        self.0.off_centre(along, Length::default()).in_si()
    }
}

// What must be read first is null where everything holds as it comes; the depth of a hole is where it goes through.
written! {
    Refused<'_> as refused {
        "answer": refused.word,
        "problem": refused.problem,
        "remedy": refused.remedy,
    }
    Written<'_> as all {
        "answer": "marked-out",
        "for": all.0.source_words(),
        "warning": all.0.holding.warning(all.0.hardware.is_chosen()),
        "first_lines": all.0.warnings(SheetUnits::Millimetres),
        "checks": all.0.holding.checks,
        "hinge": all.0.holding.bolts.hinge,
        "bracket": all.0.holding.bolts.bracket,
        "inner_edge_along_m": all.0.inner.in_si(),
        "outer_edge_along_m": all.0.outer.in_si(),
        "inner_edge_level_m": all.level_m(all.0.inner),
        "outer_edge_level_m": all.level_m(all.0.outer),
        "hinge_height_m": all.0.hinge.height.in_si(),
        "least_hinge_height_m": all.0.hinge.least.in_si(),
        "gauge_height_m": all.0.gauge.trailing_edge.in_si(),
        "retracted_deflection_deg": all.0.travel.0.in_si(),
        "full_deflection_deg": all.0.travel.1.in_si(),
        "brackets": all.0.brackets,
        "holes": all.holes(),
        "notes": all.0.notes.iter().map(Note::word).collect::<Vec<_>>(),
        "caution_of_the_work": CAUTION_OF_THE_WORK,
    }
    Bracket as bracket {
        "pin_along_m": bracket.along.in_si(),
        "pin_level_m": bracket.off_centre.in_si(),
        "pin_above_hinge_m": bracket.above_hinge.in_si(),
        "pin_up_m": bracket.up.in_si(),
    }
    Drilled<'_> as hole {
        "name": hole.1.name,
        "purpose": hole.1.kind.words(),
        "along_m": hole.1.along.in_si(),
        "up_m": hole.1.up.in_si(),
        "level_m": hole.0.off_centre(hole.1.along, hole.1.up).in_si(),
        "drill_m": hole.1.metric_drill_sold().in_si(),
        "depth_m": hole.1.depth.in_si(),
    }
}
