//! Random boats: what is generated for usual ones can be done, and nothing breaks on any.

use super::fleet::{Draw, usual};
use super::judge::SPEEDS;
use super::optimum::judge;
use crate::balance::Settings;
use crate::boat::{Boat, Duty};
use crate::size::{Answer, Suggestion, suggest};

fn told(boat: &Boat) -> Suggestion {
    suggest(boat, &Settings::default()).expect("generated duties are sound")
}

#[test]
fn physics_generated_duties_can_be_done() {
    let mut draw = Draw::new(2024);
    let (mut pairs, mut none, mut infeasible, mut counts) = (0, 0, 0, [0; 5]);
    let mut kinds = std::collections::BTreeMap::new();
    for place in 0..200 {
        let sketch = usual(&mut draw);
        let boat = sketch.boat();
        let told = told(&boat);
        counts[told.duties.len()] += 1;
        for d in &told.duties {
            *kinds
                .entry(match d.duty {
                    Duty::LeastResistance { within, .. } => format!("R {:.2}", within.value),
                    d => d.name().to_owned(),
                })
                .or_insert(0) += 1;
        }
        match &told.answer {
            Answer::Pair(pair) => {
                pairs += 1;
                let duties: Vec<Duty> = told.duties.iter().map(|duty| duty.duty).collect();
                let judge = judge(&boat, &duties, SPEEDS, &told);
                assert!(judge.does(*pair, 1e-3), "{place}: {pair:?} {:?}", judge.worst(*pair));
            }
            Answer::NoPlanesNeeded => none += 1,
            Answer::Infeasible(shortfall) => {
                infeasible += 1;
                eprintln!("{place}: {sketch:?}\n   {shortfall:?}\n");
                for d in &told.duties {
                    eprintln!("     {:?} {} {:?}", d.duty, d.met, d.share_used)
                }
            }
        }
    }
    eprintln!(
        "pairs {pairs}, no planes {none}, infeasible {infeasible}; duties {counts:?} {kinds:?}"
    );
}
