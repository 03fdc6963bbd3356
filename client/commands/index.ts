/** Every command of the extension. Adding one: a file here, a line in this list, its title in package.json. */
import type { Command } from "./command.ts";
import { drawCode } from "./draw-code.ts";
import { explain } from "./explain.ts";
import { exportSheet } from "./export-sheet.ts";
import { listWaiting } from "./list-waiting.ts";
import { lock } from "./lock.ts";
import { newSite } from "./new-site.ts";
import { previewSheet } from "./preview-sheet.ts";
import { recordAsTyped } from "./record-as-typed.ts";
import { takeOut } from "./take-out.ts";
import { unlock } from "./unlock.ts";
import { whoOpensWhat } from "./who-opens-what.ts";
import { writeEnvelope } from "./write-envelope.ts";
import { writeHandover } from "./write-handover.ts";
import { writeRegister } from "./write-register.ts";
import { writeSlips } from "./write-slips.ts";
import { writeVisit } from "./write-visit.ts";

export const commands: readonly Command[] = [
  exportSheet,
  previewSheet,
  recordAsTyped,
  whoOpensWhat,
  listWaiting,
  drawCode,
  takeOut,
  newSite,
  writeRegister,
  writeSlips,
  writeVisit,
  writeHandover,
  writeEnvelope,
  unlock,
  lock,
  explain,
];
