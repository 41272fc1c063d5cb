//! What a part bears, in JSON: SI units, angles in degrees, null for what is not covered.

use serde::Serialize;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

use crate::boat::degrees;
use crate::plane::strength::Verdict;
use crate::stock::Part;
use crate::stock::assess::{BoltPattern, Check, HeldBy, Strength};
use crate::stock::rank::remedy;
use crate::units::UnitChoice;

/// What a part bears at the deflection allowed, at all speeds.
#[derive(Serialize)]
pub(super) struct StrengthRecord {
    /// The worst of the checks: `bears`, `no-slamming-allowance` or `unsafe`.
    verdict: &'static str,
    checks: Vec<CheckRecord>,
    needed_thickness_m: f64,
    needed_hold_n: f64,
    hinge: HeldRecord,
    bracket: HeldRecord,
    /// What to do where there is no allowance for slamming.
    remedy: Option<String>,
}

/// Plate, screws or actuators under both loads; where it is worst off, or at a speed asked for.
#[derive(Serialize)]
pub(super) struct CheckRecord {
    check: &'static str,
    /// Null where it is not covered.
    verdict: Option<&'static str>,
    speed_m_s: f64,
    deflection_deg: f64,
    /// Share that the expected load takes of what is borne with the safety factor.
    steady_share: Option<f64>,
    slamming_share: Option<f64>,
}

/// What holds the hinge leaf, or each upper bracket.
#[derive(Serialize)]
pub(super) struct HeldRecord {
    /// `screws`, `through-bolts`, `nothing` or `not-covered`.
    held_by: &'static str,
    bolts: Option<BoltsRecord>,
}

/// Bolts of one leaf or bracket, one in each of its holes.
#[derive(Serialize)]
struct BoltsRecord {
    count: u32,
    size: String,
    diameter_m: f64,
    hole_m: f64,
    spacing_m: f64,
    between_rows_m: Option<f64>,
    edge_m: f64,
    pull_n: f64,
    across_n: f64,
    share: f64,
    backing_length_m: f64,
    backing_width_m: f64,
    backing_thickness_m: f64,
}

impl StrengthRecord {
    /// Of a part.
    pub fn of(part: &Part, strength: &Strength, units: UnitChoice) -> Self {
        Self {
            verdict: strength.verdict().word(),
            checks: strength.checks.iter().map(CheckRecord::from).collect(),
            needed_thickness_m: strength.needed_thickness.get::<meter>(),
            needed_hold_n: strength.needed_hold.get::<newton>(),
            hinge: HeldRecord::from(&strength.bolts.hinge),
            bracket: HeldRecord::from(&strength.bolts.bracket),
            remedy: remedy(part, strength, units),
        }
    }
}

impl From<&Check> for CheckRecord {
    fn from(check: &Check) -> Self {
        Self {
            check: check.bearer.word(),
            verdict: check.verdict().map(Verdict::word),
            speed_m_s: check.speed.get::<meter_per_second>(),
            deflection_deg: degrees(check.deflection),
            steady_share: check.steady,
            slamming_share: check.slamming,
        }
    }
}

impl From<&HeldBy> for HeldRecord {
    fn from(held: &HeldBy) -> Self {
        Self { held_by: held.word(), bolts: held.bolts().map(BoltsRecord::from) }
    }
}

impl From<&BoltPattern> for BoltsRecord {
    fn from(pattern: &BoltPattern) -> Self {
        let backing = &pattern.backing;
        let between_rows_m = pattern.between_rows.get::<meter>();
        Self {
            count: pattern.count,
            size: pattern.bolt.name(),
            diameter_m: pattern.bolt.diameter.get::<meter>(),
            hole_m: pattern.bolt.hole.get::<meter>(),
            spacing_m: pattern.spacing.get::<meter>(),
            between_rows_m: (between_rows_m > 0.0).then_some(between_rows_m),
            edge_m: pattern.edge.get::<meter>(),
            pull_n: pattern.pull.get::<newton>(),
            across_n: pattern.across.get::<newton>(),
            share: pattern.share(),
            backing_length_m: backing.length.get::<meter>(),
            backing_width_m: backing.width.get::<meter>(),
            backing_thickness_m: backing.thickness.get::<meter>(),
        }
    }
}
