//! What can hurt people or sink the boat, before anything else.

use crate::document::Block;
use crate::mark::hardware::ActuatorKind;
use crate::mark::placement::Placement;

const ALWAYS: [&str; 8] = [
    "These numbers come from a boat file, not from your boat. Do not drill on this sheet's word \
     alone: measure twice, on both sides, and let a second person read the tape.",
    "Look behind the transom first, from inside, and mark on the outside where everything stands: \
     fuel tank, fuel and steering hoses, wiring, battery, stringers, exhaust, drain. A drill \
     that meets a fuel tank or a live cable can kill. If you cannot see or feel it, do not drill \
     there.",
    "Holes in a transom can sink a boat. Every one is sealed, core and all, and bedded; none is \
     left open afloat, not for an hour.",
    "Boat ashore, chocked so that she can neither roll nor tip while you lean on her; trailer \
     braked and wheels wedged. Drive disabled: key out, kill cord off, propeller off or guarded. \
     Battery switched off and its leads taken off before you drill or cut.",
    "Eye protection whenever you drill or cut, and a respirator for fine dust: glass and core dust \
     stay in the lungs. Ventilate the bilge and sniff for fuel before any tool is switched on.",
    "Sealant, solvent and bottom paint harm skin and eyes: gloves on, and keep to their data \
     sheets. The sealant's data sheet also says how long it cures and at what temperature: the \
     boat stays ashore until it has.",
    "Keep hands away from hinge and linkage while anyone can reach the switch: a plane shears a \
     finger without slowing down.",
    "Local codes, the class society and the boat's insurer come before this sheet. When the \
     transom's make-up is in doubt, when it sounds dull or is wet, or when wiring and fuel are \
     near, have the builder, a surveyor or a licensed yard do it.",
];

pub(super) fn block(placement: &Placement) -> Block {
    let more = match placement.hardware.actuator {
        ActuatorKind::Hydraulic => {
            "Oil under pressure goes through skin: never feel for a leak with a finger, and let \
             the pressure off before a fitting is loosened."
        }
        ActuatorKind::Electric => {
            "Electric wiring near a fuel tank must be of the kind the local code asks for there; \
             if in doubt, a licensed electrician."
        }
        ActuatorKind::Open => {
            "Oil under pressure goes through skin: never feel for a leak with a finger. Wiring \
             near a fuel tank must be of the kind the local code asks for there."
        }
    };
    Block::Caution {
        title: "Cautions: read these first".to_owned(),
        points: ALWAYS.into_iter().chain([more]).map(str::to_owned).collect(),
    }
}
