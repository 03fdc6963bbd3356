// Loaded into a program that is measured: says on standard error, when it ends, the most memory that it had and what it used.
process.on("exit", () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  process.stderr.write(`peak ${JSON.stringify({ peakBytes: maxRSS * 1024, cpuMs: (userCPUTime + systemCPUTime) / 1000 })}\n`);
});
