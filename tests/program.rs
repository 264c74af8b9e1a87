//! The program starts and says what it is.

use std::process::Command;

#[test]
fn the_program_says_its_name_and_version() {
    let said = Command::new(env!("CARGO_BIN_EXE_steady-draw"))
        .arg("--version")
        .output()
        .expect("the program runs");
    assert!(said.status.success());
    let version = format!("steady-draw {}\n", env!("CARGO_PKG_VERSION"));
    assert_eq!(String::from_utf8_lossy(&said.stdout), version);
}
