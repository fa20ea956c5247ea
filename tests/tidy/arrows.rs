//! Which room may import which, and that no rule imports another.

use crate::paths::named_in;
use crate::source::{Source, folder};
use crate::{hold, source};
use std::collections::BTreeMap;
use syn::{Item, UseTree};

/// Rooms in order: each may import only from those before it (and from itself).
pub(crate) const ROOMS: [&str; 14] = [
    "quantity",
    "facts",
    "law",
    "names",
    "shelf",
    "formula",
    "compliance",
    "sheet",
    "rules",
    "batch",
    "paper",
    "desk",
    "words",
    "report",
];

/// What of a source goes against the arrows of the rooms.
fn against_the_arrows(source: &Source) -> Vec<String> {
    let module = source.module();
    let Some(place) = ROOMS.iter().position(|room| module.first().is_some_and(|own| own == room)) else {
        return vec![source.at(1, "stands in no room")];
    };
    let wrong = named_in(source).into_iter().filter(|named| named.own).filter_map(|named| {
        // The root itself, or a name in it, would open every room.
        let room = named.segments.first().and_then(|first| ROOMS.iter().position(|room| first == room));
        let fits = room.is_some_and(|room| room <= place);
        (!fits).then(|| source.at(named.line, &format!("{} must not use crate::{}", ROOMS[place], named.text())))
    });
    wrong.collect()
}

/// The modules of rules, and for each name that `rules/mod.rs` hands on from one of them, from which.
struct Rules {
    modules: Vec<String>,
    handed_on: BTreeMap<String, String>,
}

impl Rules {
    fn of(sources: &[Source]) -> Self {
        let is_rule = |source: &&Source| {
            let checks = |item: &Item| matches!(item, Item::Fn(function) if function.sig.ident == "check");
            source.module().len() == 2 && source.syntax.items.iter().any(checks)
        };
        let modules: Vec<String> = sources.iter().filter(is_rule).map(|source| source.module().remove(1)).collect();
        let mut handed_on = BTreeMap::new();
        for item in sources.iter().filter(|source| source.path == "src/rules/mod.rs").flat_map(|s| &s.syntax.items) {
            if let Item::Use(import) = item
                && let UseTree::Path(path) = &import.tree
                && modules.contains(&path.ident.to_string())
            {
                let mut names = Vec::new();
                names_of(&path.tree, &mut names);
                handed_on.extend(names.into_iter().map(|name| (name, path.ident.to_string())));
            }
        }
        Self { modules, handed_on }
    }

    /// What a rule takes from other rules.
    fn taken_by(&self, source: &Source) -> Vec<String> {
        let module = source.module();
        let Some(own) = module.get(1).filter(|own| self.modules.contains(own)) else { return Vec::new() };
        let named = named_in(source).into_iter().filter(|named| named.own && named.starts_with(&["rules"]));
        let wrong = named.filter_map(|named| {
            let first = named.segments.get(1)?;
            let from = self.handed_on.get(first).unwrap_or(first);
            let other = from != own && self.modules.contains(from);
            other.then(|| source.at(named.line, &format!("the rule {own} must not use the rule {from}")))
        });
        wrong.collect()
    }
}

fn names_of(tree: &UseTree, names: &mut Vec<String>) {
    match tree {
        UseTree::Path(path) => names_of(&path.tree, names),
        UseTree::Name(name) => names.push(name.ident.to_string()),
        UseTree::Rename(name) => names.push(name.rename.to_string()),
        UseTree::Glob(_) => {}
        UseTree::Group(group) => group.items.iter().for_each(|tree| names_of(tree, names)),
    }
}

/// What stands below the views of the page, and what each of it may import of the page.
const BELOW_THE_VIEWS: [(&str, &[&str]); 3] =
    [("dom", &["dom"]), ("browser", &["browser"]), ("desk", &["browser", "desk"])];

/// Views that something below them imports.
fn views_imported(source: &Source, may: &[&str]) -> Vec<String> {
    let named = named_in(source).into_iter().filter(|named| named.own);
    let wrong = named.filter(|named| {
        let inside = named.segments.get(1).is_some_and(|place| may.contains(&place.as_str()));
        !named.starts_with(&["ui"]) || !inside
    });
    wrong.map(|named| source.at(named.line, &format!("stands below crate::{}", named.text()))).collect()
}

#[test]
fn what_stands_below_the_views_imports_none() {
    for (place, may) in BELOW_THE_VIEWS {
        hold(&format!("src/ui/{place}"), |source| views_imported(source, may));
    }
}

#[test]
fn view_that_is_imported_from_below_is_found() {
    for bad in ["use super::lazy::send;", "use crate::ui::{browser, shell};", "fn f() { super::formula::g() }"] {
        let source = Source::new("src/ui/desk/mod.rs", bad);
        assert_eq!(views_imported(&source, &["browser", "desk"]).len(), 1, "{bad}");
    }
    let good = Source::new("src/ui/desk/mod.rs", "use super::browser; use self::lazy::x; use crate::ui::desk::Desk;");
    assert_eq!(views_imported(&good, &["browser", "desk"]), Vec::<String>::new());
}

#[test]
fn rooms_import_only_from_rooms_before_them() {
    for room in ROOMS {
        hold(&format!("src/{room}"), against_the_arrows);
    }
}

#[test]
fn rule_imports_no_other_rule() {
    let sources = folder("src/rules");
    let rules = Rules::of(&sources);
    assert!(rules.modules.len() > 30, "{:?}", rules.modules);
    let wrong: Vec<String> = sources.iter().flat_map(|source| rules.taken_by(source)).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// The rooms of the library stand in `lib.rs` in their order, so a new one cannot be left out here.
#[test]
fn rooms_are_those_of_the_library() {
    let library = source::folder("src").into_iter().find(|source| source.path == "src/lib.rs").unwrap();
    let modules: Vec<String> = library
        .syntax
        .items
        .iter()
        .filter_map(|item| if let Item::Mod(module) = item { Some(module.ident.to_string()) } else { None })
        .collect();
    assert_eq!(modules, ROOMS);
    assert_eq!(library.syntax.items.len(), ROOMS.len(), "the root of the library holds nothing but rooms");
}

#[test]
fn import_against_the_arrows_is_found_however_it_is_written() {
    for bad in [
        "use crate::words;",
        "use crate::{quantity, words::page};",
        "use crate::{self as house};",
        "use crate::*;",
        "use super::super::words::page;",
        "fn f() -> crate::words::Page { todo() }",
        "fn f() { println!(\"{}\", crate::words::page()); }",
        "mod tests { use crate::desk::DocId; }",
    ] {
        let found = against_the_arrows(&Source::new("src/sheet/lye.rs", bad));
        assert_eq!(found.len(), 1, "{bad}: {found:?}");
        assert!(found[0].starts_with("src/sheet/lye.rs:1: sheet must not use crate::"), "{found:?}");
    }
    let good = "use crate::{shelf::Fat, quantity::Mass}; use super::plan; use self::inner::x; use std::rc::Rc;";
    assert_eq!(against_the_arrows(&Source::new("src/sheet/lye.rs", good)), Vec::<String>::new());
}

#[test]
fn rule_that_takes_from_another_is_found() {
    let house = [
        Source::new("src/rules/mod.rs", "mod heat; mod lye; pub use heat::warm; fn check() {}"),
        Source::new("src/rules/heat.rs", "pub fn warm() {} fn check() {}"),
        Source::new("src/rules/context.rs", "use super::heat::warm;"),
        Source::new("src/rules/lye.rs", "use super::context::x; use crate::rules::{Finding, heat}; fn check() {}"),
        Source::new("src/rules/gum.rs", "fn check() { super::warm(); } "),
    ];
    let rules = Rules::of(&house);
    let found: Vec<String> = house.iter().flat_map(|source| rules.taken_by(source)).collect();
    let expected = [
        "src/rules/lye.rs:1: the rule lye must not use the rule heat",
        "src/rules/gum.rs:1: the rule gum must not use the rule heat",
    ];
    assert_eq!(found, expected);
}
