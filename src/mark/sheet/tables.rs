//! Positions, holes, drills, settings and the symmetry check as tables.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};

use super::Page;
use crate::mark::holes::HoleKind;
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::symmetry::{CheckKind, datum_height};
use crate::plane::linkage::Linkage;

pub(super) fn write(page: &mut Page, placement: &Placement, say: Say) {
    how(page, say);
    edges(page, placement, say);
    holes(page, placement, say);
    drills(page, placement, say);
    settings(page, placement, say);
}

fn how(page: &mut Page, say: Say) {
    page.heading("HOW DISTANCES ARE TAKEN");
    page.paragraph(
        "'Along' is measured on the bottom edge of the hull itself, up the slope of the deadrise, \
         from the centreline outward. 'Level' is the same mark measured level across the boat \
         from the centreline, with a straightedge and a spirit level across a level boat. 'Up' \
         is square to the bottom edge, on the face of the transom. Take every distance from the \
         centreline, never from the mark before it, so that errors do not add up. Port is the \
         mirror image of starboard: the numbers are the same.",
    );
    page.line(&format!("All tables are in {}.", say.unit_words()));
}

fn edges(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("1. EDGES AND MIDDLE OF EACH PLANE");
    page.line("                      --- from the centreline ---         from the");
    page.line("                          along             level            chine,   up, at");
    page.line("mark                  port      stbd      port      stbd     along    hinge");
    let hinge = say.bare_fine(placement.transom.hinge_height);
    let zero = Length::default();
    for (name, along, up) in [
        ("inner edge", placement.inner, hinge.as_str()),
        ("middle of the span", placement.middle(), &hinge),
        ("outer edge", placement.outer, &hinge),
        ("chine", placement.edge(), "-"),
    ] {
        let (run, level) = (say.bare(along), say.bare(placement.off_centre(along, zero)));
        let chine = say.bare(placement.edge() - along);
        page.line(&format!("{name:<18}{run:>10}{run:>10}{level:>10}{level:>10}{chine:>10}{up:>9}"));
    }
}

fn holes(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("2. HOLES OF ONE PLANE (PORT AND STARBOARD ALIKE, MIRRORED)");
    page.line("          along from    along from    level from           up from");
    page.line("hole      inner edge    centreline    centreline       bottom edge   drill");
    for hole in &placement.holes {
        page.line(&format!(
            "{:<6}{:>14}{:>14}{:>14}{:>18}   {}",
            hole.name,
            say.bare(hole.along - placement.inner),
            say.bare(hole.along),
            say.bare(placement.off_centre(hole.along, hole.up)),
            say.bare(hole.up),
            say.short_drill(hole.drill)
        ));
    }
    page.paragraph(
        "H: hinge leaf. B: upper bracket of the actuator. T: through-hole for tube or harness, at \
         the foot of the upper pin and covered by the bracket; C: counterbore on it. If the \
         bracket in hand has its passage elsewhere, take T and C from the bracket.",
    );
}

fn drills(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("3. DRILL TABLE");
    page.line("kind  for                            drill               depth   side  boat");
    let table = placement.drill_table();
    for line in &table {
        let depth = line.depth.map_or_else(|| "through".to_owned(), |depth| say.length(depth));
        page.line(&format!(
            "{:<6}{:<31}{:<18}{:>9}{:>7}{:>6}",
            line.kind.letter(),
            line.kind.words(),
            say.drill(line.drill),
            depth,
            line.per_side,
            line.total
        ));
    }
    let (side, boat) =
        table.iter().fold((0, 0), |(side, boat), line| (side + line.per_side, boat + line.total));
    page.line(&format!("{:<64}{side:>7}{boat:>6}", "      all drillings"));
    let shallow = say.fine(Length::new::<uom::si::length::inch>(crate::mark::holes::SHALLOWER_IN));
    if table.iter().any(|line| matches!(line.kind, HoleKind::HingePilot | HoleKind::BracketPilot)) {
        page.paragraph(&format!(
            "Depth rule: pilots stay a little shallower than the screw, here by {shallow}, measured \
             from the face of the transom; put a flag of tape on the drill. Bevel the rims of the \
             bracket's pilots so that the skin does not chip and the sealant has somewhere to sit. \
             The transom must be thicker than the deepest pilot; measure it \
             from inside, at an existing hole or an edge, before any pilot is drilled."
        ));
    }
}

fn settings(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("4. SETTINGS");
    let (raised, lowered) = placement.travel;
    let gauge = &placement.gauge;
    page.line(&format!(
        "Hinge line above the bottom edge, parallel to it ......... {}",
        say.fine(placement.transom.hinge_height)
    ));
    page.line("Trailing edge above the extended bottom, plane retracted,");
    page.line(&format!(
        "at mid-span: the gauge height ............................ {}",
        say.fine(gauge.trailing_edge)
    ));
    page.line(&format!(
        "so the retracted plane points up by ...................... {}",
        say.angle(gauge.angle_up())
    ));
    for bracket in &placement.brackets {
        page.line(&format!(
            "Foot of the upper pin above the hinge line, square to it . {}",
            say.length(bracket.above_hinge)
        ));
        page.line(&format!(
            "  and off the centreline, level .......................... {}",
            say.length(bracket.off_centre)
        ));
    }
    page.line(&format!("Travel: {} up to {} down", say.angle(-raised), say.angle(lowered)));
    travel_table(page, placement, say);
}

/// Stroke and trailing edge against deflection, for the indicator and for checking.
fn travel_table(page: &mut Page, placement: &Placement, say: Say) {
    let Ok(linkage) = Linkage::new(&placement.hardware.linkage) else { return };
    let touching = linkage.touching_deflection(placement.pair.chord).ok();
    page.blank();
    page.line("deflection        actuator out      trailing edge below (-: above) the");
    page.line("                                    extended bottom line, at mid-span");
    let (raised, lowered) = placement.travel;
    let mut steps = vec![raised];
    let middle = [0.0, 5.0, 10.0, 15.0].map(Angle::new::<degree>);
    steps.extend(middle.into_iter().filter(|step| *step > raised && *step < lowered));
    steps.push(lowered);
    for step in steps {
        let Ok(out) = linkage.extension_for(step, &placement.hardware.travel) else { continue };
        let below = placement.pair.chord * step.sin() - placement.transom.hinge_height;
        page.line(&format!(
            "{:>10}{:>20}{:>20}",
            say.angle(step),
            say.fine(out.max(Length::default())),
            say.fine(below)
        ));
    }
    if let Some(touching) = touching {
        page.paragraph(&format!(
            "Zero is the plane parallel to the bottom. Down to about {} the trailing edge is not \
             yet below the extended bottom line, and the plane does next to nothing: a dead band \
             that the indicator will show.",
            say.angle(touching)
        ));
    }
}

/// The symmetry check with room for what is measured.
pub(super) fn write_checks(page: &mut Page, placement: &Placement, say: Say) {
    page.heading("SYMMETRY CHECK: FILL IN BEFORE THE FIRST HOLE");
    page.line("measure                                       must be   port       starboard");
    let datum = say.length(datum_height(&placement.transom));
    for check in &placement.checks {
        let words = match check.kind {
            CheckKind::CentreToInner => "centreline to inner edge, along",
            CheckKind::CentreToOuter => "centreline to outer edge, along",
            CheckKind::ChineToOuter => "chine to outer edge, along",
            CheckKind::EdgeToHinge => "bottom edge to hinge line, each end",
            CheckKind::DatumToInner => "datum to inner end of hinge line",
            CheckKind::DatumToOuter => "datum to outer end of hinge line",
            CheckKind::Cross => "inner end here to outer end across",
        };
        let length = if check.kind == CheckKind::EdgeToHinge {
            say.fine(check.length)
        } else {
            say.length(check.length)
        };
        let blocked = if check.blocked { " *" } else { "" };
        page.line(&format!(
            "{:<40}{length:>13}   ________   ________",
            format!("{words}{blocked}")
        ));
    }
    page.paragraph(&format!(
        "The datum is a mark on the centreline {datum} above the keel, up the face of the transom. \
         The two diagonals from it, port and starboard, tell a plane that is turned; the two \
         cross diagonals tell a pair that is shifted sideways."
    ));
    if placement.checks.iter().any(|check| check.blocked) {
        page.paragraph(
            "* Something stands on the centreline: run the tape straight, clear of it and parallel \
             to the transom, and if it will not run straight, trust the distances along the \
             edge.",
        );
    }
}
