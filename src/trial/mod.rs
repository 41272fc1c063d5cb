//! Learning from a sea trial: what a log of speed and trim says about the boat.
//!
//! [`read_log`] reads a log, [`measurements`] averages its two-way runs, and
//! [`learn`] fits what the log can carry of four unknowns: the centre of
//! gravity, how strongly the planes act, the roughness of the bottom, and the
//! zero of the inclinometer. [`calibrated`] puts what was learned into a copy
//! of the boat file.
//!
//! The fitted values are effective ones: they make these equations agree with
//! this boat, and so take up whatever else about her is not as described. Each
//! carries two intervals: from the scatter of the log and what was left open,
//! and with the error of the equations themselves.

mod calibrate;
#[cfg(feature = "program")]
pub mod charts;
pub mod columns;
mod confidence;
mod evidence;
mod fit;
pub mod guidance;
mod information;
mod learn;
mod learned;
mod model;
mod noise;
mod pair;
#[cfg(test)]
mod proof;
mod read;
mod reading;
mod refusal;
mod robust;
mod row;
mod seen;
mod told;
mod unknown;

pub use calibrate::{Calibrated, calibrated, usual_path};
pub use columns::COLUMNS;
pub use learn::{Options, learn};
pub use learned::{Compared, FittedValue, Interval, Learned, LeftValue, Unused};
pub use pair::{Averaged, Measurement, Pairing, measurements};
pub use read::{Log, LogError, parse_log, read_log};
pub use refusal::Refusal;
pub use row::{Direction, LogRow};
pub use unknown::Unknown;
