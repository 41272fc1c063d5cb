//! How much of the water ahead the bow hides from whoever steers.

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

use crate::boat::Helm;

/// From here on the bow hides the water to the horizon, or nearly, metres.
const FARTHEST_M: f64 = 300.0;

/// What the bow hides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sight {
    /// The level water from the bow up to this distance ahead of it.
    HiddenFor(Length),
    /// The water as far as the horizon, or nearly.
    HorizonHidden,
}

impl Sight {
    /// What the bow hides on level water at a running trim and the draft of the keel at the transom.
    ///
    /// The straight line from the eyes over the highest point of the bow down to the water: with
    /// heights above the level surface h = x sin τ + z cos τ − d and distances X = x cos τ − z sin τ,
    /// the bow hides h_bow (X_bow − X_eye)/(h_eye − h_bow) ahead of it (geometry).
    #[must_use]
    pub fn over_the_bow(helm: &Helm, trim: Angle, draft: Length) -> Self {
        let (sin, cos) = trim.get::<radian>().sin_cos();
        let at = |forward: Length, height: Length| {
            let [x_m, z_m] = [forward, height].map(|length| length.get::<meter>());
            [x_m * cos - z_m * sin, x_m * sin + z_m * cos - draft.get::<meter>()]
        };
        let [eye_x_m, eye_m] = at(helm.eye_forward, helm.eye_height);
        let [bow_x_m, bow_m] = at(helm.bow_forward, helm.bow_height);
        let hidden_m = bow_m.max(0.0) * (bow_x_m - eye_x_m) / (eye_m - bow_m);
        if eye_m <= bow_m || hidden_m >= FARTHEST_M {
            return Self::HorizonHidden;
        }
        Self::HiddenFor(Length::new::<meter>(hidden_m))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use uom::si::angle::degree;

    fn helm(eye_m: f64) -> Helm {
        let [eye_height, eye_forward, bow_height, bow_forward] =
            [eye_m, 3.0, 1.5, 8.0].map(Length::new::<meter>);
        Helm { eye_height, eye_forward, bow_height, bow_forward, is_given: true }
    }

    fn hidden_m(helm: &Helm, trim_deg: f64, draft_m: f64) -> f64 {
        let trim = Angle::new::<degree>(trim_deg);
        match Sight::over_the_bow(helm, trim, Length::new::<meter>(draft_m)) {
            Sight::HiddenFor(length) => length.get::<meter>(),
            Sight::HorizonHidden => f64::INFINITY,
        }
    }

    #[test]
    fn physics_level_the_sight_line_makes_similar_triangles() {
        // Half a metre down over five, so ten metres for each metre of the bow above the water.
        assert_relative_eq!(hidden_m(&helm(2.0), 0.0, 0.5), 10.0, max_relative = 1e-12);
        assert_relative_eq!(hidden_m(&helm(2.5), 0.0, 0.5), 5.0, max_relative = 1e-12);
    }

    #[test]
    fn physics_the_point_found_lies_on_the_line_from_eye_to_bow() {
        let (eye, trim_deg, draft_m) = (helm(2.4), 4.0_f64, 0.4);
        let (sin, cos) = trim_deg.to_radians().sin_cos();
        let hidden = hidden_m(&eye, trim_deg, draft_m);
        let bow = [8.0 * cos - 1.5 * sin, 8.0 * sin + 1.5 * cos - draft_m];
        let eye = [3.0 * cos - 2.4 * sin, 3.0 * sin + 2.4 * cos - draft_m];
        let water = [bow[0] + hidden, 0.0];
        let cross =
            (bow[0] - eye[0]) * (water[1] - eye[1]) - (bow[1] - eye[1]) * (water[0] - eye[0]);
        assert_relative_eq!(cross, 0.0, epsilon = 1e-9);
    }

    #[test]
    fn physics_more_trim_hides_more_until_the_horizon_is_gone() {
        let all: Vec<f64> = (0..12).map(|deg| hidden_m(&helm(2.3), f64::from(deg), 0.4)).collect();
        assert!(all.windows(2).all(|pair| pair[0] <= pair[1]), "{all:?}");
        assert!(all[11].is_infinite() && all[0].is_finite());
    }
}
