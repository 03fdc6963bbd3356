/** What is tried at random: one line a part. */
import type { Part } from "./part.ts";
import { text } from "./text/text.ts";

export const parts: readonly Part[] = [text];
