use planewright::{balance::Settings, input::read_boat, size::*};
use std::path::Path;
use std::time::Instant;
use uom::si::{angle::degree, length::meter, velocity::knot};
fn main() {
    for n in std::env::args().skip(1) {
        let boat = read_boat(Path::new(&n)).unwrap().boat;
        let t = Instant::now();
        let mut s = suggest(&boat, &Settings::default()).unwrap();
        for _ in 0..19 {
            s = suggest(&boat, &Settings::default()).unwrap();
        }
        println!("{n} {:?} per call", t.elapsed() / 20);
        println!(
            "{:?} exact {:?} binding {:?} set_by {:?} flat {:?} other {:?}",
            s.answer, s.exact, s.binding, s.set_by, s.flat, s.other_reference
        );
        for d in &s.duties {
            println!(
                "  {:?}\n    at {:.2} kn need {:?} share {:?} met {} bare {} likely {:?} reached {:?}",
                d.duty,
                d.speed.get::<knot>(),
                d.needed_deflection.map(|a| a.get::<degree>()),
                d.share_used,
                d.met,
                d.met_bare,
                d.likely_deflection,
                d.reached
            );
        }
        for v in &s.variants {
            println!(
                "  {} {:.3}x{:.3} share {:.3} missed {:?} trim {:?}",
                v.name,
                v.pair.span.get::<meter>(),
                v.pair.chord.get::<meter>(),
                v.share_used,
                v.missed,
                v.hump_trim.map(|a| a.get::<degree>())
            );
        }
        for r in &s.schedule {
            println!(
                "  {:.1} kn use {:.2} safe {:.2} bare {:?} with {:?} R {:?} {:?}",
                r.speed.get::<knot>(),
                r.deflection.get::<degree>(),
                r.largest_safe.get::<degree>(),
                r.trim_bare.map(|a| a.get::<degree>()),
                r.trim.map(|a| a.get::<degree>()),
                r.resistance_ratio,
                r.flags
            );
        }
    }
}
