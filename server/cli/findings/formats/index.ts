/** The formats of `check`. */
import type { FindingFormat } from "../report.ts";
import { json } from "./json.ts";
import { text } from "./text.ts";

export const findingFormats: readonly FindingFormat[] = [text, json];
