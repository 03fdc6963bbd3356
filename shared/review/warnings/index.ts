/** The warnings about a change, in the order in which they are given. */
import { codeInherited } from "./code-inherited.ts";
import { codeReissued } from "./code-reissued.ts";
import type { Warning } from "./warning.ts";

export const warnings: readonly Warning[] = [codeInherited, codeReissued];
