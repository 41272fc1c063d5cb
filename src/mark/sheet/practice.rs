//! Figures that nobody derives, in one place: what is seen, and in which range.

use crate::document::Block;
use crate::mark::accepted::{HEIGHT, PAIR};
use crate::mark::placement::Placement;
use crate::mark::say::Say;

/// The section; figures of usual hardware only where no part gives its own.
pub(super) fn blocks(placement: &Placement, say: Say) -> [Block; 2] {
    let mm = |least: &str, most: &str, least_in: &str, most_in: &str| {
        format!("{} to {}", say.custom(least, least_in), say.custom(most, most_in))
    };
    let mut points = vec![
        format!(
            "Flat of the bottom left between a plane and the round of a chine: {}; {} is seen.",
            say.custom("40", "1 9/16"),
            mm("25", "60", "1", "2 3/8")
        ),
        format!(
            "Room beside a propeller: {} for outboards and legs, since water spreads by 8 in 100 of a \
             way of {} ({} is seen); shafts and pods push from ahead of the planes and ask none. Shaft \
             lines stand two diameters apart where nobody says (1.5 to 2.5).",
            say.custom("40", "1 9/16"),
            say.custom("500", "20"),
            mm("25", "100", "1", "4")
        ),
        format!(
            "Symmetry to {} ({}); the edge of the hull within half a hundredth of the boat file (a \
             quarter to one).",
            PAIR.said(say),
            mm("2", "5", "1/16", "3/16")
        ),
        format!(
            "Hinge line and gauge within {} ({}); the bracket's pin within {} of its figure ({}).",
            HEIGHT.said(say),
            mm("1", "3", "1/32", "1/8"),
            say.custom("5", "3/16"),
            mm("3", "10", "1/8", "3/8")
        ),
    ];
    if !placement.hardware.is_chosen() {
        points.push(format!(
            "Usual hardware, as shares of the chord: upper pin 0.8 above the hinge line (0.7 to 1.0) and \
             0.1 off the face (0.05 to 0.15), lower pin 0.65 aft of the hinge (0.5 to 0.8), row of the \
             leaf 1/12 up (1/15 to 1/10) in a leaf of 1/6 (1/8 to 1/5), bracket 1/6 across by 1/4.5 up \
             (from two thirds of that to half as much again). End holes of the leaf {} from its end \
             ({}), holes {} apart at most ({}). Barrel of {} radius ({}). Two actuators above {} of \
             span ({}).",
            say.custom("25", "1"),
            mm("15", "40", "5/8", "1 1/2"),
            say.custom("76", "3"),
            mm("50", "100", "2", "4"),
            say.custom("4", "3/16"),
            mm("3", "6", "1/8", "1/4"),
            say.custom("760", "30"),
            mm("600", "900", "24", "36")
        ));
    }
    [
        Block::Section(
            "Figures of common practice, no source, with the range that is seen".to_owned(),
        ),
        Block::Points(points),
    ]
}
