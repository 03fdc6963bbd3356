/** The papers beside the run sheet. A new one is a file beside this and a line here. */
import { envelope } from "./envelope.ts";
import { handover } from "./handover.ts";
import type { PaperKind } from "./paper.ts";
import { register } from "./register.ts";
import { slips } from "./slips.ts";
import { visit } from "./visit.ts";

export const papers: readonly PaperKind[] = [register, slips, visit, handover, envelope];
