//! Planewright

pub mod plane;
