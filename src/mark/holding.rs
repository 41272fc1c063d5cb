//! Whether what is marked out holds: the part as the stock list has it, or screws of usual
//! proportions, at the deflection that is allowed.
//!
//! A hole is drilled for good. So none is marked for a fastening that does not bear the load of
//! steady running and of slamming: through-bolts take the place of screws that do not, and a part
//! that is unsafe is not marked out at all.

use uom::si::f64::{Force, Length};

use super::error::MarkError;
use super::hardware::Hardware;
use crate::boat::{Boat, PlanePair};
use crate::plane::strength::Verdict;
use crate::stock::assess::{
    Bearer, Check, Fastenings, HeldBy, Settings, Strength, ThroughBolts, strength,
};
use crate::stock::rank::{bolts_text, unsafe_text};
use crate::stock::{Gear, Part};
use crate::units::{UnitChoice, UnitSystem};

/// What holds the planes.
#[derive(Clone, Debug, PartialEq)]
pub struct Holding {
    /// What is judged, each where it is worst off: hinge and bracket screws as they come, and plate
    /// and actuators of a part.
    pub checks: Vec<Check>,
    /// Bolts in the place of screws that do not hold.
    pub bolts: ThroughBolts,
    /// Thickness of the part's plate and what slamming asks for, where that is more.
    pub plate: Option<[Length; 2]>,
    /// What each actuator bears standing still and what slamming asks for, where that is more.
    pub actuators: Option<[Force; 2]>,
    /// What slamming puts on one plate and asks of one actuator standing still, where no part is
    /// chosen, so that neither is judged.
    pub not_judged: Option<[Force; 2]>,
}

impl Holding {
    /// Of a part that the list describes on a boat in some loading conditions.
    pub(super) fn of_part(boats: &[Boat], part: &Part, gear: &Gear) -> Result<Self, MarkError> {
        let strength = strength(part, boats, &Settings::default())?;
        if strength.verdict() == Verdict::Unsafe {
            return Err(refused(part, &strength));
        }
        let weak = |bearer| strength.of(bearer).verdict() != Some(Verdict::Bears);
        let plate = [gear.thickness, strength.needed_thickness];
        let actuators = [gear.actuator.hold(), strength.needed_hold];
        let holding = Self {
            plate: weak(Bearer::Plate).then_some(plate),
            actuators: weak(Bearer::Actuators).then_some(actuators),
            checks: strength.checks.to_vec(),
            bolts: strength.bolts,
            not_judged: None,
        };
        holding.sound(&part.name)
    }

    /// Of usual proportions on a boat in some loading conditions.
    pub(super) fn of_usual(
        boats: &[Boat],
        pair: PlanePair,
        hardware: &Hardware,
    ) -> Result<Self, MarkError> {
        let fastenings = Fastenings {
            hinge: hardware.hinge_screws,
            bracket: hardware.bracket_screws,
            actuators: u32::try_from(hardware.actuator_positions.len()).unwrap_or(1),
            dimensions: hardware.linkage,
            span: pair.span,
            chord: pair.chord,
        };
        let fastened = fastenings.on(boats, &Settings::default())?;
        let holding = Self {
            checks: fastened.checks.to_vec(),
            bolts: fastened.bolts,
            plate: None,
            actuators: None,
            not_judged: Some([fastened.plate_load, fastened.push]),
        };
        holding.sound("usual hardware")
    }

    /// Refused where neither screws nor bolts hold.
    fn sound(self, name: &str) -> Result<Self, MarkError> {
        let nothing = |held: &HeldBy| matches!(held, HeldBy::Nothing);
        if nothing(&self.bolts.hinge) || nothing(&self.bolts.bracket) {
            return Err(MarkError::NothingHolds { part: name.to_owned() });
        }
        Ok(self)
    }

    /// The line that every sheet begins with where something does not hold as it comes: no milder
    /// than the worst row of the table, and with what bolts do not cure.
    #[must_use]
    pub fn warning(&self, is_part: bool) -> Option<String> {
        let worst = self.checks.iter().filter_map(Check::verdict).max()?;
        let what = match worst {
            Verdict::Bears => return None,
            Verdict::NoSlammingAllowance => "NO ALLOWANCE FOR SLAMMING",
            Verdict::Unsafe => "UNSAFE IN CALM WATER ALREADY",
        };
        let as_it_is = if is_part { "AS IT COMES" } else { "WITH USUAL SCREWS" };
        let uncured = match (self.plate, self.actuators) {
            (None, None) => None,
            (Some(_), None) => Some("ITS PLATE STAYS TOO WEAK"),
            (None, Some(_)) => Some("ITS ACTUATORS STAY TOO WEAK"),
            (Some(_), Some(_)) => Some("ITS PLATE AND ACTUATORS STAY TOO WEAK"),
        };
        let cure = self.bolts.any().then_some("THROUGH-BOLT IT");
        let todo: Vec<&str> = cure.into_iter().chain(uncured).chain(["SEE TABLE 5"]).collect();
        Some(format!("{what} {as_it_is}: {}", todo.join("; ")))
    }
}

/// Why a part that is unsafe is not marked out.
fn refused(part: &Part, strength: &Strength) -> MarkError {
    let units = UnitChoice::from(UnitSystem::Marine);
    MarkError::Unsafe {
        part: part.name.clone(),
        why: unsafe_text(strength, units).unwrap_or_default(),
        bolts: bolts_text(&strength.bolts, units),
    }
}
