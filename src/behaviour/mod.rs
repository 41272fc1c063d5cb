//! What the boat really does: more than one clean run, upright and in calm water.
//!
//! [`list`]: what heels her, how the planes level her, and what she does when
//! one of them does not move.

pub mod list;
