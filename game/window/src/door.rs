//! The door to the window: what a machine needs for it is looked for first, and whatever is missing
//! is said in words, with what to install.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use sessions::FrontEndError;

use crate::app::{self, BenchPlugin};
use crate::store;
use crate::ui::settings::{config_folder, data_folder};

/// What can be done without a window.
const INSTEAD: &str = "or work in words: `steady-draw drive SCENARIO --words`";

/// Opens the bench in a window, and returns when it is closed. What a screen reader is told of it is
/// kept in the file `describe`, when one is named.
///
/// # Errors
///
/// When the machine has no display, no Vulkan driver, or lacks a library that a window needs.
pub fn run(scenario: Option<PathBuf>, describe: Option<PathBuf>) -> Result<(), FrontEndError> {
    ready().map_err(FrontEndError::Wrong)?;
    let bench = BenchPlugin {
        scenario,
        scenarios: store::scenarios_folder(),
        data: data_folder(),
        config: config_folder(),
    };
    match guarded(|| app::run(bench, describe)) {
        Ok(exit) if exit.is_success() => Ok(()),
        Ok(_) => {
            Err(FrontEndError::Wrong("the window was closed by an error: see above".to_owned()))
        }
        Err(why) => Err(FrontEndError::Wrong(explained(&why))),
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

/// Why the window cannot be, for people: what is missing, and what to do.
fn explained(why: &str) -> String {
    let display = std::env::var("DISPLAY").unwrap_or_default();
    if why.contains("Unable to find a GPU") {
        format!(
            "no Vulkan driver of this machine can draw the window: install one (Debian, without a graphics card: apt install mesa-vulkan-drivers), {INSTEAD}"
        )
    } else if why.contains("event loop") {
        format!("the display `{display}` cannot be reached: see DISPLAY, {INSTEAD}")
    } else {
        format!(
            "the window was closed by an error, and the journal is kept: start again to go on with it, {INSTEAD}\n{why}"
        )
    }
}

/// What is missing on this machine, if anything is.
fn ready() -> Result<(), String> {
    if !cfg!(target_os = "linux") {
        return Ok(());
    }
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let x11 = set("DISPLAY");
    let wayland = cfg!(feature = "wayland") && set("WAYLAND_DISPLAY");
    if !x11 && !wayland {
        return Err(if set("WAYLAND_DISPLAY") {
            format!("there is no X display (DISPLAY is not set): start XWayland, {INSTEAD}")
        } else {
            format!("there is no display (DISPLAY is not set): start it on a desktop, {INSTEAD}")
        });
    }
    let libraries = library_folders();
    let there = |name: &str| libraries.iter().any(|folder| folder.join(name).exists());
    if x11 && !there("libxkbcommon-x11.so.0") {
        return Err(format!(
            "the library libxkbcommon-x11 is missing: install it (Debian: apt install libxkbcommon-x11-0), {INSTEAD}"
        ));
    }
    if !there("libvulkan.so.1") || !has_driver() {
        return Err(format!(
            "there is no Vulkan driver: install one (Debian, without a graphics card: apt install mesa-vulkan-drivers), {INSTEAD}"
        ));
    }
    Ok(())
}

/// Where shared libraries lie.
fn library_folders() -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = std::env::var_os("LD_LIBRARY_PATH")
        .map(|list| std::env::split_paths(&list).collect())
        .unwrap_or_default();
    for root in ["/usr/lib", "/lib", "/usr/lib64", "/lib64", "/usr/local/lib"] {
        folders.push(PathBuf::from(root));
        // Debian keeps them one folder deeper, named after the machine.
        let deeper = std::fs::read_dir(root).into_iter().flatten().flatten();
        folders.extend(deeper.map(|entry| entry.path()).filter(|path| {
            path.file_name().is_some_and(|name| name.to_string_lossy().contains("-linux-"))
        }));
    }
    folders
}

/// Whether a Vulkan driver is named anywhere where the loader looks.
fn has_driver() -> bool {
    if ["VK_ICD_FILENAMES", "VK_DRIVER_FILES"].iter().any(|name| std::env::var_os(name).is_some()) {
        return true;
    }
    let mut folders: Vec<PathBuf> = ["/usr/share", "/usr/local/share", "/etc"]
        .iter()
        .map(|root| Path::new(root).join("vulkan/icd.d"))
        .collect();
    if let Some(home) = std::env::var_os("HOME") {
        folders.push(Path::new(&home).join(".local/share/vulkan/icd.d"));
    }
    folders.iter().any(|folder| std::fs::read_dir(folder).is_ok_and(|list| list.count() > 0))
}
