//! The rooms of the core and what is allowed in them, read from its sources. A rule that is broken names file and line.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// The rooms in the order of the job: each uses the ones above it, never below. `error` and `text` are used by all.
const ROOMS: &[&str] = &[
    "error",
    "text",
    "quantity",
    "finding",
    "working",
    "uncertainty",
    "measure",
    "label",
    "sprayer",
    "conditions",
    "plan",
    "progress",
    "columns",
    "document",
    "sheet",
];

/// What `text` may name of the rooms below it: closed lists to each of whose members it gives words. Nothing that reckons.
const NAMED_BY_TEXT: &[&str] = &[
    "finding::Bound",
    "finding::FindingCode",
    "finding::Severity",
    "label::Basis",
    "label::HardnessClass",
    "label::MixGroup",
    "label::OrderStep",
    "label::Unsuited",
    "measure::MeasureClass",
    "measure::MeasureKind",
    "plan::Action",
    "plan::Profile",
    "quantity::Kind",
    "quantity::System",
    "sprayer::SprayerKind",
];

/// Where a string of four words or more is no sentence: names from a standard, unit words, and what macros write documentation of.
const NO_SENTENCES: &[(&str, &str)] = &[
    ("columns/calculations.rs", "calculations!"),
    ("label/formulation.rs", "const FORMULATIONS"),
    ("label/formulation.rs", "const UNSUITED"),
    ("quantity/kind.rs", "claims!"),
    ("quantity/kind.rs", "kinds!"),
    ("plan/slip.rs", "static CONFUSIONS"),
    ("quantity/show.rs", "fn people_units"),
    ("quantity/unit.rs", "static AMBIGUOUS"),
    ("quantity/unit.rs", "const PERCENT_READINGS"),
];

/// A string literal: where it begins, what it says, and the code before it on its line.
struct Literal {
    line: usize,
    text: String,
    /// The function or macro whose argument it is, such as `text::word(`.
    before: String,
    /// The last line of code before it that begins an item.
    item: String,
}

/// A file of the core: its code with comments and strings blanked out, and the strings.
struct Source {
    path: String,
    code: String,
    literals: Vec<Literal>,
}

impl Source {
    /// `quantity` for `quantity/kind.rs`, `measure` for `measure.rs`.
    fn room(&self) -> &str {
        self.path.split_once('/').map_or(self.path.trim_end_matches(".rs"), |(room, _)| room)
    }

    /// Lines of code, from 1.
    fn lines(&self) -> impl Iterator<Item = (usize, &str)> {
        self.code.lines().enumerate().map(|(i, line)| (i + 1, line))
    }

    fn read(path: String, text: &str) -> Self {
        let mut code = String::new();
        let mut literals: Vec<(usize, String, usize)> = Vec::new();
        let mut rest = text;
        let mut take = |rest: &mut &str, length: usize, keep: bool| {
            let (taken, after) = rest.split_at(length);
            for c in taken.chars() {
                code.push(if keep || c == '\n' { c } else { ' ' });
            }
            *rest = after;
            code.len()
        };
        while let Some(first) = rest.chars().next() {
            let line = 1 + text[..text.len() - rest.len()].matches('\n').count();
            if rest.starts_with("//") {
                let length = rest.find('\n').unwrap_or(rest.len());
                take(&mut rest, length, false);
            } else if rest.starts_with("/*") {
                let length = rest.find("*/").unwrap() + 2;
                take(&mut rest, length, false);
            } else if first == '"' {
                let mut escaped = false;
                let inside = rest[1..].find(|c: char| {
                    let ends = c == '"' && !escaped;
                    escaped = c == '\\' && !escaped;
                    ends
                });
                let inside = &rest[1..=inside.unwrap()];
                let at = take(&mut rest, 0, true);
                literals.push((line, inside.into(), at));
                take(&mut rest, inside.len() + 2, false);
            } else if first == '\'' && rest[1..].starts_with('\\') {
                let length = rest[3..].find('\'').unwrap() + 4;
                take(&mut rest, length, false);
            } else if first == '\'' && rest[1..].chars().nth(1) == Some('\'') {
                let length = rest[1..].chars().next().unwrap().len_utf8() + 2;
                take(&mut rest, length, false);
            } else {
                take(&mut rest, first.len_utf8(), true);
            }
        }
        let literals = literals
            .into_iter()
            .map(|(line, text, at)| {
                let before = code[..at].trim_end();
                let item = before.rsplit('\n').find(|line| {
                    let line = line.trim_start_matches("pub").trim_start();
                    let line = line.trim_start_matches("(crate)").trim_start_matches("(super)");
                    ["const", "static", "fn", "macro_rules!", "kinds!", "claims!", "calculations!"]
                        .iter()
                        .any(|word| line.trim_start().starts_with(word))
                });
                Literal {
                    line,
                    text,
                    before: before.lines().last().unwrap_or_default().trim().into(),
                    item: item.unwrap_or_default().trim().into(),
                }
            })
            .collect();
        Self { path, code, literals }
    }
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../mixcalc/src")
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] })
        .filter(|path| path.extension().is_some_and(|extension| extension == "rs"))
        .collect();
    all.sort();
    all
}

static CORE: LazyLock<Vec<Source>> = LazyLock::new(|| {
    let folder = folder();
    let sources: Vec<Source> = files(&folder)
        .into_iter()
        .map(|path| {
            let name = path.strip_prefix(&folder).unwrap();
            let name = name.to_str().unwrap().replace('\\', "/");
            Source::read(name, &fs::read_to_string(&path).unwrap())
        })
        .collect();
    assert!(sources.len() > 20, "{} files", sources.len());
    sources
});

/// Fails with every line that breaks a rule.
fn none(rule: &str, broken: impl IntoIterator<Item = String>) {
    let broken: Vec<String> = broken.into_iter().collect();
    assert!(broken.is_empty(), "{rule}:\n{}", broken.join("\n"));
}

/// Lines of the core that a test of a line picks, outside of some rooms.
fn lines_with(except: &[&str], is_broken: impl Fn(&str) -> bool) -> Vec<String> {
    CORE.iter()
        .filter(|source| !except.contains(&source.room()))
        .flat_map(|source| {
            let picked = source.lines().filter(|(_, line)| is_broken(line));
            picked.map(|(number, line)| format!("{}:{number}: {}", source.path, line.trim()))
        })
        .collect()
}

/// Whether a line holds a word that is not a part of another.
fn has_word(line: &str, word: &str) -> bool {
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    line.match_indices(word)
        .any(|(at, _)| !line[..at].ends_with(is_part) && !line[at + word.len()..].starts_with(is_part))
}

/// Paths that begin with `crate::`, groups taken apart: `crate::quantity::{Area, close::is_over}` gives two.
fn paths(source: &Source) -> Vec<(usize, String)> {
    fn spread(path: &str, base: &str, out: &mut Vec<String>) {
        let Some((head, group)) = path.split_once('{') else {
            out.push(format!("{base}{}", path.trim()));
            return;
        };
        let base = format!("{base}{}", head.trim());
        let (mut depth, mut from) = (0, 0);
        for (at, c) in group.char_indices() {
            match c {
                '{' => depth += 1,
                '}' if depth > 0 => depth -= 1,
                ',' | '}' if depth == 0 => {
                    let part = &group[from..at];
                    if !part.trim().is_empty() {
                        spread(part, &base, out);
                    }
                    from = at + 1;
                }
                _ => {}
            }
        }
    }
    let mut all = Vec::new();
    for (at, _) in source.code.match_indices("crate::") {
        let line = 1 + source.code[..at].matches('\n').count();
        let path = &source.code[at + "crate::".len()..];
        // A `use` ends with its semicolon; a path within a line with what is no part of a path.
        let is_use = source.code[..at].ends_with("use ");
        let end =
            if is_use { path.find(';') } else { path.find(|c: char| !c.is_alphanumeric() && c != '_' && c != ':') };
        let mut spread_out = Vec::new();
        spread(&path[..end.unwrap_or(path.len())], "", &mut spread_out);
        all.extend(spread_out.into_iter().map(|path| (line, path)));
    }
    all
}

// ------------------------------------------------------------------------------------------------------------------- rooms

#[test]
fn every_file_is_in_a_room() {
    none(
        "files that are in no room",
        CORE.iter()
            .filter(|source| source.path != "lib.rs" && !ROOMS.contains(&source.room()))
            .map(|source| source.path.clone()),
    );
}

#[test]
fn a_room_uses_rooms_above_it_and_never_below() {
    let place = |room: &str| ROOMS.iter().position(|known| *known == room);
    let mut broken = Vec::new();
    let mut seen = 0;
    for source in CORE.iter().filter(|source| source.path != "lib.rs") {
        let own = source.room();
        for (line, path) in paths(source) {
            let used = path.split("::").next().unwrap_or_default();
            seen += 1;
            let allowed = used == own
                || used == "error"
                || used == "text"
                || (own == "text" && NAMED_BY_TEXT.contains(&path.as_str()))
                || matches!((place(used), place(own)), (Some(used), Some(own)) if used < own);
            if !allowed {
                broken.push(format!("{}:{line}: {own} uses {path}", source.path));
            }
        }
    }
    assert!(seen > 100, "{seen} paths seen");
    none("a room uses one that is not above it", broken);
}

#[test]
fn a_room_is_left_by_the_crate_and_not_by_super() {
    none(
        "`super` leads out of a room",
        CORE.iter().flat_map(|source| {
            let top = !source.path.contains('/') || source.path.ends_with("/mod.rs");
            let has_inner = source.lines().any(|(_, line)| line.contains("mod ") && line.ends_with('{'));
            let top = top && !has_inner;
            source
                .lines()
                .filter(move |(_, line)| line.contains("super::super") || (top && line.contains("super::")))
                .map(|(number, line)| format!("{}:{number}: {}", source.path, line.trim()))
        }),
    );
}

#[test]
fn the_crate_is_a_table_of_contents() {
    let lib = fs::read_to_string(folder().join("lib.rs")).unwrap();
    assert!(lib.lines().count() < 120, "{} lines", lib.lines().count());
    let source = CORE.iter().find(|source| source.path == "lib.rs").unwrap();
    let items = ["fn ", "struct ", "enum ", "impl ", "const ", "static "];
    none(
        "lib.rs holds more than a table of contents",
        source
            .lines()
            .filter(|(_, line)| items.iter().any(|item| line.contains(item)))
            .map(|(number, line)| format!("lib.rs:{number}: {line}")),
    );
}

// ------------------------------------------------------------------------------------------------- what is allowed in which

#[test]
fn nothing_is_unsafe() {
    none("unsafe", lines_with(&[], |line| has_word(line, "unsafe")));
    let lib = CORE.iter().find(|source| source.path == "lib.rs").unwrap();
    assert!(lib.code.contains("#![forbid(unsafe_code)]"));
}

#[test]
fn nothing_panics_by_design() {
    let calls =
        ["panic!(", "unwrap()", "expect(", "todo!(", "unimplemented!(", "unreachable!(", "assert!(", "assert_eq!("];
    none("a panic", lines_with(&[], |line| calls.iter().any(|call| line.contains(call))));
}

#[test]
fn nothing_is_indexed() {
    // After what has a value, a bracket takes an element or a slice of it; elsewhere it begins an array, a type or an attribute.
    none(
        "an index, which panics out of range",
        lines_with(&[], |line| {
            line.match_indices('[')
                .any(|(at, _)| line[..at].ends_with(|c: char| c.is_alphanumeric() || "_)]?".contains(c)))
        }),
    );
}

#[test]
fn only_quantity_knows_the_library_of_dimensions() {
    none("uom", lines_with(&["quantity", "lib"], |line| has_word(line, "uom")));
    let lib = CORE.iter().find(|source| source.path == "lib.rs").unwrap();
    assert_eq!(lib.code.matches("uom").count(), 1, "once, for its macros");
}

#[test]
fn only_quantity_knows_factors() {
    none(
        "a factor, or a value in base units",
        lines_with(&["quantity"], |line| {
            has_word(line, "Factor")
                || [".si()", "from_si(", "to_si(", "quantity::unit::"].iter().any(|inside| line.contains(inside))
        }),
    );
}

#[test]
fn a_number_of_the_trade_is_a_constant_with_a_name() {
    // Whole and half are no numbers of the trade.
    let plain = ["0.0", "1.0", "0.5", "2.0"];
    let is_part = |c: char| c.is_ascii_alphanumeric() || c == '_' || c == '.';
    none(
        "a number in the middle of a formula",
        lines_with(&["quantity"], |line| {
            let is_constant = has_word(line, "const");
            let numbers = line.split(|c| !is_part(c)).filter(|word| {
                word.starts_with(|c: char| c.is_ascii_digit()) && (word.contains('.') || word.contains('e'))
            });
            !is_constant && numbers.clone().any(|number| !plain.contains(&number) && !number.contains(".."))
        }),
    );
}

#[test]
fn only_quantity_has_bare_numbers_in_its_public_face() {
    let mut broken = Vec::new();
    for source in CORE.iter().filter(|source| !["quantity", "columns"].contains(&source.room())) {
        for (at, _) in source.code.match_indices("pub ") {
            // Up to the body of a function, or the end of a field.
            let item = &source.code[at..];
            let end = item.find(['{', ';', '}']).unwrap_or(item.len());
            if ["f64", "f32"].iter().any(|bare| has_word(&item[..end], bare)) {
                let line = 1 + source.code[..at].matches('\n').count();
                broken.push(format!("{}:{line}: {}", source.path, &item[..end]));
            }
        }
    }
    none("a bare number in a public signature", broken);
}

#[test]
fn nothing_is_not_a_number() {
    none(
        "NaN as a value",
        lines_with(&["columns"], |line| {
            ["NAN", "NaN", "INFINITY", "NEG_INFINITY"].iter().any(|word| has_word(line, word))
        }),
    );
}

#[test]
fn only_document_knows_formats() {
    let crates = ["serde", "serde_json", "serde_path_to_error", "toml", "schemars", "quick_xml"];
    none("a document format", lines_with(&["document"], |line| crates.iter().any(|name| has_word(line, name))));
}

#[test]
fn only_sheet_knows_markup() {
    let marks = ["<svg", "<html", "<table", "<div", "<td", "<p>", "</"];
    none(
        "markup",
        CORE.iter().filter(|source| source.room() != "sheet").flat_map(|source| {
            let marked = source.literals.iter().filter(|literal| marks.iter().any(|mark| literal.text.contains(mark)));
            marked.map(|literal| format!("{}:{}: {}", source.path, literal.line, literal.text))
        }),
    );
}

#[test]
fn the_core_does_no_input_or_output_and_keeps_no_state() {
    let words = [
        "println!",
        "eprintln!",
        "print!",
        "dbg!",
        "std::fs",
        "std::io",
        "std::net",
        "std::env",
        "std::time",
        "std::process",
        "static mut",
        "thread_local!",
        "OnceLock",
        "LazyLock",
        "OnceCell",
        "Atomic",
    ];
    none("input, output or state", lines_with(&[], |line| words.iter().any(|word| line.contains(word))));
    none("a thread", lines_with(&["columns"], |line| line.contains("std::thread")));
}

#[test]
fn only_columns_and_document_need_the_standard_library() {
    none("the standard library", lines_with(&["columns", "document", "lib"], |line| line.contains("std::")));
}

/// Words of letters. Gaps such as `{given}`, numbers, units and parts of formulas are none.
fn words(text: &str) -> usize {
    text.split_whitespace()
        .map(|word| word.trim_matches(|c: char| c.is_ascii_punctuation() && c != '{' && c != '}'))
        .filter(|word| word.len() > 1 || *word == "a")
        .filter(|word| word.chars().all(|c| c.is_alphabetic() || c == '-' || c == '\''))
        .count()
}

#[test]
fn every_sentence_is_in_the_catalogue() {
    let mut broken = Vec::new();
    let mut phrases = 0;
    for source in CORE.iter().filter(|source| source.room() != "text") {
        for literal in source.literals.iter().filter(|literal| words(&literal.text) >= 4) {
            // Phrases go through the catalogue's one door; documentation that a macro writes is documentation.
            let door = literal.before.ends_with("text::word(") || literal.before.ends_with("word(");
            let documents = literal.before.contains("concat!(") || literal.before.contains("#[doc");
            let reason = literal.before.contains("reason =");
            let excepted = NO_SENTENCES.iter().any(|(file, item)| *file == source.path && literal.item.contains(item));
            if door {
                phrases += 1;
            } else if !(documents || reason || excepted) {
                broken.push(format!("{}:{}: {:?}", source.path, literal.line, literal.text));
            }
        }
    }
    println!("{phrases} phrases through text::word");
    none("a sentence outside of text", broken);
}
