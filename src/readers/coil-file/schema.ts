import { type JsonSchema, jsonSchemaOf } from "../../catalogue/json-schema.ts";
import { coilKey, currentFormat } from "../../description/coil-keys.ts";

/** The JSON Schema of the coil file: what `docs/coil.schema.json` holds. */
export function coilJsonSchema(): JsonSchema {
  return jsonSchemaOf(coilKey, { title: `Coil file, format ${currentFormat}` });
}
