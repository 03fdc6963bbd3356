// Loaded into a server that is measured: says on standard error, when signalled, what it holds after collecting and what it used.
process.on("SIGUSR2", () => {
  globalThis.gc();
  const { user, system } = process.cpuUsage();
  process.stderr.write(`probe ${JSON.stringify({ heapBytes: process.memoryUsage().heapUsed, cpuMs: (user + system) / 1000 })}\n`);
});
