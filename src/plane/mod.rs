//! What a trim plane does and carries.

pub mod actuator;
pub mod hinge;
pub mod linkage;
pub mod require;
pub mod strength;
