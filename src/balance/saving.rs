//! Whether planes save resistance, said only where wet sides could not turn it.

use uom::si::f64::{Angle, Force, Velocity};

use super::{Balance, Running};

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::balance::Settings;
    use crate::hydro::friction::FrictionLine;
    use crate::input::parse_boat;
    use uom::si::force::newton;
    use uom::si::{angle::degree, velocity::foot_per_second};

    const RUNS: &str = include_str!("../../data/published/GayloRoske2019Runs.csv");

    /// The towed model at a speed and a deflection: the tow line is level, so that it leans back from the keel by the trim.
    fn towed(speed_ft_s: f64, deflection_deg: f64) -> Running {
        let settings = Settings {
            friction_line: FrictionLine::Schoenherr,
            correlation_allowance: Some(0.0),
            hump_factor: false,
            ..Settings::default()
        };
        let mut angle_deg = 0.0;
        let mut running = None;
        for _ in 0..8 {
            let text = format!(
                "hull = {{ bottom_length = \"5 ft\", chine_beam = \"12 in\", deadrise = \"20 deg\" }}\n\
                 weight = {{ mass = \"47 lb\", lcg = \"25.5 in\", vcg = \"5.28 in\" }}\n\
                 drive = {{ top_speed = \"16 ft/s\", thrust_angle = \"{angle_deg} deg\", thrust_offset = \"0 m\" }}\n\
                 water = {{ kind = \"fresh\", temperature = \"20 degC\" }}\n\
                 planes = {{ span = \"5 in\", chord = \"2 in\" }}\n"
            );
            let boat = parse_boat("model", &text).unwrap().boat;
            let at = Velocity::new::<foot_per_second>(speed_ft_s);
            let point =
                Balance::of(&boat, &settings).point(at, Angle::new::<degree>(deflection_deg));
            running = point.unwrap().running;
            angle_deg = -running.unwrap().trim.get::<degree>();
        }
        running.unwrap()
    }

    /// Gaylo & Roske (2019): nowhere is a saving claimed that the tank did not measure, and it is
    /// claimed somewhere. Without the sides it would be claimed where the planes cost.
    #[test]
    fn published_no_saving_is_claimed_where_the_tank_measured_a_cost() {
        let mut bare = Vec::new();
        let (mut claimed, mut wrong_if_dry) = (0, 0);
        for line in RUNS.lines().filter(|line| !line.starts_with('#')).skip(1) {
            let fields: Vec<&str> = line.split(',').collect();
            let [speed_ft_s, measured]: [f64; 2] = [1, 3].map(|at| fields[at].parse().unwrap());
            let digits = fields[0].trim_start_matches("tab_").trim_end_matches("deg");
            let Ok(deflection_deg) = digits.parse::<f64>() else {
                bare.push((speed_ft_s, measured, towed(speed_ft_s, 0.0)));
                continue;
            };
            let (_, without, up) = bare.iter().find(|(at, ..)| *at == speed_ft_s).unwrap();
            let down = towed(speed_ft_s, deflection_deg);
            let saves = measured < *without;
            let dry = Saving::of(up.resistance, down.resistance, Force::default());
            wrong_if_dry += i32::from(dry == Saving::Saves && !saves);
            if Saving::between(up, &down) == Saving::Saves {
                assert!(saves, "{line}: {up:?} {down:?}");
                claimed += 1;
            }
        }
        assert!(claimed >= 2 && wrong_if_dry >= 4, "{claimed} {wrong_if_dry}");
    }

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
