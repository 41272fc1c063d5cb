//! What a trim plane does to the boat, and what it carries itself.
//!
//! On the boat: [`effect`] (lift and drag) and [`roll`] (heeling moment). On
//! the plane: [`hinge`] (load on the plate), [`gauge`] (how far it comes up),
//! [`linkage`] (deflection and actuator stroke, and where the upper bracket
//! goes), [`actuator`] (what it can hold) and [`strength`] (plate, hinge,
//! screws).

pub mod actuator;
pub mod effect;
pub mod gauge;
pub mod hinge;
pub mod linkage;
pub mod require;
pub mod roll;
pub mod strength;
