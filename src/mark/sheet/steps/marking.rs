//! From the inside of the transom to marks that are proved: nothing here leaves a trace.

use uom::si::f64::Length;

use super::Step;
use crate::boat::TransomForm;
use crate::mark::accepted::PAIR;
use crate::mark::note::{BEDDED_MM, PACKED_MM};
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::symmetry::datum_height;

pub(super) fn steps(placement: &Placement, say: Say) -> Vec<Step> {
    vec![
        behind(placement, say),
        kit(placement, say),
        centreline(placement, say),
        chines(placement, say),
        face(placement, say),
        lines(placement, say),
        symmetry(say),
        dry_fit(placement),
    ]
}

fn behind(placement: &Placement, say: Say) -> Step {
    let thickness = placement.transom.thickness.map_or_else(
        || {
            "Measure how thick it is at an existing hole or an edge, and write it down: ________."
                .to_owned()
        },
        |thickness| {
            format!(
                "By the boat file it is {} thick: measure it at an existing hole or an edge.",
                say.length(thickness)
            )
        },
    );
    let waterline = if placement.transom.waterline.is_some() {
        ""
    } else {
        " Mark the waterline at rest on it while she is afloat, loaded as usual."
    };
    let fillet = placement.lower_edge_of_backing().map_or_else(String::new, |low| {
        let from = if low < Length::default() { "below" } else { "above" };
        format!(
            " The backing plates of the hinges reach down to {} {from} the bottom edge outside: measure how \
             thick the bottom is and how high its fillet stands inside, ________. Are both together \
             higher than that, stop and ask the builder: a bevelled seat, or a leaf that stands higher.",
            say.length(low.abs())
        )
    });
    Step::new(
        "Look at the transom, inside and out",
        "what stands behind it decides whether there is a place at all, and costs nothing to find \
         out now.",
        format!(
            "From inside, measure from chine and bottom edge where everything behind the transom \
             stands, and chalk it on the outside by those measures. Tap it all over: a \
             dull sound is a wet or loose core. {thickness}{waterline}{fillet}"
        ),
    )
    .with_caution("no access behind the planes' place: no hole, until someone has made one.")
}

fn kit(placement: &Placement, say: Say) -> Step {
    Step::new(
        "Check the kit, and fill in its papers",
        "the parts in hand win over this sheet, so they must be known before it is marked out.",
        format!(
            "Lay out both planes, hinges, actuators and fastenings against the materials list. Each \
             plane must measure {} by {}. Measure the barrel of the hinge: this sheet has a radius \
             of {}; is yours larger, {} Write what the papers of parts and sealant state into the table 'From the \
             papers of the parts'. Planes may be handed: label them port and starboard.",
            say.length(placement.pair.span),
            say.length(placement.pair.chord),
            say.length(placement.hinge.barrel),
            all_goes_up(placement, say)
        ),
    )
}

/// What a hinge that must stand higher takes with it.
fn all_goes_up(placement: &Placement, say: Say) -> String {
    let above_hinge = placement.gauge.trailing_edge - placement.hinge.height;
    format!(
        "the hinge line, all holes, the brackets and the gauge block go up by the difference (gauge \
         block = hinge height + {}, which is chord x sin of the retracted angle).",
        say.length(above_hinge)
    )
}

fn centreline(placement: &Placement, say: Say) -> Step {
    let datum = say.length(datum_height(&placement.transom));
    let keel = match placement.transom.form {
        TransomForm::Notched => "the keel ahead of the notch",
        TransomForm::Plain | TransomForm::Stepped | TransomForm::Pod => "the keel",
    };
    let why = match placement.transom.form {
        TransomForm::Stepped | TransomForm::Pod => {
            "both sides are set out from it; along the edge, which is cut here, the corner of the chine counts."
        }
        TransomForm::Plain | TransomForm::Notched => "every distance below is taken from it.",
    };
    Step::new(
        "Find the centreline",
        why,
        format!(
            "Level the boat across. Halve the distance from chine corner to chine corner, which must \
             be {}, and drop a plumb line from the half-way mark to {keel}; where they disagree the \
             keel wins. Draw the centreline, with the datum on it {datum} above the keel.",
            say.length(placement.transom.beam)
        ),
    )
    .with_caution("chocked and level across: on a heeled boat the plumb line lies.")
}

fn chines(placement: &Placement, say: Say) -> Step {
    let round = if placement.transom.chine_radius > Length::default() {
        format!(
            " The chine is rounded by {}: its corner is where the straight bottom and side would \
             meet.",
            say.length(placement.transom.chine_radius)
        )
    } else {
        " Where a chine is rounded, its corner is where the straight bottom and side would meet."
            .to_owned()
    };
    let prove = match placement.transom.form {
        TransomForm::Stepped | TransomForm::Pod => format!(
            "Level, it must be {} from centreline to the corner of the chine, on both sides.{round} Do \
             the sides differ, keep the distances from the chines alike and let those from the middle \
             differ.",
            say.length(placement.off_centre(placement.edge(), Length::default()))
        ),
        TransomForm::Plain | TransomForm::Notched => format!(
            "Along the bottom edge it must be {} from centreline to chine, on both sides.{round} Do \
             the sides differ, keep the distances from the centreline alike and let the gaps to the \
             chines differ.",
            say.length(placement.edge())
        ),
    };
    Step::new(
        "Mark the chines and prove the edge",
        "an edge that does not measure as in the boat file means that all figures here are wrong.",
        prove,
    )
}

fn face(placement: &Placement, say: Say) -> Step {
    let mm = Length::new::<uom::si::length::millimeter>;
    Step::new(
        "Try the edge and the face with a straightedge",
        "a hinge on a hollow face binds, and one below a hanging edge drags; both are found before \
         the line is drawn.",
        format!(
            "Over the span of each plane. Along the bottom edge: the edge may stand off by up to {}, \
             which is in the height of the hinge; more, and {} On the \
             face, along the hinge line: a gap of up to {} is bedded; up to {} the seat is packed or \
             cast flat under the whole leaf; beyond that the builder makes a seat (common practice, \
             no source).",
            say.length(placement.transom.edge_fairness),
            all_goes_up(placement, say),
            say.length(mm(BEDDED_MM)),
            say.length(mm(PACKED_MM))
        ),
    )
}

fn lines(placement: &Placement, say: Say) -> Step {
    let (inner, outer) = (placement.inner, placement.outer);
    let level = |along| say.length(placement.off_centre(along, Length::default()));
    let from_chine = if placement.is_measured_from_chine() {
        format!(
            "From the chine first, since the edge does not run through to the centreline: outer end {}, inner \
             end {}, along the bottom edge. Then, where a straightedge reaches, as a proof: ",
            say.length(placement.edge() - outer),
            say.length(placement.edge() - inner)
        )
    } else {
        String::new()
    };
    Step::new(
        "Draw the ends and the hinge line",
        "they stand on centreline and edge, and all holes stand on them.",
        format!(
            "{from_chine}Along the bottom edge from the centreline, port and starboard: inner end {}, outer end \
             {} (level: {} and {}); the outer end is then {} from the chine. Hinge line {} above the \
             bottom edge and parallel to it: it follows the deadrise and is not level.",
            say.length(inner),
            say.length(outer),
            level(inner),
            level(outer),
            say.length(placement.edge() - outer),
            say.length(placement.hinge.height)
        ),
    )
}

fn symmetry(say: Say) -> Step {
    Step::new(
        "Prove the symmetry",
        "it is the last moment at which a mistake is rubbed out instead of filled.",
        format!(
            "Fill in the whole symmetry table, with a second person at the tape. More than {} out: \
             mark again.",
            PAIR.said(say)
        ),
    )
}

fn dry_fit(placement: &Placement) -> Step {
    let beside = match placement.transom.form {
        TransomForm::Plain => "",
        TransomForm::Notched => ", the corner of the notch",
        TransomForm::Stepped => ", the side of the step",
        TransomForm::Pod => ", pod and engines",
    };
    Step::new(
        "Hold the planes up",
        "what touches is found by hand while the planes can still be moved.",
        format!(
            "Tape or clamp each plane with its hinge on the line and its ends on the marks; swing it \
             over the whole travel with the drive hard over and tilted: nothing may touch drive, \
             ladder, transducer, brackets of a platform{beside}. Compare the holes of leaf and \
             bracket in hand with table 2: the parts in hand win, and a difference of more than a \
             screw's width wants an explanation."
        ),
    )
}
