//! The confidence that is promised, tested on logs whose answer is known.

mod synthetic;

use super::Unknown;
use crate::balance::{LiftModel, Settings};
use synthetic::{Coverage, Plan, covered};

/// Logs of one study.
const LOGS: u64 = 300;

fn assert_promised(coverage: &Coverage, name: &str) {
    for (unknown, found) in coverage.each() {
        let share = found.share();
        println!("{name}: {} {:.1} % of {} logs", unknown.word(), 100.0 * share, found.logs);
        // Half of the logs are of a boat whose roughness they cannot carry.
        let least = if unknown == Unknown::Roughness { 140 } else { 240 };
        assert!(found.logs > least, "{name}: {} came out of {} logs", unknown.word(), found.logs);
        assert!((0.86..=0.94).contains(&share), "{name}: {} {share}", unknown.word());
    }
}

/// Nine intervals in ten hold the true value, by 300 logs with errors as large as usual.
#[test]
fn physics_intervals_hold_the_truth_as_often_as_promised() {
    assert_promised(&covered(LOGS, &Plan::default()), "clean");
}

/// The same where one reading in eight is wild.
#[test]
fn physics_intervals_hold_the_truth_when_one_reading_in_eight_is_wild() {
    let plan = Plan { wild: 0.125, ..Plan::default() };
    assert_promised(&covered(LOGS, &plan), "with outliers");
}

/// The scatter is taken from the log: errors twice as large as usual widen the intervals.
#[test]
fn physics_intervals_follow_the_scatter_of_the_log() {
    let plan = Plan { noise: 2.0, ..Plan::default() };
    let coverage = covered(LOGS, &plan);
    for (unknown, found) in coverage.each() {
        println!("rough: {} {:.1} % of {}", unknown.word(), 100.0 * found.share(), found.logs);
    }
    let lcg = coverage.of(Unknown::CentreOfGravity);
    assert!((0.86..=0.94).contains(&lcg.share()), "{}", lcg.share());
    let usual = covered(60, &Plan::default());
    // That of the centre of gravity is mostly the doubt of the inclinometer's zero.
    let half = |coverage: &Coverage| coverage.of(Unknown::PlaneEffectiveness).mean_half;
    assert!(half(&coverage) > 1.3 * half(&usual));
}

/// Boats that lift by another model than the log is read out with: the promise of the scatter is
/// not kept, as it cannot be, and the wide interval makes up for it.
#[test]
fn physics_the_wide_interval_covers_the_error_of_the_equations() {
    let nature = Settings { model: LiftModel::Shuford1958, ..Settings::default() };
    let coverage = covered(LOGS, &Plan { nature, ..Plan::default() });
    println!("second model: {} logs refused", coverage.refused);
    for (unknown, found) in coverage.each() {
        println!(
            "second model: {} {:.1} % by the scatter, {:.1} % wide, of {} logs",
            unknown.word(),
            100.0 * found.share(),
            100.0 * found.share_with_form(),
            found.logs
        );
    }
    let lcg = coverage.of(Unknown::CentreOfGravity);
    assert!(lcg.share() < 0.5 && lcg.share_with_form() >= 0.86);
}

/// Makes the invented log of the demo boat anew, and the documentation of its columns.
#[test]
#[ignore = "writes files of the project"]
fn regression_make_the_demo_log() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data/trials");
    std::fs::write(root.join("COLUMNS.md"), super::columns::documentation()).unwrap();
    std::fs::write(root.join("lantern.csv"), synthetic::demo_log()).unwrap();
}
