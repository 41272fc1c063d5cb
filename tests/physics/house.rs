//! The house: data flows one way, from the first room on the list to the last.

use std::path::Path;

/// Rooms in the order in which data flows; a room uses only those before it.
const ROOMS: &[&str] = &[
    "physical",
    "units",
    "numeric",
    "spelling",
    "schema",
    "flag",
    "field",
    "water",
    "boat",
    "sentence",
    "hydro",
    "plane",
    "balance",
    "size",
    "behaviour",
    "doubt",
    "error",
    "save",
    "listing",
    "drawing",
    "document",
    "input",
    "fleet",
    "stock",
    "offer",
    "chart",
    "trial",
    "tell",
    "answer",
    "picture",
    "mark",
    "check",
    "report",
    "web",
    "cli",
    "main",
];

fn sources(folder: &Path, found: &mut Vec<std::path::PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("the sources are readable") {
        let path = entry.expect("a readable entry").path();
        if path.join("Cargo.toml").is_file() {
            // A package of its own that uses the library from outside.
            continue;
        }
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// The room a file stands in, from its path below `src`.
fn room_of(path: &Path, root: &Path) -> String {
    let below = path.strip_prefix(root).expect("a file below src");
    let first = below.components().next().expect("a name").as_os_str().to_string_lossy();
    first.trim_end_matches(".rs").to_owned()
}

fn place(room: &str) -> usize {
    ROOMS
        .iter()
        .position(|&name| name == room)
        .unwrap_or_else(|| panic!("{room} has no place on the list of rooms"))
}

/// Lines of a file above its tests that take something from another room.
fn uses(text: &str) -> impl Iterator<Item = &str> {
    let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or(text);
    code.lines().filter_map(|line| line.trim().strip_prefix("use crate::"))
}

#[test]
fn regression_data_flows_one_way() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    let mut checked = 0;
    for file in files {
        let name = file.file_name().expect("a name").to_string_lossy().into_owned();
        let room = room_of(&file, &root);
        if room == "lib" || name.contains("test") || name.contains("proof") {
            continue;
        }
        let text = std::fs::read_to_string(&file).expect("a readable source");
        for used in uses(&text) {
            let other = used.split([':', ';', '{', ' ']).next().unwrap_or_default();
            if other.is_empty() || other == room {
                continue;
            }
            assert!(
                place(other) < place(&room),
                "{}: {room} uses {other}, which comes after it",
                file.display()
            );
            checked += 1;
        }
    }
    assert!(checked > 200, "only {checked} uses were found");
}

/// What writes or moves files, which the one writer alone may use.
const WRITES: &[&str] = &[
    "fs::write",
    "File::create",
    "OpenOptions",
    "fs::rename",
    "fs::create_dir",
    "fs::copy",
    "persist(",
    "fs::remove",
];

#[test]
fn regression_files_are_written_in_one_room_alone() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    let mut found = 0;
    for file in files {
        let name = file.file_name().expect("a name").to_string_lossy().into_owned();
        if name.contains("test") || name.contains("proof") {
            continue;
        }
        let text = std::fs::read_to_string(&file).expect("a readable source");
        let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or(&text);
        let writes = WRITES.iter().filter(|&&word| code.contains(word)).count();
        if room_of(&file, &root) == "save" {
            found += writes;
        } else {
            assert_eq!(writes, 0, "{}: files are written by `save`", file.display());
        }
    }
    assert!(found >= 5, "the one writer uses {found} of them");
}

/// Rooms that know the kinds of duty: what each is, its words, and those that are made from a boat. All others ask a duty for its aim and its speeds.
const KNOW_DUTIES: &[&str] = &["boat/duty.rs", "sentence/duty.rs", "size/generate.rs"];

#[test]
fn regression_kinds_of_duty_are_known_in_their_own_files_alone() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    let mut known = 0;
    for file in files {
        let below = file.strip_prefix(&root).expect("a file below src");
        if below.iter().any(|part| {
            let part = part.to_string_lossy();
            part.contains("test") || part.contains("proof")
        }) {
            continue;
        }
        let text = std::fs::read_to_string(&file).expect("a readable source");
        let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or(&text);
        let names_a_kind = code.match_indices("Duty::").any(|(at, name)| {
            let is_whole = !code[..at].ends_with(char::is_alphanumeric);
            is_whole && code[at + name.len()..].starts_with(char::is_uppercase)
        });
        let knows = KNOW_DUTIES.iter().any(|path| below == Path::new(path));
        assert!(knows || !names_a_kind, "{}: ask the duty for its aim", file.display());
        known += usize::from(knows && names_a_kind);
    }
    assert_eq!(known, KNOW_DUTIES.len());
}

/// Words that say what a term of the field says better, with that term and the rooms that it holds in; all where none is named.
const WORDS: &[(&str, &str, &[&str])] = &[
    ("hangs on", "depends on", &[]),
    ("hang on", "depend on", &[]),
    ("HOPELESS", "out of reach", &[]),
    ("bites", "asks most, governs", &[]),
    ("strain", "utilisation", &["size", "doubt", "stock", "tell", "report"]),
    ("Desk", "what it holds: findings, values, evidence", &["boat", "input", "trial", "document"]),
];

#[test]
fn regression_code_and_texts_use_the_terms_of_the_field() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    for file in files {
        let room = room_of(&file, &root);
        let text = std::fs::read_to_string(&file).expect("a readable source");
        let is_letter = |c: char| c.is_alphanumeric() || c == '_';
        for (word, term, rooms) in WORDS {
            let found = text.match_indices(word).find(|(at, _)| {
                !text[..*at].ends_with(is_letter) && !text[at + word.len()..].starts_with(is_letter)
            });
            assert!(
                found.is_none() || !(rooms.is_empty() || rooms.contains(&room.as_str())),
                "{}: `{word}` where the field says {term}",
                file.display()
            );
        }
    }
}
