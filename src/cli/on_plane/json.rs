//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use super::OnPlaneOutput;
use crate::behaviour::from_rest::Basis;
use crate::behaviour::on_plane::ADDED_MASS_SHARE;
use crate::field::{InSi, written};

/// The boat in all loading conditions asked about.
pub(super) struct Written<'a>(pub &'a [OnPlaneOutput]);

written! {
    Written<'_> as all {
        "added_mass_share": ADDED_MASS_SHARE,
        "conditions": all.0,
        "basis_meanings": [Basis::Balance, Basis::Regression, Basis::Interpolation]
            .map(|basis| (basis.word(), basis.meaning()))
            .into_iter()
            .collect::<BTreeMap<_, _>>(),
    }
    OnPlaneOutput as one {
        "name": one.boat().condition().name,
        "mass_kg": one.boat().weight().mass.in_si(),
        "power_w": one.answer.power.in_si(),
        "bollard_pull_n": one.answer.thrust.bollard_pull().in_si(),
        "propulsive_efficiency": one.answer.thrust.efficiency().when_planing().in_si(),
        "efficiency_basis": one.answer.thrust.efficiency().basis(),
        "target_speed_m_s": one.answer.target.in_si(),
        "target_is_asked": one.answer.target_is_asked,
        "file_top_speed_m_s": one.boat().drive().top_speed.in_si(),
        "fitting_efficiency": one.answer.fitting_efficiency.in_si(),
        "estimates": one.answer.effects,
        "runs": one.answer.runs,
    }
}
