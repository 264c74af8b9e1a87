//! The packages of the workspace and their sources.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// A package with its sources.
#[derive(Debug, Default)]
pub struct Package {
    /// Its folder, such as `sim-core`.
    pub folder: String,
    /// Its name as manifests write it.
    pub name: String,
    /// Its name as code writes it.
    pub crate_name: String,
    /// Its manifest.
    pub manifest: String,
    /// The files with which its crates begin, the library first.
    pub roots: Vec<String>,
    /// Every source below its `src`, by its path from the top of the repository.
    pub sources: BTreeMap<String, String>,
}

/// The packages that make the product: every member of the workspace but the tests.
pub fn packages(repository: &Path) -> Vec<Package> {
    let manifest = read(&repository.join("Cargo.toml"));
    let folders = members(&manifest).into_iter().filter(|folder| folder != "tests");
    folders.map(|folder| package(repository, &folder)).collect()
}

/// The members that a workspace's manifest names.
pub fn members(manifest: &str) -> Vec<String> {
    let after = manifest.split_once("\nmembers").map_or("", |(_, after)| after);
    let list = after.split_once('[').and_then(|(_, after)| after.split_once(']'));
    let list = list.map_or("", |(list, _)| list);
    list.split('"').skip(1).step_by(2).map(str::to_owned).collect()
}

fn package(repository: &Path, folder: &str) -> Package {
    let manifest = read(&repository.join(folder).join("Cargo.toml"));
    let name = name(&manifest).to_owned();
    let crate_name = name.replace('-', "_");
    let mut sources = BTreeMap::new();
    gather(repository, &format!("{folder}/src"), &mut sources);
    let root = |file: &&String| {
        let below = file.trim_start_matches(folder).trim_start_matches("/src/");
        matches!(below, "lib.rs" | "main.rs") || below.starts_with("bin/")
    };
    let roots = sources.keys().filter(root).cloned().collect();
    Package { folder: folder.to_owned(), name, crate_name, manifest, roots, sources }
}

fn name(manifest: &str) -> &str {
    let line = manifest.lines().find(|line| line.starts_with("name"));
    line.and_then(|line| line.split('"').nth(1)).expect("a package has a name")
}

/// The names that a manifest depends on, for every target and for tests as well.
pub fn dependencies(manifest: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    let mut lists = false;
    for line in manifest.lines().map(str::trim) {
        if let Some(section) = line.strip_prefix('[') {
            let section = section.trim_end_matches(']');
            let (before, after) = match section.rsplit_once("dependencies") {
                Some((before, after)) => (before, after),
                None => {
                    lists = false;
                    continue;
                }
            };
            let is_list = before.is_empty() || before.ends_with(['.', '-']);
            lists = is_list && after.is_empty();
            if let Some(name) = after.strip_prefix('.').filter(|_| is_list) {
                names.insert(name.to_owned());
            }
        } else if lists && !line.starts_with('#') {
            let end = line.find(|c: char| !c.is_ascii_alphanumeric() && !matches!(c, '-' | '_'));
            if let Some((name, _)) = end.and_then(|end| line.split_at_checked(end)) {
                names.extend((!name.is_empty()).then(|| name.to_owned()));
            }
        }
    }
    names
}

/// Puts every source below a folder into the list.
fn gather(repository: &Path, folder: &str, sources: &mut BTreeMap<String, String>) {
    let listed = std::fs::read_dir(repository.join(folder));
    for entry in listed.unwrap_or_else(|error| panic!("{folder}: {error}")) {
        let entry = entry.expect("an entry of a folder");
        let path = format!("{folder}/{}", entry.file_name().to_string_lossy());
        if entry.file_type().expect("the kind of an entry").is_dir() {
            gather(repository, &path, sources);
        } else if path.ends_with(".rs") {
            sources.insert(path, read(&entry.path()));
        }
    }
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
