//! How to make a sea trial, and what to accept after planes are fitted. Common practice, no source.

/// A page of guidance: headings with their sentences.
pub const PAGE: &[(&str, &[&str])] = &[
    (
        "Before you go",
        &[
            "Write down what is aboard: people and where they sit, fuel, water, gear. Weigh what can be weighed. The boat file, or one loading condition in it, must say the same; nobody moves between runs.",
            "Choose calm water, wind under about 8 kn, little traffic, and a straight mile or more. It must be deep: at least five times the draft and more than half the boat's length, deeper for the slow runs near the hump, since shallow water changes trim and speed.",
            "Look at the bottom, or note when it was last cleaned: growth costs power, and the trial will show it as roughness.",
            "Set a digital inclinometer fore and aft on something firm near the middle of the boat. Its zero is the keel line: lay it along the keel when the boat is on a trailer or in slings, or measure the slope of the keel at rest from the freeboards and note the difference. A zero that is half a degree off looks like a centre of gravity in another place.",
            "Know where the planes are: mark their indicators or measure the stroke against the angle with the boat ashore (`planewright loads` gives stroke against angle). Up means clear of the flow.",
            "Wear lifejackets, use the kill cord, keep a lookout who does nothing else, and stay within the local speed rules.",
        ],
    ),
    (
        "The runs",
        &[
            "Make runs at six speeds or more, spread from just on the plane to top speed, with the planes up. Then at three or four of the middle speeds with the planes at one or two set angles, say 4 and 8 deg, one step at a time.",
            "Run each speed both ways over the same water with the same throttle, straight after each other, and give both the same pair in the log. The mean takes out a steady current and most of the wind. A run one way counts, with a wider error.",
            "Hold throttle, course and drive trim until speed and trim have stood still for half a minute, then write down the mean of the next half-minute, not the best reading. Leave the drive trim alone for all runs, at the angle that the boat file has.",
            "Write down speed, trim and angle of the planes each time; shaft power or fuel flow if the boat shows them; engine speed to tell that a pair is one; and anything odd under note.",
            "Lower planes in small steps and slowly. At speed too much of them drives the bow down: the boat then steers with the bow, may swerve or broach, and must be slowed down at once. Never try it in a following sea.",
        ],
    ),
    (
        "What the log is used for",
        &[
            "Trim against speed with planes up tells where the centre of gravity acts. Runs with planes down tell how strongly the planes act. Power or fuel tells the roughness of the bottom, if the propulsive efficiency is known. Only what the log can carry is fitted; the rest is left, with the reason.",
            "Values learned are those that make these equations agree with this boat. They take up other things that are not as described: a hook or rocker, a wrong deadrise, weight that is not on the list.",
        ],
    ),
    (
        "After planes were fitted: what to accept",
        &[
            "At rest: no water in the bilge after an hour afloat, every screw bedded, nothing moves by hand. Hoses and cables are clear of the plates, and of propeller and leg at full lock and full trim.",
            "Alongside: both planes move together, up and down in the same time within a second or so, stop where the indicator says, and stay there with the switch let go. Port switch, port plane; note which switch brings which bow down.",
            "Retracted they stand clear of the flow at speed: no spray from the plates, no trim from them, no loss of speed against before.",
            "At low planing speed first, with room around: both down one step and up again, then one side alone a little, then the other. She must lean the way that was expected and come back.",
            "Steering: no pull on the wheel with both at the same angle, no swerve when they are moved, no bow steering at any angle that is going to be used.",
            "Trim at each speed within the predicted range (`planewright run`, and with doubt where it is given); no porpoising at the trims that are going to be used; the speed at which she falls off the plane lower with planes down than with planes up.",
            "Refuse and look for the reason when: the trim is out of the range, one side acts more than the other, a plane creeps, the hull shakes, or water comes in. Look again at fastenings and sealant after the first day out.",
        ],
    ),
];

/// What closes the page.
pub const CLOSE: &str = "Common practice, no source. Local rules, the boat builder and the maker of the parts come first; for a boat on which lives depend, have a naval architect attend the trial.";
