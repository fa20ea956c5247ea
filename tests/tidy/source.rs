//! One source file, parsed.

use std::fs;
use std::path::{Path, PathBuf};
use syn::{Attribute, ImplItemFn, Item, Meta};

/// Where the package lies.
pub(crate) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// A source file and what it says.
pub(crate) struct Source {
    /// From the root of the package, with `/`.
    pub(crate) path: String,
    /// As it lies there.
    pub(crate) text: String,
    /// As it is parsed.
    pub(crate) syntax: syn::File,
}

impl Source {
    /// Parses a text as the file at a path; the tests of the rules make theirs this way, too.
    pub(crate) fn new(path: &str, text: &str) -> Self {
        let syntax = syn::parse_file(text).unwrap_or_else(|error| panic!("{path}: {error}"));
        Self { path: path.to_owned(), text: text.to_owned(), syntax }
    }

    /// The module that the file is, from the root of its crate: `src/rules/lye.rs` is `["rules", "lye"]`.
    pub(crate) fn module(&self) -> Vec<String> {
        let inside = self.path.strip_prefix("src/").unwrap_or(&self.path);
        let name = inside.strip_suffix(".rs").unwrap_or(inside);
        let mut module: Vec<String> = name.split('/').map(str::to_owned).collect();
        if matches!(module.last().map(String::as_str), Some("mod" | "lib" | "main")) {
            module.pop();
        }
        module
    }

    /// True for a file that is a test module as a whole.
    pub(crate) fn is_test(&self) -> bool {
        self.path.ends_with("/tests.rs")
    }

    /// A message about a line of it.
    pub(crate) fn at(&self, line: usize, what: &str) -> String {
        format!("{}:{line}: {what}", self.path)
    }
}

/// All sources below a folder of the package. A folder without any would make every rule hold.
pub(crate) fn folder(path: &str) -> Vec<Source> {
    let files = files(&root().join(path));
    assert!(!files.is_empty(), "no source in {path}");
    files
        .iter()
        .map(|file| {
            let inside = file.strip_prefix(root()).unwrap_or(file).to_string_lossy().replace('\\', "/");
            Source::new(&inside, &fs::read_to_string(file).unwrap())
        })
        .collect()
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(self::files(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// True if something is compiled for tests only: `#[cfg(test)]`, `#[test]` and the like.
fn for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| match &attribute.meta {
        Meta::List(list) => list.path.is_ident("cfg") && list.tokens.to_string() == "test",
        Meta::Path(path) => path.segments.last().is_some_and(|last| last.ident == "test"),
        Meta::NameValue(_) => false,
    })
}

/// True for an item of tests.
pub(crate) fn is_test_item(item: &Item) -> bool {
    let attributes = match item {
        Item::Mod(module) => &module.attrs,
        Item::Fn(function) => &function.attrs,
        Item::Impl(block) => &block.attrs,
        Item::Use(import) => &import.attrs,
        Item::Const(constant) => &constant.attrs,
        Item::Struct(declared) => &declared.attrs,
        Item::Enum(declared) => &declared.attrs,
        _ => return false,
    };
    for_tests(attributes)
}

/// True for a method of tests.
pub(crate) fn is_test_method(method: &ImplItemFn) -> bool {
    for_tests(&method.attrs)
}

#[test]
fn module_of_a_file_is_its_path() {
    let module = |path| Source::new(path, "").module().join("::");
    assert_eq!(module("src/rules/lye.rs"), "rules::lye");
    assert_eq!(module("src/sheet/ph/mod.rs"), "sheet::ph");
    assert_eq!(module("src/lib.rs"), "");
}

#[test]
fn what_is_for_tests_is_told_apart() {
    let source = Source::new("src/x.rs", "#[cfg(test)] mod a {} #[test] fn b() {} #[cfg(split)] mod c {} fn d() {}");
    let found: Vec<bool> = source.syntax.items.iter().map(is_test_item).collect();
    assert_eq!(found, [true, true, false, false]);
}
