//! `scenarios/schema.json` and `scenarios/exercises/schema.json` are made from the types by this test, and must
//! not differ from them.

use practice::ExerciseFile;
use schemars::Schema;

use super::Scenario;

const SCENARIOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios");

fn schemas() -> [(&'static str, Schema); 2] {
    [
        ("schema.json", schemars::schema_for!(Scenario)),
        ("exercises/schema.json", schemars::schema_for!(ExerciseFile)),
    ]
}

/// Run with UPDATE=1 to write it anew, and read what has changed.
#[test]
fn the_schemas_are_in_step_with_the_types() {
    for (file, schema) in schemas() {
        let path = format!("{SCENARIOS}/{file}");
        let schema = serde_json::to_string_pretty(&schema).unwrap() + "\n";
        if std::env::var_os("UPDATE").is_some() {
            std::fs::write(&path, &schema).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(kept == schema, "{file} differs from the types: UPDATE=1 writes it anew");
    }
}

/// Every property of the schema is explained to whoever writes a scenario.
#[test]
fn the_readme_names_every_field_of_a_scenario_and_of_an_exercise() {
    let readme = std::fs::read_to_string(format!("{SCENARIOS}/README.md")).unwrap();
    for (file, schema) in schemas() {
        let schema = serde_json::to_value(schema).unwrap();
        let mut fields: Vec<String> = schema["properties"].as_object().unwrap().keys().cloned().collect();
        for group in [
            "HeartFile",
            "RecordedFile",
            "WhenFile",
            "StandsFile",
            "MeasurableFile",
            "VariesFile",
            "StepsFile",
        ] {
            let inside = schema["$defs"][group]["properties"].as_object();
            fields.extend(inside.into_iter().flat_map(|inside| inside.keys().cloned()));
        }
        assert!(fields.len() > 20, "{file}: {fields:?}");
        for field in fields {
            assert!(readme.contains(&format!("`{field}`")), "scenarios/README.md does not explain {field}");
        }
    }
}
