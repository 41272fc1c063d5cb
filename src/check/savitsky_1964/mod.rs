//! The worked example of Savitsky (1964), general and concurrent case.

mod balanced;
mod boat;
mod table_1;

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use boat::Example;

const SOURCE: &str = "Savitsky (1964), Marine Technology 1(1), worked example";

const TWO_DENSITIES: &str = "The lift uses 1.94 slug/ft^3, as the paper gives; the printed friction follows from the \
    printed Reynolds number, coefficient and speed only with about 1.99, so the friction uses 1.99.";

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let example = Example::published()?;
    let mut all = table_1::comparisons(&example)?;
    all.extend(balanced::comparisons(&example)?);
    Ok(all)
}
