/** What is tried at random: one line a part. */
import { edits } from "./edits/edits.ts";
import { files } from "./files/files.ts";
import { kills } from "./files/kills.ts";
import type { Part } from "./part.ts";
import { keys } from "./plans/keys.ts";
import { plans } from "./plans/plans.ts";
import { text } from "./text/text.ts";

export const parts: readonly Part[] = [text, edits, plans, keys, files, kills];
