/** The forms that a run sheet is written in. A new one is a file beside this and a line here. */
import type { Format } from "../format.ts";
import { csv } from "./csv.ts";
import { html } from "./html.ts";
import { json } from "./json.ts";
import { md } from "./md.ts";
import { txt } from "./txt.ts";

export const formats: readonly Format[] = [html, md, csv, json, txt];
