/** The forms that a paper is written in. A new one is a file beside this and a line here. */
import type { PaperFormat } from "./format.ts";
import { html } from "./html.ts";
import { md } from "./md.ts";
import { txt } from "./txt.ts";

export const paperFormats: readonly PaperFormat[] = [html, md, txt];
