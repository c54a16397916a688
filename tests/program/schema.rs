//! The JSON Schemas that hold what `--json` prints.

use jsonschema::Validator;
use serde_json::Value;

/// The schema of this name.
pub fn schema(name: &str) -> Validator {
    let text = match name {
        "answer" => include_str!("../schemas/answer.json"),
        "check" => include_str!("../schemas/check.json"),
        "formulas" => include_str!("../schemas/formulas.json"),
        "logbook" => include_str!("../schemas/logbook.json"),
        "problem" => include_str!("../schemas/problem.json"),
        "problem-worked" => include_str!("../schemas/problem-worked.json"),
        "words" => include_str!("../schemas/words.json"),
        "worked" => include_str!("../schemas/worked.json"),
        other => panic!("there is no schema {other}"),
    };
    let schema: Value = serde_json::from_str(text).expect("the schema is JSON");
    jsonschema::draft202012::meta::validate(&schema).expect("the schema is a schema");
    jsonschema::draft202012::new(&schema).expect("the schema compiles")
}

/// The text as JSON, held against a schema.
pub fn held(schema: &Validator, text: &str) -> Value {
    let value: Value = serde_json::from_str(text).expect(text);
    let faults: Vec<_> = schema
        .iter_errors(&value)
        .map(|fault| format!("{}: {fault}", fault.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{faults:#?}\n{text}");
    value
}

#[test]
fn a_schema_refuses_a_field_that_it_does_not_know_and_a_missing_one() {
    let answer = schema("answer");
    let good = r#"{"format":1,"score":1,"out_of":1,"steps":[{"id":"run","given":"320",
        "read_as":"320 ft","verdict":"right","marks":1,"hint":null}]}"#;
    let value = held(&answer, good);
    let mut more = value.clone();
    more["extra"] = Value::Null;
    assert!(!answer.is_valid(&more));
    let mut fewer = value;
    fewer.as_object_mut().expect("an object").remove("out_of");
    assert!(!answer.is_valid(&fewer));
}
