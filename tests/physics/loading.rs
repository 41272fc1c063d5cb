//! What weight and its place do.

use uom::si::{angle::degree, force::newton, length::meter};

use crate::boats::{ALL, Sketch, running};

const SPEEDS_KN: [f64; 3] = [16.0, 22.0, 28.0];

#[test]
fn physics_weight_further_forward_trims_the_bow_down() {
    for sketch in ALL {
        for speed_kn in SPEEDS_KN {
            let mut last_deg = f64::INFINITY;
            for forward in [0.94, 0.97, 1.0, 1.03, 1.06] {
                let moved = Sketch { lcg_m: sketch.lcg_m * forward, ..sketch };
                let trim_deg = running(&moved.point(speed_kn, 2.0)).trim.get::<degree>();
                assert!(trim_deg < last_deg - 0.01, "{trim_deg} after {last_deg}: {moved:?}");
                last_deg = trim_deg;
            }
        }
    }
}

/// A heavier boat wets more of her bottom, sits deeper and takes more thrust; her trim rises, since the same bottom is carrying more.
#[test]
fn physics_a_heavier_boat_sits_deeper_and_drags_more() {
    for sketch in ALL {
        for speed_kn in SPEEDS_KN {
            let [light, heavy] = [1.0, 1.15].map(|factor| {
                let loaded = Sketch { mass_kg: sketch.mass_kg * factor, ..sketch };
                running(&loaded.point(speed_kn, 0.0))
            });
            assert!(heavy.draft.get::<meter>() > light.draft.get::<meter>(), "{sketch:?}");
            assert!(heavy.thrust.get::<newton>() > light.thrust.get::<newton>(), "{sketch:?}");
            assert!(heavy.trim > light.trim, "{speed_kn}: {sketch:?}");
        }
    }
}
