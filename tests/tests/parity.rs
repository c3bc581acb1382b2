//! One word per concept: docs/vocabulary.toml against the public names of the core, the schemas of the documents, the bindings,
//! the catalogues of codes and the wording of docs and comments.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test that cannot read what it compares has to fail"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use mixcalc::columns::calculations;
use mixcalc::{
    Basis, Bound, Caution, Error, ErrorCode, Finding, FindingCode, Force, Kind, Length, LiquidDose, MeasureKind,
    OrderStep, Plan, Profile, Quantity, Role, Rows, Severity, Sides, Split, SprayerKind, State, System, VolumeRate,
    document, sheet,
};
use serde::Deserialize;
use serde_json::Value;
use syn::{ImplItem, Item, UseTree, Visibility};

// --- The vocabulary ---

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Vocabulary {
    word: BTreeMap<String, Word>,
    error_code: BTreeMap<String, ErrorEntry>,
    finding_code: BTreeMap<String, FindingEntry>,
    caution_code: BTreeMap<String, CautionEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Word {
    definition: String,
    source: String,
    symbol: Option<String>,
    unit: Option<String>,
    #[serde(default)]
    rust: Vec<String>,
    #[serde(default)]
    document: Keys,
    #[serde(default)]
    choices: Vec<String>,
    #[serde(default)]
    python: Vec<String>,
    #[serde(default)]
    c: Vec<String>,
    #[serde(default)]
    not: Vec<String>,
}

/// Keys of the documents; `any` wherever a quantity stands.
#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Keys {
    job: Vec<String>,
    plan: Vec<String>,
    working: Vec<String>,
    any: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ErrorEntry {
    number: u32,
    definition: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FindingEntry {
    severity: String,
    definition: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CautionEntry {
    carried: bool,
    definition: String,
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn text(path: impl AsRef<Path>) -> String {
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.as_ref().display()))
}

fn vocabulary() -> Vocabulary {
    toml::from_str(&text(root().join("docs/vocabulary.toml"))).expect("docs/vocabulary.toml")
}

/// Everything that the words list under one heading, where no entry may stand twice.
fn listed(of: impl Fn(&Word) -> &[String]) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for (word, entry) in &vocabulary().word {
        for name in of(entry) {
            assert!(all.insert(name.clone()), "{name} stands twice, the second time under \"{word}\"");
        }
    }
    all
}

/// Says what one side has and the other lacks.
fn assert_same(what: &str, found: &BTreeSet<String>, words: &BTreeSet<String>) {
    println!("{what}: {} found, {} in the vocabulary", found.len(), words.len());
    let without_word: Vec<_> = found.difference(words).collect();
    let without_thing: Vec<_> = words.difference(found).collect();
    assert!(
        without_word.is_empty() && without_thing.is_empty(),
        "{what}: no word for {without_word:?}; words for what does not exist: {without_thing:?}"
    );
}

fn strings<S: Into<String>>(of: impl IntoIterator<Item = S>) -> BTreeSet<String> {
    of.into_iter().map(Into::into).collect()
}

#[test]
fn every_word_is_defined_in_one_sentence_and_has_a_source() {
    let Vocabulary { word, error_code, finding_code, caution_code } = vocabulary();
    assert!(word.len() > 100, "{} words", word.len());
    let numbers = text(root().join("docs/numbers.md"));
    for (name, entry) in &word {
        assert!(!entry.source.is_empty(), "{name}: no source");
        if let Some(unit) = &entry.unit {
            Quantity::from_parts(1.0, unit).unwrap_or_else(|error| panic!("{name}: {error}"));
        }
        for symbol in entry.symbol.iter().flat_map(|symbol| symbol.split([' ', '/'])) {
            assert!(
                symbol.is_empty() || numbers.split(|c: char| !c.is_alphanumeric()).any(|w| w == symbol),
                "{name}: {symbol} is not in docs/numbers.md"
            );
        }
    }
    let definitions = word.values().map(|entry| &entry.definition);
    let definitions = definitions.chain(error_code.values().map(|code| &code.definition));
    let definitions = definitions.chain(finding_code.values().map(|code| &code.definition));
    for definition in definitions.chain(caution_code.values().map(|code| &code.definition)) {
        let sentence = definition.strip_suffix('.').unwrap_or_default();
        assert!(!sentence.is_empty() && !sentence.contains(". "), "not one sentence: {definition:?}");
    }
}

// --- The public names of the core, read from its sources ---

const SOURCES: &str = "mixcalc/src";

fn files_under(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .flat_map(|entry| match entry.unwrap().path() {
            path if path.is_dir() => files_under(&path, extension),
            path => vec![path],
        })
        .filter(|path| path.extension().is_some_and(|it| it == extension))
        .collect();
    files.sort();
    files
}

fn parsed(path: &Path) -> syn::File {
    syn::parse_file(&text(path)).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The paths of a `use`: `a::{b, c::*}` is `a::b` and `a::c::*`.
fn used(tree: &UseTree, at: &[String], paths: &mut Vec<Vec<String>>) {
    let with = |name: String| [at, &[name]].concat();
    match tree {
        UseTree::Path(path) => used(&path.tree, &with(path.ident.to_string()), paths),
        UseTree::Group(group) => group.items.iter().for_each(|tree| used(tree, at, paths)),
        UseTree::Name(name) => paths.push(with(name.ident.to_string())),
        UseTree::Glob(_) => paths.push(with("*".into())),
        UseTree::Rename(rename) => panic!("{} has two names", rename.ident),
    }
}

/// The name of a list that `text::named!` declares: the word before its braces.
fn declared(item: &Item) -> Option<String> {
    let Item::Macro(item) = item else { return None };
    let named = item.mac.path.segments.last().is_some_and(|last| last.ident == "named");
    let tokens: Vec<String> = item.mac.tokens.clone().into_iter().map(|token| token.to_string()).collect();
    tokens.iter().rev().nth(1).filter(|_| named).cloned()
}

/// The public names that a module gives, its public modules' as `module::name`. What other macros make is not in the sources.
fn names_of(module: &[String]) -> BTreeSet<String> {
    let stem = root().join(SOURCES).join(module.join("/"));
    let candidates = [stem.join("lib.rs"), stem.join("mod.rs"), stem.with_extension("rs")];
    let file = candidates.iter().find(|path| path.is_file()).expect("the file of a module");
    let mut names = BTreeSet::new();
    for item in parsed(file).items {
        names.extend(declared(&item));
        let (visibility, name) = match &item {
            Item::Struct(item) => (&item.vis, item.ident.to_string()),
            Item::Enum(item) => (&item.vis, item.ident.to_string()),
            Item::Trait(item) => (&item.vis, item.ident.to_string()),
            Item::Type(item) => (&item.vis, item.ident.to_string()),
            Item::Const(item) => (&item.vis, item.ident.to_string()),
            Item::Fn(item) => (&item.vis, item.sig.ident.to_string()),
            Item::Mod(item) => (&item.vis, item.ident.to_string()),
            Item::Use(item) => (&item.vis, String::new()),
            _ => continue,
        };
        if !matches!(visibility, Visibility::Public(_)) {
            continue;
        }
        match item {
            Item::Use(item) => {
                let mut paths = Vec::new();
                used(&item.tree, module, &mut paths);
                for path in paths {
                    match path.split_last() {
                        Some((last, module)) if last == "*" => names.extend(names_of(module)),
                        Some((last, _)) => drop(names.insert(last.clone())),
                        None => {}
                    }
                }
            }
            Item::Mod(_) => {
                let inner = names_of(&[module, std::slice::from_ref(&name)].concat());
                names.extend(inner.iter().map(|inner| format!("{name}::{inner}")));
            }
            _ => drop(names.insert(name)),
        }
    }
    names
}

/// The public items of the crate, those that macros make included.
fn items() -> BTreeSet<String> {
    let mut items = names_of(&[]);
    // The room `quantity` is public, and all of it is at the root too.
    let at_root = items.clone();
    items.retain(|name| name.rsplit_once("::").is_none_or(|(_, name)| !at_root.contains(name)));
    items.extend(Kind::all().iter().filter(|kind| **kind != Kind::Derived).map(|kind| format!("{kind:?}")));
    items.extend([name_of::<Kind>(), name_of::<ErrorCode>(), name_of::<FindingCode>()]);
    items
}

fn name_of<T>() -> String {
    std::any::type_name::<T>().rsplit("::").next().unwrap_or_default().to_string()
}

/// The public methods and constants of public types, as `Type::name`.
fn methods() -> BTreeSet<String> {
    let items = items();
    let mut methods = BTreeSet::new();
    for path in files_under(&root().join(SOURCES), "rs") {
        for item in parsed(&path).items {
            let Item::Impl(of) = item else { continue };
            let syn::Type::Path(owner) = &*of.self_ty else { continue };
            let owner = owner.path.segments.last().unwrap().ident.to_string();
            if of.trait_.is_some() || !items.contains(&owner) {
                continue;
            }
            methods.extend(of.items.iter().filter_map(|item| match item {
                ImplItem::Fn(item) if matches!(item.vis, Visibility::Public(_)) => {
                    Some(format!("{owner}::{}", item.sig.ident))
                }
                ImplItem::Const(item) if matches!(item.vis, Visibility::Public(_)) => {
                    Some(format!("{owner}::{}", item.ident))
                }
                _ => None,
            }));
        }
    }
    methods
}

/// Methods of the language rather than of the trade.
const GRAMMAR: [&str; 4] = ["new", "read", "of", "all"];

#[test]
fn every_public_item_has_a_word_and_every_word_its_items() {
    let methods = methods();
    let listed = listed(|word| &word.rust);
    assert_same("items", &items(), &listed.difference(&methods).cloned().collect());
}

#[test]
fn every_public_method_is_a_word_or_listed_under_one() {
    let words = vocabulary().word;
    let listed = listed(|word| &word.rust);
    let methods = methods();
    assert!(methods.len() > 150, "{} methods", methods.len());
    let is_word = |name: &str| {
        let name = name.replace('_', " ");
        words.contains_key(&name) || name.strip_suffix('s').is_some_and(|one| words.contains_key(one))
    };
    let without: Vec<_> = methods
        .iter()
        .filter(|path| {
            let (_, name) = path.rsplit_once("::").unwrap();
            let bare = ["with_", "in_"].iter().find_map(|prefix| name.strip_prefix(prefix));
            let spoken = is_word(name) || bare.is_some_and(is_word) || GRAMMAR.contains(&name);
            !spoken && !listed.contains(*path)
        })
        .collect();
    println!("methods: {} found, {} without a word", methods.len(), without.len());
    assert!(without.is_empty(), "no word for {without:?}");
}

#[test]
fn kinds_have_their_words_and_units() {
    let words = vocabulary().word;
    for kind in Kind::all() {
        let word = words.get(kind.words()).unwrap_or_else(|| panic!("no word \"{}\"", kind.words()));
        if *kind != Kind::Derived {
            assert_eq!(word.unit.as_deref(), Some(kind.unit()), "{}", kind.words());
            assert!(word.rust.contains(&format!("{kind:?}")), "{}", kind.words());
        }
    }
}

#[test]
fn choices_are_those_of_the_types() {
    let names = |word: &str| strings(&vocabulary().word[word].choices);
    let same = |word: &str, types: BTreeSet<String>| assert_same(word, &types, &names(word));
    same("units", strings(System::all().iter().map(|it| it.name())));
    same("basis", strings(Basis::all().iter().map(|it| it.name())));
    same("measure", strings(MeasureKind::all().iter().map(|it| it.name())));
    same("measure class", strings(mixcalc::MeasureClass::all().iter().map(|it| it.name())));
    same("sprayer", strings(SprayerKind::all().iter().map(|it| it.name())));
    same("split", strings(Split::all().iter().map(|it| it.name())));
    same("treated sides", strings(Sides::all().iter().map(|it| it.name())));
    same("treated rows", strings(Rows::all().iter().map(|it| it.name())));
    same("state", strings([State::Dry, State::Liquid, State::Viscous].map(|it| format!("{it:?}").to_lowercase())));
    same("severity", strings([Severity::Stop, Severity::Caution, Severity::Note].map(Severity::name)));
    same("bound", strings([Bound::AtMost, Bound::AtLeast].map(Bound::name)));
    same("force", strings([Force::Law, Force::Label, Force::Standard, Force::Advice].map(Force::name)));
    same("role", strings(Role::all().iter().map(|it| it.name())));
    same("profile", strings(Profile::all().iter().map(|it| it.name())));
    same("label order", strings(OrderStep::all().iter().map(|it| it.name())));
    same("holds", strings(mixcalc::InTank::all().iter().map(|it| it.name())));
    let mut done = BTreeSet::new();
    constants(&schemas()[1], "do", &mut done);
    same("action", done);
    let checked = [
        "units",
        "basis",
        "measure",
        "measure class",
        "sprayer",
        "split",
        "treated sides",
        "treated rows",
        "state",
        "severity",
        "bound",
        "force",
        "role",
        "profile",
        "label order",
        "action",
        "holds",
    ];
    let with_choices = vocabulary().word.into_iter().filter(|(_, word)| !word.choices.is_empty());
    assert_eq!(strings(checked), strings(with_choices.map(|(name, _)| name)));
}

// --- The keys of the documents ---

fn json(text: &str) -> Value {
    serde_json::from_str(text).expect("JSON")
}

/// The schemas of a job and of a plan; that those checked in are the same is tested where documents are.
fn schemas() -> [Value; 2] {
    document::schemas_from_types().map(|schema| json(&schema))
}

/// The keys that a schema allows, as paths; `value` and `unit` of quantities by themselves.
fn keys(schema: &Value, node: &Value, path: &str, found: &mut BTreeSet<String>) {
    if let Some(reference) = node["$ref"].as_str() {
        let target = schema.pointer(reference.trim_start_matches('#')).expect("a definition");
        keys(schema, target, path, found);
    }
    for branches in ["anyOf", "oneOf", "allOf"] {
        let branches = node[branches].as_array();
        branches.into_iter().flatten().for_each(|branch| keys(schema, branch, path, found));
    }
    if node["items"].is_object() {
        keys(schema, &node["items"], &format!("{path}[]"), found);
    }
    let properties = node["properties"].as_object().into_iter().flatten();
    let is_quantity = strings(properties.clone().map(|(key, _)| key)) == strings(["value", "unit"]);
    for (key, node) in properties {
        let path = match path {
            _ if is_quantity => format!("any {key}"),
            "" => key.clone(),
            _ => format!("{path}.{key}"),
        };
        keys(schema, node, &path, found);
        found.insert(path);
    }
}

/// The keys that a document has, as paths; what it says of a quantity left out.
fn keys_of(document: &Value, path: &str, found: &mut BTreeSet<String>) {
    for (key, value) in document.as_object().into_iter().flatten().filter(|_| document["unit"].is_null()) {
        let path = format!("{path}.{key}");
        keys_of(value, &path, found);
        found.insert(path.trim_start_matches('.').into());
    }
    let items = document.as_array().into_iter().flatten();
    items.for_each(|item| keys_of(item, &format!("{path}[]"), found));
}

/// The constant values that a key has anywhere in a schema.
fn constants(node: &Value, key: &str, found: &mut BTreeSet<String>) {
    if let Some(constant) = node["properties"][key]["const"].as_str() {
        found.insert(constant.into());
    }
    match node {
        Value::Object(map) => map.values().for_each(|node| constants(node, key, found)),
        Value::Array(list) => list.iter().for_each(|node| constants(node, key, found)),
        _ => {}
    }
}

#[test]
fn every_key_of_the_documents_has_a_word_and_every_word_its_keys() {
    let [job, mut plan] = schemas().map(|schema| {
        let mut found = BTreeSet::new();
        keys(&schema, &schema, "", &mut found);
        found
    });
    assert!(job.len() > 50 && plan.len() > 100, "{} and {} keys", job.len(), plan.len());
    // A plan embeds its job, whose keys have their words already.
    let embedded = plan.iter().filter_map(|path| path.strip_prefix("job.")).chain(["any value", "any unit"]);
    assert_eq!(strings(embedded), job, "the job in a plan");
    plan.retain(|path| !path.starts_with("job."));

    let any = listed(|word| &word.document.any).into_iter().map(|key| format!("any {key}"));
    let any: BTreeSet<String> = any.collect();
    let with_any = |mut keys: BTreeSet<String>| {
        keys.extend(any.clone());
        keys
    };
    assert_same("keys of a job", &job, &with_any(listed(|word| &word.document.job)));
    assert_same("keys of a plan", &plan, &with_any(listed(|word| &word.document.plan)));

    let mut working = BTreeSet::new();
    keys_of(&json(&document::write_working(&plan_of(JOB))), "", &mut working);
    assert_same("keys of a working", &working, &listed(|word| &word.document.working));
}

// --- The bindings ---

#[test]
fn names_of_python_and_c_have_words() {
    let names = |module: &str, prefix: &str| {
        let module = text(root().join("mixcalc-py/python/mixcalc").join(module));
        let all = module.split_once("__all__ = [").expect("__all__").1.split(']').next().unwrap();
        let names = all.split(',').map(|name| name.trim().trim_matches('"')).filter(|name| !name.is_empty());
        strings(names.map(|name| format!("{prefix}{name}")))
    };
    let mut found = names("__init__.py", "");
    for module in ["applied", "dask", "nozzles", "plans", "readings", "streams", "uncertainty"] {
        found.extend(names(&format!("{module}.py"), &format!("{module}.")));
    }
    assert_same("names in Python", &found, &listed(|word| &word.python));

    let header = text(root().join("mixcalc-ffi/include/mixcalc.h"));
    let names = header.split(|c: char| !c.is_alphanumeric() && c != '_');
    let mut names = strings(names.filter(|name| name.starts_with("mixcalc_") || name.starts_with("MIXCALC_")));
    assert!(names.remove("MIXCALC_H"), "the guard");
    for (code, ErrorEntry { number, .. }) in vocabulary().error_code {
        let name = format!("MIXCALC_STATUS_{}", code.replace('-', "_").to_uppercase());
        assert!(header.contains(&format!("#define {name} {number}\n")), "{name} {number}");
        names.remove(&name);
    }
    // What the list of calculations says, to which the sources of C are held.
    names.retain(|name| !calculations().any(|of| *name == format!("mixcalc_columns_{}", of.name)));
    // What follows by itself: the code of a finding as text, and how a struct starts.
    names.retain(|name| match (name.strip_prefix("MIXCALC_FINDING_"), name.strip_suffix("_INIT")) {
        (Some(code), _) if code != "INIT" => {
            !FindingCode::all().iter().any(|it| it.name() == code.to_lowercase().replace('_', "-"))
        }
        (_, Some(of)) => !header.contains(&format!("}} {};", of.to_lowercase())),
        _ => true,
    });
    assert_same("names in C", &names, &listed(|word| &word.c));
}

// --- The catalogues of codes ---

#[test]
fn catalogues_of_codes_are_those_of_the_vocabulary() {
    let Vocabulary { error_code, finding_code, caution_code, .. } = vocabulary();
    let codes = ErrorCode::all().iter().map(|code| format!("{} {}", code.number(), code.name()));
    let words = error_code.iter().map(|(name, entry)| format!("{} {name}", entry.number));
    assert_same("error codes", &strings(codes), &strings(words));
    let codes = FindingCode::all().iter().map(|code| format!("{} {}", code.severity().name(), code.name()));
    let words = finding_code.iter().map(|(name, entry)| format!("{} {name}", entry.severity));
    assert_same("finding codes", &strings(codes), &strings(words));
    let cautions = |kind: &str| strings(plan_of(&JOB.replace("knapsack", kind)).cautions().map(Caution::code));
    let words =
        |carried| strings(caution_code.iter().filter(|(_, entry)| carried || !entry.carried).map(|(name, _)| name));
    assert_same("caution codes, carried", &cautions("knapsack"), &words(true));
    assert_same("caution codes, driven", &cautions("boom"), &words(false));

    let numbers: BTreeSet<u32> = ErrorCode::all().iter().map(|code| code.number()).collect();
    assert_eq!(numbers.len(), ErrorCode::all().len(), "a number is used twice");
    let names =
        ErrorCode::all().iter().map(|code| code.name()).chain(FindingCode::all().iter().map(|code| code.name()));
    let names: Vec<&str> = names.chain(caution_code.keys().map(String::as_str)).collect();
    assert_eq!(strings(names.clone()).len(), names.len(), "a name is used twice");
}

/// A job that is planned without a stop.
const SETTING: &str =
    r#"{ sprayer = "one", operator = "A", nozzles = "03", pressure = "2 bar", ground = "level", date = "2026-05-01" }"#;
const JOB: &str = r#"
format = "mixcalc-job/1"
area = "1.2 ha"
volume_rate = "200 L/ha"
sprayer = { kind = "knapsack" }
tank = { nominal = "15 L", graduation = "1 L" }
measures = [{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }]
[[products]]
name = "example product A"
dose = "1.5 L/ha"
"#;

/// A treatment of 1 L/ha in April, and one that is planned for May.
const SEASON: &str = "season = { date = 2026-05-31, season_start = 2026-03-01, harvest = 2026-07-01, growth_stage = 31, \
     treatments = [{ date = 2026-04-20, product = \"example product A\", dose = \"1 L/ha\" }] }";

/// The job with one thing changed.
fn changed(from: &str, to: &str) -> String {
    assert_eq!(JOB.matches(from).count(), 1, "{from}");
    JOB.replace(from, to)
}

fn planned(job: &str) -> Result<Plan, Error> {
    mixcalc::plan(&document::read_job(job.as_bytes())?)
}

fn plan_of(job: &str) -> Plan {
    planned(job).unwrap_or_else(|error| panic!("{error}\n{job}"))
}

/// What shows that a gap of a template was left as it is, or filled with nothing.
fn gap_in(sentence: &str) -> Option<String> {
    let named = |(_, after): (usize, &str)| {
        let (gap, _) = after.split_once('}')?;
        let is_name = !gap.is_empty() && gap.chars().all(|c| c.is_ascii_lowercase() || c == '_');
        is_name.then(|| format!("{{{gap}}}"))
    };
    let gap = sentence.match_indices('{').find_map(|(at, _)| named((at, &sentence[at + 1..])));
    let empty = ["  ", " ,", " ;", " :", "()", "( ", " )", "got ;"].iter().find(|trace| sentence.contains(**trace));
    let cut = sentence.is_empty() || sentence.ends_with([' ', ',', ';', ':']) || sentence.ends_with(" got");
    gap.or(empty.map(|trace| format!("{trace:?}"))).or(cut.then(|| "an end".into()))
}

#[test]
fn every_error_can_happen_and_its_sentence_has_no_gap() {
    use ErrorCode as E;
    let scale = r#"{ kind = "scale", capacity = "1 kg", graduation = "1 g" }"#;
    let own_scale = format!("dose = \"1.5 L/ha\"\nmeasure = {scale}");
    let documents = [
        (E::NotPositive, changed("1.2 ha", "0 ha")),
        (E::OutOfRange, changed("capacity = \"1 L\"", "capacity = \"5 mL\"")),
        (E::MissingInput, changed("area = \"1.2 ha\"", "")),
        (E::BothGiven, changed("area =", "carrier_rate = \"200 L/ha\"\narea =")),
        (E::DuplicateName, format!("{JOB}[[products]]\nname = \"example product A\"\ndose = \"1 L/ha\"")),
        (E::MissingDensity, changed("dose = \"1.5 L/ha\"", &own_scale)),
        (E::ProductsFillMix, changed("1.5 L/ha", "200 L/ha")),
        (E::StripCoversJob, changed("area =", "loading = { last_strip = { area = \"1.2 ha\" } }\narea =")),
        (E::TooManyLoads, changed("1.2 ha", "1e12 ha")),
        (E::BelowFirstMark, changed("graduation = \"1 L\"", "graduation = \"14 L\"")),
        (E::UnknownChoice, changed("knapsack", "knapsak")),
        (E::NoMeasure, changed(r#"{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }"#, scale)),
        (E::Uncountable, changed("10 mL", "1e-20 mL")),
        (E::UnsuitedFormulation, format!("{JOB}formulation = \"GR\"")),
        (
            E::OrderInCircle,
            format!("{JOB}role = \"oil\"\nlabel = {{ order = {{ before = [\"example product A\"] }} }}\nmixing = {{}}")
                .replace("\nmixing = {}", "")
                .replace("area =", "mixing = {}\narea ="),
        ),
        (E::UnknownUnit, changed("200 L/ha", "20 US gl/ac")),
        (E::WrongQuantity, changed("1.2 ha", "1.2 L")),
        (E::UnreadableQuantity, changed("1.2 ha", "about 1.2 ha")),
        (E::AmbiguousUnit, changed("1.2 ha", "1.2 a")),
        (E::MissingUnit, changed("\"1.2 ha\"", "1.2")),
        (E::DecimalComma, changed("1.2 ha", "1,2 ha")),
        (E::UnreadableDocument, changed("\"1.2 ha\"", "")),
        (E::UnknownKey, changed("area =", "aera =")),
        (E::DuplicateKey, r#"{"title": "once", "title": "twice"}"#.into()),
        (E::WrongType, changed("area =", "title = 3\narea =")),
        (E::TooLarge, " ".repeat(2 << 20)),
    ];
    let documents =
        documents.map(|(code, job)| (code, planned(&job).err().unwrap_or_else(|| panic!("planned:\n{job}"))));
    let rate = VolumeRate::from_liters_per_hectare(200.0).unwrap();
    let dose = LiquidDose::from_liters_per_hectare(2.0).unwrap();
    let calls = [
        (E::NotFinite, Length::from_meters(f64::NAN).unwrap_err()),
        (E::UnlikeQuantities, Quantity::from(rate).plus(dose.into()).unwrap_err()),
        (E::PlanStopped, plan_of(&changed("1.5 L/ha", "1 mL/ha")).try_cleared().unwrap_err()),
    ];
    let mut seen = BTreeSet::new();
    for (code, error) in documents.into_iter().chain(calls) {
        println!("{} {}: {error}", code.number(), code.name());
        assert_eq!(error.code(), code, "{error}");
        let sentence = error.to_string();
        assert_eq!(gap_in(&sentence), None, "{}: {sentence}", code.name());
        for field in [error.path(), error.given_text(), error.allowed_text()] {
            assert!(sentence.contains(field), "{}: \"{field}\" is not said: {sentence}", code.name());
        }
        seen.insert(code);
    }
    assert_eq!(seen, ErrorCode::all().iter().copied().collect(), "codes made and codes there are");
}

#[test]
fn every_finding_can_happen_and_its_sentence_has_no_gap() {
    use FindingCode as F;
    let with = |more: &str| format!("{JOB}{more}");
    let residual = "kind = \"knapsack\", residual = { dilutable = \"1 L\" }";
    let in_season = |season: &str, label: &str| {
        changed("area =", &format!("{season}\narea =")) + &format!("label = {{ max_dose = \"2 L/ha\", {label} }}")
    };
    let checked_to = |poured: &str, read: &str| {
        let check = format!(
            "scale_check = {{ points = [{{ poured = \"{poured}\", read = \"{read}\" }}], tolerance = \"1 %\" }}"
        );
        changed("graduation = \"1 L\"", &format!("graduation = \"1 L\", {check}"))
    };
    let strip = |area: &str| format!("loading = {{ last_strip = {{ area = \"{area}\" }} }}\narea =");
    let with_held = |label: &str| {
        let held = "start = { holds = \"this-mix\", volume = \"5 L\", products = [{ name = \"example product A\", amount = \"1 L\" }] }\narea =";
        changed("area =", held) + label
    };
    let jobs = [
        (F::OverMaximumDose, with("label = { max_dose = \"1 L/ha\" }")),
        (F::VolumeRateBelowMinimum, with("label = { min_volume_rate = \"300 L/ha\" }")),
        (F::VolumeRateAboveMaximum, with("label = { max_volume_rate = \"100 L/ha\" }")),
        (F::TooManyTreatments, in_season(SEASON, "max_treatments = { value = 1 }")),
        (F::IntervalTooShort, in_season(SEASON, "min_interval = { value = \"60 d\" }")),
        (F::CapPassed, in_season(SEASON, "caps = [{ value = \"2 L/ha\", over = { years = 1 } }]")),
        (F::WaitingPeriodNotKept, in_season(SEASON, "waiting_period = { value = \"60 d\" }")),
        (F::GrowthStageOutside, in_season(SEASON, "max_growth_stage = { value = 30 }")),
        (F::AmountBelowGraduation, changed("1.5 L/ha", "0.01 L/ha")),
        (F::RinsesExceedCarrier, changed("capacity = \"1 L\"", "capacity = \"30 L\"")),
        (F::HeadspaceBelowFivePercent, changed("graduation = \"1 L\"", "headspace = \"1 %\"")),
        (F::PartLoadBelowWorkingVolume, changed("graduation = \"1 L\"", "least_working_volume = \"13 L\"")),
        (F::StripAboveTenPercent, changed("area =", &strip("0.2 ha"))),
        (F::ResidualExceedsStrip, changed("area =", &strip("0.001 ha")).replace("kind = \"knapsack\"", residual)),
        (F::CoarseGraduation, JOB.into()),
        (F::PacksOffDose, with("measure = { kind = \"pack\", graduation = \"30 mL\" }")),
        (F::ManyFillings, changed("capacity = \"1 L\"", "capacity = \"30 mL\"")),
        (
            F::CarriedMassAboveAdvice,
            changed("area =", "mix_density = \"1 kg/L\"\narea =")
                .replace("kind = \"knapsack\"", "kind = \"knapsack\", empty_mass = \"20 kg\""),
        ),
        (F::StockShort, with("stock = \"1 L\"")),
        (F::ResidualLeavesGroundShort, changed("kind = \"knapsack\"", residual)),
        (
            F::DisplacementNotCounted,
            changed("1.5 L/ha", "1.5 kg/ha").replace(
                r#"kind = "vessel", capacity = "1 L", graduation = "10 mL""#,
                r#"kind = "scale", capacity = "1 kg", graduation = "1 g""#,
            ),
        ),
        (
            F::LabelTankDisagrees,
            changed("1.5 L/ha", "50 mL/10 L").to_owned()
                + "label = { tank = { mix = \"10 L\", area = \"1000 m2\" }, max_dose = \"2 L/ha\" }",
        ),
        (F::DoseOnPartOfGround, changed("area =", "crop = { row_spacing = \"2 m\", band_width = \"1 m\" }\narea =")),
        (
            F::OverlapDoublesDose,
            with("").replacen("area = \"1.2 ha\"", "ground = { area = \"1.2 ha\", overlap = { share = \"5 %\" } }", 1),
        ),
        (
            F::SubstanceNotCounted,
            with("active_substances = [{ name = \"example substance\", content = \"40 % w/w\" }]"),
        ),
        (F::CapNearlyUsed, in_season(SEASON, "caps = [{ value = \"2.6 L/ha\", over = { years = 1 } }]")),
        (F::LimitNotChecked, in_season("", "max_treatments = { value = 1 }")),
        (
            F::CheckBeforeSpraying,
            in_season(
                SEASON,
                "re_entry = { value = \"24 h\" }, max_wind = { value = \"15 km/h\", height = \"2 m\" }, max_delta_t = { value = \"8 K\" }, buffers = [{ from = \"water\", value = \"5 m\" }]",
            ),
        ),
        (
            F::MixingOrderDiffers,
            with(
                "formulation = \"SL\"\n[[products]]\nname = \"example product B\"\ndose = \"1.5 L/ha\"\nformulation = \"EC\"",
            )
            .replace("area =", "mixing = { profile = \"utah\" }\narea ="),
        ),
        (F::LeastDoseHolds, changed("1.5 L/ha", "0.5 % v/v\"\nat_least = \"1.5 L/ha")),
        (F::DoseTakenAsMaximum, JOB.into()),
        (F::BelowMinimumDose, with("label = { min_dose = \"2 L/ha\" }")),
        (
            F::CalibrationDiffers,
            changed(
                "volume_rate = \"200 L/ha\"",
                &format!("calibration = {{ method = \"refill\", refill = \"200 L\", area = \"1 ha\", use_in = {SETTING} }}"),
            ),
        ),
        (
            F::CalibrationTooOld,
            changed(
                "volume_rate = \"200 L/ha\"",
                &format!(
                    "calibration = {{ method = \"refill\", refill = \"200 L\", area = \"1 ha\", setting = {SETTING}, use_in = {}, oldest = \"30 d\" }}",
                    SETTING.replace("05-01", "07-01")
                ),
            ),
        ),
        (
            F::DoseMayPassMaximum,
            changed(
                "volume_rate = \"200 L/ha\"",
                "calibration = { method = \"refill\", refill = { measured = \"200 L\", tolerance = \"20 %\" }, area = \"1 ha\", risk = 0.01 }",
            ),
        ),
        (
            F::CalibrationDoubtMissing,
            changed(
                "volume_rate = \"200 L/ha\"",
                "calibration = { method = \"refill\", refill = \"200 L\", area = \"1 ha\" }",
            ),
        ),
        (F::UnitSlip, with("label = { min_dose = \"3 L/ha\", max_dose = \"4 L/ha\" }")),
        (
            F::AmountHardToMeasure,
            changed("graduation = \"10 mL\"", "graduation = \"10 mL\", tolerance = \"5 mL\""),
        ),
        (
            F::ToleranceUnverified,
            changed("graduation = \"10 mL\"", "graduation = \"10 mL\", class = \"unchecked-jug\""),
        ),
        (F::HardWater, changed("area =", "water = { calcium = \"100 mg/L\" }\narea =")),
        (F::AmmoniumSulfateShort, with("label = { ammonium_sulfate = \"10 g/L\" }")),
        (
            F::TankHoldsAnotherMix,
            changed("area =", "start = { holds = \"another-mix\", volume = \"5 L\" }\narea ="),
        ),
        (F::TankHoldsTooMuch, with_held("label = { max_dose = \"1.5 L/ha\" }")),
        (F::TankHoldsMore, with_held("label = { max_dose = \"150 L/ha\" }")),
        (F::TankScaleOff, checked_to("16 L", "15 L")),
        (F::ScaleCheckShort, checked_to("8 L", "8 L")),
    ];
    let (mut seen, mut sheets) = (Vec::new(), 0);
    for (code, job) in jobs {
        let plan = plan_of(&job);
        let finding = plan.findings().iter().find(|finding| finding.code() == code);
        assert!(finding.is_some(), "{} did not happen:\n{job}", code.name());
        for sentence in plan.findings().iter().map(Finding::message) {
            println!("{sentence}");
            assert_eq!(gap_in(&sentence), None, "{}: {sentence}", code.name());
        }
        seen.push(code);
        let sheet = plan.cleared().map(|cleared| sheet::text(&cleared));
        sheets += usize::from(sheet.is_some());
        for line in sheet.iter().chain([&sheet::findings(&plan)]).flat_map(|page| page.lines()) {
            assert!(!line.contains(['{', '}']), "{}: {line}", code.name());
        }
    }
    assert_eq!(seen, FindingCode::all(), "codes made and codes there are");
    assert!(sheets > 5, "{sheets} sheets");
}

// --- Synonyms ---

/// Synonyms that stand where they have to: file, phrase, reason.
const ALLOWED: &[(&str, &str, &str)] = &[
    ("mixcalc-py/python/mixcalc/_columns.py", "flush", "Python's word for writing at once"),
    ("mixcalc-py/python/mixcalc/streams.py", "batch", "Arrow's word for a part of a stream"),
    ("mixcalc-py/python/mixcalc/streams.py", "batches", "Arrow's word for parts of a stream"),
    ("mixcalc/src/text.rs", "pesticide", "title of the guidelines that are quoted"),
    ("docs/documents.md", "tankful", "labels state a dose per tankful of theirs"),
];

/// What people read of a file: comments of Rust, everything of the catalogue of texts and of documents; on one line.
fn prose(path: &Path) -> String {
    let text = text(path);
    let is_code = path.extension().is_some_and(|it| it == "rs") && !path.ends_with("text.rs");
    let lines = text.lines().map(str::trim).filter(|line| !is_code || line.starts_with("//"));
    let lines = lines.map(|line| line.trim_start_matches(['/', '!', '*', '#', '>', ' ']));
    format!(" {} ", lines.collect::<Vec<_>>().join(" ").to_lowercase())
}

/// Where a phrase stands as words of its own.
fn stands_in(prose: &str, phrase: &str) -> Option<String> {
    let phrase = phrase.to_lowercase();
    let is_edge = |c: Option<char>| !c.is_some_and(char::is_alphanumeric);
    prose.match_indices(&phrase).find_map(|(at, _)| {
        let (before, after) = (&prose[..at], &prose[at + phrase.len()..]);
        (is_edge(before.chars().next_back()) && is_edge(after.chars().next())).then(|| {
            let start: String = before.chars().rev().take(30).collect::<Vec<_>>().into_iter().rev().collect();
            format!("…{start}{phrase}{}…", after.chars().take(30).collect::<String>())
        })
    })
}

#[test]
fn forbidden_synonyms_are_not_used() {
    let root = root();
    let mut files = files_under(&root.join(SOURCES), "rs");
    files.extend(files_under(&root.join("docs"), "md"));
    files.extend(files_under(&root.join("mixcalc/schema"), "json"));
    files.extend(files_under(&root.join("mixcalc-py/python"), "py"));
    files.extend(files_under(&root.join("mixcalc-ffi/include"), "h"));
    files.extend(["README.md", "DEVELOPERS.md", "CHANGELOG.md"].map(|file| root.join(file)));
    let words = vocabulary().word;
    let phrases = listed(|word| &word.not);
    assert!(files.len() > 30 && phrases.len() > 80, "{} files, {} phrases", files.len(), phrases.len());
    let both: Vec<_> = phrases.iter().filter(|phrase| words.contains_key(*phrase)).collect();
    assert!(both.is_empty(), "words and forbidden at once: {both:?}");

    let (mut found, mut allowed) = (Vec::new(), BTreeSet::new());
    for path in &files {
        let (prose, file) = (prose(path), path.strip_prefix(&root).unwrap().display().to_string());
        for phrase in &phrases {
            let Some(place) = stands_in(&prose, phrase) else { continue };
            match ALLOWED.iter().find(|(in_file, word, _)| *in_file == file && word == phrase) {
                Some((file, phrase, _)) => drop(allowed.insert((file, phrase))),
                None => found.push(format!("{file}: \"{phrase}\" in {place}")),
            }
        }
    }
    println!("{} phrases looked for in {} files", phrases.len(), files.len());
    assert!(found.is_empty(), "{}", found.join("\n"));
    let unused: Vec<_> = ALLOWED.iter().filter(|(file, phrase, _)| !allowed.contains(&(file, phrase))).collect();
    assert!(unused.is_empty(), "allowed and not there: {unused:?}");
}
