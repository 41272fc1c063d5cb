//! More people aboard than the file says, as a loading condition of its own.

use uom::si::f64::{Length, Mass};
use uom::si::length::meter;
use uom::si::mass::kilogram;

use super::condition::{ConditionInput, LoadChange};
use super::{Boat, Faults, ListCause, Wish};

/// Mass of a person, kg. Common practice, no source.
pub const PERSON_KG: f64 = 85.0;
/// Where people sit, forward of the transom in bottom lengths: the cockpit. Common practice, no source.
const FORWARD: f64 = 0.35;
/// How far the middle of a sitting person lies above the boat's own centre of gravity, m. Common practice, no source.
const ABOVE_M: f64 = 0.3;

/// Where a person stands at the rail, in chine beams off the centreline. Common practice, no source.
const RAIL_BEAMS: f64 = 0.45;

impl Boat {
    /// One person at the rail to starboard: what she shall be levelled against where her file asks for nothing, or wishes
    /// that she did not lean; none where it asks for something else.
    #[must_use]
    pub fn person_at_rail(&self) -> Option<ListCause> {
        let wishes = &self.input().wishes;
        let is_asked = !self.gives_duties() && (wishes.is_empty() || wishes.contains(&Wish::Leans));
        let beam = self.hull().chine_beam.get::<meter>();
        let distance = Length::new::<meter>((20.0 * RAIL_BEAMS * beam).round() / 20.0);
        let mass = Mass::new::<kilogram>(PERSON_KG);
        is_asked.then_some(ListCause::OffCentre { mass, distance })
    }

    /// The boat with one more loading condition, in which so many people more are aboard; and its name.
    ///
    /// They sit together on the centreline in the cockpit, at 0.35 of the bottom length forward of
    /// the transom and 0.3 m above her centre of gravity, 85 kg each (common practice, no source).
    ///
    /// # Errors
    /// As [`Boat::build`].
    pub fn with_more_aboard(&self, people: u8) -> Result<(Self, String), Faults> {
        let mut input = self.input().clone();
        let name = format!("{people} more aboard");
        let forward = self.hull().bottom_length * FORWARD;
        let each = if people == 1 { "" } else { " each" };
        let about = format!(
            "{people} more aboard, {PERSON_KG} kg{each}, on the centreline {:.2} m forward of the transom (usual, no source).",
            forward.get::<meter>()
        );
        input.condition = None;
        input.conditions.push(ConditionInput {
            name: name.clone(),
            about: Some(about),
            without: Vec::new(),
            loads: vec![LoadChange {
                item: name.clone(),
                mass: Some(Mass::new::<kilogram>(f64::from(people) * PERSON_KG)),
                forward: Some(forward),
                up: Some(self.weight().vcg + Length::new::<meter>(ABOVE_M)),
                starboard: None,
            }],
        });
        Ok((Self::build(input)?, name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physics_people_in_the_cockpit_add_their_mass_and_move_her_weight_toward_them() {
        let text =
            std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/data/boats/wren.toml"));
        let boat = crate::input::parse_boat("wren", &text.unwrap()).unwrap().boat;
        let (more, name) = boat.with_more_aboard(2).unwrap();
        assert_eq!(name, "2 more aboard");
        let loaded = more.in_condition(&name).unwrap();
        let [before, after] = [boat.weight(), loaded.weight()];
        let added = (after.mass - before.mass).get::<kilogram>();
        assert!((added - 170.0).abs() < 1e-9, "{added}");
        let moment = |w: &crate::boat::Weight| w.mass.get::<kilogram>() * w.lcg.get::<meter>();
        let at = (moment(after) - moment(before)) / added;
        assert!((at - 0.35 * boat.hull().bottom_length.get::<meter>()).abs() < 1e-9, "{at}");
        assert_eq!(more.conditions().len(), boat.conditions().len() + 1);
    }
}
