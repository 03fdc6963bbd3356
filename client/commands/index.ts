/** Every command of the extension. Adding one: a file here, a line in this list, its title in package.json. */
import type { Command } from "./command.ts";
import { explain } from "./explain.ts";
import { exportSheet } from "./export-sheet.ts";
import { previewSheet } from "./preview-sheet.ts";

export const commands: readonly Command[] = [exportSheet, previewSheet, explain];
