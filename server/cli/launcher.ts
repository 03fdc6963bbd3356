/** Starts the command line. What was compiled is kept in the user's own cache folder, so that the next start is quicker. */
import { enableCompileCache } from "node:module";
import { homedir } from "node:os";
import { join } from "node:path";

// Never in the common folder for temporary files: whoever may write a cache may decide what is run.
const caches = process.platform === "win32" ? process.env.LOCALAPPDATA : process.env.XDG_CACHE_HOME || join(homedir(), ".cache");
// Each command keeps its own: what the first run compiled is all that is kept, and `--version` compiles next to nothing.
const command = /^[a-z]+$/.exec(process.argv[2] ?? "")?.[0] ?? "other";
if (caches) enableCompileCache(join(caches, "mullion", "compiled", command));

import("./main.ts");
