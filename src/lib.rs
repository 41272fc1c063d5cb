//! Planewright sizes trim planes, the hinged plates on a powerboat's transom, and estimates how a
//! planing boat runs with them.
//!
//! Data flows one way: a boat file or a [`boat::BoatInput`] becomes a checked [`boat::Boat`]; a
//! [`balance::Balance`] finds the trim she runs at from the equations in [`hydro`] and
//! [`plane`]; [`size::suggest`] finds the least pair that does her duties. Every public quantity
//! carries its unit as a type of [`uom`]; what is outside the range an equation was tested in
//! carries a [`flag::Flag`].
//!
//! # A pair of planes in ten lines
//!
//! ```
//! use planewright::{balance::Settings, input::parse_boat, size::suggest};
//!
//! let file = parse_boat("heron", r#"
//!     hull = { bottom_length = "6.5 m", chine_beam = "2.25 m", deadrise = "18 deg" }
//!     weight = { mass = "2800 kg", lcg = "2.45 m", vcg = "0.75 m" }
//!     drive = { kind = "sterndrive", top_speed = "30 kn" }
//!     duty = [{ kind = "hump-trim", at_most = "6 deg", from = "11 kn", to = "18 kn" }]
//! "#)?;
//! let suggestion = suggest(&file.boat, &Settings::default())?;
//! let pair = suggestion.pair().expect("this boat needs planes, and some pair does");
//! assert!(suggestion.does_all() && pair.chord < pair.span);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
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
//!     overall_length: None,
//!     bottom_length: Some(metres(6.5)),
//!     chine_beam: metres(2.25),
//!     deadrise: Angle::new::<degree>(18.0),
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
#![forbid(unsafe_code)]

pub mod balance;
pub mod behaviour;
pub mod boat;
pub mod chart;
pub mod check;
pub mod cli;
pub mod document;
pub mod doubt;
pub mod drawing;
pub mod error;
pub mod flag;
pub mod hydro;
pub mod input;
pub mod listing;
pub mod mark;
mod numeric;
pub mod physical;
pub mod picture;
pub mod plane;
pub mod report;
pub mod size;
mod spelling;
pub mod stock;
pub mod tell;
pub mod trial;
pub mod units;
pub mod water;
pub mod web;
