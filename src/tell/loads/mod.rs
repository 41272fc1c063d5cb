//! The loads told: what the planes carry, and what moves and holds them.
//!
//! Each part is a function of [`Loads`], so that whoever prints it can choose.

mod gear;
mod notes;
mod short_form;
mod tables;
mod verdict;

use uom::si::f64::{Length, Velocity};
use uom::si::pressure::megapascal;

pub(crate) use gear::finite;
pub use gear::{actuator, stroke};
pub use notes::{flags, handling};
pub use short_form::short_form;
pub use tables::{on_one_plane, reach, strength};
pub use verdict::verdict;

use crate::boat::{Boat, Fit};
use crate::document::Block;
use crate::error::FileWarning;
use crate::plane::strength::LimitKind;
use crate::size::PairSource;
use crate::stock::PlaneLoads;
use crate::units::{UnitChoice, number_with_decimals};

/// The loads on the planes of a boat, with what is needed to tell them.
#[derive(Clone, Copy, Debug)]
pub struct Loads<'a> {
    /// The boat in one loading condition.
    pub boat: &'a Boat,
    /// What was found out.
    pub found: &'a PlaneLoads,
    /// Cable from battery to actuator, one way.
    pub cable_length: Length,
    /// Units of the output.
    pub units: UnitChoice,
    /// Values of the file that look unusual.
    pub warnings: &'a [FileWarning],
}

fn section(title: &str, lines: Vec<String>) -> Vec<Block> {
    let mut blocks = vec![Block::Section(title.to_owned())];
    blocks.extend(lines.into_iter().map(Block::Paragraph));
    blocks
}

fn speed_text(loads: &Loads<'_>, speed: Velocity) -> String {
    let unit = loads.units.speed;
    format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol())
}

/// Which planes, and whether they fit.
#[must_use]
pub fn planes(loads: &Loads<'_>) -> Vec<Block> {
    vec![Block::Paragraph(sentence(loads))]
}

/// Which planes, in a sentence.
pub(super) fn sentence(loads: &Loads<'_>) -> String {
    let pair = loads.found.planes.pair.text(loads.units);
    if let Some(name) = &loads.found.not_described {
        let fit = loads.boat.transom().fits(loads.found.planes.pair);
        return format!(
            "Planes: {name}, {pair} each (span x chord), strength not known. {}",
            fits(loads, &fit)
        );
    }
    let from = match (&loads.found.part, loads.found.planes.source) {
        (Some(view), _) => {
            let fit = fits(loads, &view.assessment.fit);
            return format!(
                "Planes: {}, {pair} each (span x chord), {} of {}. {fit}",
                view.part.name,
                number_with_decimals(loads.units.small_length.value(view.gear.thickness), 2)
                    + " "
                    + loads.units.small_length.symbol(),
                view.gear.material.name
            );
        }
        (None, PairSource::Suggested) => "as `planewright size` suggests",
        (None, _) => "of the boat file",
    };
    format!("Planes: {pair} each (span x chord), {from}.")
}

/// Whether a part has room.
fn fits(loads: &Loads<'_>, fit: &Fit) -> String {
    if fit.fits() {
        return "It fits the transom.".to_owned();
    }
    let missing = loads.units.small_length.value(fit.missing);
    format!(
        "THERE IS NO ROOM FOR IT: {} {} of span are missing on each side.",
        number_with_decimals(missing, 1),
        loads.units.small_length.symbol()
    )
}

/// Load factor, safety factors and what stands behind them.
#[must_use]
pub fn assumptions(loads: &Loads<'_>) -> Vec<Block> {
    let settings = &loads.found.settings;
    let mut lines = vec![
        "Expected: steady running, with the moment about the hinge that the tank tests of planes gave, 0.139 times the plane's lift times its chord (Savitsky & Brown 1976, eq 8). 'theory' beside it is a cross-check: a thin plate with a hinged flap (Glauert 1927, half of it for a planing bottom), at the trim with planes up; it lies some 16 to 20 % higher.".to_owned(),
        format!(
            "Design: the slamming load, all of the plane's lift in the tank tests put at mid-chord, times a load factor of {} (--load-factor; common practice, no source).",
            settings.load_factor
        ),
        "Strength is judged at the deflection allowed at each speed: the least of what the boat file says can be used, what the part can be put to, and what keeps the run safe. What does not bear the expected load there with its safety factor is unsafe; what bears it and not the design load has no allowance for slamming.".to_owned(),
    ];
    if let Some(view) = &loads.found.part {
        let material = &view.gear.material;
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
    section("How the loads are counted", lines)
}
