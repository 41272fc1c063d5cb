//! Planewright sizes trim planes, the hinged plates on a powerboat's transom, and estimates how a
//! planing boat runs with them.
//!
//! Data flows one way: a boat file or a [`boat::BoatInput`] becomes a checked [`boat::Boat`]; a
//! [`balance::Balance`] finds the trim she runs at from the equations in [`hydro`] and
//! [`plane`]; [`size::suggest`] finds the least pair that does her duties. Every public quantity
//! carries its unit as a type of [`uom`]; what is outside the range an equation was tested in
//! carries a [`flag::Flag`].
//!
//! # A boat, a point, a pair of planes
//!
//! ```
//! # #[cfg(feature = "program")]
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! use planewright::{Angle, Balance, Settings, SizeAnswer, Velocity, degree, knot, read_boat};
//!
//! let file = read_boat("data/boats/lantern.toml".as_ref())?;
//! let balance = Balance::of(&file.boat, &Settings::default());
//! let point = balance.point(Velocity::new::<knot>(20.0), Angle::new::<degree>(5.0))?;
//! println!("{point}");
//! let answer = SizeAnswer::of(file)?;
//! println!("{}", answer.suggestion);
//! println!("{}", serde_json::to_string_pretty(&answer)?); // as `planewright size --json`
//! # Ok(())
//! # }
//! # #[cfg(not(feature = "program"))]
//! # fn main() {}
//! ```
//!
//! # What the features hold
//!
//! - without any: boats and boat files, the balance at a speed, the least pair for the boat as described ([`size::suggest`]);
//! - `study`: drawn boats and chances, behaviour at sea, stock lists, trial logs, the published checks;
//! - `program` (the default): texts, drawings, papers, the local page and the command line.
//!
//! The same without a file, with units as types:
//!
//! ```
//! use planewright::balance::{Balance, Outcome, Settings};
//! use planewright::boat::{Boat, BoatInput, HullInput, WeightInput};
//! use uom::si::f64::{Angle, Length, Mass, Velocity};
//! use uom::si::{angle::degree, length::meter, mass::kilogram, velocity::knot};
//!
//! let metres = Length::new::<meter>;
//! let hull = HullInput {
//!     bottom_length: Some(metres(6.5)),
//!     chine_beam: Some(metres(2.25)),
//!     deadrise: Some(Angle::new::<degree>(18.0)),
//!     ..HullInput::default()
//! };
//! let weight = WeightInput::Totals {
//!     mass: Mass::new::<kilogram>(2800.0),
//!     lcg: Some(metres(2.45)),
//!     vcg: Some(metres(0.75)),
//!     tcg: None,
//! };
//! let boat = Boat::build(BoatInput::new("heron", hull, weight)).expect("a possible boat");
//! let balance = Balance::of(&boat, &Settings::default());
//! let point = balance.point(Velocity::new::<knot>(20.0), Angle::new::<degree>(0.0))?;
//! assert_eq!(point.outcome, Outcome::Running);
//! # Ok::<(), planewright::boat::Fault>(())
//! ```
#![warn(missing_docs)]
// What only the studies and the program use of the physics stands idle without them.
#![cfg_attr(not(feature = "program"), allow(dead_code, unused_imports))]
#![forbid(unsafe_code)]

#[cfg(feature = "program")]
pub mod answer;
pub mod balance;
#[cfg(feature = "study")]
pub mod behaviour;
pub mod boat;
#[cfg(feature = "program")]
pub mod chart;
#[cfg(feature = "study")]
pub mod check;
#[cfg(feature = "program")]
pub mod cli;
#[cfg(feature = "program")]
pub mod document;
#[cfg(feature = "study")]
pub mod doubt;
#[cfg(feature = "program")]
pub mod drawing;
pub mod error;
pub mod field;
pub mod flag;
#[cfg(feature = "study")]
pub mod fleet;
pub mod hydro;
pub mod input;
#[cfg(feature = "study")]
pub mod listing;
#[cfg(feature = "program")]
pub mod mark;
mod numeric;
#[cfg(feature = "program")]
pub mod offer;
pub mod physical;
#[cfg(feature = "program")]
pub mod picture;
pub mod plane;
#[cfg(feature = "program")]
pub mod report;
#[cfg(feature = "study")]
pub mod save;
pub mod schema;
pub mod sentence;
pub mod size;
mod spelling;
#[cfg(feature = "study")]
pub mod stock;
#[cfg(feature = "program")]
pub mod tell;
#[cfg(feature = "study")]
pub mod trial;
pub mod units;
pub mod water;
#[cfg(feature = "program")]
pub mod web;

#[doc(no_inline)]
pub use uom::si::{angle::degree, f64::Angle, f64::Velocity, velocity::knot};

#[cfg(feature = "program")]
pub use crate::answer::SizeAnswer;
pub use crate::balance::{Balance, Point, Settings};
pub use crate::boat::{Boat, BoatInput, PlanePair};
#[cfg(feature = "study")]
pub use crate::doubt::advise_for;
pub use crate::input::{BoatFile, parse_boat, read_boat};
pub use crate::size::{Suggestion, suggest};
