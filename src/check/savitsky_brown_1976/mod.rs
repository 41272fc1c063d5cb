//! Savitsky & Brown (1976): the worked example in smooth water and in waves, and the dynamic lift of prismatic and warped bottoms.

mod boat;
mod dynamic_lift;
mod flap;
mod smooth_water;
mod warped;
mod waves;

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};

/// Where it stands.
const SOURCE: &str = "Savitsky & Brown (1976), Marine Technology 13(4)";

/// Half of the last digit of a trim read off a nomograph to 0.1 degree.
const HALF_TENTH_DEG: f64 = 0.05;

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let example = boat::Example::published()?;
    let mut all = smooth_water::comparisons(&example)?;
    all.extend(flap::comparisons(&example)?);
    all.extend(waves::comparisons(&example)?);
    all.extend(dynamic_lift::comparisons()?);
    all.extend(warped::comparisons()?);
    Ok(all)
}
