//! What the boat really does, beside running steadily, upright and in calm water.
//!
//! * [`list`]: what heels her, how the planes level her, and what she does when one of them does
//!   not move;
//! * [`thrust`]: what the engines push with at a speed;
//! * [`from_rest`]: resistance from rest to top speed, planes up, held or used best;
//! * [`surge`]: time and distance from a net force;
//! * [`on_plane`]: whether and how fast she gets on plane;
//! * [`fuel`]: power and fuel at each speed, with planes and without;
//! * [`seaway`]: how hard she rides in a head sea, and the speed that keeps a limit;
//! * [`sight`]: how much of the water ahead the bow hides;
//! * [`drive_trim`]: what trimming the drive does in place of planes;
//! * [`sense`]: what is asked about her before any of it is believed.

pub mod drive_trim;
pub mod from_rest;
pub mod fuel;
pub mod list;
pub mod on_plane;
pub mod seaway;
pub mod sense;
pub mod sight;
pub mod surge;
pub mod thrust;
