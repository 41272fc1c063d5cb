use super::*;

const STAMP: &str = "runs of table 1";

/// A file of some steps, as a killed process leaves it.
fn begun(path: &Path, steps: &[&str]) {
    let mut growing = Growing::begin(path, &[], Overwrite::No, STAMP).unwrap();
    for (place, step) in steps.iter().enumerate() {
        growing.step(step.as_bytes(), [place as u64 + 1, 0, 0, 0]).unwrap();
    }
}

fn resumed(path: &Path) -> (Growing, Option<Mark>) {
    Growing::resume(path, &[], Overwrite::No, STAMP).unwrap()
}

#[test]
fn regression_wherever_file_and_journal_end_no_step_is_lost_doubled_or_half() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.csv");
    let steps = ["first\n", "second, longer\n", "third\n"];
    begun(&path, &steps);
    let [part, journal] = names(&Target::of(&path).unwrap());
    let (whole_part, whole_journal) =
        (std::fs::read(&part).unwrap(), std::fs::read(&journal).unwrap());
    let mut resumed_at = [0; 4];
    for part_end in 0..=whole_part.len() {
        for journal_end in 0..=whole_journal.len() {
            std::fs::write(&part, &whole_part[..part_end]).unwrap();
            std::fs::write(&journal, &whole_journal[..journal_end]).unwrap();
            let (mut growing, mark) = resumed(&path);
            let done = mark.map_or(0, |mark| mark[0]) as usize;
            resumed_at[done] += 1;
            for (place, step) in steps.iter().enumerate().skip(done) {
                growing.step(step.as_bytes(), [place as u64 + 1, 0, 0, 0]).unwrap();
            }
            drop(growing);
            assert_eq!(std::fs::read_to_string(&part).unwrap(), steps.concat());
        }
    }
    resumed(&path).0.finish().unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), steps.concat());
    assert!(!part.exists() && !journal.exists());
    assert!(resumed_at.iter().all(|&count| count > 0), "{resumed_at:?}");
}

#[test]
fn regression_a_file_that_was_changed_goes_on_where_it_was_still_whole() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.csv");
    begun(&path, &["first\n", "second\n"]);
    let [part, _] = names(&Target::of(&path).unwrap());
    std::fs::write(&part, "first\nsECond\n").unwrap();
    let (mut growing, mark) = resumed(&path);
    assert_eq!(mark, Some([1, 0, 0, 0]));
    growing.step(b"second\n", [2, 0, 0, 0]).unwrap();
    growing.finish().unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "first\nsecond\n");
}

#[test]
fn error_what_was_begun_is_neither_overwritten_nor_mixed_with_another() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.csv");
    begun(&path, &["first\n"]);
    let anew = Growing::begin(&path, &[], Overwrite::No, STAMP);
    assert!(matches!(anew, Err(SaveError::Unfinished { .. })));
    let other = Growing::resume(&path, &[], Overwrite::No, "sizes of table 1");
    assert!(matches!(other, Err(SaveError::OtherStamp { .. })));
    let (growing, mark) = resumed(&path);
    assert_eq!(mark, Some([1, 0, 0, 0]));
    let second = Growing::resume(&path, &[], Overwrite::No, STAMP);
    assert!(second.unwrap_err().to_string().contains("another process is writing it"));
    growing.finish().unwrap();
    let finished = Growing::resume(&path, &[], Overwrite::No, STAMP);
    assert!(matches!(finished, Err(SaveError::Exists { .. })));
}
