//! The usual folders of this machine for what people make and keep.

use std::path::PathBuf;

use etcetera::BaseStrategy;

use crate::local_storage::LocalStorage;

/// The name of this program's folders.
const NAME: &str = "steady-draw";

impl LocalStorage {
    /// Storage in the usual folders, a scenario that somebody named being offered first.
    pub fn usual(first: Option<PathBuf>) -> Self {
        Self { first, scenarios: scenarios_folder(), data: data_folder(), config: config_folder() }
    }
}

/// The folder for settings, as this system has it.
pub fn config_folder() -> Option<PathBuf> {
    let native = etcetera::base_strategy::choose_native_strategy().ok()?;
    let earlier = etcetera::choose_base_strategy().ok()?;
    Some(chosen(settings_of(&native), settings_of(&earlier)))
}

/// The folder for journals and reports, as this system has it.
pub fn data_folder() -> Option<PathBuf> {
    let native = etcetera::base_strategy::choose_native_strategy().ok()?;
    let earlier = etcetera::choose_base_strategy().ok()?;
    Some(chosen(data_of(&native), data_of(&earlier)))
}

fn settings_of(strategy: &impl BaseStrategy) -> PathBuf {
    strategy.config_dir().join(NAME)
}

fn data_of(strategy: &impl BaseStrategy) -> PathBuf {
    strategy.data_dir().join(NAME)
}

/// The system's own place, unless something lies at the one that was used before there was this choice.
fn chosen(native: PathBuf, earlier: PathBuf) -> PathBuf {
    if !native.exists() && earlier.exists() { earlier } else { native }
}

/// The folder of the scenarios that came with the program: where it is run, beside the program, or
/// in the source tree.
pub fn scenarios_folder() -> Option<PathBuf> {
    let beside = std::env::current_exe().ok().and_then(|exe| Some(exe.parent()?.to_owned()));
    let places = [
        Some(PathBuf::from("scenarios")),
        beside.as_ref().map(|folder| folder.join("scenarios")),
        beside.as_ref().map(|folder| folder.join("../share/steady-draw/scenarios")),
        beside.as_ref().map(|folder| folder.join("../../scenarios")),
    ];
    places.into_iter().flatten().find(|folder| folder.is_dir())
}

#[cfg(test)]
mod tests {
    use etcetera::base_strategy::{Apple, Xdg};

    use super::{chosen, data_of, settings_of};

    #[test]
    fn each_system_has_its_own_folders() {
        let (apple, xdg) = (Apple::new().expect("a home"), Xdg::new().expect("a home"));
        assert!(settings_of(&apple).ends_with("Library/Preferences/steady-draw"));
        assert!(data_of(&apple).ends_with("Library/Application Support/steady-draw"));
        assert!(settings_of(&xdg).ends_with("steady-draw"));
        assert!(!settings_of(&xdg).to_string_lossy().contains("Library"));
    }

    #[test]
    fn what_lies_at_the_earlier_place_is_not_lost() {
        let folder = tempfile::tempdir().expect("a folder");
        let (native, earlier) = (folder.path().join("native"), folder.path().join("earlier"));
        assert_eq!(chosen(native.clone(), earlier.clone()), native);
        std::fs::create_dir(&earlier).expect("a folder");
        assert_eq!(chosen(native.clone(), earlier.clone()), earlier);
        std::fs::create_dir(&native).expect("a folder");
        assert_eq!(chosen(native.clone(), earlier), native);
    }
}
