//! What the answers cost: `cargo bench --bench core`.

use std::path::Path;

use divan::Bencher;
use planewright::balance::sensitivity::sensitivities;
use planewright::balance::sweep::{planing_start, sweep};
use planewright::balance::{Balance, Settings};
use planewright::boat::Boat;
use planewright::doubt::{Request, running};
use planewright::input::read_boat;
use planewright::size::{suggest, suggest_for};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::knot;

/// The demo boats.
const BOATS: [&str; 3] = ["wren", "lantern", "holm"];

fn main() {
    divan::main();
}

fn boat(name: &str) -> Boat {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/boats/{name}.toml"));
    read_boat(&file).expect("the demo boats are sound").boat
}

fn flat() -> Angle {
    Angle::new::<degree>(0.0)
}

/// One residual of the pitch moment, the vertical balance closed.
#[divan::bench(args = BOATS)]
fn residual(bencher: Bencher, name: &str) {
    let balance = Balance::of(&boat(name), &Settings::default());
    let (speed, trim) = (Velocity::new::<knot>(20.0), Angle::new::<degree>(4.5));
    bencher.bench(|| balance.residual_moment(divan::black_box(speed), flat(), trim));
}

/// One balanced point with its budget, without a trim to start from.
#[divan::bench(args = BOATS)]
fn point(bencher: Bencher, name: &str) {
    let balance = Balance::of(&boat(name), &Settings::default());
    let speed = Velocity::new::<knot>(20.0);
    bencher.bench(|| balance.point(divan::black_box(speed), flat()));
}

/// The same with planes at 5 degrees, where the boat has them.
#[divan::bench(args = ["lantern", "holm"])]
fn point_with_planes(bencher: Bencher, name: &str) {
    let balance = Balance::of(&boat(name), &Settings::default());
    let (speed, down) = (Velocity::new::<knot>(20.0), Angle::new::<degree>(5.0));
    bencher.bench(|| balance.point(divan::black_box(speed), down));
}

/// Sixty speeds from the start of planing to top speed.
#[divan::bench(args = BOATS)]
fn sweep_of_60_speeds(bencher: Bencher, name: &str) {
    let boat = boat(name);
    let balance = Balance::of(&boat, &Settings::default());
    let start = planing_start(&boat);
    let step = (boat.drive().top_speed - start) / 59.0;
    let speeds: Vec<_> = (0..60).map(|index| start + step * f64::from(index)).collect();
    bencher.bench(|| sweep(&balance, divan::black_box(&speeds), flat()));
}

/// The effect of every estimate of a boat of which little is known.
#[divan::bench]
fn effect_of_estimates(bencher: Bencher) {
    let text = "[hull]\noverall_length = \"7.4 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
        [weight]\nmass = \"2800 kg\"\n";
    let boat = planewright::input::parse_boat("sparse", text).expect("a sound boat").boat;
    bencher.bench(|| sensitivities(divan::black_box(&boat), &Settings::default(), flat()));
}

/// A whole sizing: the pair, its reasons, variants, trade-off and schedule.
#[divan::bench(args = BOATS)]
fn size(bencher: Bencher, name: &str) {
    let boat = boat(name);
    bencher.bench(|| suggest(divan::black_box(&boat), &Settings::default()));
}

/// A hundred thousand boats nearly like one, each swept over thirty speeds, with what they say.
#[divan::bench(args = BOATS, sample_count = 3, sample_size = 1)]
fn doubt_of_100_000_draws(bencher: Bencher, name: &str) {
    let boat = boat(name);
    let request = Request { draws: 100_000, seed: 1, deflection: flat() };
    bencher.bench(|| running(divan::black_box(&boat), &Settings::default(), &request, &|_| ()));
}
/// The same over every loading condition of the boat: three or four, each also by itself.
#[divan::bench(args = BOATS)]
fn size_in_all_conditions(bencher: Bencher, name: &str) {
    let boats = boat(name).in_all_conditions().expect("sound conditions");
    bencher.bench(|| suggest_for(divan::black_box(&boats), &Settings::default()));
}
