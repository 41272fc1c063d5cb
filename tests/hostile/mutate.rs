//! Texts that went wrong on their way: a good file with pieces cut, put in, doubled, or taken from another.

use std::path::Path;

use proptest::prelude::*;

/// What spoils a text more often than chance does.
const PIECES: &[&str] = &[
    "1e308",
    "-1e308",
    "1e-320",
    "NaN",
    "inf",
    "-0",
    "0",
    "99999999999999999999",
    "1/0",
    "1 7/0",
    "0x1F",
    "1_000",
    "1,5",
    "1.5.5",
    "+-3",
    "\u{2212}5",
    "\u{ff11}\u{ff12}",
    "\"",
    "'",
    "\"\"\"",
    "\\u0000",
    "\\uD800",
    "\\",
    "#",
    "=",
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    ",",
    ";",
    "\t",
    "\r\n",
    "\r",
    "\n",
    "\n\n\n",
    "\u{feff}",
    "\u{202e}",
    "\u{200b}",
    "\u{1b}[31m",
    "\u{7}",
    "\u{0}",
    " m",
    " mm",
    " kn",
    " deg",
    " furlong",
    "kg",
    "lb",
    "ft 3 in",
    "%",
    "=1+1",
    "@SUM(A1)",
    "EUR",
    "name",
    "[hull]",
    "[weight]",
    "[[load]]",
    "[[duty]]",
    "[[condition]]",
    "[planes]",
    "[transom]",
    "kind = \"list\"",
    "mass = \"1 kg\"",
    "speed (kn)",
    "span_mm",
    "price",
    "\u{4e2d}\u{6587}",
    "&",
    "%",
    "%00",
    "%FF%FE",
    "&units=imperial",
    "&planes=fitted",
    "&form=1",
    "<script>x()</script>",
    "\" onclick=\"x()",
];

/// One thing that happens to a text; places and lengths are shares of it.
#[derive(Clone, Debug)]
pub enum Edit {
    Cut { from: f64, length: f64 },
    Put { at: f64, piece: &'static str },
    Bytes { at: f64, bytes: Vec<u8> },
    Repeat { from: f64, length: f64, times: usize },
    Move { from: f64, length: f64, to: f64 },
    Other { file: usize, from: f64, length: f64, at: f64 },
}

/// A few edits of a text of a corpus.
pub fn edits() -> impl Strategy<Value = (usize, Vec<Edit>)> {
    let place = || 0.0..1.0_f64;
    // Mostly a few characters, now and then most of the file.
    let length = || prop_oneof![4 => 0.0..0.01_f64, 1 => 0.0..1.0_f64];
    let edit = prop_oneof![
        (place(), length()).prop_map(|(from, length)| Edit::Cut { from, length }),
        (place(), prop::sample::select(PIECES)).prop_map(|(at, piece)| Edit::Put { at, piece }),
        (place(), prop::collection::vec(any::<u8>(), 1..6))
            .prop_map(|(at, bytes)| Edit::Bytes { at, bytes }),
        (place(), length(), 2..40_usize).prop_map(|(from, length, times)| Edit::Repeat {
            from,
            length,
            times
        }),
        (place(), length(), place()).prop_map(|(from, length, to)| Edit::Move { from, length, to }),
        (any::<usize>(), place(), length(), place())
            .prop_map(|(file, from, length, at)| Edit::Other { file, from, length, at }),
    ];
    (any::<usize>(), prop::collection::vec(edit, 0..7))
}

/// The text of the corpus that a number names, with its edits done.
pub fn spoilt(corpus: &[String], (file, edits): &(usize, Vec<Edit>)) -> Vec<u8> {
    let mut bytes = corpus[file % corpus.len()].clone().into_bytes();
    for edit in edits {
        let at = |share: f64| share_of(share, bytes.len());
        let range = |from: f64, length: f64| {
            let start = at(from);
            start..(start + at(length).max(1)).min(bytes.len())
        };
        match edit {
            Edit::Cut { from, length } => {
                bytes.drain(range(*from, *length));
            }
            Edit::Put { at: place, piece } => {
                let place = at(*place);
                bytes.splice(place..place, piece.bytes());
            }
            Edit::Bytes { at: place, bytes: own } => {
                let place = at(*place);
                bytes.splice(place..place, own.iter().copied());
            }
            Edit::Repeat { from, length, times } => {
                let range = range(*from, *length);
                let piece = bytes[range.clone()].repeat(*times);
                bytes.splice(range, piece);
            }
            Edit::Move { from, length, to } => {
                let piece: Vec<u8> = bytes.drain(range(*from, *length)).collect();
                let place = share_of(*to, bytes.len());
                bytes.splice(place..place, piece);
            }
            Edit::Other { file, from, length, at: place } => {
                let other = corpus[file % corpus.len()].as_bytes();
                let start = share_of(*from, other.len());
                let end = (start + share_of(*length, other.len())).min(other.len());
                let place = at(*place);
                bytes.splice(place..place, other[start..end].iter().copied());
            }
        }
        bytes.truncate(LARGEST);
    }
    bytes
}

/// No text grows beyond this: longer ones are refused before they are read.
const LARGEST: usize = 200_000;

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
fn share_of(share: f64, length: usize) -> usize {
    ((share * length as f64) as usize).min(length)
}

/// The files of some folders of the project with an ending, in the order of their names.
pub fn corpus(folders: &[&str], ending: &str) -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut paths: Vec<_> = folders
        .iter()
        .flat_map(|folder| std::fs::read_dir(root.join(folder)).expect("a folder of the project"))
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|own| own == ending))
        .collect();
    paths.sort();
    paths.iter().map(|path| std::fs::read_to_string(path).expect("a text")).collect()
}
