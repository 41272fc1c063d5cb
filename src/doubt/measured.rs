//! What measuring some values would narrow on this very boat.

use rayon::iter::{IntoParallelIterator, ParallelIterator};
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::draw::Draws;
use super::duties::Drawn;
use super::inputs::Inputs;
use super::interval::{Likely, likely};
use crate::balance::Settings;
use crate::balance::forces::{Condition, PlaneSize};
use crate::balance::root::{Precision, Root, Search};
use crate::boat::{Boat, Fault, Toleranced};

/// What is likely at one speed once some values have been measured, about the values that are used now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Running trim with planes up; none where no boat drawn runs there.
    pub trim: Option<Likely<Angle>>,
    /// What her planes take off it; none without planes.
    pub relief: Option<Likely<Angle>>,
}

/// What is likely at a speed, planes up and at a mean deflection, when some values are known as
/// well as measuring on the boat tells them; with none of them, what is likely now.
///
/// # Errors
/// As [`Boat::in_condition`].
pub fn measured(
    boat: &Boat,
    settings: &Settings,
    (speed, deflection): (Velocity, Angle),
    known: &[Toleranced],
    drawn: Drawn,
) -> Result<Measured, Fault> {
    let inputs = Inputs::of(boat).measured(boat, known).with_seen(boat, settings)?;
    let draws = Draws::new(&inputs, drawn.seed);
    let particulars = boat.particulars();
    let speed_m_s = speed.get::<meter_per_second>();
    let deflection_deg = deflection.get::<degree>();
    let size = boat.planes().filter(|_| deflection_deg > 0.0).map(PlaneSize::from);
    let one = |number: u32| {
        let prism = draws.draw(u64::from(number)).prism(&particulars, settings);
        let bare = prism.at(speed_m_s);
        let up_deg = trim_deg(&bare);
        let with_deg = size.map(|size| trim_deg(&bare.with_planes(size, deflection_deg)));
        [up_deg, up_deg - with_deg.unwrap_or(f64::NAN)]
    };
    let all: Vec<[f64; 2]> = (0..drawn.draws).into_par_iter().map(one).collect();
    let of = |place: usize| {
        let values = all.iter().map(|answer| answer[place]).collect();
        likely(values).map(|range| range.map(Angle::new::<degree>))
    };
    Ok(Measured { trim: of(0), relief: of(1) })
}

/// The running trim; no number where she does not run.
fn trim_deg(condition: &Condition) -> f64 {
    match Search::to(Precision::OF_A_DRAW, condition).root(None) {
        Root::Found { forces, stable: true } => forces.trim_deg,
        _ => f64::NAN,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;

    const BOAT: &str = "[hull]\noverall_length = \"6.4 m\"\noverall_beam = \"2.4 m\"\n\
        [weight]\nmass = \"1900 kg\"\n[drive]\nkind = \"outboard\"\npower = \"147 kW\"\n\
        [planes]\nspan = \"450 mm\"\nchord = \"230 mm\"\n";

    #[test]
    fn physics_what_is_measured_narrows_and_all_of_it_most() {
        let boat = parse_boat("b.toml", BOAT).unwrap().boat;
        let at = (Velocity::new::<meter_per_second>(7.0), Angle::new::<degree>(8.0));
        let width = |known: &[Toleranced]| {
            let drawn = Drawn { draws: 400, ..Drawn::default() };
            let found = measured(&boat, &Settings::default(), at, known, drawn).unwrap();
            let trim = found.trim.unwrap();
            assert!(found.relief.unwrap().low > Angle::new::<degree>(0.0));
            (trim.high - trim.low).get::<degree>()
        };
        let now = width(&[]);
        let all = [Toleranced::Deadrise, Toleranced::ChineBeam, Toleranced::Lcg];
        // The same random numbers in each, so that the widths can be compared with few draws.
        for value in all {
            assert!(width(&[value]) < now + 0.05, "{}", value.key());
        }
        assert!(width(&[Toleranced::Lcg]) < 0.9 * now);
        assert!(width(&all) < 0.8 * now);
    }

    #[test]
    fn regression_what_the_file_says_was_weighed_is_not_made_wider() {
        let weighed = "[[tolerance]]\nof = \"weight.lcg\"\nby = \"5 mm\"\n";
        let text = BOAT.replace("1900 kg\"\n", "1900 kg\"\nlcg = \"1.9 m\"\n");
        let boat = parse_boat("b.toml", &format!("{text}{weighed}")).unwrap().boat;
        let inputs = Inputs::of(&boat);
        assert_eq!(inputs.clone().measured(&boat, &[Toleranced::Lcg]), inputs);
    }
}
