//! Whether planes save resistance, said only where wet sides could not turn it.

use uom::si::f64::{Angle, Force, Velocity};

use super::{Balance, Running};
use crate::field::by_word;

/// A change of resistance or fuel under this share is none that anybody could measure.
pub const NOTICEABLE: f64 = 0.005;

/// What planes do to the resistance at a speed.
///
/// Planes press the bow down and may wet the sides, which the balance leaves
/// out: in the tests of Gaylo & Roske (2019) they cost 2 to 14 % above F∇ 2.7, where
/// the balance has them save 2 to 8 %. A saving is claimed only where it also holds with
/// the friction of the sides ([`crate::hydro::side_wetting`]) added to the boat
/// with her planes down and not to the boat with them up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Saving {
    /// They save, wet sides or not.
    Saves,
    /// About even: they save only if the sides stay dry.
    SidesMayTurn,
    /// No change that anybody could measure.
    Even,
    /// They cost.
    Costs,
}

impl Saving {
    /// From the resistance with planes up, with planes down, and the friction of the sides with planes down.
    #[must_use]
    pub fn of(up: Force, down: Force, side_friction: Force) -> Self {
        let change = |resistance: Force| (resistance / up).value - 1.0;
        if change(down) >= NOTICEABLE {
            Self::Costs
        } else if change(down) > -NOTICEABLE {
            Self::Even
        } else if change(down + side_friction) > -NOTICEABLE {
            Self::SidesMayTurn
        } else {
            Self::Saves
        }
    }

    /// From two runs at the same speed.
    #[must_use]
    pub fn between(up: &Running, down: &Running) -> Self {
        Self::of(up.resistance, down.resistance, down.side_friction)
    }

    /// Of a boat with her planes at a deflection; none where she does not run with them up and down.
    #[must_use]
    pub fn at(balance: &Balance, speed: Velocity, deflection: Angle) -> Option<Self> {
        let run = |deflection| balance.point(speed, deflection).ok()?.running;
        Some(Self::between(&run(Angle::default())?, &run(deflection)?))
    }

    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Saves => "saves",
            Self::SidesMayTurn => "even-sides-may-turn",
            Self::Even => "even",
            Self::Costs => "costs",
        }
    }

    /// One sentence for a person about [`Self::SidesMayTurn`].
    pub const MAY_TURN: &'static str = "about even; wet sides may turn it";
}

by_word!(Saving);

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::force::newton;

    #[test]
    fn physics_a_saving_stands_only_if_wet_sides_could_not_turn_it() {
        let [up, side] = [1000.0, 50.0].map(Force::new::<newton>);
        let saving = |down_n: f64, side| Saving::of(up, Force::new::<newton>(down_n), side);
        let dry = Force::new::<newton>(0.0);
        assert_eq!(saving(900.0, side), Saving::Saves);
        assert_eq!(saving(960.0, side), Saving::SidesMayTurn);
        assert_eq!(saving(960.0, dry), Saving::Saves);
        assert_eq!(saving(998.0, side), Saving::Even);
        assert_eq!(saving(1010.0, dry), Saving::Costs);
    }
}
