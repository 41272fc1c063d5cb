use std::fs::{self, File};

use tempfile::TempDir;

use super::*;

fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

/// All names in a folder, in order.
fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<_> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn set(overwrite: Overwrite, files: &[(&Path, &str)]) -> FileSet {
    let mut set = FileSet::new(overwrite);
    for (path, content) in files {
        set.add(*path, *content);
    }
    set
}

fn write_one(path: &Path, overwrite: Overwrite) -> Result<(), SaveError> {
    set(overwrite, &[(path, "new")]).write()
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap()
}

#[test]
fn error_an_existing_file_is_kept_unless_told() {
    let folder = folder();
    let path = folder.path().join("a.toml");
    write_one(&path, Overwrite::No).unwrap();
    fs::write(&path, "mine").unwrap();
    let refused = write_one(&path, Overwrite::No).unwrap_err();
    assert!(refused.to_string().ends_with("a.toml: the file exists already"), "{refused}");
    assert!(refused.remedy().contains("--force") && refused.remedy().contains("nothing was"));
    assert_eq!(read(&path), "mine");
    write_one(&path, Overwrite::Yes).unwrap();
    assert_eq!(read(&path), "new");
    assert_eq!(names_in(folder.path()), ["a.toml"]);
}

#[test]
fn error_all_files_in_the_way_are_named_and_none_of_the_others_is_written() {
    let folder = folder();
    let paths: Vec<_> = (0..7).map(|n| folder.path().join(format!("{n}.svg"))).collect();
    for path in &paths[..6] {
        fs::write(path, "mine").unwrap();
    }
    let files: Vec<_> = paths.iter().map(|path| (path.as_path(), "new")).collect();
    let text = set(Overwrite::No, &files).write().unwrap_err().to_string();
    let place = folder.path().display();
    let wanted = format!("6 files exist already in {place}: 0.svg, 1.svg, 2.svg, 3.svg and 2 more");
    assert_eq!(text, wanted);
    assert!(!paths[6].exists());
    let text = set(Overwrite::No, &files[4..]).write().unwrap_err().to_string();
    assert_eq!(text, format!("2 files exist already in {place}: 4.svg, 5.svg"));
    let below = folder.path().join("below");
    fs::create_dir(&below).unwrap();
    let other = below.join("0.svg");
    fs::write(&other, "mine").unwrap();
    let apart = [paths[0].as_path(), &other].map(|path| (path, "new"));
    let text = set(Overwrite::No, &apart).write().unwrap_err().to_string();
    assert!(text.starts_with("2 files exist already: ") && text.ends_with("below/0.svg"), "{text}");
    fs::remove_dir_all(&below).unwrap();
    set(Overwrite::Yes, &files).write().unwrap();
    assert!(paths.iter().all(|path| read(path) == "new"));
    assert_eq!(names_in(folder.path()).len(), 7);
}

#[test]
fn error_where_a_rename_fails_all_is_put_back() {
    let folder = folder();
    let [old, new, last] = ["old", "new", "last"].map(|name| folder.path().join(name));
    for already in [true, false] {
        fs::write(&old, "mine").unwrap();
        if already {
            fs::write(&last, "mine").unwrap();
        }
        let files = [(old.as_path(), "x"), (new.as_path(), "x"), (last.as_path(), "x")];
        let prepared = set(Overwrite::Yes, &files).prepare().unwrap();
        assert_eq!(read(&old), "mine");
        // Meanwhile something comes that no file can replace.
        if already {
            fs::remove_file(&last).unwrap();
        }
        fs::create_dir(&last).unwrap();
        fs::write(last.join("inside"), "").unwrap();
        let error = prepared.commit().unwrap_err();
        assert!(!matches!(error, SaveError::NotPutBack { .. }), "{error}");
        assert!(error.to_string().contains("last"), "{error}");
        assert_eq!(read(&old), "mine");
        assert_eq!(names_in(folder.path()), ["last", "old"]);
        fs::remove_dir_all(&last).unwrap();
    }
}

#[test]
fn error_a_file_that_came_after_the_check_is_not_replaced() {
    let folder = folder();
    let [first, second] = ["a", "b"].map(|name| folder.path().join(name));
    for overwrite in [Overwrite::No, Overwrite::Yes] {
        let files = [(first.as_path(), "x"), (second.as_path(), "x")];
        let prepared = set(overwrite, &files).prepare().unwrap();
        fs::write(&second, "another's").unwrap();
        assert!(matches!(prepared.commit().unwrap_err(), SaveError::Exists { .. }));
        assert_eq!(read(&second), "another's");
        assert_eq!(names_in(folder.path()), ["b"]);
        fs::remove_file(&second).unwrap();
    }
}

#[test]
fn error_a_folder_that_goes_away_takes_nothing_with_it() {
    let folder = folder();
    let [first, second] = ["a", "b"].map(|name| folder.path().join("in").join(name));
    fs::create_dir(first.parent().unwrap()).unwrap();
    for path in [&first, &second] {
        fs::write(path, "mine").unwrap();
    }
    let files = [(first.as_path(), "x"), (second.as_path(), "x")];
    let prepared = set(Overwrite::Yes, &files).prepare().unwrap();
    fs::rename(first.parent().unwrap(), folder.path().join("away")).unwrap();
    let error = prepared.commit().unwrap_err();
    assert!(matches!(error, SaveError::Unwritable { .. }), "{error}");
    assert_eq!(read(&folder.path().join("away/a")), "mine");
}

#[test]
fn error_what_cannot_be_put_back_is_set_aside_and_said() {
    let folder = folder();
    let [old, new] = ["old", "new"].map(|name| folder.path().join(name));
    fs::write(&old, "mine").unwrap();
    let put = |path: &Path| {
        let file = unfinished::with_content(folder.path(), b"x", None).unwrap();
        exchange::put(Target::of(path).unwrap(), file, true).unwrap()
    };
    let done = vec![put(&old), put(&new)];
    // Meanwhile folders come where the files were.
    for path in [&old, &new] {
        fs::remove_file(path).unwrap();
        fs::create_dir(path).unwrap();
        fs::write(path.join("inside"), "").unwrap();
    }
    let cause = SaveError::Twice { path: "third".into() };
    let error = exchange::put_back(done, cause);
    let SaveError::NotPutBack { left, .. } = &error else { panic!("{error}") };
    assert_eq!(left.len(), 2);
    let text = error.to_string();
    assert!(text.starts_with("third: two files") && text.contains("old.former"), "{text}");
    assert!(!error.remedy().contains("nothing was written"));
    assert_eq!(read(&folder.path().join("old.former")), "mine");
    assert_eq!(names_in(folder.path()), ["new", "old", "old.former"]);
}

#[test]
fn error_nothing_is_left_behind_where_a_file_cannot_be_written() {
    let folder = folder();
    let made = folder.path().join("made").join("below");
    let nowhere = folder.path().join("none").join("a.toml");
    let mut files = set(Overwrite::No, &[(&made.join("a.svg"), "x"), (&nowhere, "x")]);
    files.make_folder(&made);
    let error = files.write().unwrap_err();
    assert!(
        error.to_string().ends_with("cannot be written: its directory does not exist"),
        "{error}"
    );
    assert!(names_in(folder.path()).is_empty());
    let mut files = set(Overwrite::No, &[(&made.join("a.svg"), "x")]);
    files.make_folder(&made);
    files.write().unwrap();
    assert_eq!(names_in(&made), ["a.svg"]);
    // A file in place of a folder.
    let mut files = FileSet::new(Overwrite::Yes);
    files.make_folder(made.join("a.svg"));
    let error = files.write().unwrap_err().to_string();
    assert!(error.ends_with("the folder cannot be made: a file of that name is there"), "{error}");
}

#[test]
fn error_a_folder_is_no_file() {
    let folder = folder();
    let ends_as_a_folder = folder.path().join("new").join("");
    for path in [folder.path(), &ends_as_a_folder, &folder.path().join("..")] {
        for overwrite in [Overwrite::No, Overwrite::Yes] {
            let error = write_one(path, overwrite).unwrap_err().to_string();
            assert!(error.ends_with("this is a directory, not a file"), "{error}");
        }
    }
    assert!(names_in(folder.path()).is_empty());
}

#[test]
fn error_one_file_is_not_written_twice() {
    let folder = folder();
    let path = folder.path().join("a");
    let roundabout = folder.path().join(".").join("a");
    for already in [false, true] {
        if already {
            fs::write(&path, "mine").unwrap();
        }
        let files = [(path.as_path(), "x"), (roundabout.as_path(), "y")];
        let error = set(Overwrite::Yes, &files).write().unwrap_err();
        assert!(matches!(error, SaveError::Twice { .. }), "{error}");
    }
    assert_eq!(read(&path), "mine");
}

#[test]
fn error_an_input_is_never_written_over() {
    let folder = folder();
    let input = folder.path().join("boat.toml");
    fs::write(&input, "mine").unwrap();
    fs::create_dir(folder.path().join("below")).unwrap();
    let hard = folder.path().join("hard");
    fs::hard_link(&input, &hard).unwrap();
    let roundabout = folder.path().join("below").join("..").join("boat.toml");
    let refused = |path: &Path| {
        let mut files = set(Overwrite::Yes, &[(path, "x")]);
        files.protect([folder.path().join("missing"), input.clone()]);
        let error = files.write().unwrap_err();
        assert!(matches!(error, SaveError::Input { .. }), "{error}");
        let text = error.to_string();
        assert!(text.ends_with("read here, and is never written over"), "{text}");
        assert!(text.contains("boat.toml"), "{text}");
    };
    refused(&input);
    refused(&roundabout);
    refused(&hard);
    #[cfg(unix)]
    {
        let soft = folder.path().join("soft");
        std::os::unix::fs::symlink("boat.toml", &soft).unwrap();
        refused(&soft);
        // Also where the input was named by a link.
        let mut files = set(Overwrite::Yes, &[(&input, "x")]);
        files.protect([soft]);
        assert!(matches!(files.write().unwrap_err(), SaveError::Input { .. }));
    }
    assert_eq!(read(&input), "mine");
}

#[test]
fn regression_what_nobody_holds_any_more_is_removed_and_nothing_else() {
    let folder = folder();
    let left = folder.path().join(".unfinished-abcDEF012345");
    let held = folder.path().join(".unfinished-held00000000");
    let others = [".unfinished-", ".unfinished-mine.txt", ".unfinished-abcDEF01234.", "unfinished"];
    for name in others {
        fs::write(folder.path().join(name), "mine").unwrap();
    }
    fs::write(&left, "half").unwrap();
    let holder = File::create(&held).unwrap();
    holder.lock().unwrap();
    write_one(&folder.path().join("a"), Overwrite::No).unwrap();
    assert!(!left.exists() && held.exists());
    assert!(others.iter().all(|name| folder.path().join(name).exists()));
    drop(holder);
    // What is refused removes nothing.
    write_one(&folder.path().join("a"), Overwrite::No).unwrap_err();
    assert!(held.exists());
    write_one(&folder.path().join("a"), Overwrite::Yes).unwrap();
    assert!(!held.exists());
    assert_eq!(names_in(folder.path()).len(), others.len() + 1);
}

#[test]
fn regression_two_that_write_at_the_same_time_leave_each_other_alone() {
    let folder = folder();
    let [first, second] = ["a", "b"].map(|name| folder.path().join(name));
    fs::write(&first, "mine").unwrap();
    let files = [(first.as_path(), "x"), (second.as_path(), "x")];
    let prepared = set(Overwrite::Yes, &files).prepare().unwrap();
    write_one(&folder.path().join("c"), Overwrite::No).unwrap();
    prepared.commit().unwrap();
    assert_eq!(names_in(folder.path()), ["a", "b", "c"]);
}

#[test]
fn regression_many_that_write_at_the_same_time_all_finish() {
    let folder = folder();
    std::thread::scope(|scope| {
        for writer in 0..8 {
            let path = folder.path();
            scope.spawn(move || {
                for round in 0..20 {
                    let paths = ["a", "b"].map(|name| path.join(format!("{name}{writer}-{round}")));
                    let files = paths.each_ref().map(|path| (path.as_path(), "x"));
                    set(Overwrite::No, &files).write().unwrap();
                }
            });
        }
    });
    assert_eq!(names_in(folder.path()).len(), 8 * 20 * 2);
}

#[cfg(unix)]
mod on_unix {
    use std::os::unix::fs::{PermissionsExt, symlink};

    use super::*;

    fn mode(path: &Path) -> u32 {
        path.metadata().unwrap().permissions().mode() & 0o7777
    }

    #[test]
    fn regression_a_new_file_has_the_permissions_of_the_users_other_files() {
        let folder = folder();
        let [ours, plain] = ["ours", "plain"].map(|name| folder.path().join(name));
        write_one(&ours, Overwrite::No).unwrap();
        fs::write(&plain, "x").unwrap();
        assert_eq!(mode(&ours), mode(&plain));
    }

    #[test]
    fn regression_the_permissions_of_a_file_that_is_replaced_or_put_back_are_kept() {
        let folder = folder();
        let [first, last] = ["first", "last"].map(|name| folder.path().join(name));
        for wanted in [0o600, 0o640, 0o444, 0o755] {
            fs::write(&first, "mine").unwrap();
            fs::set_permissions(&first, PermissionsExt::from_mode(wanted)).unwrap();
            write_one(&first, Overwrite::Yes).unwrap();
            assert_eq!((mode(&first), read(&first).as_str()), (wanted, "new"));
            let files = [(first.as_path(), "x"), (last.as_path(), "x")];
            let prepared = set(Overwrite::Yes, &files).prepare().unwrap();
            fs::create_dir(&last).unwrap();
            prepared.commit().unwrap_err();
            assert_eq!((mode(&first), read(&first).as_str()), (wanted, "new"));
            fs::remove_dir(&last).unwrap();
            fs::remove_file(&first).unwrap();
        }
    }

    #[test]
    fn regression_a_link_stays_one_and_what_it_leads_to_is_written() {
        let folder = folder();
        let elsewhere = folder.path().join("elsewhere");
        fs::create_dir(&elsewhere).unwrap();
        fs::write(elsewhere.join("there"), "mine").unwrap();
        for (to, overwrite) in [("there", Overwrite::Yes), ("not-yet", Overwrite::No)] {
            let link = folder.path().join(format!("to-{to}"));
            let second = folder.path().join(format!("over-{to}"));
            symlink(format!("elsewhere/{to}"), &link).unwrap();
            symlink(&link, &second).unwrap();
            write_one(&second, overwrite).unwrap();
            assert!(link.is_symlink() && second.is_symlink());
            assert_eq!(read(&elsewhere.join(to)), "new");
            assert!(!elsewhere.join(to).is_symlink());
        }
        assert_eq!(names_in(&elsewhere), ["not-yet", "there"]);
        let refused = write_one(&folder.path().join("to-there"), Overwrite::No).unwrap_err();
        assert!(refused.to_string().ends_with("to-there: the file exists already"), "{refused}");
        // Two dangling links to one file are one file.
        for name in ["one", "two"] {
            symlink("elsewhere/none", folder.path().join(name)).unwrap();
        }
        let [one, two] = ["one", "two"].map(|name| folder.path().join(name));
        let error = set(Overwrite::No, &[(&one, "x"), (&two, "x")]).write().unwrap_err();
        assert!(matches!(error, SaveError::Twice { .. }), "{error}");
        let round = folder.path().join("round");
        symlink("round", &round).unwrap();
        let error = write_one(&round, Overwrite::Yes).unwrap_err().to_string();
        assert!(error.contains("lead back to themselves"), "{error}");
    }

    #[test]
    fn error_what_is_no_file_is_refused_also_when_told() {
        let folder = folder();
        let [pipe, socket, to_socket, to_folder] =
            ["pipe", "socket", "to-socket", "to-folder"].map(|name| folder.path().join(name));
        let made = std::process::Command::new("mkfifo").arg(&pipe).status().unwrap();
        assert!(made.success());
        let _listener = std::os::unix::net::UnixListener::bind(&socket).unwrap();
        symlink("socket", &to_socket).unwrap();
        symlink(".", &to_folder).unwrap();
        let cases = [
            (pipe.as_path(), "pipe"),
            (&socket, "socket"),
            (&to_socket, "socket"),
            (&to_folder, "directory"),
            (Path::new("/dev/null"), "device"),
        ];
        for (path, kind) in cases {
            for overwrite in [Overwrite::No, Overwrite::Yes] {
                let text = write_one(path, overwrite).unwrap_err().to_string();
                assert!(text.ends_with(&format!("this is a {kind}, not a file")), "{text}");
            }
        }
        assert_eq!(names_in(folder.path()), ["pipe", "socket", "to-folder", "to-socket"]);
        // An input that is a pipe is not waited for.
        let path = folder.path().join("a");
        fs::write(&path, "mine").unwrap();
        let mut files = set(Overwrite::Yes, &[(&path, "x")]);
        files.protect([pipe]);
        files.write().unwrap();
    }
}
