//! `progress`: that it says what it cannot do.

#[cfg(target_os = "linux")]
#[test]
fn threads_that_cannot_be_started_are_an_error() {
    let desk = super::desk::desk();
    super::desk::rehearsed(&desk);
    for command in ["progress out", "trial first.ron --runs 1 --jobs 1000"] {
        // More threads than the memory that is allowed has room for.
        let line = format!("ulimit -v 600000 && exec \"$0\" {command}");
        let output = std::process::Command::new("sh")
            .args(["-c", &line])
            .arg(bench_tests::program::path())
            .env("RAYON_NUM_THREADS", "1000")
            // Stacks so large that it is one of them that does not fit, and nothing smaller.
            .env("RUST_MIN_STACK", "67108864")
            .current_dir(desk.path())
            .output()
            .unwrap();
        let error = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{error}");
        assert!(error.starts_with("steady-draw: cannot start "), "{error}");
    }
}
