/** The forms in which doors and supplies are listed. */
import type { DoorsList } from "../list.ts";
import { csv } from "./csv.ts";
import { json } from "./json.ts";
import { md } from "./md.ts";
import { text } from "./text.ts";

export interface DoorsFormat {
  readonly name: string;
  render(list: DoorsList): string;
}

export const doorsFormats: readonly DoorsFormat[] = [text, csv, json, md];
