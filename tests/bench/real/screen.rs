//! A virtual screen with the program on it.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use bench_tests::program;
use window::ui::told::Told;

/// Longest time that anything takes to come up on the screen.
const PATIENCE: Duration = Duration::from_secs(60);

/// A screen, and the program on it. Both end with it.
pub struct Screen {
    server: Child,
    program: Option<Child>,
    display: String,
    /// Size, px.
    pub size: (u32, u32),
    scale: u32,
    /// The home of who sits before it.
    pub home: tempfile::TempDir,
    /// A home that the program is told of instead.
    told_home: Option<PathBuf>,
}

impl Screen {
    /// A screen of a size on which everything is drawn so many times as large, and nothing on it.
    pub fn new(size: (u32, u32), scale: u32) -> Self {
        let geometry = format!("{}x{}x24", size.0, size.1);
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", &geometry, "-nolisten", "tcp"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb runs: `.ci/setup` installs it");
        let mut line = String::new();
        let out = server.stdout.take().expect("an output");
        BufReader::new(out).read_line(&mut line).expect("the number of the display");
        let display = format!(":{}", line.trim());
        let home = tempfile::tempdir().expect("a folder");
        Self { server, program: None, display, size, scale, home, told_home: None }
    }

    /// Tells the program of another home.
    pub fn live_in(&mut self, home: &str) {
        self.told_home = Some(PathBuf::from(home));
    }

    /// Starts the program and waits until something can be pointed at.
    pub fn start(&mut self) {
        self.launch();
        self.wait_for("the list of scenarios", |told| !told.is_empty());
        self.fill();
    }

    /// Starts the program.
    pub fn launch(&mut self) {
        assert!(self.program.is_none(), "it runs already");
        let _ = std::fs::remove_file(self.told_file());
        let child = Command::new(program::path())
            .arg("--describe")
            .arg(self.told_file())
            .current_dir(bench_tests::repository())
            .env("DISPLAY", &self.display)
            .env("HOME", self.told_home.as_deref().unwrap_or(self.home.path()))
            .env("WINIT_X11_SCALE_FACTOR", self.scale.to_string())
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("XDG_CONFIG_HOME")
            .env_remove("XDG_DATA_HOME")
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program runs");
        self.program = Some(child);
    }

    /// Gives the window the keyboard and the whole screen.
    fn fill(&self) {
        // Without a window manager nobody gives a window the keyboard.
        let id = self.tool(&["search", "--sync", "--onlyvisible", "--name", "^Steady Draw$"]);
        let id = id.lines().next().expect("a window").to_owned();
        self.tool(&["windowfocus", "--sync", &id]);
        // A window that fills the screen leaves nothing unseen.
        let (width, height) = (self.size.0.to_string(), self.size.1.to_string());
        self.tool(&["windowmove", &id, "0", "0"]);
        self.tool(&["windowsize", "--sync", &id, &width, &height]);
        pause(600);
    }

    /// Kills the program without warning.
    pub fn kill(&mut self) {
        if let Some(mut child) = self.program.take() {
            child.kill().expect("it is killed");
            child.wait().expect("it ends");
        }
    }

    /// The program's process.
    pub fn process(&self) -> u32 {
        self.program.as_ref().expect("it runs").id()
    }

    /// The name of the display.
    pub fn display(&self) -> &str {
        &self.display
    }

    /// The file in which what a screen reader is told is kept.
    pub fn told_file(&self) -> PathBuf {
        self.home.path().join("told.json")
    }

    /// What a screen reader is told now.
    pub fn told(&self) -> Vec<Told> {
        let text = std::fs::read(self.told_file()).unwrap_or_default();
        serde_json::from_slice(&text).unwrap_or_default()
    }

    /// Waits until what is told is as wanted.
    pub fn wait_for(&mut self, what: &str, wanted: impl Fn(&[Told]) -> bool) -> Vec<Told> {
        let begun = Instant::now();
        loop {
            let told = self.told();
            if wanted(&told) {
                return told;
            }
            if let Some(child) = &mut self.program
                && let Some(status) = child.try_wait().expect("its state")
            {
                panic!("while waiting for {what} the program ended: {status}");
            }
            if begun.elapsed() > PATIENCE {
                self.keep_picture(what);
                panic!("{what}: not within {PATIENCE:?}; the bench says `{}`", said(&told));
            }
            pause(30);
        }
    }

    /// Runs xdotool on the screen.
    pub fn tool(&self, arguments: &[&str]) -> String {
        let output = Command::new("xdotool")
            .args(arguments)
            .env("DISPLAY", &self.display)
            .output()
            .expect("xdotool runs: `.ci/setup` installs it");
        assert!(output.status.success(), "xdotool {arguments:?}: {output:?}");
        String::from_utf8(output.stdout).expect("text")
    }

    /// The pixels of a part of the screen, four bytes each, red first.
    pub fn pixels(&self, left: u32, top: u32, width: u32, height: u32) -> Vec<u8> {
        let crop = format!("{width}x{height}+{left}+{top}");
        let output = Command::new("import")
            .args(["-window", "root", "-crop", &crop, "-depth", "8", "rgba:-"])
            .env("DISPLAY", &self.display)
            .output()
            .expect("import runs: `.ci/setup` installs it");
        assert!(output.status.success(), "import: {output:?}");
        assert_eq!(output.stdout.len(), (width * height * 4) as usize);
        output.stdout
    }

    /// Keeps what is on the screen as a picture, in the folder that `STEADY_DRAW_PICTURES` names.
    pub fn keep_picture(&self, name: &str) {
        let Some(folder) = std::env::var_os("STEADY_DRAW_PICTURES").map(PathBuf::from) else {
            return;
        };
        let name: String =
            name.chars().map(|c| if c.is_alphanumeric() { c } else { '_' }).collect();
        let _ = Command::new("import")
            .args(["-window", "root"])
            .arg(folder.join(format!("{name}.png")))
            .env("DISPLAY", &self.display)
            .status();
    }

    /// Keeps pixels that were looked at as a picture, where pictures are kept.
    pub fn keep_pixels(&self, name: &str, side: u32, pixels: &[u8]) {
        if let Some(folder) = std::env::var_os("STEADY_DRAW_PICTURES").map(PathBuf::from) {
            let kind = self.display.trim_start_matches(':');
            let _ = std::fs::write(folder.join(format!("{name}_{kind}_{side}.rgba")), pixels);
        }
    }

    /// The folder of the journals.
    pub fn journals(&self) -> PathBuf {
        self.home.path().join(".local/share/steady-draw")
    }

    /// The newest journal.
    pub fn journal(&self) -> PathBuf {
        let files = std::fs::read_dir(self.journals()).expect("the folder of the journals");
        let newest = files
            .flatten()
            .map(|file| file.path())
            .filter(|path| path.extension().is_some_and(|kind| kind == "journal"))
            .max_by_key(|path| modified(path));
        newest.expect("a journal")
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        if let Some(mut child) = self.program.take() {
            let _ = child.kill();
            let _ = child.wait();
        }
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

fn modified(path: &Path) -> std::time::SystemTime {
    std::fs::metadata(path).and_then(|about| about.modified()).expect("when it was written")
}

/// What the place is called in which the bench says something.
pub const SAYS: &str = "message";

/// What the bench last said.
pub fn said(told: &[Told]) -> String {
    told.iter().find(|one| one.label == SAYS).map_or_else(String::new, |one| one.value.clone())
}

/// Lets real time pass, milliseconds.
pub fn pause(milliseconds: u64) {
    std::thread::sleep(Duration::from_millis(milliseconds));
}
