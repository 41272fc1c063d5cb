//! What the boat will really do, beside running steadily at one speed.
//!
//! * [`thrust`]: what the engines push with at a speed;
//! * [`from_rest`]: resistance from rest to top speed, planes up, held or used best;
//! * [`surge`]: time and distance from a net force;
//! * [`on_plane`]: whether and how fast she gets on plane;
//! * [`fuel`]: power and fuel at each speed, with planes and without.

pub mod from_rest;
pub mod fuel;
pub mod on_plane;
pub mod surge;
pub mod thrust;
