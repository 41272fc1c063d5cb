//! Planewright
