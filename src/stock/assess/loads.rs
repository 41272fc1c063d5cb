//! The loads on one plane, speed by speed and deflection by deflection.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Length, Velocity};

use super::borne::Check;
use super::flow::{Flow, Flows};
use super::{AssessError, Bearing, Largest, LimitedBy, Ready, Settings};
use crate::boat::{Boat, PlanePair};
use crate::field::{InSi, written};
use crate::plane::hinge::{HingeFlag, PlateLoad};
use crate::plane::linkage::HingeReaction;
use crate::plane::strength::Verdict;
use crate::stock::Part;

/// Slack when a deflection is held against the end of the travel.
const SLACK_DEG: f64 = 1e-6;

/// Load on one plane at a speed and a deflection.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadAt {
    /// Speed.
    pub speed: Velocity,
    /// Deflection.
    pub deflection: Angle,
    /// Trim of the boat that the expected load is taken at: planes parallel to the bottom.
    pub trim: Angle,
    /// Load of steady running; its moment is about the hinge line, positive closing the plane upward.
    pub expected: PlateLoad,
    /// The same by thin-plate theory, to be held against it.
    pub thin_plate: PlateLoad,
    /// Slamming load; its moment is about the same, of the same sign.
    pub design: PlateLoad,
    /// Where the expected load leaves the range of its theory.
    pub flags: Vec<HingeFlag>,
}

/// What that load does to a part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartLoadAt {
    /// The load.
    pub load: LoadAt,
    /// Push of each actuator along its own line under the expected load.
    pub expected_push: Force,
    /// The same under the design load.
    pub design_push: Force,
    /// Force of the plane on its hinge under the expected load.
    pub expected_reaction: HingeReaction,
    /// The same under the design load.
    pub design_reaction: HingeReaction,
    /// Plate and screws under the expected load.
    pub expected: Bearing,
    /// Plate and screws under the design load.
    pub design: Bearing,
    /// Plate, hinge screws, bracket screws and actuators under both.
    pub checks: [Check; 4],
}

impl PartLoadAt {
    /// The worst verdict of what is covered.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.checks.iter().filter_map(Check::verdict).max().unwrap_or(Verdict::Bears)
    }
}

written! {
    LoadAt as at {
        "speed_m_s": at.speed.in_si(),
        "deflection_deg": at.deflection.in_si(),
        "trim_planes_up_deg": at.trim.in_si(),
        "expected_load_n": at.expected.force.in_si(),
        "expected_hinge_moment_n_m": at.expected.hinge_moment.in_si(),
        "thin_plate_hinge_moment_n_m": at.thin_plate.hinge_moment.in_si(),
        "design_load_n": at.design.force.in_si(),
        "design_hinge_moment_n_m": at.design.hinge_moment.in_si(),
        "flags": at.flags,
    }
    PartLoadAt as at {
        "speed_m_s": at.load.speed.in_si(),
        "deflection_deg": at.load.deflection.in_si(),
        "checks": at.checks,
        "expected_push_n": at.expected_push.in_si(),
        "design_push_n": at.design_push.in_si(),
        "design_hinge_off_transom_n": at.design_reaction.off_transom.in_si(),
        "design_hinge_along_transom_n": at.design_reaction.along_transom.in_si(),
        "expected_stress_pa": at.expected.plate.worst_stress().in_si(),
        "design_stress_pa": at.design.plate.worst_stress().in_si(),
        "design_plate_factor": at.design.plate.safety_factor,
        "design_edge_deflection_m": at.design.plate.trailing_edge_deflection.in_si(),
        "needed_thickness_m": at.design.plate.needed_thickness.in_si(),
        "design_hinge_screw_pull_n": at.design.screws.hinge_pull.in_si(),
        "hinge_screw_holds_n": at.design.screws.hinge_holding.safe().in_si(),
        "design_bracket_screw_pull_n": at.design.screws.bracket_pull.in_si(),
        "bracket_screw_holds_n": at.design.screws.bracket_holding.safe().in_si(),
    }
}

/// Loads on one plane of a pair at every speed and deflection; speeds at which the boat does not
/// run at any deflection are left out.
///
/// # Errors
/// When a setting is out of range, or the boat cannot be balanced at a speed.
pub fn pair_loads(
    pair: PlanePair,
    boat: &Boat,
    settings: &Settings,
    speeds: &[Velocity],
    deflections: &[Angle],
) -> Result<Vec<LoadAt>, AssessError> {
    let flows = Flows::new(boat, pair, settings.load_factor, settings.trim_load);
    let mut loads = Vec::new();
    for &speed in speeds {
        let Some(flow) = flows.at(speed)? else { continue };
        for &deflection in deflections {
            loads.push(load_at(&flow, deflection)?);
        }
    }
    Ok(loads)
}

/// The same for a part, with its actuators, plate and screws; deflections beyond its travel are
/// left out.
///
/// # Errors
/// As [`super::assess`].
pub fn part_loads(
    part: &Part,
    boat: &Boat,
    settings: &Settings,
    speeds: &[Velocity],
    deflections: &[Angle],
) -> Result<Vec<PartLoadAt>, AssessError> {
    let ready = Ready::new(part, boat, settings)?;
    let mut loads = Vec::new();
    for &speed in speeds {
        for &deflection in deflections {
            loads.extend(ready.load_at(speed, deflection)?);
        }
    }
    Ok(loads)
}

fn load_at(flow: &Flow, deflection: Angle) -> Result<LoadAt, AssessError> {
    let expected = flow.expected(deflection)?;
    Ok(LoadAt {
        speed: flow.speed,
        deflection,
        trim: flow.trim(),
        expected: expected.total,
        thin_plate: expected.thin_plate.total,
        design: flow.design(deflection)?,
        flags: expected.flags,
    })
}

impl Ready<'_> {
    /// How far down each plane can be put at a speed; where the boat does not run, what the
    /// travel gives.
    pub(in crate::stock) fn reach(&self, speed: Velocity) -> Result<Largest, AssessError> {
        match self.flows.at(speed)? {
            Some(flow) => self.largest(&flow),
            None => Ok(Largest { deflection: self.full, limited_by: LimitedBy::Linkage }),
        }
    }

    /// The part at a speed and a deflection; none where the boat does not run, and beyond the
    /// travel.
    pub(in crate::stock) fn load_at(
        &self,
        speed: Velocity,
        deflection: Angle,
    ) -> Result<Option<PartLoadAt>, AssessError> {
        let slack = Angle::new::<degree>(SLACK_DEG);
        if deflection < self.raised - slack || deflection > self.lowered + slack {
            return Ok(None);
        }
        let Some(flow) = self.flows.at(speed)? else { return Ok(None) };
        self.loaded(&flow, deflection).map(Some)
    }

    /// The part in some water at a deflection within its travel.
    pub(super) fn loaded(&self, flow: &Flow, deflection: Angle) -> Result<PartLoadAt, AssessError> {
        let load = load_at(flow, deflection)?;
        let push = |load: &PlateLoad| -> Result<Force, AssessError> {
            Ok(self.linkage.push_for(load.hinge_moment, deflection)? / self.actuators())
        };
        let reaction = |load: &PlateLoad| -> Result<HingeReaction, AssessError> {
            let centre: Length = load.centre_aft_of_hinge().unwrap_or(self.part.chord / 2.0);
            Ok(self.linkage.hinge_reaction(load.force, centre, deflection)?)
        };
        let (expected_push, design_push) = (push(&load.expected)?, push(&load.design)?);
        let expected = self.bearing(&load.expected, deflection)?;
        let design = self.bearing(&load.design, deflection)?;
        Ok(PartLoadAt {
            expected_push,
            design_push,
            expected_reaction: reaction(&load.expected)?,
            design_reaction: reaction(&load.design)?,
            checks: self.checks(&load, [expected_push, design_push], [&expected, &design]),
            expected,
            design,
            load,
        })
    }
}
