//! How many of one thing a file or a command may give: far beyond any use, so that every answer comes within a minute.
//!
//! One table; whoever counts asks it, and the README shows it.

/// The most of one thing that is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Most {
    /// What is counted: a list of the boat file by its name, a file by its kind, an option of the command line.
    pub of: &'static str,
    /// So many at most.
    pub most: usize,
    /// What one of them is called.
    pub one: &'static str,
    /// What to do instead.
    pub cure: &'static str,
}

const fn most(of: &'static str, most: usize, one: &'static str, cure: &'static str) -> Most {
    Most { of, most, one, cure }
}

/// Entries of a list of words or names in a boat file.
pub const ENTRIES: &str = "entries of one list";
/// Boats drawn.
pub const DRAWS: u32 = 100_000;
/// Duties, each counted once for every loading condition in which it holds.
pub const DUTIES_IN_CONDITIONS: &str = "duties in conditions";

const DELETE: &str = "delete those that say the same";

/// All of them.
#[rustfmt::skip]
pub const MOST: &[Most] = &[
    most("load", 500, "[[load]]", "put small items together: their mass, and their common centre"),
    most("drive.efficiency", 100, "[[drive.efficiency]]", "a dozen points draw any curve"),
    most("transom.obstacle", 100, "[[transom.obstacle]]", DELETE),
    most("transom.strake", 100, "[[transom.strake]]", DELETE),
    most("duty", 50, "[[duty]]", "keep the hardest of those that are alike: the others never set a size"),
    most("condition", 50, "[[condition]]", "keep the lightest, the heaviest, and those with weight furthest aft or to one side"),
    most("condition.load", 500, "[[condition.load]]", "put small items together: their mass, and their common centre"),
    most("tolerance", 100, "[[tolerance]]", DELETE),
    most("as_fitted", 2, "[[as_fitted]]", "one table for port and one for starboard are enough"),
    most("seen", 100, "[[seen]]", "write the mean of the readings at one speed; for a log there is `planewright trial`"),
    most(ENTRIES, 100, "entry", DELETE),
    most(DUTIES_IN_CONDITIONS, 500, "duty in a loading condition", "give a duty `condition`, with the loadings in which it asks most, or ask about fewer with --condition"),
    most("stock list", 2000, "part", "keep the planes that are in store, or make a list for each kind"),
    most("trial log", 500, "run", "write one line for each steady run, its mean over half a minute"),
    most("list of stations", 500, "station", "ten to twenty stations draw any bottom"),
    most("--speed", 200, "speed", "ask in several runs; without --speed every speed is shown"),
    most("--deflection", 60, "deflection", "ask in several runs"),
    most("--drive-trim", 60, "drive trim", "ask in several runs"),
    most("--waves", 20, "wave height", "ask in several runs"),
    most("--off-centre", 50, "weight off the centreline", "put them together in one --moment"),
    most("--moment", 50, "moment", "put them together in one"),
    most("--draws", DRAWS as usize, "boat drawn", "10 000 give every chance to half a per cent"),
];

impl Most {
    /// That there are too many.
    #[must_use]
    pub fn problem(&self, count: usize) -> String {
        format!("{count} times {}, and at most {} are taken", self.one, self.most)
    }
}

/// The row of that name; none for what is not counted.
#[must_use]
pub fn most_of(of: &str) -> Option<&'static Most> {
    MOST.iter().find(|row| row.of == of)
}

/// The problem and the cure where there are too many.
#[must_use]
pub fn too_many(of: &str, count: usize) -> Option<[String; 2]> {
    let row = most_of(of).filter(|row| count > row.most)?;
    Some([row.problem(count), row.cure.to_owned()])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_the_readme_shows_every_limit() {
        let readme = include_str!("../../README.md");
        for row in MOST {
            let line = format!("| {} | {} |", row.of, row.most);
            assert!(readme.contains(&line), "{line}");
        }
    }

    #[test]
    fn regression_only_what_is_over_its_limit_is_too_many() {
        assert_eq!(too_many("duty", 50), None);
        assert_eq!(too_many("nothing of the kind", 1_000_000), None);
        let [problem, cure] = too_many("duty", 51).unwrap();
        assert_eq!(problem, "51 times [[duty]], and at most 50 are taken");
        assert!(cure.starts_with("keep the hardest"));
    }
}
