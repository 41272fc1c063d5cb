//! Resistance, trim and wetted bottom of a tank series of real planing hulls.
//!
//! Source: Radojčić, D. (1991), An Engineering Approach to Predicting the
//! Hydrodynamic Performance of Planing Craft Using Computer Techniques, Trans.
//! RINA 133: a regression of the models of Series 62 (Clement & Blount 1963),
//! of its extension to 25° of deadrise (Keuning & Gerritsma) and of part of
//! Series 65, for a displacement of 100 000 lb in sea water. Coefficients as
//! printed again in Molland, Turnock & Hudson (2011), Ship Resistance and
//! Propulsion, tables A3.19 to A3.22; they stand in
//! `data/published/Radojcic1991.csv` and nowhere else. Title and place of the
//! paper are from memory.
//!
//! The models have bows, curved and in the water at low speed, where a prism
//! has none. They know no planes, no air and no appendages.

use std::fmt;
use std::ops::RangeInclusive;
use std::sync::LazyLock;

use super::series_scale::{Scale, Standard};
use crate::field::written;
use crate::numeric::monotone_interpolation;

/// F∇ for which the regression stands.
pub const TESTED_VOLUME_FROUDE_NUMBER: RangeInclusive<f64> = 1.0..=3.5;
/// Loading A_p/∇^⅔ of the models, A_p the projected area of the planing bottom.
pub const TESTED_AREA_OVER_VOLUME: RangeInclusive<f64> = 4.25..=9.5;
/// Length over mean beam, L_p/B_pa, of the models.
pub const TESTED_LENGTH_OVER_BEAM: RangeInclusive<f64> = 2.36..=6.73;
/// Centre of gravity of the models forward of the transom, % of L_p.
pub const TESTED_LCG_PERCENT: RangeInclusive<f64> = 30.0..=44.8;
/// Deadrise of the models at midlength, degrees.
pub const TESTED_DEADRISE_DEG: RangeInclusive<f64> = 13.0..=37.4;

/// Largest chine beam over mean chine beam, B_px/B_pa, of the parent models.
///
/// L_p/B_pa over L_p/B_px runs from 2.36/2.00 to 7.00/5.75 over the five of
/// them: 1.18 to 1.22. From memory.
pub const LARGEST_OVER_MEAN_BEAM: f64 = 1.21;

/// F∇ at which coefficients are used. Those printed for 3.0 do not give back the book's own table.
pub const VOLUME_FROUDE_NUMBERS: [f64; 7] = [1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.5];
/// F∇ at which the coefficients of the wetted area do not give back the book's own table.
const MISPRINTED_AREA_AT: f64 = 1.5;

/// Terms of the regression.
const TERMS: usize = 27;
/// The coefficients, as printed.
const DATA: &str = include_str!("../../data/published/Radojcic1991.csv");

/// What the regression gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// R/Δ at 100 000 lb.
    ResistanceOverWeight,
    /// Running trim of the keel, degrees.
    TrimDeg,
    /// Wetted area over ∇^⅔.
    WettedArea,
    /// Mean wetted length over L_p.
    WettedLength,
}

impl Quantity {
    const ALL: [Self; 4] =
        [Self::ResistanceOverWeight, Self::TrimDeg, Self::WettedArea, Self::WettedLength];

    /// Its name in the file of coefficients.
    const fn name(self) -> &'static str {
        match self {
            Self::ResistanceOverWeight => "R_over_weight",
            Self::TrimDeg => "trim_deg",
            Self::WettedArea => "S_over_volume23",
            Self::WettedLength => "Lw_over_Lp",
        }
    }

    /// Whether the coefficients printed for a F∇ give back the book's own table.
    fn is_given_back(self, volume_froude_number: f64) -> bool {
        self != Self::WettedArea || volume_froude_number != MISPRINTED_AREA_AT
    }
}

/// Coefficients of one quantity: the F∇ that they are for, and one for each term.
type Coefficients = Vec<(f64, [f64; TERMS])>;

static COEFFICIENTS: LazyLock<[Coefficients; 4]> = LazyLock::new(|| Quantity::ALL.map(read));

/// The coefficients of a quantity at the F∇ that are used; not a number where the file has none.
fn read(quantity: Quantity) -> Coefficients {
    let mut lines = DATA.lines().filter(|line| !line.starts_with('#'));
    let heads: Vec<&str> = lines.next().unwrap_or_default().split(',').collect();
    let rows: Vec<Vec<&str>> = lines
        .map(|line| line.split(',').collect::<Vec<_>>())
        .filter(|fields| fields.first() == Some(&quantity.name()))
        .collect();
    let of = |froude: f64| {
        let head = format!("F{froude:?}");
        let place = heads.iter().position(|&name| name == head);
        std::array::from_fn(|term| {
            let row = rows.iter().find(|row| row.get(1) == Some(&term.to_string().as_str()));
            let field = row.and_then(|row| row.get(place?).copied());
            field.and_then(|field| field.trim().parse().ok()).unwrap_or(f64::NAN)
        })
    };
    VOLUME_FROUDE_NUMBERS
        .into_iter()
        .filter(|&froude| quantity.is_given_back(froude))
        .map(|froude| (froude, of(froude)))
        .collect()
}

/// What the regression asks of a hull.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// A_p/∇^⅔.
    pub area_over_volume: f64,
    /// L_p/B_pa, B_pa the mean beam over the chines, A_p/L_p.
    pub length_over_beam: f64,
    /// Centre of gravity forward of the transom, % of L_p.
    pub lcg_percent: f64,
    /// Deadrise at midlength, degrees.
    pub deadrise_deg: f64,
}

impl Form {
    /// The four inputs in their places in the middle of the models' range, each from about −1 to 1.
    fn scaled(&self) -> [f64; 4] {
        [
            (self.area_over_volume - 6.875) / 2.625,
            (self.lcg_percent - 37.4) / 7.4,
            (self.length_over_beam - 4.545) / 2.185,
            (self.deadrise_deg - 25.2) / 12.2,
        ]
    }

    /// What each coefficient multiplies, X0 to X26.
    fn terms(&self) -> [f64; TERMS] {
        let [a, b, c, d] = self.scaled();
        let [aa, bb, cc, dd] = [a * a, b * b, c * c, d * d];
        [
            1.0,
            a,
            b,
            c,
            d,
            a * b,
            a * c,
            a * d,
            b * c,
            b * d,
            c * d,
            aa,
            bb,
            cc,
            dd,
            a * bb,
            a * cc,
            a * dd,
            b * aa,
            b * cc,
            b * dd,
            c * aa,
            c * bb,
            c * dd,
            d * aa,
            d * bb,
            d * cc,
        ]
    }

    /// Everything that lies outside the models, at a F∇.
    #[must_use]
    pub fn outside(&self, volume_froude_number: f64) -> Vec<Outside> {
        let each = [
            ("volume Froude number", volume_froude_number, TESTED_VOLUME_FROUDE_NUMBER),
            ("bottom area over volume^(2/3)", self.area_over_volume, TESTED_AREA_OVER_VOLUME),
            ("bottom length over mean beam", self.length_over_beam, TESTED_LENGTH_OVER_BEAM),
            ("LCG in % of bottom length", self.lcg_percent, TESTED_LCG_PERCENT),
            ("deadrise in deg", self.deadrise_deg, TESTED_DEADRISE_DEG),
        ];
        let outside = each.into_iter().filter(|(_, value, tested)| !tested.contains(value));
        outside.map(|(quantity, value, tested)| Outside { quantity, value, tested }).collect()
    }
}

/// One input of the regression that lies outside the models.
#[derive(Clone, Debug, PartialEq)]
pub struct Outside {
    /// The quantity.
    pub quantity: &'static str,
    /// Its value.
    pub value: f64,
    /// What the models had.
    pub tested: RangeInclusive<f64>,
}

written! {
    Outside as outside {
        "quantity": outside.quantity,
        "value": outside.value,
        "tested_from": outside.tested.start(),
        "tested_to": outside.tested.end(),
    }
}

impl fmt::Display for Outside {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (from, to) = (self.tested.start(), self.tested.end());
        write!(f, "{} is {:.2}, the models had {from} to {to}", self.quantity, self.value)
    }
}

/// A quantity of a hull at a F∇; none outside F∇ 1 to 3.5.
///
/// At the F∇ of the coefficients it is the regression; between them the
/// monotone piecewise cubic through its values there, which has no corner and
/// keeps between its two neighbours. For inputs outside the models see
/// [`Form::outside`].
#[must_use]
pub fn at(quantity: Quantity, form: &Form, volume_froude_number: f64) -> Option<f64> {
    let terms = form.terms();
    let value = |coefficients: &[f64; TERMS]| {
        coefficients.iter().zip(terms).map(|(coefficient, term)| coefficient * term).sum::<f64>()
    };
    let of_quantity = &COEFFICIENTS[quantity as usize];
    let points: Vec<[f64; 2]> =
        of_quantity.iter().map(|(froude, row)| [*froude, value(row)]).collect();
    monotone_interpolation(&points, volume_froude_number)
}

/// R/Δ of a hull of any size: that at 100 000 lb with its friction exchanged for that of the hull.
///
/// ΔR/Δ = ½ [(Cf + ΔCf) − Cf at 100 000 lb] (S/∇^⅔) F∇², both Cf by Schoenherr
/// on the mean wetted length. None outside F∇ 1 to 3.5.
#[must_use]
pub fn resistance_ratio(form: &Form, scale: &Scale, volume_froude_number: f64) -> Option<f64> {
    let of = |quantity| at(quantity, form, volume_froude_number);
    let standard = of(Quantity::ResistanceOverWeight)?;
    let (area, length) = (of(Quantity::WettedArea)?, of(Quantity::WettedLength)?);
    // L_p/∇^⅓, from A_p/∇^⅔ = (L_p/∇^⅓)² B_pa/L_p.
    let slenderness = (form.area_over_volume * form.length_over_beam).sqrt();
    let hull = Standard {
        resistance_ratio: standard,
        wetted_area: area,
        length: length * slenderness,
        volume_froude_number,
    };
    hull.at(scale)
}

#[cfg(test)]
mod tests;
