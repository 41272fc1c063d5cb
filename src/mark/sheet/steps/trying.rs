//! From the first test ashore to the first run.

use super::Step;

pub(super) fn steps() -> Vec<Step> {
    vec![
        Step::new(
            "Leak and function test ashore",
            "a leak found ashore is a nuisance; afloat it may be the boat.",
            "After the cure: hose the transom for ten minutes and look at every hole from inside. Work \
             both planes over the full travel a few times: free, together, no knock, no oil, no warm \
             cable. Compare the indicator with the travel table. The port switch must do what its \
             label says: find out now, not at speed.",
        )
        .with_caution("nobody near the planes while they move."),
        Step::new(
            "Write down how it was fitted",
            "the planes are where they are now, and the boat's figures should follow them.",
            "Fill in the form 'As fitted' on both sides; `planewright mark` prints it as a file with \
             --form and says with --as-fitted what the differences do.",
        ),
        Step::new(
            "Launch and look again",
            "water stands against the holes for the first time.",
            "Look at every hole from inside when she floats, again after an hour, again after the \
             first run. A weep grows: haul out.",
        ),
        Step::new(
            "First run",
            "only a boat that is tight and planes that are known are tried at speed.",
            "Flat water, open water, everyone seated, kill cord on. Planes up at first. At a moderate \
             planing speed bring both down one small step at a time and wait after each; note trim \
             and feel of the helm. Then each side alone, a small step, to see which way she leans. \
             Only then a little faster. Never down at full speed until you know what a small step \
             does there.",
        )
        .with_caution(
            "too much plane at speed drives the bow down and she may broach. If the bow digs or she \
             steers by herself, throttle off gently and raise the planes.",
        ),
    ]
}
