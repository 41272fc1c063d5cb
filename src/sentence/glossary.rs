//! Words of the trade in a few plain ones, for where they are first met.

/// A word of the trade with what it means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    /// The word as it stands in a text.
    pub word: &'static str,
    /// Beginnings of the words that it is met in.
    stems: &'static [&'static str],
    /// What it means, in a few words.
    pub meaning: &'static str,
}

/// The words that people ask about first.
pub const WORDS: [Word; 5] = [
    Word { word: "trim", stems: &["trim", "trims"], meaning: "how far the bow points up" },
    Word { word: "hump", stems: &["hump"], meaning: "the speed at which the bow stands highest" },
    Word {
        word: "porpoising",
        stems: &["porpoise", "porpoises", "porpoising"],
        meaning: "nodding by itself",
    },
    Word {
        word: "chine",
        stems: &["chine", "chines"],
        meaning: "the corner between bottom and side",
    },
    Word { word: "deadrise", stems: &["deadrise"], meaning: "the angle of the V bottom to level" },
];

impl Word {
    /// Whether a text uses it.
    fn is_used_in(&self, text: &str) -> bool {
        let mut words = text.split(|c: char| !c.is_alphanumeric());
        words.any(|word| self.stems.iter().any(|stem| word.eq_ignore_ascii_case(stem)))
    }
}

/// What the words that a text uses mean, in one sentence; nothing where it uses none.
#[must_use]
pub fn explained(text: &str) -> Option<String> {
    explained_once(text, &mut Vec::new())
}

/// The same but of those that were met before, and those of the text are then met.
pub fn explained_once(text: &str, met: &mut Vec<&'static str>) -> Option<String> {
    let used: Vec<&Word> =
        WORDS.iter().filter(|word| word.is_used_in(text) && !met.contains(&word.word)).collect();
    met.extend(used.iter().map(|word| word.word));
    let used = used.into_iter();
    let explained: Vec<String> =
        used.map(|word| format!("{}: {}", word.word, word.meaning)).collect();
    (!explained.is_empty()).then(|| format!("{}.", explained.join("; ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_only_words_that_are_used_are_explained() {
        let text = explained("She may porpoise at 8.4 deg of trim.").unwrap();
        assert_eq!(text, "trim: how far the bow points up; porpoising: nodding by itself.");
        assert_eq!(explained("Trimmed humps are other words."), None);
    }
}
