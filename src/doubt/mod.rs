//! How sure: what a boat does when neither she nor the equations are known exactly.
//!
//! Every value of a boat file is known more or less well: as the file says in a
//! `[[tolerance]]`, else as from a brochure; an estimate by its likely range.
//! The equations scatter too. [`running`] draws very many boats from all of it,
//! sweeps each over her speeds and gives the median and the range that holds
//! nine boats in ten; [`duties`] how likely each duty is done by each pair, and
//! [`advise_for`] the least pair that does all on a share of them.
//!
//! A trim that was seen on the water (`[[seen]]`) is worth more than most of
//! it: only boats that would have shown the same are then drawn.
//!
//! All distributions are met by their quantiles, and every draw has a stream of
//! random numbers of its own, so that a seed gives the same answer to the bit.

mod advise;
mod asked;
pub mod calibrate;
mod draw;
mod duties;
mod form;
mod inputs;
mod interval;
mod measured;
mod rank;
mod running;
mod seen;
mod spread;
#[cfg(test)]
mod test_boat;
mod usual;

pub use advise::{
    DRAWS, FEWEST_DRAWS, SEED, advise_for, advise_with, effects_for, other_model, pair_used,
};
pub use asked::usual_duties;
pub use duties::{
    AskedOfReaching, Drawn, DutiesDoubt, HeldDuty, NeedDoubt, PairDoubt, Reaching, Reliefs, duties,
    duties_within,
};
pub(crate) use inputs::deviation_by;
pub use inputs::{Basis, Input, What};
pub use interval::{Likely, Probability, in_hundred};
pub use measured::{Measured, measured};
pub use running::{
    Influence, Influences, Progress, RUN_DRAWS, Request, RunningDoubt, SPEEDS, SeenDoubt,
    SpeedDoubt, running,
};
pub(crate) use seen::seen_of;
pub use seen::{SeenFit, SeenReading};
pub use spread::{LIKELY_SHARES, Spread};
pub use usual::why_so_wide;
