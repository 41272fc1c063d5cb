//! How far off values usually are, by how they were come by.
//!
//! All of it is common practice, no source: what weighing, measuring, brochures
//! and the eye have been worth on small craft. A boat file says better with
//! `by`. Widths are half of the range that holds nine such values in ten.

use uom::si::length::meter;

use crate::boat::{Boat, Source, Toleranced};

/// What a width is measured in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scale {
    /// Share of the value, in per cent.
    Own,
    /// Share of the bottom length, in per cent.
    BottomLength,
    /// Share of the chine beam, in per cent.
    ChineBeam,
    /// The unit of the bounds table.
    Unit,
}

/// Usual widths of one value: weighed (where it can be), measured, from a brochure, guessed.
pub(super) struct Usual {
    of: Toleranced,
    pub scale: Scale,
    widths: [f64; 4],
    /// Why a brochure is worth no more.
    why: &'static str,
}

const fn usual(of: Toleranced, scale: Scale, widths: [f64; 4], why: &'static str) -> Usual {
    Usual { of, scale, widths, why }
}

#[rustfmt::skip]
const USUAL: [Usual; 12] = [
    usual(Toleranced::ChineBeam, Scale::Own, [1.0, 1.0, 3.0, 8.0], "brochures give the beam over all, and the mean over the running bottom is a judgement"),
    usual(Toleranced::Deadrise, Scale::Unit, [1.0, 1.0, 2.5, 4.0], "brochures give it at the transom, and the mean over the running bottom is more"),
    usual(Toleranced::BottomLength, Scale::Own, [1.0, 1.0, 4.0, 10.0], "where the bottom ends at the forefoot is a judgement"),
    usual(Toleranced::Mass, Scale::Own, [1.0, 4.0, 10.0, 20.0], "brochures leave out gear, water and what has been added since"),
    usual(Toleranced::Lcg, Scale::BottomLength, [0.5, 1.5, 3.0, 5.0], "few builders state it, and gear moves it"),
    usual(Toleranced::Vcg, Scale::ChineBeam, [3.0, 3.0, 5.0, 8.0], "hardly ever measured"),
    usual(Toleranced::ThrustAngle, Scale::Unit, [0.5, 0.5, 2.0, 4.0], "legs and outboards are trimmed as they run"),
    usual(Toleranced::ThrustHeight, Scale::ChineBeam, [1.0, 1.0, 3.0, 5.0], "engines are hung in several holes"),
    usual(Toleranced::ThrustOffset, Scale::ChineBeam, [1.0, 1.0, 3.0, 5.0], "it depends on the height of the centre of gravity, which is hardly ever measured"),
    usual(Toleranced::WaterTemperature, Scale::Unit, [1.0, 1.0, 5.0, 10.0], "it changes with season and place"),
    usual(Toleranced::AirArea, Scale::Own, [15.0, 15.0, 25.0, 40.0], "the drag coefficient, counted here too, is a guess"),
    usual(Toleranced::AppendageArea, Scale::Own, [20.0, 20.0, 30.0, 50.0], "drag coefficients of shafts, struts and legs differ widely"),
];

/// Why a value is not known better from a brochure; nothing for what only a sea trial finds.
#[must_use]
pub fn why_so_wide(value: Toleranced) -> &'static str {
    if value.is_by_trial_only() { "" } else { of(value).why }
}

/// The row of a value that a source may tell.
pub(super) fn of(value: Toleranced) -> &'static Usual {
    let row = &USUAL[value as usize];
    debug_assert_eq!(row.of, value);
    row
}

/// What a width of a value is measured in.
pub(super) fn scale_of(value: Toleranced) -> Scale {
    match value {
        Toleranced::PlaneEffectiveness => Scale::Own,
        Toleranced::Roughness => Scale::Unit,
        other => of(other).scale,
    }
}

impl Usual {
    /// Half-width by how the value was come by: a share for a value with a scale of its own, else in the unit of the bounds table.
    pub fn half_width(&self, source: Source, boat: &Boat) -> f64 {
        let width = self.widths[source as usize];
        match self.scale {
            Scale::Own => width / 100.0,
            Scale::BottomLength => width / 100.0 * boat.hull().bottom_length.get::<meter>(),
            Scale::ChineBeam => width / 100.0 * boat.hull().chine_beam.get::<meter>(),
            Scale::Unit => width,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn practice_better_sources_are_never_worse_and_each_value_has_its_row() {
        for value in Toleranced::ALL.into_iter().filter(|value| !value.is_by_trial_only()) {
            let row = of(value);
            assert_eq!(row.of, value);
            assert!(row.widths.windows(2).all(|pair| pair[0] <= pair[1]), "{}", value.key());
            assert!(row.widths[0] > 0.0 && !row.why.is_empty());
            assert!(value.can_be_weighed() || row.widths[0] == row.widths[1]);
        }
    }
}
