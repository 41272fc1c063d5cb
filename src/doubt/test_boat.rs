//! The boat that the tests of this folder are about.

use crate::boat::Boat;
use crate::input::parse_boat;

/// Without planes; `more` goes below her tables.
pub(super) fn bare(more: &str) -> Boat {
    let text = format!(
        "hull = {{ bottom_length = \"6.5 m\", chine_beam = \"2.25 m\", deadrise = \"18 deg\" }}\n\
         weight = {{ mass = \"2800 kg\", lcg = \"2.45 m\", vcg = \"0.75 m\" }}\n\
         drive = {{ kind = \"sterndrive\", top_speed = \"30 kn\", thrust_angle = \"2 deg\", \
         thrust_height = \"-0.2 m\" }}\n{more}"
    );
    parse_boat("b.toml", &text).unwrap().boat
}

/// With the pair she has.
pub(super) fn with_planes(more: &str) -> Boat {
    bare(&format!("planes = {{ span = \"0.6 m\", chord = \"0.25 m\" }}\n{more}"))
}
