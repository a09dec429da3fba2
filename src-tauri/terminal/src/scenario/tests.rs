//! `scenarios/schema.json` is made from the types by this test, and must not differ from them.

use super::Scenario;

const PATH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/schema.json");

fn schema() -> String {
    let schema = schemars::schema_for!(Scenario);
    serde_json::to_string_pretty(&schema).unwrap() + "\n"
}

/// Run with UPDATE=1 to write it anew, and read what has changed.
#[test]
fn the_schema_is_in_step_with_the_types() {
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(PATH, schema()).unwrap();
    }
    let kept = std::fs::read_to_string(PATH).unwrap_or_default();
    assert!(kept == schema(), "scenarios/schema.json differs from the types: UPDATE=1 writes it anew");
}

/// Every property of the schema is explained to whoever writes a scenario.
#[test]
fn the_readme_names_every_field_of_a_scenario() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/README.md");
    let readme = std::fs::read_to_string(path).unwrap();
    let schema: serde_json::Value = serde_json::from_str(&schema()).unwrap();
    let fields = schema["properties"].as_object().unwrap().keys();
    let heart = schema["$defs"]["HeartFile"]["properties"].as_object().unwrap().keys();
    for field in fields.chain(heart) {
        assert!(readme.contains(&format!("`{field}`")), "scenarios/README.md does not explain {field}");
    }
}
