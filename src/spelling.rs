//! Which known name a misspelt one stands for.

use crate::units::is_unseen;

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

/// All names, those that begin as written first, then those that are spelt most alike.
pub(crate) fn by_likeness<'a>(
    written: &str,
    names: impl IntoIterator<Item = &'a str>,
) -> Vec<&'a str> {
    let begun = written.trim().to_lowercase();
    let rank = |name: &'a str| {
        let begins = !begun.is_empty() && name.to_lowercase().starts_with(&begun);
        (begins, nearest(written, [name]).map_or(0.0, |(_, likeness)| likeness))
    };
    let mut all: Vec<_> = names.into_iter().map(|name| (rank(name), name)).collect();
    all.sort_by(|(a, _), (b, _)| b.0.cmp(&a.0).then(b.1.total_cmp(&a.1)));
    all.into_iter().map(|(_, name)| name).collect()
}

/// A heading or key as the known ones are spelt: small letters, with `_` between the words.
pub(crate) fn plain(written: &str) -> String {
    written.trim().to_lowercase().replace([' ', '-'], "_")
}

/// The first character of a text that is not seen: a control, or a mark that turns the direction of reading or hides.
///
/// Line breaks and tabulators count too.
pub(crate) fn first_unseen(text: &str) -> Option<char> {
    text.chars().find(|&character| is_unseen(character))
}

/// A text as it may go to a terminal: what is not seen, but for line breaks and tabulators, is exchanged for marks of as many bytes.
pub(crate) fn seen(text: &str) -> std::borrow::Cow<'_, str> {
    let is_kept = |character: char| matches!(character, '\n' | '\t') || !is_unseen(character);
    if text.chars().all(is_kept) {
        return text.into();
    }
    let shown = |character: char| match character.len_utf8() {
        _ if is_kept(character) => character.to_string(),
        3 => "\u{fffd}".to_owned(),
        bytes => "?".repeat(bytes),
    };
    text.chars().map(shown).collect::<String>().into()
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
    fn regression_names_that_begin_as_written_come_first() {
        let names = ["normal", "light", "full fuel, nine aboard"];
        assert_eq!(by_likeness("ful", names)[0], "full fuel, nine aboard");
        assert_eq!(by_likeness("ligth", names)[0], "light");
    }

    #[test]
    fn regression_the_first_of_equals_is_taken_and_endless_names_cost_nothing() {
        assert_eq!(nearest("zz", ["ab", "cd"]).map(|(name, _)| name), Some("ab"));
        let (_, likeness) = nearest(&"x".repeat(1 << 20), ["xx"]).unwrap();
        assert!(likeness < 0.1);
    }

    #[test]
    fn regression_what_is_not_seen_is_found_and_goes_to_no_terminal() {
        assert_eq!(first_unseen("Skerry Wren, 6 m – “neat”"), None);
        for (text, found) in [("a\u{7}b", '\u{7}'), ("\u{202e}x", '\u{202e}'), ("a\nb", '\n')] {
            assert_eq!(first_unseen(text), Some(found));
        }
        let text = "a\u{1b}[31m \u{202e}b \u{9b}c\n\r";
        let shown = seen(text);
        assert_eq!(shown, "a?[31m \u{fffd}b ??c\n?");
        assert_eq!(shown.len(), text.len());
    }
}
