//! Which known name a misspelt one stands for.

/// Likeness above which a name is taken for a misspelling of another.
pub(crate) const CLOSE: f64 = 0.7;
/// Letters that are compared; whatever is longer is no misspelling of a name.
const MOST_COMPARED: usize = 60;

/// The name that is spelt most like the one written, and how like it is, 0 to 1; the first of those that are equally like.
///
/// Letters may be large or small; none where there are no names.
pub(crate) fn nearest<'a>(
    written: &str,
    names: impl IntoIterator<Item = &'a str>,
) -> Option<(&'a str, f64)> {
    let written: String = written.trim().chars().take(MOST_COMPARED).collect();
    let written = written.to_lowercase();
    let likeness =
        |name: &str| strsim::normalized_damerau_levenshtein(&written, &name.to_lowercase());
    names.into_iter().map(|name| (name, likeness(name))).fold(None, |best, next| match best {
        Some((_, most)) if most >= next.1 => best,
        _ => Some(next),
    })
}

/// A heading or key as the known ones are spelt: small letters, with `_` between the words.
pub(crate) fn plain(written: &str) -> String {
    written.trim().to_lowercase().replace([' ', '-'], "_")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_the_nearest_name_is_the_one_spelt_most_alike() {
        let names = ["light", "full fuel", "full, six aboard"];
        let near = |written| nearest(written, names).map(|(name, _)| name);
        assert_eq!(near("ligth"), Some("light"));
        assert_eq!(near("FULL FUEL "), Some("full fuel"));
        assert_eq!(nearest("x", []), None);
        assert_eq!(plain(" Screw-edge height"), "screw_edge_height");
    }

    #[test]
    fn regression_the_first_of_equals_is_taken_and_endless_names_cost_nothing() {
        assert_eq!(nearest("zz", ["ab", "cd"]).map(|(name, _)| name), Some("ab"));
        let (_, likeness) = nearest(&"x".repeat(1 << 20), ["xx"]).unwrap();
        assert!(likeness < 0.1);
    }
}
