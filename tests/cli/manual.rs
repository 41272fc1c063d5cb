//! Manual pages and completions, made from the same definitions as the arguments.

use super::printed;

#[test]
fn regression_the_manual_page_names_every_command() {
    let page = printed(&["manual"]);
    assert!(page.starts_with(".ie"), "{}", &page[..40]);
    let help = printed(&["--help"]);
    let commands = help.lines().skip_while(|line| !line.starts_with("Commands:")).skip(1);
    let names = commands
        .take_while(|line| !line.trim().is_empty())
        .filter(|line| line.starts_with("  ") && !line.starts_with("   "))
        .filter_map(|line| line.split_whitespace().next());
    let mut found = 0;
    for name in names.filter(|&name| name != "help") {
        // roff writes a hyphen as \-.
        assert!(page.contains(&format!("planewright\\-{}", name.replace('-', "\\-"))), "{name}");
        found += 1;
    }
    assert!(found >= 7, "{found}");
}

#[test]
fn regression_every_command_has_a_page_of_its_own() {
    let folder = tempfile::tempdir().expect("a folder");
    printed(&["manual", "--into", &folder.path().display().to_string()]);
    let size = std::fs::read_to_string(folder.path().join("planewright-size.1")).expect("a page");
    assert!(size.contains("\\-\\-stock"));
}

#[test]
fn regression_shells_complete_commands_and_options() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = printed(&["manual", "--completions", shell]);
        assert!(script.contains("size") && script.contains("charts"), "{shell}");
    }
}
