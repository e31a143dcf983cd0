//! `/api/openapi.json`: every address with its parameters and the schema of its answer, made from the table of routes.

use schemars::SchemaGenerator;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

use super::reply::{Answer, Reply};
use super::route::{COMMON, Method, Parameter, Route, Takes, document};
use super::table;
use super::visit::Visit;
use crate::report::view::ErrorView;

/// The address of the description.
pub(crate) const PATH: &str = "/api/openapi.json";

/// The description as an answer.
pub(crate) fn respond(_: &Visit<'_>) -> Answer<Reply> {
    document(&description(&table::routes()))
}

/// The description of some routes, by OpenAPI 3.1, whose schemas are plain JSON Schema.
fn description(routes: &[Route]) -> Value {
    let settings = SchemaSettings::draft2020_12().with(|settings| {
        settings.definitions_path = "/components/schemas".into();
    });
    let mut generator = SchemaGenerator::new(settings);
    let error = generator.subschema_for::<ErrorView>().to_value();
    let mut paths: Map<String, Value> = Map::new();
    for route in routes {
        let operation = operation(route, &mut generator, &error);
        let method = match route.method {
            Method::Get => "get",
            Method::Post => "post",
        };
        let path = paths.entry(route.path.clone()).or_insert_with(|| json!({}));
        if let Some(path) = path.as_object_mut() {
            path.insert(method.to_owned(), operation);
        }
    }
    let schemas: Map<String, Value> = generator.take_definitions(true);
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Kaoyi",
            "version": env!("CARGO_PKG_VERSION"),
            "description": "What classical books claim about medicinal herbs, side by side. The room reports what books say and \
                            prescribes nothing."
        },
        "paths": paths,
        "components": { "schemas": schemas },
    })
}

fn operation(route: &Route, generator: &mut SchemaGenerator, error: &Value) -> Value {
    let kind = route.kind.split(';').next().unwrap_or(route.kind);
    let schema = route
        .schema
        .map_or_else(|| json!({ "type": "string" }), |schema| schema(generator));
    let refused = json!({ "description": "It could not be answered", "content": { "application/json": { "schema": error } } });
    let in_path = names(&route.path).into_iter().map(|name| {
        json!({ "name": name, "in": "path", "required": true, "schema": { "type": "string" },
                "description": "By any name; another name than the id leads to the address with the id" })
    });
    let in_query = COMMON.iter().chain(route.parameters).map(parameter);
    let parameters: Vec<Value> = in_path.chain(in_query).collect();
    let mut operation = json!({
        "summary": route.summary,
        "parameters": parameters,
        "responses": {
            "200": { "description": route.summary, "content": { kind: { "schema": schema } } },
            "4XX": refused,
        },
    });
    if route.method == Method::Post
        && let Some(operation) = operation.as_object_mut()
    {
        let form = json!({ "type": "object", "required": ["token"], "properties": { "token": { "type": "string" } } });
        let body = json!({ "required": true, "content": { "application/x-www-form-urlencoded": { "schema": form } } });
        operation.insert("requestBody".to_owned(), body);
    }
    operation
}

/// The names in a path.
fn names(path: &str) -> Vec<&str> {
    let parts = path.split('/');
    parts
        .filter_map(|part| part.strip_prefix('{')?.strip_suffix('}'))
        .collect()
}

fn parameter(parameter: &Parameter) -> Value {
    let one = match parameter.takes {
        Takes::Text => json!({ "type": "string" }),
        Takes::Whole => json!({ "type": "integer" }),
        Takes::Decimal => json!({ "type": "number" }),
        Takes::Flag => json!({ "const": "yes" }),
        Takes::OneOf(words) => json!({ "enum": words }),
    };
    let schema = if parameter.many {
        json!({ "type": "array", "items": one })
    } else {
        one
    };
    json!({ "name": parameter.name, "in": "query", "description": parameter.about, "schema": schema })
}
