/** The commands, in the order that `--help` lists them. */
import type { Command } from "../command.ts";
import { check } from "./check.ts";
import { explain } from "./explain.ts";
import { fmt } from "./fmt.ts";
import { issue } from "./issue.ts";
import { leave } from "./leave.ts";
import { lsp } from "./lsp.ts";
import { replay } from "./replay.ts";
import { sheet } from "./sheet.ts";
import { who } from "./who.ts";

export const commands: readonly Command[] = [check, sheet, fmt, replay, explain, who, issue, leave, lsp];
