//! What the boat really does with her planes, beyond a straight run in calm water.

pub mod drive_trim;
pub mod seaway;
