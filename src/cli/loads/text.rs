//! The loads as text for a person.

use uom::si::f64::{Angle, Velocity};
use uom::si::pressure::megapascal;

use super::compute::{Loaded, Origin, PartLoads};
use super::gear;
use crate::boat::degrees;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, aligned, fixed, table};
use crate::plane::hinge::HingeFlag;
use crate::plane::strength::LimitKind;
use crate::stock::assess::LimitedBy;
use crate::units::number_with_decimals;

/// What must be known before the numbers are leant on.
const HANDLING: &str = "Planes are moved under way with large forces: keep hands clear, let the pressure off and disconnect the battery before any work. Only load from below is looked at: running astern, grounding, ropes, trailers and straps are not. Screws are judged for being pulled out only, not for shear, rot or fatigue. A hole below the waterline can sink a boat: bed and seal every one, and leave doubt about the transom to the builder or a surveyor.";

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Loaded], screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|loaded| block(loaded, screen)).collect();
    let mut text = format!("{}\n", blocks.join("\n\n"));
    text.push_str(&paragraph("", HANDLING));
    text.push_str(&paragraph("", CAUTION));
    text
}

/// One loading condition.
fn block(loaded: &Loaded, screen: Screen) -> String {
    let mut text = format!("{}\n", screen.heading(&loaded.boat().full_name()));
    text.push_str(&paragraph("", &planes(loaded)));
    text.push_str(&section("How the loads are counted", &assumptions(loaded), screen));
    text.push_str(&loads(loaded, screen));
    match &loaded.part {
        Some(view) => {
            text.push_str(&reach(loaded, view, screen));
            text.push_str(&gear::actuator(loaded, view, screen));
            text.push_str(&gear::stroke(loaded, view, screen));
            text.push_str(&strength(loaded, view, screen));
        }
        None => text.push_str(&section(
            "Actuator, plate and screws",
            &["Name a part with --stock and --part to see its stroke, what its actuators push and hold, and what its plate and screws bear.".to_owned()],
            screen,
        )),
    }
    text.push_str(&references(loaded, screen));
    text.push_str(&notes(loaded, screen));
    text
}

pub(super) fn section(title: &str, lines: &[String], screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.heading(title));
    for line in lines {
        text.push_str(&paragraph("  ", line));
    }
    text
}

pub(super) fn speed_text(loaded: &Loaded, speed: Velocity) -> String {
    let unit = loaded.units.speed;
    format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol())
}

fn planes(loaded: &Loaded) -> String {
    let pair = crate::cli::size::pair_text(loaded.pair, loaded.units);
    let from = match (&loaded.part, loaded.origin) {
        (Some(view), _) => {
            let fit = if view.assessment.fit.fits() {
                "It fits the transom.".to_owned()
            } else {
                let missing = loaded.units.small_length.value(view.assessment.fit.missing);
                format!(
                    "THERE IS NO ROOM FOR IT: {} {} of span are missing on each side.",
                    number_with_decimals(missing, 1),
                    loaded.units.small_length.symbol()
                )
            };
            return format!(
                "Planes: {}, {pair} each (span x chord), {} of {}. {fit}",
                view.part.name,
                number_with_decimals(loaded.units.small_length.value(view.part.thickness), 2)
                    + " "
                    + loaded.units.small_length.symbol(),
                view.part.material.name
            );
        }
        (None, Origin::Suggested) => "as `planewright size` suggests",
        (None, _) => "of the boat file",
    };
    format!("Planes: {pair} each (span x chord), {from}.")
}

fn assumptions(loaded: &Loaded) -> Vec<String> {
    let settings = &loaded.settings;
    let mut lines = vec![format!(
        "Expected: steady running, from the theory of a thin plate with a hinged flap (Glauert 1927, half of it for a planing bottom), at the trim with planes up. Design: all of the plane's lift in the tank tests put at mid-chord, times a load factor of {} for slamming (--load-factor; common practice, no source).",
        settings.load_factor
    )];
    if let Some(view) = &loaded.part {
        let material = &view.part.material;
        let factor = settings.plate_factor.unwrap_or_else(|| material.default_factor());
        let kind = match material.limit_kind {
            LimitKind::Yield => "yield",
            LimitKind::Ultimate => "ultimate",
        };
        lines.push(format!(
            "Plate: a safety factor of {factor} on {kind}, {} MPa (--plate-factor). Screws: {} on being pulled out of wood, of which {} is left when wet (--screw-factor, --wet-factor). Both on top of the load factor.",
            number_with_decimals(material.limit_stress.get::<megapascal>(), 0),
            settings.withdrawal_factor,
            settings.wet_factor
        ));
    }
    lines
}

fn loads(loaded: &Loaded, screen: Screen) -> String {
    let units = loaded.units;
    let rows = &loaded.loads;
    let of = |value: &dyn Fn(usize) -> Option<f64>| (0..rows.len()).map(value).collect::<Vec<_>>();
    let at = |i: usize| {
        let view = loaded.part.as_ref()?;
        view.loads
            .iter()
            .find(|at| at.load.speed == rows[i].speed && at.load.deflection == rows[i].deflection)
    };
    let (force, moment) = (units.force, units.moment);
    let mut columns = vec![
        Column::numbers(
            "speed",
            units.speed.symbol(),
            fixed(&of(&|i| Some(units.speed.value(rows[i].speed))), 1),
        ),
        Column::numbers("down", "deg", fixed(&of(&|i| Some(degrees(rows[i].deflection))), 1)),
        Column::numbers(
            "load",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(rows[i].expected.force))), 3),
        ),
        Column::numbers(
            "moment",
            moment.symbol(),
            aligned(&of(&|i| Some(moment.value(rows[i].expected.hinge_moment))), 3),
        ),
    ];
    if let Some(view) = &loaded.part {
        let push = view.part.actuator.push();
        columns.push(Column::numbers(
            "pin",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(at(i)?.expected_push))), 3),
        ));
        columns.push(Column::numbers(
            "of push",
            "%",
            fixed(&of(&|i| Some(100.0 * (at(i)?.expected_push / push).value)), 0),
        ));
    }
    columns.push(Column::numbers(
        "design",
        force.symbol(),
        aligned(&of(&|i| Some(force.value(rows[i].design.force))), 3),
    ));
    columns.push(Column::numbers(
        "moment",
        moment.symbol(),
        aligned(&of(&|i| Some(moment.value(rows[i].design.hinge_moment))), 3),
    ));
    if let Some(view) = &loaded.part {
        let hold = view.part.actuator.hold();
        columns.push(Column::numbers(
            "pin",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(at(i)?.design_push))), 3),
        ));
        columns.push(Column::numbers(
            "of hold",
            "%",
            fixed(&of(&|i| Some(100.0 * (at(i)?.design_push / hold).value)), 0),
        ));
    }
    let mut text =
        format!("\n{}\n{}", screen.heading("Load on one plane"), table(&columns, screen));
    let mut meaning = "'load' and the 'moment' about the hinge line beside it are expected, the next two are for design; moments close the plane upward.".to_owned();
    if loaded.part.is_some() {
        meaning.push_str(" 'pin' is the push of each actuator along its line, against what it can push and what it bears standing still. '-' is beyond the stroke.");
    }
    text.push_str(&paragraph("  ", &meaning));
    text
}

fn reach(loaded: &Loaded, view: &PartLoads, screen: Screen) -> String {
    let unit = loaded.units.speed;
    let rows = &view.assessment.by_speed;
    let full_deg = degrees(view.assessment.full_deflection);
    let safe = |speed: Velocity| Some(degrees(loaded.safe_at(speed)?).min(full_deg));
    let numbers =
        |value: &dyn Fn(usize) -> Option<f64>| (0..rows.len()).map(value).collect::<Vec<_>>();
    let columns = [
        Column::numbers(
            "speed",
            unit.symbol(),
            fixed(&numbers(&|i| Some(unit.value(rows[i].speed))), 1),
        ),
        Column::numbers(
            "can be put to",
            "deg",
            fixed(&numbers(&|i| Some(degrees(rows[i].largest.deflection))), 1),
        ),
        Column::words(
            "because of",
            rows.iter().map(|at| limit_text(at.largest.limited_by).to_owned()).collect(),
        ),
        Column::numbers("never beyond", "deg", fixed(&numbers(&|i| safe(rows[i].speed)), 1)),
        Column::words(
            "bears design load there",
            rows.iter().map(|at| yes(at.holds_design)).collect(),
        ),
    ];
    let mut text =
        format!("\n{}\n{}", screen.heading("How far down it can be put"), table(&columns, screen));
    text.push_str(&paragraph("  ", &full_deflection(loaded, view)));
    text.push_str(&paragraph(
        "  ",
        "'never beyond' keeps the trim at 2 deg or more and the keel within the bottom; what the actuators can do is no leave to do it.",
    ));
    text
}

const fn limit_text(limit: LimitedBy) -> &'static str {
    match limit {
        LimitedBy::Tested => "tests end at 15 deg",
        LimitedBy::Linkage => "end of the stroke",
        LimitedBy::Actuator => "actuator can push no more",
    }
}

fn yes(value: bool) -> String {
    if value { "yes" } else { "NO" }.to_owned()
}

fn full_deflection(loaded: &Loaded, view: &PartLoads) -> String {
    let limits = &view.assessment.limits;
    let top = loaded.boat().drive().top_speed;
    let up_to = |speed: Velocity| {
        if speed >= top {
            format!("at all speeds to top speed (it would to {})", speed_text(loaded, speed))
        } else {
            format!("only up to {}", speed_text(loaded, speed))
        }
    };
    format!(
        "Full deflection, {:.1} deg: the actuators push the plane there {}; they bear the expected load standing still {}, and the design load {}.",
        degrees(view.assessment.full_deflection),
        up_to(limits.push),
        up_to(limits.hold),
        up_to(limits.hold_design)
    )
}

fn strength(loaded: &Loaded, view: &PartLoads, screen: Screen) -> String {
    let rows = &view.at_largest;
    let (speed, force, small) = (loaded.units.speed, loaded.units.force, loaded.units.small_length);
    let of = |value: &dyn Fn(usize) -> Option<f64>| (0..rows.len()).map(value).collect::<Vec<_>>();
    let stress =
        |check: &crate::plane::strength::PlateCheck| Some(check.worst_stress().get::<megapascal>());
    let share = gear::screw_share;
    let decimals = if small == crate::units::LengthUnit::Millimetre { 1 } else { 3 };
    let columns = [
        Column::numbers(
            "speed",
            speed.symbol(),
            fixed(&of(&|i| Some(speed.value(rows[i].load.speed))), 1),
        ),
        Column::numbers("down", "deg", fixed(&of(&|i| Some(degrees(rows[i].load.deflection))), 1)),
        Column::numbers("stress", "exp. MPa", fixed(&of(&|i| stress(&rows[i].expected.plate)), 0)),
        Column::numbers("stress", "MPa", fixed(&of(&|i| stress(&rows[i].design.plate)), 0)),
        Column::numbers(
            "factor",
            "",
            fixed(&of(&|i| gear::finite(rows[i].design.plate.safety_factor)), 1),
        ),
        Column::numbers(
            "edge",
            small.symbol(),
            fixed(
                &of(&|i| Some(small.value(rows[i].design.plate.trailing_edge_deflection))),
                decimals,
            ),
        ),
        Column::numbers(
            "off",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(rows[i].design_reaction.off_transom))), 3),
        ),
        Column::numbers(
            "along",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(rows[i].design_reaction.along_transom))), 3),
        ),
        Column::numbers(
            "hinge",
            "screw %",
            fixed(
                &of(&|i| {
                    share(rows[i].design.screws.hinge_holding, rows[i].design.screws.hinge_pull)
                }),
                0,
            ),
        ),
        Column::numbers(
            "bracket",
            "screw %",
            fixed(
                &of(&|i| {
                    share(rows[i].design.screws.bracket_holding, rows[i].design.screws.bracket_pull)
                }),
                0,
            ),
        ),
    ];
    let mut text = format!(
        "\n{}\n{}",
        screen.heading("Plate and screws under the design load, as far down as it can be put"),
        table(&columns, screen)
    );
    for line in gear::strength_lines(loaded, view) {
        text.push_str(&paragraph("  ", &line));
    }
    text
}

fn references(loaded: &Loaded, screen: Screen) -> String {
    let unit = loaded.units.speed;
    let rows = &loaded.references;
    let trims = |value: &dyn Fn(usize) -> Option<Angle>| {
        (0..rows.len()).map(|i| value(i).map(degrees)).collect::<Vec<_>>()
    };
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.speed))).collect();
    let columns = [
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers("trim, planes up", "deg", fixed(&trims(&|i| rows[i].planes_up), 2)),
        Column::numbers("from transom", "deg", fixed(&trims(&|i| rows[i].from_transom), 2)),
        Column::numbers(
            "from trailing edge",
            "deg",
            fixed(&trims(&|i| rows[i].from_trailing_edge), 2),
        ),
    ];
    let title = screen.heading("Where the planes' lift is measured from");
    let mut text = format!("\n{title}\n{}", table(&columns, screen));
    text.push_str(&paragraph(
        "  ",
        &format!(
            "The source leaves open whether the lift acts so far ahead of the transom or of the planes' trailing edge. Trim with planes at {:.1} deg by either; sizing.lift_reference in the boat file sets which is used, here {}. From the trailing edge the lift acts one chord further aft and pushes the bow down more. '-' is no balance: planes that far down drive the bow under.",
            degrees(loaded.compared_at),
            loaded.reference_word()
        ),
    ));
    text
}

fn notes(loaded: &Loaded, screen: Screen) -> String {
    let mut flags: Vec<HingeFlag> = Vec::new();
    for flag in loaded.loads.iter().flat_map(|load| &load.flags) {
        if !flags.contains(flag) {
            flags.push(*flag);
        }
    }
    let mut lines: Vec<String> = flags.iter().map(|flag| flag_text(*flag)).collect();
    let shown = |speed: &Velocity| loaded.loads.iter().any(|load| load.speed == *speed);
    for speed in loaded.speeds.iter().filter(|speed| !shown(speed)) {
        lines.push(format!(
            "At {} she does not plane or finds no balance; nothing is shown.",
            speed_text(loaded, *speed)
        ));
    }
    lines.extend(loaded.file.warnings.iter().map(|w| screen.warning(&w.to_string())));
    if lines.is_empty() { String::new() } else { section("Notes", &lines, screen) }
}

fn flag_text(flag: HingeFlag) -> String {
    let meaning = match flag {
        HingeFlag::BeyondLinearTheory => {
            "trim or deflection is beyond 15 deg, where the linear theory was trusted"
        }
        HingeFlag::ChordBeyondTests => {
            "the chord is more than a tenth of the wetted length, the most that was tested"
        }
        HingeFlag::AspectOutside => {
            "beam over wetted length is outside what the share of the trim load was worked out for"
        }
        HingeFlag::PlateDry => {
            "theory asks for suction under the plate; it runs dry instead and carries nothing"
        }
    };
    format!("{}: {meaning}.", flag.word())
}
