//! Claims as JSON, one a line; the schema is `schema/output/claim.schema.json`.

use std::io::Write;

use super::{Export, ExportError};

pub(super) fn claims(export: &Export<'_, '_>, to: &mut dyn Write) -> Result<(), ExportError> {
    export.each(|claims, _| {
        for claim in claims.all(&export.selection) {
            serde_json::to_writer(&mut *to, &claim)?;
            to.write_all(b"\n")?;
        }
        Ok(())
    })
}
