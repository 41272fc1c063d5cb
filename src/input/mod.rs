//! Boat files: TOML text to a checked [`Boat`](crate::boat::Boat), and back to text.
//!
//! [`boat::keys`](crate::boat::keys) lists every table and key; the reader, the error texts and the
//! starter file all come from it.

mod as_fitted;
mod collect;
mod convert;
mod convert_conditions;
mod convert_duty;
mod convert_propulsion;
mod convert_seen;
mod convert_tolerance;
mod convert_transom;
mod convert_wind;
#[cfg(feature = "study")]
mod overlay;
mod read;
mod stations;
#[cfg(feature = "study")]
pub(crate) mod stations_list;
mod template;
mod values;
#[cfg(feature = "study")]
mod write;

pub use as_fitted::{parse_as_fitted, read_as_fitted};
#[cfg(feature = "study")]
pub(crate) use overlay::{Overlay, Set};
#[cfg(feature = "program")]
pub(crate) use read::tree_of;
pub use read::{BoatFile, parse_boat, parse_boat_beside, placed, read_boat, read_text, text_of};
pub use stations::Beside;
pub use template::starter_file;
#[cfg(feature = "program")]
pub(crate) use template::{starter_file_for, starter_of};
#[cfg(feature = "study")]
pub use write::{duties_as_toml, tolerances_as_toml};
