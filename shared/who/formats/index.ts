/** The forms in which the table of who opens what is written. */
import type { WhoTable } from "../table.ts";
import { csv } from "./csv.ts";
import { html } from "./html.ts";
import { json } from "./json.ts";
import { md } from "./md.ts";
import { text } from "./text.ts";

export interface WhoFormat {
  readonly name: string;
  render(table: WhoTable): string;
}

export const whoFormats: readonly WhoFormat[] = [text, csv, json, html, md];
