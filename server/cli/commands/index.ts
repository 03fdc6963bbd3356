/** The commands, in the order that `--help` lists them. */
import type { Command } from "../command.ts";
import { check } from "./check.ts";
import { doors } from "./doors.ts";
import { envelope } from "./envelope.ts";
import { explain } from "./explain.ts";
import { fmt } from "./fmt.ts";
import { handover } from "./handover.ts";
import { importTable } from "./import.ts";
import { issue } from "./issue.ts";
import { keys } from "./keys.ts";
import { leave } from "./leave.ts";
import { lsp } from "./lsp.ts";
import { record } from "./record.ts";
import { register } from "./register.ts";
import { replay } from "./replay.ts";
import { reseal } from "./reseal.ts";
import { review } from "./review.ts";
import { seal } from "./seal.ts";
import { sheet } from "./sheet.ts";
import { slips } from "./slips.ts";
import { split } from "./split.ts";
import { unseal } from "./unseal.ts";
import { visit } from "./visit.ts";
import { waiting } from "./waiting.ts";
import { who } from "./who.ts";

export const commands: readonly Command[] = [
  check,
  sheet,
  record,
  review,
  waiting,
  importTable,
  fmt,
  replay,
  explain,
  who,
  doors,
  issue,
  leave,
  register,
  slips,
  visit,
  handover,
  envelope,
  seal,
  unseal,
  reseal,
  split,
  keys,
  lsp,
];
