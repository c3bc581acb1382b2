//! dump
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use syn::{Item, UseTree, Visibility, ImplItem};

fn sources() -> PathBuf { Path::new(env!("CARGO_MANIFEST_DIR")).join("../mixcalc/src") }
fn file(module: &[String]) -> (syn::File, Vec<String>) {
    let base = sources().join(module.join("/"));
    let path = if base.join("mod.rs").exists() { base.join("mod.rs") } else if module.is_empty() { sources().join("lib.rs") } else { base.with_extension("rs") };
    (syn::parse_file(&std::fs::read_to_string(&path).unwrap()).unwrap(), module.to_vec())
}
fn leaves(tree: &UseTree, mut path: Vec<String>, out: &mut Vec<Vec<String>>) {
    match tree {
        UseTree::Path(p) => { path.push(p.ident.to_string()); leaves(&p.tree, path, out); }
        UseTree::Name(n) => { path.push(n.ident.to_string()); out.push(path); }
        UseTree::Glob(_) => { path.push("*".into()); out.push(path); }
        UseTree::Group(g) => for t in &g.items { leaves(t, path.clone(), out); },
        UseTree::Rename(_) => panic!(),
    }
}
fn exported(module: &[String], names: &mut BTreeSet<String>) {
    let (f, m) = file(module);
    for item in &f.items {
        let ident = match item {
            Item::Struct(i) if matches!(i.vis, Visibility::Public(_)) => Some(&i.ident),
            Item::Enum(i) if matches!(i.vis, Visibility::Public(_)) => Some(&i.ident),
            Item::Trait(i) if matches!(i.vis, Visibility::Public(_)) => Some(&i.ident),
            Item::Fn(i) if matches!(i.vis, Visibility::Public(_)) => Some(&i.sig.ident),
            Item::Use(u) if matches!(u.vis, Visibility::Public(_)) => {
                let mut out = vec![]; leaves(&u.tree, vec![], &mut out);
                for mut l in out { let last = l.pop().unwrap(); if last == "*" { let mut mm = m.clone(); mm.extend(l); exported(&mm, names); } else { names.insert(last); } }
                None
            }
            _ => None,
        };
        if let Some(i) = ident { names.insert(i.to_string()); }
    }
}
#[test]
fn dump() {
    let mut names = BTreeSet::new();
    exported(&[], &mut names);
    println!("{names:?}");
    let mut files = vec![];
    fn walk(d: &Path, files: &mut Vec<PathBuf>) { for e in std::fs::read_dir(d).unwrap() { let p = e.unwrap().path(); if p.is_dir() { walk(&p, files) } else { files.push(p) } } }
    walk(&sources(), &mut files);
    for p in files {
        let f = syn::parse_file(&std::fs::read_to_string(&p).unwrap()).unwrap();
        for item in &f.items { if let Item::Impl(i) = item { if i.trait_.is_none() { if let syn::Type::Path(t) = &*i.self_ty {
            let ty = t.path.segments.last().unwrap().ident.to_string();
            let ms: Vec<String> = i.items.iter().filter_map(|x| match x { ImplItem::Fn(f) if matches!(f.vis, Visibility::Public(_)) => Some(f.sig.ident.to_string()), ImplItem::Const(f) if matches!(f.vis, Visibility::Public(_)) => Some(f.ident.to_string()), _ => None }).collect();
            if !ms.is_empty() { println!("{ty}: {}", ms.join(" ")); }
        }}}}
    }
}
