//! Gives the shared library its name for programs that are linked to it: `libmixcalc.so.` and MIXCALC_ABI_VERSION.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var("CARGO_CFG_TARGET_OS").is_ok_and(|os| os == "linux") {
        println!("cargo::rustc-cdylib-link-arg=-Wl,-soname,libmixcalc.so.0");
    }
}
