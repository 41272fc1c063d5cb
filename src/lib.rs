//! Planewright

pub mod chart;
