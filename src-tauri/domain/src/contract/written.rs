//! Writes the page's types from the domain's.

use std::fmt::Write as _;

use ts_rs::{Config, TS};

use super::*;

fn declare<T: TS>(into: &mut String) {
    let config = Config::default().with_large_int("number");
    let docs = T::docs().unwrap_or_default();
    let _ = writeln!(into, "{docs}export {}\n", T::decl(&config));
}

/// The page's types, all in one file, written by this test; the check fails when the file changes.
#[test]
fn contract_for_the_page() {
    let mut text =
        String::from("// Made from src-tauri/domain/src/contract.rs by its test. Do not edit.\n\n");
    let _ = writeln!(
        text,
        "/** Bytes of a file that are handed in at most: what is cut here is refused in words. */\n\
         export const FILE_MOST = {FILE_MOST};\n"
    );
    declare::<View<String>>(&mut text);
    declare::<Progress<String>>(&mut text);
    declare::<Look>(&mut text);
    declare::<Light>(&mut text);
    declare::<Hand>(&mut text);
    declare::<Head<String>>(&mut text);
    declare::<Clock<String>>(&mut text);
    declare::<Rail>(&mut text);
    declare::<Shape<String>>(&mut text);
    declare::<Turn<String>>(&mut text);
    declare::<Ask<String>>(&mut text);
    declare::<Watch<String>>(&mut text);
    declare::<Small<String>>(&mut text);
    declare::<Scale<String>>(&mut text);
    declare::<Tick<String>>(&mut text);
    declare::<TickRole>(&mut text);
    declare::<List<String>>(&mut text);
    declare::<Item<String>>(&mut text);
    declare::<Form<String>>(&mut text);
    declare::<Field<String>>(&mut text);
    declare::<FieldKind>(&mut text);
    declare::<Choice<String>>(&mut text);
    declare::<Outcome<String>>(&mut text);
    declare::<Row<String>>(&mut text);
    declare::<Code<String>>(&mut text);
    declare::<Trend<String>>(&mut text);
    declare::<Chart<String>>(&mut text);
    declare::<Beds<String>>(&mut text);
    declare::<BedRow<String>>(&mut text);
    declare::<Act<String>>(&mut text);
    declare::<Tone>(&mut text);
    declare::<Safety<String>>(&mut text);
    declare::<Strip<String>>(&mut text);
    declare::<Practice<String>>(&mut text);
    declare::<Monitor<String>>(&mut text);
    declare::<Knob<String>>(&mut text);
    declare::<Keys<String>>(&mut text);
    declare::<Sent>(&mut text);
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../ui/src/contract.ts");
    std::fs::write(path, text.trim_end().to_owned() + "\n").unwrap();
}
