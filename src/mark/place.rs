//! Where everything goes: a pair of planes, with what is screwed on, placed on a transom.

mod notes;

use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

use super::error::MarkError;
use super::face::off_centre;
use super::hardware::Hardware;
use super::hinge::Hinge;
use super::holding::Holding;
use super::holes::{self, Places};
use super::placement::{Bracket, Placement};
use crate::boat::transom::StrakeNote;
use crate::boat::{Boat, PlanePair, Transom};
use crate::plane::gauge::{Gauge, gauge};
use crate::plane::linkage::Linkage;
use crate::size::{PairSource, no_condition};
use crate::stock::Part;
use crate::stock::assess::AssessError;

/// Largest difference in span or chord between a part and the pair asked for, metres.
const SAME_SIZE_M: f64 = 5e-4;

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
        let asked = boats.first().ok_or_else(|| AssessError::from(no_condition()))?;
        let hinge = Hinge::of(asked, part);
        let boats = &hinge.set_in(boats)[..];
        let boat = &boats[0];
        let transom = boat.transom();
        wide_enough(transom, pair)?;
        let gauge = gauge(pair.chord, transom.hinge_height, transom.retracted_angle);
        let hardware = hardware_for(part, pair, transom, &gauge)?;
        let (hardware, travel, moved) = set_bracket(hardware, &gauge)?;
        let up = transom.hinge_height + hardware.linkage.upper_pin_up_transom;
        let half_height = hardware.bracket_screws.half_height();
        hardware_fits(&hardware, pair)?;
        let transom = transom.with_working_height(transom.working_height.max(up + half_height));
        let (inner, strakes) = stand(&transom, pair)?;
        let brackets = brackets(&hardware, &transom, inner);
        let described = part.and_then(|part| Some((part, part.gear.as_ref()?)));
        let holding = match described {
            Some((part, gear)) => Holding::of_part(boats, part, gear)?,
            None => Holding::of_usual(boats, pair, &hardware)?,
        };
        let places = Places {
            span: pair.span,
            inner,
            hinge_height: transom.hinge_height,
            pin_height: up,
            thickness: transom.thickness,
        };
        let holes = holes::holes(&hardware, &holding.bolts, &places);
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
            hinge,
            strakes,
            notes: Vec::new(),
            source: PairSource::Fitted,
            checksum: None,
        };
        placement.notes = notes::notes(&placement, moved, boat);
        Ok(placement)
    }
}

/// The part's own hardware, or usual proportions where none is chosen or the list does not describe it.
fn hardware_for(
    part: Option<&Part>,
    pair: PlanePair,
    transom: &Transom,
    gauge: &Gauge,
) -> Result<Hardware, MarkError> {
    let Some(part) = part else { return Ok(Hardware::usual(pair, transom, gauge)?) };
    same_size(part, pair)?;
    match Hardware::of_part(part, transom) {
        Some(hardware) => Ok(hardware),
        None => Ok(Hardware::usual(pair, transom, gauge)?),
    }
}

/// The upper brackets of planes whose inner edge stands here.
fn brackets(hardware: &Hardware, transom: &Transom, inner: Length) -> Vec<Bracket> {
    let above_hinge = hardware.linkage.upper_pin_up_transom;
    let up = transom.hinge_height + above_hinge;
    let half_height = hardware.bracket_screws.half_height();
    let bracket = |position: &Length| {
        let along = inner + *position;
        let off_centre = off_centre(transom, along, up);
        Bracket { along, off_centre, above_hinge, up, half_height }
    };
    hardware.actuator_positions.iter().map(bracket).collect()
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
            part: hardware.part.clone(),
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
fn hardware_fits(hardware: &Hardware, pair: PlanePair) -> Result<(), MarkError> {
    let fault = |problem: String| Err(MarkError::Hardware { part: hardware.part.clone(), problem });
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
    let low = hardware.linkage.upper_pin_up_transom - hardware.bracket_screws.half_height();
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
