//! What was measured, judged by what the sheet accepts.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};

use crate::boat::AsFitted;
use crate::boat::transom::Side;
use crate::mark::accepted::{Accepted, HEIGHT, PAIR};
use crate::mark::placement::Placement;
use crate::mark::say::Say;

/// Deflection beyond which nothing was tested, with the last digit that is said.
const TESTED_DEG: f64 = 15.0 + 0.05;

/// So much less at the lower stop than planned counts as out.
const STOP_DEG: f64 = 1.0;

/// What is out, one sentence each; empty where all that was measured is accepted.
pub(super) fn judged(placement: &Placement, sides: &[AsFitted], say: Say) -> Vec<String> {
    let on = |side: Side| sides.iter().find(|one| one.side == side);
    let both = [("Port", on(Side::Port)), ("Starboard", on(Side::Starboard))];
    let each = both.iter().filter_map(|&(name, one)| Some((name, one?)));
    let mut out: Vec<String> =
        each.flat_map(|(name, one)| of_one(placement, name, one, say)).collect();
    out.extend(of_pair(both.map(|(_, one)| one), say));
    out
}

/// What is out on one side.
fn of_one(placement: &Placement, name: &str, one: &AsFitted, say: Say) -> Vec<String> {
    let heights = [
        ("hinge line", one.hinge_height, placement.hinge.height),
        ("gauge height", one.gauge_height, placement.gauge.trailing_edge),
    ];
    let from_plan = heights.into_iter().filter_map(|(what, measured, planned)| {
        let measured = measured?;
        (!HEIGHT.admits(measured - planned)).then(|| {
            format!(
                "{name}: the {what} stands at {}, {} from the {} planned; {} is accepted.",
                say.length(measured),
                say.length((measured - planned).abs()),
                say.length(planned),
                HEIGHT.said(say)
            )
        })
    });
    let down = one.angle_down.filter(|down| down.get::<degree>() > TESTED_DEG).map(|down| {
        format!(
            "{name}: the lower stop lies {} down, and nothing beyond 15 deg was tested: set it back, or \
             mark 15 deg on the indicator as the most to use.",
            say.angle(down)
        )
    });
    let lowered = placement.travel.1;
    let short = one.angle_down.filter(|&down| lowered - down > Angle::new::<degree>(STOP_DEG));
    let short = short.map(|down| {
        format!(
            "{name}: the lower stop lies {} down, {} planned: what was sized for more is not done. Look at \
             the stroke, the bracket or a stop.",
            say.angle(down),
            say.angle(lowered)
        )
    });
    let below = one.hinge_height.filter(|&height| height < placement.hinge.barrel);
    let below = below.map(|height| {
        format!(
            "{name}: hung {} above the edge, a barrel of {} stands below the bottom and drags: hang it higher.",
            say.length(height),
            say.length(placement.hinge.barrel)
        )
    });
    from_plan
        .chain(at_the_chine(placement, name, one, say))
        .chain(disagrees(placement, name, one, say))
        .chain(below)
        .chain(down)
        .chain(short)
        .collect()
}

/// An outer end that stands elsewhere than planned.
fn at_the_chine(placement: &Placement, name: &str, one: &AsFitted, say: Say) -> Option<String> {
    let (gap, planned) = (one.from_chine?, placement.edge() - placement.outer);
    (!PAIR.admits(gap - planned)).then(|| {
        let least = placement.transom.outer_clearance;
        let why = if gap < least - PAIR.length() {
            format!(" Nearer than {} the water under it turns round the chine.", say.length(least))
        } else {
            String::new()
        };
        format!(
            "{name}: the outer end stands {} from the chine, {} planned; {} is accepted.{why}",
            say.length(gap),
            say.length(planned),
            PAIR.said(say)
        )
    })
}

/// A gauge height that does not fit the hinge and the angle read: `gauge = hinge + chord x sin(angle)`.
fn disagrees(placement: &Placement, name: &str, one: &AsFitted, say: Say) -> Option<String> {
    let (gauge, up): (Length, Angle) = (one.gauge_height?, one.angle_up?);
    let hinge = one.hinge_height.unwrap_or(placement.hinge.height);
    let by_angle = hinge + placement.pair.chord * up.sin();
    (!PAIR.admits(gauge - by_angle)).then(|| {
        format!(
            "{name}: hinge line {} and {} up at the upper stop give a gauge height of {}, and {} was \
             measured: one of the three is wrong, measure again.",
            say.length(hinge),
            say.angle(up),
            say.length(by_angle),
            say.length(gauge)
        )
    })
}

/// Where port and starboard differ by more than is accepted.
fn of_pair(sides: [Option<&AsFitted>; 2], say: Say) -> Vec<String> {
    type Measure = fn(&AsFitted) -> Option<Length>;
    let measures: [(&str, Measure, Accepted); 3] = [
        ("outer ends to the chine", |one| one.from_chine, PAIR),
        ("hinge lines", |one| one.hinge_height, PAIR),
        ("gauge heights", |one| one.gauge_height, HEIGHT),
    ];
    let out = measures.into_iter().filter_map(|(what, of, accepted)| {
        let [port, starboard] = [of(sides[0]?)?, of(sides[1]?)?];
        (!accepted.admits(port - starboard)).then(|| {
            format!(
                "The {what} differ by {}, port to starboard; {} is accepted.",
                say.length((port - starboard).abs()),
                accepted.said(say)
            )
        })
    });
    out.collect()
}
