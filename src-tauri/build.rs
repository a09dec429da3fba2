use tauri_build::{AppManifest, Attributes};

fn main() {
    // The built page goes into the program: a new page, a new program.
    println!("cargo:rerun-if-changed=../ui/dist");
    // Addresses that the loader fills in are written down as ranges: a third of a megabyte less.
    if std::env::var("CARGO_CFG_TARGET_OS").is_ok_and(|os| os == "linux") {
        println!("cargo:rustc-link-arg-bins=-Wl,-z,pack-relative-relocs");
    }
    // Named here, each command needs a permission in the capability.
    let commands = AppManifest::new().commands(&["send", "watch", "watch_strip", "painted", "hand_in"]);
    if let Err(fault) = tauri_build::try_build(Attributes::new().app_manifest(commands)) {
        println!("cargo:error={fault:#}");
    }
}
