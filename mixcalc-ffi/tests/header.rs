//! The header is what the sources say, and says what the library exports.

use std::error::Error;
use std::fmt::Write;
use std::{env, fs};

use cbindgen::{Builder, Config};
use mixcalc::ErrorCode;

/// What the sources do not hold: the version, the core's codes, and how to start an error struct.
fn preamble() -> String {
    let mut text = format!(
        "\n/* The version of this header. */\n\
         #define MIXCALC_VERSION \"{}\"\n\
         #define MIXCALC_VERSION_MAJOR {}\n\
         #define MIXCALC_VERSION_MINOR {}\n\
         #define MIXCALC_VERSION_PATCH {}\n\n\
         /* How a mixcalc_error starts. */\n\
         #define MIXCALC_ERROR_INIT {{sizeof(mixcalc_error), 0, 0, {{0}}, {{0}}, {{0}}, {{0}}}}\n\n\
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
    text
}

#[test]
fn header_is_up_to_date() -> Result<(), Box<dyn Error>> {
    let folder = env!("CARGO_MANIFEST_DIR");
    let mut config = Config::from_file(format!("{folder}/cbindgen.toml"))?;
    config.after_includes = Some(preamble());
    let mut made = Vec::new();
    Builder::new().with_config(config).with_crate(folder).generate()?.write(&mut made);
    let made = String::from_utf8(made)?;

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
