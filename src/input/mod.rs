//! Boat files: TOML text to a checked [`Boat`](crate::boat::Boat), and back to text.
//!
//! [`schema`] lists every table and key; the reader, the error texts and the starter file all
//! come from it and from the bounds table of the boat.

mod collect;
mod convert;
mod convert_conditions;
mod convert_propulsion;
mod convert_seen;
mod convert_tolerance;
mod convert_transom;
mod convert_wind;
mod desk;
mod read;
#[cfg(feature = "study")]
mod save;
pub mod schema;
mod template;
#[cfg(feature = "study")]
mod write;

pub use read::{BoatFile, parse_boat, read_boat, read_text, text_of};
#[cfg(feature = "study")]
pub use save::{Overwrite, write_file};
pub use template::starter_file;
#[cfg(feature = "study")]
pub use template::write_starter_file;
#[cfg(feature = "study")]
pub use write::{duties_as_toml, tolerances_as_toml};
