//! What to know before trusting a number of the placement.

use uom::si::f64::{Angle, Length};
use uom::si::length::inch;

use super::say::Say;
use crate::plane::gauge::{FACT_HINGE_IN, GAUGE_FACTS_IN};

/// Least distance of the inner edge off the centreline, inches; common practice, no source.
pub(super) const LEAST_INNER_IN: f64 = 8.0;
/// Usual distances of the outer edge from the chine, inches; common practice, no source.
pub(super) const USUAL_OUTER_IN: (f64, f64) = (3.0, 4.0);

/// One thing to know.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// No part was chosen: screws, bracket and travel are usual proportions.
    UsualHardware,
    /// The chord lies outside those of the two gauge facts.
    ChordOutsideFacts,
    /// The hinge is not 1/4 in above the bottom edge.
    HingeHeightUnusual(Length),
    /// The inner edge is nearer the centreline than is usual.
    InnerEdgeNear(Length),
    /// The outer edge is nearer the chine, or farther from it, than is usual.
    OuterEdgeUnusual(Length),
    /// The bracket stands this far from its listed height, up positive.
    BracketMoved(Length),
    /// The usual pilot does not suit the hinge screws.
    HingePilotUnusual,
    /// The usual pilot does not suit the bracket screws.
    BracketPilotUnusual,
    /// The counterbore would cut into a bracket screw.
    CounterboreAtScrew,
    /// Full stroke gives more than this deflection, beyond what was tested.
    TravelBeyondTested(Angle),
    /// Something stands on the centreline.
    CentreTaken,
    /// Beam or deadrise of the transom is estimated: nobody measured it.
    TransomEstimated,
    /// Something on the transom moved the planes inboard of the outer clearance.
    MovedInboard,
}

impl Note {
    /// Stable word for machines.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::UsualHardware => "usual-hardware",
            Self::ChordOutsideFacts => "gauge-chord-outside-facts",
            Self::HingeHeightUnusual(_) => "hinge-height-unusual",
            Self::InnerEdgeNear(_) => "inner-edge-near-centreline",
            Self::OuterEdgeUnusual(_) => "outer-edge-unusual",
            Self::BracketMoved(_) => "bracket-moved",
            Self::HingePilotUnusual => "hinge-pilot-unusual",
            Self::BracketPilotUnusual => "bracket-pilot-unusual",
            Self::CounterboreAtScrew => "counterbore-at-screw",
            Self::TravelBeyondTested(_) => "travel-beyond-tested",
            Self::CentreTaken => "centreline-taken",
            Self::TransomEstimated => "transom-estimated",
            Self::MovedInboard => "moved-inboard",
        }
    }

    /// One or two sentences for a person.
    pub(super) fn sentence(&self, say: Say) -> String {
        let inches = |x| say.length(Length::new::<inch>(x));
        match self {
            Self::UsualHardware => "No part is chosen: screw positions, bracket and actuator are \
                usual proportions for this chord. Take them from the hardware in hand before \
                drilling; edges, hinge line and gauge height hold whatever is bought."
                .to_owned(),
            Self::ChordOutsideFacts => {
                let [(short, _), (long, _)] = GAUGE_FACTS_IN;
                format!(
                    "The gauge height is known in practice for chords of {} to {}; outside them \
                     the retracted angle of the nearer one is kept. Ask the maker of the plane.",
                    inches(short),
                    inches(long)
                )
            }
            Self::HingeHeightUnusual(height) => format!(
                "The hinge line is set {} above the bottom edge, not the usual {}: the gauge \
                 height keeps the usual angle.",
                say.fine(*height),
                say.fine(Length::new::<inch>(FACT_HINGE_IN))
            ),
            Self::InnerEdgeNear(inner) => format!(
                "The inner edge stands {} off the centreline; {} or more is usual, to keep the \
                 plane out of the propeller's water.",
                say.length(*inner),
                inches(LEAST_INNER_IN)
            ),
            Self::OuterEdgeUnusual(gap) => format!(
                "The outer edge stands {} in from the chine; {} to {} is usual.",
                say.length(*gap),
                inches(USUAL_OUTER_IN.0),
                inches(USUAL_OUTER_IN.1)
            ),
            Self::BracketMoved(by) => format!(
                "For the retracted plane to stand at its gauge height on this transom the upper \
                 bracket sits {} {} than the stock list has it.",
                say.fine(by.abs()),
                if *by > Length::default() { "higher" } else { "lower" }
            ),
            Self::HingePilotUnusual => "The hinge screws are not of the usual size; their pilot \
                is 0.8 of the screw. Try it in an offcut of the same make-up."
                .to_owned(),
            Self::BracketPilotUnusual => "The bracket screws are not of the usual size; their \
                pilot is 0.8 of the screw. Try it in an offcut of the same make-up."
                .to_owned(),
            Self::CounterboreAtScrew => "The counterbore in the middle of the bracket would cut \
                into a bracket screw: take its place from the bracket in hand, clear of the \
                screws."
                .to_owned(),
            Self::TravelBeyondTested(most) => format!(
                "Full stroke turns the plane {} down; nothing beyond 15 deg was tested. Limit the \
                 travel, or mark 15 deg on the indicator as the most to use.",
                say.angle(*most)
            ),
            Self::CentreTaken => {
                "Something stands on the centreline: carry the centreline up past it with a \
                plumb line or a straightedge held clear of it, and take the diagonals that cross \
                it clear of it too, parallel to the transom."
                    .to_owned()
            }
            Self::TransomEstimated => "ESTIMATED: nobody gave the beam or the deadrise of the transom, so \
                that no measure of this sheet may be marked or drilled before both are measured on the \
                boat and written below [transom]."
                .to_owned(),
            Self::MovedInboard => "What stands near the chine keeps the planes inboard of their \
                usual place; they turn the boat a little less than they could."
                .to_owned(),
        }
    }
}
