// The same content as YAML, read by the `yaml` package and held against an equal schema by Ajv.
import Ajv from "ajv";
import { parse, stringify } from "yaml";
import { contentOfSite } from "../content.ts";
import { schema } from "./schema.mjs";

export function prepare(lines) {
  const text = stringify(contentOfSite(lines));
  const validate = new Ajv.default({ discriminator: true, strict: false }).compile(schema);
  return () => {
    const content = parse(text);
    if (!validate(content)) throw new Error(`the schema refuses ${JSON.stringify(validate.errors?.slice(0, 3))}`);
    return { declarations: content.length };
  };
}
