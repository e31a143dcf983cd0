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
    let refused = if route.path.starts_with("/api/") {
        json!({ "application/json": { "schema": error } })
    } else {
        // What is refused before the language is known is told in plain words.
        json!({ "text/html": { "schema": { "type": "string" } }, "text/plain": { "schema": { "type": "string" } } })
    };
    let in_path = names(&route.path).into_iter().map(|name| {
        json!({ "name": name, "in": "path", "required": true, "schema": { "type": "string", "pattern": TEXT },
                "description": "By any name; another name than the id leads to the address with the id" })
    });
    let in_query = COMMON.iter().chain(route.parameters).map(parameter);
    let parameters: Vec<Value> = in_path.chain(in_query).collect();
    let mut operation = json!({
        "summary": route.summary,
        "parameters": parameters,
        "responses": {
            "200": { "description": route.summary, "content": { kind: { "schema": schema } } },
            "303": { "description": "It is told at another address" },
            "400": { "description": "The request does not have the form told here", "content": refused },
            "404": { "description": "There is no such page, herb, work or note", "content": refused },
            "422": { "description": "It has the form, but cannot be answered; the answer says why", "content": refused },
            "4XX": { "description": "Another host, another site, another method, too long, too much", "content": refused },
            "503": { "description": "Too many requests at once", "content": refused },
        },
    });
    if route.method == Method::Post
        && let Some(operation) = operation.as_object_mut()
    {
        operation.insert("requestBody".to_owned(), body(route));
    }
    operation
}

/// The form that an address takes.
fn body(route: &Route) -> Value {
    let mut properties = Map::new();
    let token = json!({ "type": "string", "pattern": TEXT, "description": "The token of this run, as the pages with forms hold it" });
    properties.insert("token".to_owned(), token);
    for field in route.fields {
        let mut schema = shape(field.takes);
        if let Some(schema) = schema.as_object_mut() {
            schema.insert("description".to_owned(), field.about.into());
        }
        properties.insert(field.name.to_owned(), schema);
    }
    let files = route.fields.iter().any(|field| field.takes == Takes::File);
    let kind = if files {
        "multipart/form-data"
    } else {
        "application/x-www-form-urlencoded"
    };
    let form = json!({
        "type": "object", "required": ["token"], "properties": properties,
        "propertyNames": { "pattern": TEXT }, "additionalProperties": shape(Takes::Text),
    });
    json!({ "required": true, "content": { kind: { "schema": form } } })
}

/// The names in a path.
fn names(path: &str) -> Vec<&str> {
    let parts = path.split('/');
    parts
        .filter_map(|part| part.strip_prefix('{')?.strip_suffix('}'))
        .collect()
}

/// Text without control characters but tabs and ends of lines.
const TEXT: &str = "^[^\\u0000-\\u0008\\u000B\\u000C\\u000E-\\u001F\\u007F-\\u009F]*$";

/// What a value is. The empty one, which a form sends for a field that was not filled in, stands for nothing.
fn shape(takes: Takes) -> Value {
    match takes {
        Takes::Text => json!({ "type": "string", "pattern": TEXT }),
        Takes::Whole => json!({ "type": "integer", "minimum": i32::MIN, "maximum": i32::MAX }),
        Takes::Decimal => json!({ "type": "number" }),
        Takes::Flag => json!({ "enum": ["yes", ""] }),
        Takes::OneOf(words) => {
            let words: Vec<&str> = words.iter().copied().chain([""]).collect();
            json!({ "enum": words })
        }
        Takes::File => json!({ "type": "string", "format": "binary" }),
    }
}

fn parameter(parameter: &Parameter) -> Value {
    let one = shape(parameter.takes);
    let schema = if parameter.many {
        json!({ "type": "array", "items": one })
    } else {
        one
    };
    json!({ "name": parameter.name, "in": "query", "description": parameter.about, "schema": schema, "allowEmptyValue": true })
}
