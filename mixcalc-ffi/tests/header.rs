//! The header is what the sources say, and says what the library exports.

use std::error::Error;
use std::fmt::Write;
use std::{env, fs};

use cbindgen::{Builder, Config};
use mixcalc::{ErrorCode, FindingCode};

/// What the sources do not hold: the version, and the core's codes.
fn preamble() -> String {
    let mut text = format!(
        "\n/* The version of this header. */\n\
         #define MIXCALC_VERSION \"{}\"\n\
         #define MIXCALC_VERSION_MAJOR {}\n\
         #define MIXCALC_VERSION_MINOR {}\n\
         #define MIXCALC_VERSION_PATCH {}\n\n\
         /* What can be wrong with the input; the name in lower case, with hyphens, is the one in documents. */",
        env!("CARGO_PKG_VERSION"),
        env!("CARGO_PKG_VERSION_MAJOR"),
        env!("CARGO_PKG_VERSION_MINOR"),
        env!("CARGO_PKG_VERSION_PATCH"),
    );
    for code in ErrorCode::all() {
        let name = code.name().to_uppercase().replace('-', "_");
        let _ = write!(text, "\n#define MIXCALC_STATUS_{name} {}", code.number());
    }
    text += "\n\n/* The codes of findings. */";
    for code in FindingCode::all() {
        let name = code.name().to_uppercase().replace('-', "_");
        let _ = write!(text, "\n#define MIXCALC_FINDING_{name} \"{}\"", code.name());
    }
    text
}

/// The header with, after each struct that has a size first, the macro that it starts as: its size, and nothing else.
fn with_starts(header: &str) -> String {
    let (mut text, mut values) = (String::new(), Vec::new());
    for line in header.lines() {
        let _ = writeln!(text, "{line}");
        if line.starts_with("typedef struct") {
            values.clear();
        } else if let Some(name) = line.strip_prefix("} ").and_then(|rest| rest.strip_suffix(';')) {
            if let ["size", rest @ ..] = values.as_slice() {
                let starts = format!("{}_INIT", name.to_uppercase());
                let _ = writeln!(
                    text,
                    "\n/** How a {name} starts. */\n#define {starts} {{sizeof({name}), {}}}",
                    rest.join(", ")
                );
            }
        } else if line.ends_with(';') && line.starts_with("  ") {
            values.push(match line.trim() {
                "size_t struct_size;" => "size",
                field if field.ends_with("];") => "{0}",
                field if field.starts_with("struct mixcalc_amount ") => "{0, 0, 0, 0}",
                field if field.contains('*') => "NULL",
                _ => "0",
            });
        }
    }
    text
}

#[test]
fn header_is_up_to_date() -> Result<(), Box<dyn Error>> {
    let folder = env!("CARGO_MANIFEST_DIR");
    let mut config = Config::from_file(format!("{folder}/cbindgen.toml"))?;
    config.after_includes = Some(preamble());
    let mut made = Vec::new();
    Builder::new().with_config(config).with_crate(folder).generate()?.write(&mut made);
    let made = with_starts(&String::from_utf8(made)?);

    let path = format!("{folder}/include/mixcalc.h");
    if env::var_os("MIXCALC_WRITE_HEADER").is_some() {
        fs::write(&path, &made)?;
    }
    assert!(
        fs::read_to_string(&path)? == made,
        "include/mixcalc.h is not what the sources say: run `make header` and look at the difference"
    );
    Ok(())
}
