#[test]
fn look() {
    print!("{}", super::starter_file());
}
