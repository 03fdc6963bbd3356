/** One contender in a process of its own: what others leave in memory does not slow it down. `node runner.ts MODULE`, then messages. */
import { pathToFileURL } from "node:url";

const { prepare } = await import(pathToFileURL(process.argv[2] ?? "").href);
let run: () => unknown = () => undefined;
process.on("message", async ({ lines }: { readonly lines?: number }) => {
  if (lines !== undefined) {
    run = await prepare(lines);
    process.send?.({});
    return;
  }
  const begun = performance.now();
  const used = process.cpuUsage();
  const said = await run();
  const { user, system } = process.cpuUsage(used);
  process.send?.({ ms: performance.now() - begun, cpuMs: (user + system) / 1000, said });
});
