//! Physics through the public interface: limits, symmetries, and sums that must hold whatever the boat.

mod boats;
mod earth_axes;
mod house;
mod loading;
mod opinions;
mod outcomes;
mod planes;
mod porpoising;
mod resistance;
mod sizing;
