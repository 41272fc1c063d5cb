use super::*;

fn names_in(directory: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(directory).unwrap();
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

#[test]
fn error_an_existing_file_is_kept_unless_told() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("a.toml");
    write_file(&path, b"first", Overwrite::No).unwrap();
    let refused = write_file(&path, b"second", Overwrite::No).unwrap_err();
    assert!(matches!(refused, FileError::Exists { .. }));
    assert!(refused.to_string().ends_with("a.toml: the file exists already"));
    assert_eq!(std::fs::read(&path).unwrap(), b"first");
    write_file(&path, b"second", Overwrite::Yes).unwrap();
    assert_eq!(std::fs::read(&path).unwrap(), b"second");
    assert_eq!(names_in(directory.path()), ["a.toml"]);
}

#[test]
fn error_nothing_is_left_behind_where_a_file_cannot_be_written() {
    let directory = tempfile::tempdir().unwrap();
    let nowhere = directory.path().join("none").join("a.toml");
    let error = write_file(&nowhere, b"x", Overwrite::No).unwrap_err();
    assert!(
        error.to_string().ends_with("cannot be written: its directory does not exist"),
        "{error}"
    );
    let error = write_file(directory.path(), b"x", Overwrite::Yes).unwrap_err();
    assert!(matches!(error, FileError::Directory { .. }));
    assert!(names_in(directory.path()).is_empty());
}

#[cfg(unix)]
#[test]
fn regression_a_new_file_has_the_permissions_of_the_users_other_files() {
    use std::os::unix::fs::PermissionsExt;
    let directory = tempfile::tempdir().unwrap();
    let (ours, plain) = (directory.path().join("ours"), directory.path().join("plain"));
    write_file(&ours, b"x", Overwrite::No).unwrap();
    std::fs::write(&plain, b"x").unwrap();
    let mode = |path: &Path| path.metadata().unwrap().permissions().mode();
    assert_eq!(mode(&ours), mode(&plain));
}
