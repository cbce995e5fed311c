//! The JSON Schema of the results document, made from its types.

use super::Results;

/// The schema, as `latewood schema results` prints it.
pub fn schema() -> serde_json::Value {
    schemars::schema_for!(Results).to_value()
}
