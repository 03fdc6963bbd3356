/** The language server wherever it is started: as a process, or as a worker of a browser. One bundle, so that both are the same server. */
const inWorker = "importScripts" in globalThis;

if (inWorker) void import("./browser.ts");
else void import("./main.ts");
