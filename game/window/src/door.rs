//! The door to the window. The engine itself asks the system for a display, for libraries and for a
//! driver, wherever they lie; what cannot be had is said in words, with what to install.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, Mutex, PoisonError};

use sessions::FrontEndError;

use crate::app::{self, BenchPlugin, Describe};

/// What can be done without a window.
const INSTEAD: &str = "or work in words: `steady-draw drive SCENARIO --words`";

/// Libraries that a window loads as it comes up, each with the package that Debian has it in. A name
/// that begins like another one stands before it.
const LIBRARIES: [(&str, &str); 7] = [
    ("libxkbcommon-x11", "libxkbcommon-x11-0"),
    ("libxkbcommon", "libxkbcommon0"),
    ("libX11-xcb", "libx11-xcb1"),
    ("libX11", "libx11-6"),
    ("libXcursor", "libxcursor1"),
    ("libXrandr", "libxrandr2"),
    ("libXi", "libxi6"),
];

/// Opens the bench in a window, and returns when it is closed. With `describe`, other programs are shown
/// what goes on in it.
///
/// # Errors
///
/// When the machine has no display, no Vulkan driver, or lacks a library that a window needs.
pub fn run(bench: BenchPlugin, describe: Option<Describe>) -> Result<(), FrontEndError> {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    if cfg!(target_os = "linux") {
        display(set("DISPLAY"), set("WAYLAND_DISPLAY")).map_err(FrontEndError::Wrong)?;
    }
    match guarded(|| app::run(bench, describe)) {
        Ok(exit) if exit.is_success() => Ok(()),
        Ok(_) => Err(FrontEndError::Wrong("an error closed the window: see above".to_owned())),
        Err(why) => {
            let display = std::env::var("DISPLAY").unwrap_or_default();
            Err(FrontEndError::Wrong(explained(&why, &display)))
        }
    }
}

/// Runs what may give up, as the engine does where it cannot have what it needs: the first reason
/// that it gives comes back in words.
fn guarded<T>(run: impl FnOnce() -> T) -> Result<T, String> {
    let first: Arc<Mutex<Option<String>>> = Arc::default();
    let heard = Arc::clone(&first);
    std::panic::set_hook(Box::new(move |panic| {
        let mut heard = heard.lock().unwrap_or_else(PoisonError::into_inner);
        heard.get_or_insert_with(|| panic.to_string());
    }));
    let result = catch_unwind(AssertUnwindSafe(run));
    drop(std::panic::take_hook());
    let first = first.lock().unwrap_or_else(PoisonError::into_inner).take();
    result.map_err(|_| first.unwrap_or_default())
}

/// Why the window cannot be, for people: what is missing, and what to do. `why` is what the engine said.
fn explained(why: &str, display: &str) -> String {
    let not_loaded = why.contains("could not be loaded") || why.contains("LibraryOpenError");
    let library = LIBRARIES.iter().find(|(library, _)| not_loaded && why.contains(library));
    if let Some((library, package)) = library {
        format!(
            "the library {library} cannot be loaded: install it (Debian: apt install {package}), {INSTEAD}"
        )
    } else if why.contains("Unable to find a GPU") {
        format!(
            "no Vulkan driver on this machine can draw the window: install one (Debian, without a graphics card: apt install mesa-vulkan-drivers), {INSTEAD}"
        )
    } else if why.contains("event loop") {
        format!("the display `{display}` cannot be reached: see DISPLAY, {INSTEAD}")
    } else {
        format!(
            "an error closed the window, and the journal is kept: start the program again to continue the session, {INSTEAD}\n{why}"
        )
    }
}

/// Whether there is a display to ask for: of X or of Wayland.
fn display(x11: bool, wayland: bool) -> Result<(), String> {
    match (x11, wayland) {
        (true, _) => Ok(()),
        (false, true) if cfg!(feature = "wayland") => Ok(()),
        (false, true) => {
            Err(format!("there is no X display (DISPLAY is not set): start XWayland, {INSTEAD}"))
        }
        (false, false) => Err(format!(
            "there is no display (DISPLAY is not set): start it on a desktop, {INSTEAD}"
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::explained;

    #[test]
    fn a_library_that_is_missing_is_named_with_its_package() {
        let xkb = "Library libxkbcommon-x11.so could not be loaded.";
        let said = explained(xkb, ":0");
        assert!(said.contains("libxkbcommon-x11 cannot") && said.contains("libxkbcommon-x11-0"));
        let x11 = "Failed to build event loop: Os(OsError { error: XNotSupported(LibraryOpenError(\
            OpenError { kind: Library, detail: \"libXcursor.so.1: cannot open shared object file\" })) })";
        let said = explained(x11, ":0");
        assert!(said.contains("apt install libxcursor1"), "{said}");
    }

    #[test]
    fn a_display_that_is_not_there_is_no_missing_library() {
        let said = explained(
            "Failed to build event loop: Os(OsError { error: XNotSupported(XOpenDisplayFailed) })",
            ":7",
        );
        assert!(said.contains("`:7` cannot be reached"), "{said}");
    }
}
