//! What to know before trusting a number of the placement.

use uom::si::f64::{Angle, Length};

use super::say::Say;
use crate::boat::TransomForm;

/// Usual distances of the outer edge from the chine, millimetres; common practice, no source.
pub(super) const USUAL_OUTER_MM: (f64, f64) = (60.0, 150.0);
/// Unevenness of the face that bedding takes up, millimetres; common practice, no source: 1 to 3 mm.
pub(super) const BEDDED_MM: f64 = 2.0;
/// Unevenness beyond which packing is no longer a fitter's work, millimetres; chosen here.
pub(super) const PACKED_MM: f64 = 6.0;

/// One thing to know.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// No part was chosen: screws, bracket and travel are usual proportions.
    UsualHardware,
    /// The hinge stands higher than the boat was computed with: the height, and the deflection
    /// from which the plane works, as computed and as marked.
    HingeRaised(Length, [Angle; 2]),
    /// The hinge given stands lower than barrel, fairness and edge ask: what they ask.
    HingeTooLow(Length),
    /// The inner edge is nearer the centreline than the drive asks.
    InnerEdgeNear(Length),
    /// The outer edge is nearer the chine, or farther from it, than is usual.
    OuterEdgeUnusual(Length),
    /// The bracket stands this far from its listed height, up positive.
    BracketMoved(Length),
    /// Nobody says what is led through the transom.
    LeadThroughUnknown,
    /// The hole that leads through would cut into a bracket screw.
    LeadAtScrew,
    /// The screws are longer than the transom is thick.
    ScrewTooLong(Length),
    /// Full stroke gives more than this deflection, beyond what was tested.
    TravelBeyondTested(Angle),
    /// Something stands on the centreline.
    CentreTaken,
    /// Beam or deadrise of the transom is estimated: nobody measured it.
    TransomEstimated,
    /// Something on the transom moved the planes inboard of the outer clearance.
    MovedInboard,
    /// The transom leans; whether the height of the bracket is computed for it.
    Raked {
        /// By so much.
        rake: Angle,
        /// A part's own actuator sets the height; that of usual proportions is a share of the chord.
        is_computed: bool,
    },
    /// Notch, step or pod amidships.
    Form(TransomForm),
    /// The face is not flat: the gap under a straightedge.
    Uneven(Length),
    /// The edge between bottom and transom is round.
    EdgeRound(Length),
    /// The boat file says how the planes were fitted.
    AsFitted,
}

impl Note {
    /// Stable word for machines.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::UsualHardware => "usual-hardware",
            Self::HingeRaised(..) => "hinge-raised",
            Self::HingeTooLow(_) => "hinge-too-low",
            Self::InnerEdgeNear(_) => "inner-edge-near-drive",
            Self::OuterEdgeUnusual(_) => "outer-edge-unusual",
            Self::BracketMoved(_) => "bracket-moved",
            Self::LeadThroughUnknown => "lead-through-unknown",
            Self::LeadAtScrew => "lead-through-at-screw",
            Self::ScrewTooLong(_) => "screw-too-long",
            Self::TravelBeyondTested(_) => "travel-beyond-tested",
            Self::CentreTaken => "centreline-taken",
            Self::TransomEstimated => "transom-estimated",
            Self::MovedInboard => "moved-inboard",
            Self::Raked { .. } => "transom-raked",
            Self::Form(TransomForm::Plain) => "transom-plain",
            Self::Form(TransomForm::Notched) => "transom-notched",
            Self::Form(TransomForm::Stepped) => "transom-stepped",
            Self::Form(TransomForm::Pod) => "transom-pod",
            Self::Uneven(_) => "transom-uneven",
            Self::EdgeRound(_) => "edge-round",
            Self::AsFitted => "as-fitted",
        }
    }

    /// One or two sentences for a person.
    pub(super) fn sentence(&self, say: Say) -> String {
        match self {
            Self::UsualHardware => "No part is chosen: screw positions, bracket and actuator are \
                usual proportions for this chord. Take them from the hardware in hand before \
                drilling; edges, hinge line and gauge height hold whatever is bought."
                .to_owned(),
            Self::HingeRaised(height, [computed, marked]) => format!(
                "The hinge line stands at {}, as high as this hinge and this edge ask, higher than \
                 the boat was computed with: the plane works from about {} down, where {} was \
                 computed. Write transom.hinge_height into the boat file to compute her with it.",
                say.length(*height),
                say.angle(*marked),
                say.angle(*computed)
            ),
            Self::HingeTooLow(least) => format!(
                "transom.hinge_height is lower than the barrel of the hinge and the edge ask, {}: \
                 something of the hinge would hang below the bottom. Raise it, or fair the edge.",
                say.length(*least)
            ),
            Self::InnerEdgeNear(by) => format!(
                "The inner edge stands {} nearer the centreline than keeps its water clear of the \
                 propeller. Watch for a drive that races or loses grip with the planes down.",
                say.length(*by)
            ),
            Self::OuterEdgeUnusual(gap) => format!(
                "The outer edge stands {} in from the chine; {} to {} is usual (common practice, \
                 no source).",
                say.length(*gap),
                say.custom("60", "2 1/2"),
                say.custom("150", "6")
            ),
            Self::BracketMoved(by) => format!(
                "For the retracted plane to stand at its gauge height on this transom the upper \
                 bracket sits {} {} than the stock list has it.",
                say.length(by.abs()),
                if *by > Length::default() { "higher" } else { "lower" }
            ),
            Self::LeadThroughUnknown => "Nobody says what is led through the transom: measure the \
                tube, or the cable with its plug, and the passage that the bracket in hand has for \
                it. The hole is its largest width and a little sealant all round."
                .to_owned(),
            Self::LeadAtScrew => {
                "The hole that leads through would cut into a bracket screw: take \
                its place from the bracket in hand, clear of the screws."
                    .to_owned()
            }
            Self::ScrewTooLong(thickness) => format!(
                "The transom is {} thick and the screws are longer: they would come out inside. \
                 Take shorter ones and have what they hold judged again, or bolts.",
                say.length(*thickness)
            ),
            Self::TravelBeyondTested(most) => format!(
                "Full stroke turns the plane {} down; nothing beyond 15 deg was tested. Limit the \
                 travel, or mark 15 deg on the indicator as the most to use.",
                say.angle(*most)
            ),
            Self::CentreTaken => {
                "Something stands on the centreline: carry the centreline up past \
                it with a plumb line or a straightedge held clear of it, and take the diagonals \
                that cross it clear of it too, parallel to the transom."
                    .to_owned()
            }
            Self::TransomEstimated => "ESTIMATED: nobody gave the beam or the deadrise of the \
                transom, so that no measure of this sheet may be marked or drilled before both are \
                measured on the boat and written below [transom]."
                .to_owned(),
            Self::MovedInboard => "What stands near the chine keeps the planes inboard of their \
                usual place; they turn the boat a little less than they could."
                .to_owned(),
            Self::Raked { rake, is_computed } => format!(
                "The transom leans by {}: 'up' is along its face, not plumb, and holes are drilled \
                 square to it; edge, ends and diagonals are taken on the leaning face. The \
                 bracket's height is {}; measure the rake with a bevel between bottom and face \
                 before the bracket is drilled.",
                say.angle(*rake),
                if *is_computed {
                    "computed for this rake"
                } else {
                    "0.8 of the chord, not computed for the rake: the actuator in hand decides"
                }
            ),
            Self::AsFitted => {
                "The boat file says how the planes were fitted ([[as_fitted]]): ends, hinge \
                line and stops below are as they were measured, the mean of both sides."
                    .to_owned()
            }
            Self::Form(form) => form_sentence(*form).to_owned(),
            Self::Uneven(gap) => uneven_sentence(*gap, say),
            Self::EdgeRound(radius) => format!(
                "The edge between bottom and transom is rounded by {}: the bottom line is where \
                 the bottom would meet the face, found with a straightedge under the bottom that \
                 runs out aft. Heights are from that line, not from the round.",
                say.length(*radius)
            ),
        }
    }
}

const fn form_sentence(form: TransomForm) -> &'static str {
    match form {
        TransomForm::Plain => "The transom is one flat face.",
        TransomForm::Notched => {
            "The transom is notched: the planes stand outside the notch, on the full bottom. Take \
             the centreline from the keel ahead of the notch, and prove it on both chines."
        }
        TransomForm::Stepped => {
            "The transom is stepped: both planes stand on the face whose edge the bottom runs to, \
             and every height is taken from that edge. Swing them by hand: at no angle may plate \
             or actuator come within a finger's breadth of the side of the step."
        }
        TransomForm::Pod => {
            "A pod or bracket stands on the transom: the planes stand beside it on the hull's own \
             transom, not on the pod. Swing engines and planes through their whole travel, and \
             keep what fastens the pod out of the way of every hole."
        }
    }
}

fn uneven_sentence(gap: Length, say: Say) -> String {
    let what = if gap.get::<uom::si::length::millimeter>() <= BEDDED_MM {
        "within what the bedding takes up: let it set without drawing the screws tight, then tighten"
    } else if gap.get::<uom::si::length::millimeter>() <= PACKED_MM {
        "more than bedding takes up: cast a flat seat of thickened epoxy under the whole leaf, or \
         pack it evenly; a leaf that is drawn into a hollow binds the hinge"
    } else {
        "more than may be packed here: have the builder make a flat seat first"
    };
    format!(
        "Under a straightedge along the hinge line there is a gap of {}: {what} (common practice, no \
         source).",
        say.length(gap)
    )
}
