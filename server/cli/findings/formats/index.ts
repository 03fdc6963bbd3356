/** The formats of `check`. */
import type { FindingFormat } from "../report.ts";
import { github } from "./github.ts";
import { json } from "./json.ts";
import { junit } from "./junit.ts";
import { sarif } from "./sarif.ts";
import { text } from "./text.ts";

export const findingFormats: readonly FindingFormat[] = [text, json, sarif, github, junit];
