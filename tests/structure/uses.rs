//! Which file uses which: every path in the sources followed to the file that declares its name.

use std::collections::BTreeMap;

use super::items::{Mention, MentionKind, items};
use super::workspace::Package;

/// A file uses what another declares.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Use {
    /// The file that uses.
    pub from: String,
    /// The file that declares.
    pub to: String,
    /// The path as it is written.
    pub path: String,
    /// The line on which it stands, from 1.
    pub line: usize,
}

impl std::fmt::Display for Use {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{} uses {} by `{}`", self.from, self.line, self.to, self.path)
    }
}

/// Something of a crate that is none of ours.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outside {
    /// The file that uses it.
    pub from: String,
    /// Its whole path, such as `std::fs::read`.
    pub path: Vec<String>,
    /// The line, from 1.
    pub line: usize,
}

/// What the sources of some packages use.
#[derive(Debug, Default)]
pub struct Uses {
    /// Of each other.
    pub inside: Vec<Use>,
    /// Of other crates, the standard library among them.
    pub outside: Vec<Outside>,
    /// Paths into these packages that lead nowhere: the reader of sources has failed there.
    pub lost: Vec<String>,
}

/// A module by its full path, the crate first.
type ModulePath = Vec<String>;

/// What stands in a module.
#[derive(Debug, Default)]
struct Module {
    file: String,
    children: Vec<String>,
    declared: Vec<String>,
    imports: BTreeMap<String, Vec<Vec<String>>>,
    globs: Vec<Vec<String>>,
}

/// Where a path leads.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Target {
    Module(ModulePath),
    /// Something that this file declares.
    Item(String),
    Outside(Vec<String>),
    Nowhere,
}

/// Every use in the sources of these packages.
pub fn uses(packages: &[Package]) -> Uses {
    let mut tree = Tree::default();
    for package in packages {
        for root in &package.roots {
            // A program and a library of one package are two crates of one name.
            let name = if root.ends_with("lib.rs") {
                package.crate_name.clone()
            } else {
                format!("{} (program {root})", package.crate_name)
            };
            tree.read(package, root, vec![name]);
        }
    }
    tree.follow()
}

#[derive(Debug, Default)]
struct Tree {
    modules: BTreeMap<ModulePath, Module>,
    mentions: Vec<(ModulePath, String, Mention)>,
}

impl Tree {
    /// Reads a file and those of its modules.
    fn read(&mut self, package: &Package, file: &str, module: ModulePath) {
        let Some(source) = package.sources.get(file) else { return };
        let items = items(source);
        let inner = |within: &[String]| [module.as_slice(), within].concat();
        let here = |file: &str| Module { file: file.to_owned(), ..Module::default() };
        self.modules.entry(module.clone()).or_insert_with(|| here(file));
        for (within, name) in &items.inline {
            let parent = inner(within);
            let child = [parent.as_slice(), std::slice::from_ref(name)].concat();
            self.modules.entry(child).or_insert_with(|| here(file));
            self.module(&parent, file).children.push(name.clone());
        }
        for (within, name) in &items.declared {
            self.module(&inner(within), file).declared.push(name.clone());
        }
        for mention in items.mentions {
            let place = inner(&mention.within);
            match &mention.kind {
                MentionKind::Import(name) => {
                    let imports = &mut self.module(&place, file).imports;
                    imports.entry(name.clone()).or_default().push(mention.path.clone());
                }
                MentionKind::Glob => {
                    self.module(&place, file).globs.push(mention.path.clone());
                }
                MentionKind::Code => {}
            }
            self.mentions.push((place, file.to_owned(), mention));
        }
        for (within, name) in &items.files {
            self.module(&inner(within), file).children.push(name.clone());
            let folder = folder_of(file);
            let inside: String = within.iter().map(|name| format!("{name}/")).collect();
            let stem = format!("{folder}{inside}{name}");
            let child = [inner(within).as_slice(), std::slice::from_ref(name)].concat();
            for candidate in [format!("{stem}.rs"), format!("{stem}/mod.rs")] {
                if package.sources.contains_key(&candidate) {
                    self.read(package, &candidate, child.clone());
                }
            }
        }
    }

    fn module(&mut self, path: &ModulePath, file: &str) -> &mut Module {
        let module = self.modules.entry(path.clone()).or_default();
        if module.file.is_empty() {
            file.clone_into(&mut module.file);
        }
        module
    }

    fn follow(self) -> Uses {
        let mut uses = Uses::default();
        for (place, file, mention) in &self.mentions {
            let written = mention.path.join("::");
            let to = match self.target(place, &mention.path, MOST_STEPS) {
                Target::Module(module) => self.modules.get(&module).map(|found| found.file.clone()),
                Target::Item(file) => Some(file),
                Target::Outside(path) => {
                    let (from, line) = (file.clone(), mention.line);
                    uses.outside.push(Outside { from, path, line });
                    continue;
                }
                Target::Nowhere => None,
            };
            match to {
                Some(to) => {
                    let (from, line) = (file.clone(), mention.line);
                    uses.inside.push(Use { from, to, path: written, line });
                }
                None => uses.lost.push(format!("{file}:{}: `{written}`", mention.line)),
            }
        }
        uses
    }

    /// Where a path leads that stands in a module.
    fn target(&self, place: &ModulePath, path: &[String], steps: usize) -> Target {
        let Some((first, rest)) = path.split_first() else { return Target::Nowhere };
        let Some(steps) = steps.checked_sub(1) else { return Target::Nowhere };
        let start = match first.as_str() {
            "crate" => Target::Module(place[..1].to_vec()),
            "self" => Target::Module(place.clone()),
            "super" => Target::Module(place[..place.len().saturating_sub(1)].to_vec()),
            "Self" => return self.item_of(place),
            // A function may bear the name of the crate from which it was imported.
            name if !rest.is_empty() && self.is_crate(name) && !self.has_child(place, name) => {
                Target::Module(vec![name.to_owned()])
            }
            name => match self.named(place, name, !rest.is_empty(), steps) {
                Some(target) => target,
                None if self.is_crate(name) => Target::Module(vec![name.to_owned()]),
                None => Target::Outside(vec![name.to_owned()]),
            },
        };
        rest.iter().enumerate().fold(start, |target, (index, name)| match target {
            Target::Module(module) if name == "super" => {
                Target::Module(module[..module.len().saturating_sub(1)].to_vec())
            }
            Target::Module(module) => {
                let more = index + 1 < rest.len();
                // A name that is declared nowhere comes from a macro that the module calls.
                self.named(&module, name, more, steps).unwrap_or_else(|| self.item_of(&module))
            }
            Target::Outside(mut path) => {
                path.push(name.clone());
                Target::Outside(path)
            }
            found => found,
        })
    }

    fn is_crate(&self, name: &str) -> bool {
        self.modules.contains_key(std::slice::from_ref(&name.to_owned()))
    }

    fn has_child(&self, place: &ModulePath, name: &str) -> bool {
        self.modules.get(place).is_some_and(|module| module.children.iter().any(|c| c == name))
    }

    fn item_of(&self, module: &ModulePath) -> Target {
        self.modules.get(module).map_or(Target::Nowhere, |module| Target::Item(module.file.clone()))
    }

    /// What a name stands for in a module. Where it stands for a module and for something else, it is
    /// the module that a path leads through and the other thing that it ends at.
    fn named(&self, place: &ModulePath, name: &str, more: bool, steps: usize) -> Option<Target> {
        let module = self.modules.get(place)?;
        let child = self.has_child(place, name).then(|| {
            Target::Module([place.as_slice(), std::slice::from_ref(&name.to_owned())].concat())
        });
        if more && child.is_some() {
            return child;
        }
        if module.declared.iter().any(|declared| declared == name) {
            return Some(Target::Item(module.file.clone()));
        }
        let imports = module.imports.get(name).into_iter().flatten();
        let imported: Vec<Target> = imports
            // `use name;` and `use self::name;` name nothing new.
            .filter(|path| path.len() > 1 || path.first().is_some_and(|first| first != name))
            .map(|path| self.target(place, path, steps))
            .collect();
        let best = |module: bool| {
            imported.iter().find(|target| matches!(target, Target::Module(_)) == module).cloned()
        };
        let imported = best(more).or_else(|| best(!more));
        imported.or(child).or_else(|| {
            let steps = steps.checked_sub(1)?;
            module.globs.iter().find_map(|glob| match self.target(place, glob, steps) {
                Target::Module(from) if from != *place => self.named(&from, name, more, steps),
                _ => None,
            })
        })
    }
}

/// So many names are followed for one path at most: imports of imports end long before.
const MOST_STEPS: usize = 24;

/// The folder in which the modules of a file lie.
fn folder_of(file: &str) -> String {
    let (folder, name) = file.rsplit_once('/').unwrap_or(("", file));
    match name {
        "mod.rs" | "lib.rs" | "main.rs" => format!("{folder}/"),
        _ => format!("{}/", file.trim_end_matches(".rs")),
    }
}
