//! What holds a plane to the transom: the screws of its hinge leaf and of its upper brackets, and
//! what a load on the plane asks of them.

use uom::si::f64::{Angle, Force, Length};
use uom::si::force::newton;
use uom::si::length::meter;

use super::{AssessError, Settings};
use crate::plane::hinge::PlateLoad;
use crate::plane::linkage::{HingeReaction, Linkage, LinkageDimensions};
use crate::plane::strength::fastening::{
    Screw, ScrewGroup, ScrewHolding, pull_per_screw, screw_holding,
};
use crate::stock::{BracketScrews, Gear, HingeScrews, Part};

/// Thread assumed in wood at the least, metres, so that a screw shorter than the skin is judged
/// as holding next to nothing instead of being refused.
const LEAST_THREAD_M: f64 = 1e-4;

/// Hinge leaf, upper brackets and the linkage that loads them.
#[derive(Clone, Debug, PartialEq)]
pub struct Fastenings {
    /// Screws of the hinge leaf.
    pub hinge: HingeScrews,
    /// Screws of each upper bracket.
    pub bracket: BracketScrews,
    /// Actuators of one plane.
    pub actuators: u32,
    /// The linkage on the transom.
    pub dimensions: LinkageDimensions,
    /// Span of the plane.
    pub span: Length,
    /// Chord of the plane.
    pub chord: Length,
}

/// Screws of the hinge and of one upper bracket: pulling out only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screws {
    /// Pull on each hinge screw.
    pub hinge_pull: Force,
    /// What each hinge screw holds.
    pub hinge_holding: ScrewHolding,
    /// Pull on each bracket screw.
    pub bracket_pull: Force,
    /// What each bracket screw holds.
    pub bracket_holding: ScrewHolding,
    /// Force along the transom on the hinge, for each screw.
    pub hinge_across: Force,
    /// Force along the transom on a bracket, for each screw.
    pub bracket_across: Force,
}

impl Screws {
    /// Share of what the hinge screws hold safely that the pull takes; `None` where it is not
    /// covered.
    #[must_use]
    pub fn hinge_share(&self) -> Option<f64> {
        share(self.hinge_holding, self.hinge_pull)
    }

    /// The same of the bracket screws.
    #[must_use]
    pub fn bracket_share(&self) -> Option<f64> {
        share(self.bracket_holding, self.bracket_pull)
    }

    /// Safe holding over pull of the weaker of the two rows; `None` where it is not covered.
    #[must_use]
    pub fn spare(&self) -> Option<f64> {
        Some(1.0 / self.hinge_share()?.max(self.bracket_share()?))
    }
}

fn share(holding: ScrewHolding, pull: Force) -> Option<f64> {
    match holding {
        ScrewHolding::Covered { safe, .. } => Some(pull.get::<newton>() / safe.get::<newton>()),
        ScrewHolding::NotCovered { .. } => None,
    }
}

impl Fastenings {
    /// Those of a part, with its linkage as it is fitted.
    #[must_use]
    pub fn of_part(part: &Part, gear: &Gear, dimensions: LinkageDimensions) -> Self {
        Self {
            hinge: gear.hinge_screws,
            bracket: gear.bracket_screws,
            actuators: gear.actuators,
            dimensions,
            span: part.span,
            chord: part.chord,
        }
    }

    /// What a load on the plane at a deflection asks of the screws.
    ///
    /// # Errors
    /// When a measurement or a setting is out of range.
    pub fn screws(
        &self,
        linkage: &Linkage,
        settings: &Settings,
        load: &PlateLoad,
        deflection: Angle,
    ) -> Result<Screws, AssessError> {
        let centre = load.centre_aft_of_hinge().unwrap_or(self.chord / 2.0);
        let hinge = linkage.hinge_reaction(load.force, centre, deflection)?;
        let (off, along) = self.bracket_force(load.force, &hinge, deflection);
        let holding = |diameter, length| holding(settings, diameter, length);
        Ok(Screws {
            hinge_pull: self.hinge_pull(&hinge)?,
            hinge_holding: holding(self.hinge.diameter, self.hinge.length)?,
            bracket_pull: self.bracket_pull(off, along)?,
            bracket_holding: holding(self.bracket.diameter, self.bracket.length)?,
            hinge_across: hinge.along_transom.abs() / f64::from(self.hinge.count),
            bracket_across: along.abs() / f64::from(self.bracket.count),
        })
    }

    /// Pull on each hinge screw. The hinge pulls at the lower edge of the leaf, below the row of
    /// screws, and the leaf pries about its upper edge: a pull off the transom counts
    /// leaf height/(leaf height − row height) times. Derived here: moments about the upper edge.
    pub(super) fn hinge_pull(&self, hinge: &HingeReaction) -> Result<Force, AssessError> {
        let screws = &self.hinge;
        let arm = (screws.leaf_height - screws.row_height).max(screws.diameter / 2.0);
        let group =
            ScrewGroup { count: screws.count, pin_offset: screws.pin_offset, prying_arm: arm };
        let leverage = (screws.leaf_height / arm).value;
        Ok(pull_per_screw(&group, hinge.off_transom * leverage, hinge.along_transom)?)
    }

    /// Force of one actuator on its upper bracket, off the transom and up along it: what the
    /// load and the hinge leave for it.
    pub(super) fn bracket_force(
        &self,
        load: Force,
        hinge: &HingeReaction,
        deflection: Angle,
    ) -> (Force, Force) {
        let (sin, cos) = (deflection.sin().value, deflection.cos().value);
        let share = 1.0 / f64::from(self.actuators);
        let (aft, up) = ((load * sin - hinge.aft) * share, (load * cos - hinge.up) * share);
        let rake = self.dimensions.transom_rake;
        let (rake_sin, rake_cos) = (rake.sin().value, rake.cos().value);
        (aft * rake_cos - up * rake_sin, aft * rake_sin + up * rake_cos)
    }

    /// Pull on each screw of one upper bracket: the actuator presses it on and up, and the push
    /// up the transom pries by the stand-off of the pin.
    fn bracket_pull(&self, off: Force, along: Force) -> Result<Force, AssessError> {
        let group = ScrewGroup {
            count: self.bracket.count,
            pin_offset: self.dimensions.upper_pin_stand_off,
            prying_arm: self.bracket.half_height(),
        };
        Ok(pull_per_screw(&group, off, along)?)
    }
}

fn holding(
    settings: &Settings,
    diameter: Length,
    length: Length,
) -> Result<ScrewHolding, AssessError> {
    let thread = (length - settings.not_in_wood).max(Length::new::<meter>(LEAST_THREAD_M));
    let screw = Screw { diameter, thread_in_wood: thread };
    let (factor, wet) = (settings.withdrawal_factor, settings.wet_factor);
    Ok(screw_holding(&screw, settings.transom_material, factor, wet)?)
}
