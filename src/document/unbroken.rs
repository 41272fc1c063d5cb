//! Quantities of a page that stay on one line: `3 1/2 in`, `941 mm`, `20.9 deg`.

use std::fmt::Write as _;

/// Units that stand behind a number, as they are written for people.
const UNITS: [&str; 23] = [
    "mm", "cm", "m", "in", "ft", "deg", "kn", "mph", "km/h", "kg", "lb", "N", "lbf", "kN", "A",
    "V", "W", "kW", "hp", "bar", "MPa", "%", "AWG",
];

/// The page with each quantity of its body in a span of class `q`; tags, and what stands in `style`
/// and `script`, are left alone.
pub(super) fn kept_together(page: &str) -> String {
    let mut kept = String::with_capacity(page.len() + page.len() / 8);
    let mut rest = page;
    while let Some(open) = rest.find('<') {
        text(&mut kept, &rest[..open]);
        let tag = &rest[open..];
        let verbatim = ["style", "script", "title", "pre"].into_iter().find(|name| {
            tag[1..].strip_prefix(name).is_some_and(|after| after.starts_with([' ', '>']))
        });
        let end = verbatim
            .map_or_else(|| tag.find('>').map(|at| at + 1), |name| tag.find(&format!("</{name}>")));
        let end = end.unwrap_or(tag.len());
        kept.push_str(&tag[..end]);
        rest = &tag[end..];
        if verbatim.is_some() {
            // The closing tag, which would be taken for text.
            let end = rest.find('>').map_or(rest.len(), |at| at + 1);
            kept.push_str(&rest[..end]);
            rest = &rest[end..];
        }
    }
    text(&mut kept, rest);
    kept
}

/// Text outside tags, word by word.
fn text(kept: &mut String, text: &str) {
    let words: Vec<&str> = text.split(' ').collect();
    let mut place = 0;
    while place < words.len() {
        if place > 0 {
            kept.push(' ');
        }
        let mut long = quantity(&words[place..]);
        let next = &words[place + long..];
        if long > 0 && next.first().is_some_and(|word| word.starts_with('(')) {
            // The same in other units.
            long += quantity(next);
        }
        let taken = words[place..place + long.max(1)].join(" ");
        if long == 0 {
            kept.push_str(&taken);
        } else {
            let _ = write!(kept, "<span class=\"q\">{taken}</span>");
        }
        place += long.max(1);
    }
}

/// How many of these words are one quantity: number, perhaps a fraction, unit; 0 where they are none.
fn quantity(words: &[&str]) -> usize {
    let number = |word: &str| {
        let digits = word.trim_start_matches(['(', '-', '\'']);
        digits.starts_with(|c: char| c.is_ascii_digit())
            && digits.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '/'))
    };
    let unit = |word: &str| {
        let bare = word.trim_end_matches([',', '.', ';', ':', ')', '?']);
        UNITS.contains(&bare)
    };
    match words {
        [whole, part, symbol, ..]
            if number(whole) && part.contains('/') && number(part) && unit(symbol) =>
        {
            3
        }
        [whole, symbol, ..] if number(whole) && unit(symbol) => 2,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_a_quantity_stays_on_one_line_and_tags_are_left_alone() {
        let page = "<style>a { margin: 0 2 mm; }</style><p title=\"9 mm\">From 8 3/4 in to 941 mm, in 2 \
                    steps (20.9 deg).</p>";
        let kept = kept_together(page);
        assert_eq!(
            kept,
            "<style>a { margin: 0 2 mm; }</style><p title=\"9 mm\">From <span class=\"q\">8 3/4 \
             in</span> to <span class=\"q\">941 mm,</span> in 2 steps <span class=\"q\">(20.9 \
             deg).</span></p>"
        );
        assert_eq!(kept_together("no tag, 5 mm"), "no tag, <span class=\"q\">5 mm</span>");
        let both = kept_together("so 203 mm (8 in), and");
        assert_eq!(both, "so <span class=\"q\">203 mm (8 in),</span> and");
    }
}
