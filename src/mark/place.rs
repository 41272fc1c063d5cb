//! Where everything goes: one [`Placement`] that sheet, drawing and template are made from.
//!
//! Everything is given for the starboard side; port is the mirror image. A point on the transom
//! is given by its distance `along` the bottom edge from the centreline and its height `up`,
//! square to that edge, in the face of the transom. The deadrise is taken as it shows in that
//! face.

use uom::si::angle::{degree, radian};
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, meter};

use super::error::MarkError;
use super::hardware::Hardware;
use super::holding::Holding;
use super::holes::{self, DrillLine, Hole};
use super::note::{self, Note};
use super::symmetry::{self, Check};
use crate::boat::transom::StrakeNote;
use crate::boat::{Boat, PlanePair, Transom};
use crate::plane::gauge::{Gauge, gauge};
use crate::plane::linkage::Linkage;
use crate::size::no_condition;
use crate::stock::Part;
use crate::stock::assess::AssessError;

/// Largest difference in span or chord between a part and the pair asked for, metres.
const SAME_SIZE_M: f64 = 5e-4;

/// The upper bracket of one actuator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bracket {
    /// Foot of the upper pin from the centreline, along the bottom edge.
    pub along: Length,
    /// Foot of the upper pin off the centreline, level.
    pub off_centre: Length,
    /// Foot of the upper pin above the hinge line, square to it, up the transom.
    pub above_hinge: Length,
    /// Foot of the upper pin above the bottom edge, square to it.
    pub up: Length,
    /// From the foot to the bracket's upper and lower edge.
    pub half_height: Length,
}

/// Where a pair of planes goes on a boat.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// Name of the boat.
    pub boat: String,
    /// The transom, with what stands on it.
    pub transom: Transom,
    /// Span and chord of one plane.
    pub pair: PlanePair,
    /// What is screwed on.
    pub hardware: Hardware,
    /// What holds it, and whether it does.
    pub holding: Holding,
    /// Inner edge from the centreline, along the bottom edge.
    pub inner: Length,
    /// Outer edge from the centreline, along the bottom edge.
    pub outer: Length,
    /// Retracted trailing edge.
    pub gauge: Gauge,
    /// Upper brackets, inner first.
    pub brackets: Vec<Bracket>,
    /// Deflection retracted and at full stroke, by the linkage.
    pub travel: (Angle, Angle),
    /// Holes of one side.
    pub holes: Vec<Hole>,
    /// What must come out alike on both sides.
    pub checks: Vec<Check>,
    /// Strakes under each plane.
    pub strakes: Vec<StrakeNote>,
    /// What to know before trusting a number.
    pub notes: Vec<Note>,
    /// Checksum of the boat file, when it is to be printed.
    pub checksum: Option<String>,
}

impl Placement {
    /// Places a pair on a boat, as far outboard as clearances and obstacles allow, with the
    /// hardware of a part or with usual proportions.
    ///
    /// # Errors
    /// [`MarkError::TooNarrow`] and [`MarkError::Obstructed`] say how much room is missing;
    /// [`MarkError::OtherSize`] and [`MarkError::Hardware`] what is wrong with the part;
    /// [`MarkError::Unsafe`] and [`MarkError::NothingHolds`] what does not hold;
    /// [`MarkError::Linkage`] when the linkage cannot work.
    pub fn new(boat: &Boat, pair: PlanePair, part: Option<&Part>) -> Result<Self, MarkError> {
        Self::for_all(std::slice::from_ref(boat), pair, part)
    }

    /// The same for a boat in several loading conditions: what holds the planes must hold in all of
    /// them.
    ///
    /// # Errors
    /// As [`Placement::new`]; and when there is no boat.
    pub fn for_all(
        boats: &[Boat],
        pair: PlanePair,
        part: Option<&Part>,
    ) -> Result<Self, MarkError> {
        let boat = boats.first().ok_or_else(|| AssessError::from(no_condition()))?;
        let transom = boat.transom();
        wide_enough(transom, pair)?;
        let gauge = gauge(pair.chord, transom.hinge_height);
        let hardware = match part {
            Some(part) => {
                same_size(part, pair)?;
                Hardware::of_part(part, transom)
            }
            None => Hardware::usual(pair, transom, &gauge)?,
        };
        let (hardware, travel, moved) = set_bracket(hardware, &gauge)?;
        let above_hinge = hardware.linkage.upper_pin_up_transom;
        let up = transom.hinge_height + above_hinge;
        let half_height = hardware.bracket_screws.half_height();
        hardware_fits(&hardware, pair, above_hinge)?;
        let transom = transom.with_working_height(transom.working_height.max(up + half_height));
        let (inner, strakes) = stand(&transom, pair)?;
        let level = transom.deadrise.cos();
        let lean = transom.deadrise.sin();
        let brackets = hardware
            .actuator_positions
            .iter()
            .map(|&position| Bracket {
                along: inner + position,
                off_centre: (inner + position) * level - up * lean,
                above_hinge,
                up,
                half_height,
            })
            .collect();
        let holding = match part {
            Some(part) => Holding::of_part(boats, part)?,
            None => Holding::of_usual(boats, pair, &hardware)?,
        };
        let (span, hinge_height) = (pair.span, transom.hinge_height);
        let holes = holes::holes(&hardware, &holding.bolts, span, inner, hinge_height, up);
        let mut placement = Self {
            boat: boat.name().to_owned(),
            transom,
            pair,
            hardware,
            holding,
            inner,
            outer: inner + pair.span,
            gauge,
            brackets,
            travel,
            holes,
            checks: Vec::new(),
            strakes,
            notes: Vec::new(),
            checksum: None,
        };
        placement.checks = symmetry::checks(&placement);
        placement.notes = note::notes(&placement, moved);
        Ok(placement)
    }

    /// The same with the checksum of the boat file, to be printed on every sheet.
    #[must_use]
    pub fn with_checksum(self, checksum: &str) -> Self {
        Self { checksum: Some(checksum.to_owned()), ..self }
    }

    /// The line to begin with where something does not hold as it comes.
    #[must_use]
    pub fn warning(&self) -> Option<&'static str> {
        self.holding.warning(self.hardware.is_chosen())
    }

    /// Bottom edge of one side, centreline to chine.
    #[must_use]
    pub fn edge(&self) -> Length {
        self.transom.half_girth()
    }

    /// Middle of the plane from the centreline, along the bottom edge.
    #[must_use]
    pub fn middle(&self) -> Length {
        0.5 * (self.inner + self.outer)
    }

    /// Off the centreline, level, of a point on the transom.
    #[must_use]
    pub fn off_centre(&self, along: Length, up: Length) -> Length {
        along * self.transom.deadrise.cos() - up * self.transom.deadrise.sin()
    }

    /// Above the keel, in the face of the transom, of a point on it.
    #[must_use]
    pub fn above_keel(&self, along: Length, up: Length) -> Length {
        along * self.transom.deadrise.sin() + up * self.transom.deadrise.cos()
    }

    /// The drill table of the boat.
    #[must_use]
    pub fn drill_table(&self) -> Vec<DrillLine> {
        holes::drill_table(&self.holes)
    }

    /// Highest point of hardware above the bottom edge.
    #[must_use]
    pub fn top(&self) -> Length {
        let leaf = self.transom.hinge_height + self.hardware.hinge_screws.leaf_height;
        self.brackets.iter().map(|bracket| bracket.up + bracket.half_height).fold(leaf, Length::max)
    }
}

fn same_size(part: &Part, pair: PlanePair) -> Result<(), MarkError> {
    let other = |a: Length, b: Length| (a - b).get::<meter>().abs() > SAME_SIZE_M;
    if other(part.span, pair.span) || other(part.chord, pair.chord) {
        return Err(MarkError::OtherSize {
            part: part.name.clone(),
            part_span: part.span,
            part_chord: part.chord,
            span: pair.span,
            chord: pair.chord,
        });
    }
    Ok(())
}

/// Puts the upper bracket where the retracted actuator holds the plane at its gauge height.
///
/// Returns how far that is from where the part's list has it, up positive.
fn set_bracket(
    mut hardware: Hardware,
    gauge: &Gauge,
) -> Result<(Hardware, (Angle, Angle), Length), MarkError> {
    let listed = hardware.linkage.upper_pin_up_transom;
    let retracted = hardware.travel.retracted_length;
    let height = hardware.linkage.upper_pin_for(retracted, gauge.deflection).ok_or_else(|| {
        MarkError::Hardware {
            part: hardware.part.clone().unwrap_or_else(|| "usual hardware".to_owned()),
            problem: "the retracted actuator is too short to reach from the transom to its pin on \
                      the plane"
                .to_owned(),
        }
    })?;
    hardware.linkage.upper_pin_up_transom = height;
    let travel = Linkage::new(&hardware.linkage)?.deflection_range(&hardware.travel)?;
    Ok((hardware, travel, height - listed))
}

/// Screws must lie on their leaf and bracket clear of it.
fn hardware_fits(
    hardware: &Hardware,
    pair: PlanePair,
    above_hinge: Length,
) -> Result<(), MarkError> {
    let fault = |problem: String| {
        let part = hardware.part.clone().unwrap_or_else(|| "usual hardware".to_owned());
        Err(MarkError::Hardware { part, problem })
    };
    let screws = hardware.hinge_screws.positions(pair.span);
    let half = hardware.hinge_screws.diameter;
    if screws.iter().any(|&at| at < half || at > pair.span - half) {
        return fault(
            "its end hinge screws stand nearer to the ends of the plane than their own diameter"
                .to_owned(),
        );
    }
    let reach = 0.5 * hardware.bracket_screws.across;
    if hardware.actuator_positions.iter().any(|&at| at < reach || at > pair.span - reach) {
        return fault("an actuator bracket stands beyond the end of the plane".to_owned());
    }
    let low = above_hinge - hardware.bracket_screws.half_height();
    let leaf = hardware.hinge_screws.leaf_height;
    if low < leaf {
        let lap = super::say::both(leaf - low);
        return fault(format!(
            "with the plane at its gauge height the upper bracket would lap {lap} over the hinge \
             leaf; the actuator is too short for this plane"
        ));
    }
    Ok(())
}

/// Even an empty transom must have room between the clearances.
fn wide_enough(transom: &Transom, pair: PlanePair) -> Result<(), MarkError> {
    let edge = transom.half_girth();
    let needed = transom.inner_clearance + pair.span + transom.outer_clearance;
    if needed - edge > Length::new::<meter>(1e-9) {
        return Err(MarkError::TooNarrow { span: pair.span, needed, edge, missing: needed - edge });
    }
    Ok(())
}

/// Inner edge along the bottom edge, and the strakes under the plane.
fn stand(transom: &Transom, pair: PlanePair) -> Result<(Length, Vec<StrakeNote>), MarkError> {
    let fit = transom.fits(pair);
    if let Some(position) = fit.position {
        return Ok((position.from, fit.strakes));
    }
    let mut in_the_way: Vec<String> = fit.conflicts.iter().map(|c| c.what.clone()).collect();
    in_the_way.dedup();
    Err(MarkError::Obstructed {
        span: pair.span,
        longest: pair.span - fit.missing,
        missing: fit.missing,
        in_the_way,
    })
}

/// Degrees of the deadrise, for drawings and texts.
pub(super) fn deadrise_deg(transom: &Transom) -> f64 {
    transom.deadrise.get::<degree>()
}

/// Sine and cosine of the deadrise.
pub(super) fn slope(transom: &Transom) -> (f64, f64) {
    transom.deadrise.get::<radian>().sin_cos()
}

/// Inches, for the limits that practice states in inches.
pub(super) fn in_inches(length: Length) -> f64 {
    length.get::<inch>()
}
