//! What holds the planes, and by which formula that was found.

use uom::si::angle::degree;
use uom::si::f64::Length;
use uom::si::velocity::{knot, mile_per_hour};

use crate::document::{Block, Column, Table};
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say, SheetUnits};
use crate::plane::hinge::{DEFAULT_LOAD_FACTOR, MOMENT_PER_LIFT_CHORD};
use crate::plane::strength::bolt::{PROOF_STRESS_MPA, WOOD_BEARING_MPA};
use crate::plane::strength::fastening::{DEFAULT_WITHDRAWAL_FACTOR, WET_SERVICE_FACTOR};
use crate::plane::strength::{DEFAULT_FACTOR_ON_ULTIMATE, DEFAULT_FACTOR_ON_YIELD};
use crate::stock::assess::{BoltPattern, Check, HeldBy};
use crate::units::number_with_decimals;

pub(super) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    let bolts = &placement.holding.bolts;
    let held =
        [(&bolts.hinge, "Hinge leaf", "leaf"), (&bolts.bracket, "Upper bracket, each", "bracket")];
    let held = held.into_iter().filter_map(|(held, what, each)| match held {
        HeldBy::Bolts(pattern) => Some(pattern_text(pattern, what, each, say)),
        HeldBy::Screws => Some(format!("{what}: its screws bear both.")),
        HeldBy::Nothing | HeldBy::NotCovered => None,
    });
    let mut blocks = vec![
        Block::Section("5. What holds the planes".to_owned()),
        Block::Paragraph(
            "Judged at the deflection that is allowed at each speed up to top speed, for screws in a \
             sound plywood core (specific gravity 0.50, wet in service). Is yours solid laminate, foam \
             or metal, or not sound: STOP, and let the builder say how the planes are fastened. 'Steady' \
             and 'slamming' are what running in calm water and hard knocks take of what is borne with \
             its safety factor."
                .to_owned(),
        ),
        Block::Table(judged(&placement.holding.checks, say)),
    ];
    let low = placement.lower_edge_of_backing().map(|low| {
        let side = if low < Length::default() { "below" } else { "above" };
        format!(
            "The backing plate of the hinge leaf reaches down to {} {side} the bottom edge outside. It lies \
             flat only where the bottom and its fillet inside are lower than that: step 1.",
            say.length(low.abs())
        )
    });
    let points: Vec<String> = held.chain(low).chain(others(placement, say)).collect();
    blocks.extend((!points.is_empty()).then_some(Block::Points(points)));
    if bolts.any() {
        blocks.push(formulas());
    }
    blocks
}

/// What bears the planes, one a row.
fn judged(checks: &[Check], say: Say) -> Table {
    let percent = |share: Option<f64>| {
        share.map_or_else(|| "-".to_owned(), |share| format!("{:.0} %", 100.0 * share))
    };
    let cells = |cell: &dyn Fn(&Check) -> String| checks.iter().map(cell).collect::<Vec<_>>();
    let (speed_unit, speed): (_, fn(&Check) -> f64) = match say.0 {
        SheetUnits::Inches => ("mph", |check| check.speed.get::<mile_per_hour>()),
        SheetUnits::Millimetres | SheetUnits::Both => ("kn", |check| check.speed.get::<knot>()),
    };
    let decimal = |x: f64| number_with_decimals(x, 1);
    let verdict = |check: &Check| check.verdict().map_or("not covered", |v| v.text()).to_owned();
    let bearer = |check: &Check| check.bearer.text().trim_start_matches("the ").to_owned();
    // Lift at half of the chord over lift at the arm of the tank tests.
    let times = DEFAULT_LOAD_FACTOR * 0.5 / MOMENT_PER_LIFT_CHORD;
    Table {
        columns: vec![
            Column::words("what bears", cells(&bearer)),
            Column::numbers("at", speed_unit, cells(&|check| decimal(speed(check)))),
            Column::numbers(
                "down",
                "deg",
                cells(&|check| decimal(check.deflection.get::<degree>())),
            ),
            Column::numbers("steady", "", cells(&|check| percent(check.steady))),
            Column::numbers("slamming", "", cells(&|check| percent(check.slamming))),
            Column::words("verdict", cells(&verdict)),
        ],
        notes: vec![format!(
            "Factors in these shares: slamming is all of the plane's lift in the tank tests put at \
             mid-chord, times {DEFAULT_LOAD_FACTOR:.0} (common practice, no source), some {times:.0} times \
             the moment that the hinge feels in steady running; screws in wood keep a safety factor of {DEFAULT_WITHDRAWAL_FACTOR} against \
             withdrawal and {WET_SERVICE_FACTOR} for wet wood; plates of metal and bolts \
             {DEFAULT_FACTOR_ON_YIELD:.0} on yield, other plates \
             {DEFAULT_FACTOR_ON_ULTIMATE} on what breaks them."
        )],
        ..Table::default()
    }
}

fn pattern_text(pattern: &BoltPattern, what: &str, each: &str, say: Say) -> String {
    let rows = if pattern.between_rows > Length::default() {
        format!("in two rows {} apart across, ", say.length(pattern.between_rows))
    } else {
        String::new()
    };
    let spacing = if pattern.spacing > Length::default() {
        format!("{} from one to the next, ", say.length(pattern.spacing))
    } else {
        String::new()
    };
    let [across, up] = pattern.backing_across_and_up();
    format!(
        "{what}: {} through-bolts {} (metric), one in every hole of the {each}, {rows}{spacing}the end ones \
         {} from its end; inside a backing plate of stainless 316, {} across, {} up and {} thick, under washers of {} or \
         wider. Under \
         the slamming load each bolt is pulled by {} and pushed along the transom by {}, {:.0} % of \
         what it bears.",
        pattern.count,
        pattern.bolt.name(),
        say.length(pattern.edge),
        say.at_least(across),
        say.at_least(up),
        say.at_least(pattern.backing.thickness),
        say.at_least(pattern.bolt.washer()),
        say.force(pattern.pull),
        say.force(pattern.across),
        100.0 * pattern.share()
    )
}

/// What bolts do not cure.
fn others(placement: &Placement, say: Say) -> Vec<String> {
    let holding = &placement.holding;
    let plate = holding.plate.map(|[own, needed]| {
        format!(
            "Plate: {} thick; slamming asks for {}, or for folds or ribs that its maker answers for.",
            say.thickness(own, Next::Nearest),
            say.thickness(needed, Next::Larger)
        )
    });
    let actuators = holding.actuators.map(|[own, needed]| {
        format!(
            "Actuators: each bears {} standing still; slamming asks for {}. Let the planes rest \
             against a stop, or take actuators that bear it.",
            say.force(own),
            say.force(needed)
        )
    });
    let not_judged = holding.not_judged.map(|[plate, push]| {
        format!(
            "Plate and actuators are not judged, since no part is chosen: slamming puts {} on each plate, at \
             mid-chord, and asks {} of each actuator standing still. Their makers must answer for both.",
            say.force(plate),
            say.force(push)
        )
    });
    plate.into_iter().chain(actuators).chain(not_judged).collect()
}

fn formulas() -> Block {
    Block::Paragraph(format!(
        "How the bolts were found. Pull: the force of the hinge off the transom times leaf \
         height/(leaf height - row height), since the leaf pries about its upper edge, and the force \
         along it times the offset of the pin over the same arm; all bolts share alike. Bolt: \
         sqrt(s^2 + 3 t^2) of tension s and shear t on the stress area of the thread (von Mises), at \
         most half of {PROOF_STRESS_MPA:.0} MPa, the proof stress of stainless class 70 (ISO 3506-1, \
         from memory). Backing plate: so wide that plywood bears it on its face at {WOOD_BEARING_MPA} \
         MPa (wet Douglas fir, from memory), so thick that w s^2/8 between bolts and w e^2/2 beyond \
         them keep it under half the yield stress of stainless 316, of which it is."
    ))
}
