/**
 * The bench: `npm run bench [-- short]`. Prints one table of what was measured in this run, and writes it to `out/bench.json`.
 *
 * Times are processor time (all threads of the process, garbage collection included) where two things are compared, since they then
 * say the same on a busy machine; wall times are said to be.
 */
import { mkdirSync, statSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import type { Contender, Times } from "./contend.ts";
import { contend, median, quantile } from "./contend.ts";
import type { Figure, Unit } from "./figures.ts";
import { table } from "./figures.ts";
import { checkFolder, firstFindings, folderOf, startOf, typingInFolder } from "./folder.ts";
import { langiumServer, memoryOverEdits, mullionServer, typing } from "./keystrokes.ts";

const root = join(import.meta.dirname, "../..");
/** Ratios and sizes that need nothing but what the repository has; a minute instead of a quarter of an hour. */
const short = process.argv.includes("short");
const figures: Figure[] = [];

function say(what: string, unit: Unit, value: number, wanted?: number, least?: true): void {
  figures.push({ what, unit, value, ...(wanted === undefined ? {} : { wanted }), ...(least ? { least } : {}) });
}

function heading(what: string): void {
  console.error(`… ${what}`);
}

/* Whole check */

heading("whole check");
const sizes = short ? [2_000, 20_000] : [50, 2_000, 20_000, 200_000];
const lines = 20_000;
const named = (name: string, module: string, size: number, share = 1): Contender => ({
  name: `${name} ${size}`,
  module,
  lines: size,
  share,
});
const peers = short
  ? []
  : [
      named("yaml", "peers/yaml-ajv.mjs", lines, 0.25),
      named("langium", "peers/langium.mjs", lines, 0.25),
      named("mapped", "peers/langium-mapped.mjs", lines, 0.25),
    ];
const times = await contend(
  [
    ...sizes.map(size => named("check", "whole-check.ts", Math.max(size, 200), size > lines ? 0.25 : 1)),
    named("json", "json-parse.ts", lines),
    ...peers,
  ],
  // Until everything that will be compiled has been: compiling is processor time, too.
  25,
  short ? 9 : 16,
);
const used = (name: string): number => median(timesOf(name).cpuMs);
function timesOf(name: string): Times {
  const found = times.get(name);
  if (!found) throw new Error(`${name} was not measured`);
  return found;
}
for (const size of sizes) {
  const { said } = timesOf(`check ${Math.max(size, 200)}`);
  say(
    `whole check of ${Math.max(size, 200).toLocaleString("en")} lines (${said.findings} findings)`,
    "ms",
    used(`check ${Math.max(size, 200)}`),
  );
}
say("JSON.parse of the content of 20,000 lines", "ms", used("json 20000"));
say("whole check ÷ JSON.parse of the same content", "ratio", used("check 20000") / used("json 20000"), 8);
say("growth of the whole check from 2,000 to 20,000 lines", "ratio", used("check 20000") / used("check 2000"), 11);
if (!short) {
  say("growth of the whole check from 2,000 to 200,000 lines", "ratio", used("check 200000") / used("check 2000"), 110);
  const ours = timesOf("check 20000").said;
  const theirs = timesOf("langium 20000").said;
  // Who finds something else does other work, and is not to be compared.
  for (const what of ["declarations", "slotClash", "codeLength"])
    if (ours[what] !== theirs[what]) throw new Error(`${what}: ${ours[what]} here, ${theirs[what]} with Langium`);
  say("yaml and ajv, 20,000 lines", "ms", used("yaml 20000"));
  say("yaml and ajv ÷ whole check", "ratio", used("yaml 20000") / used("check 20000"), 15, true);
  say("Langium, 20,000 lines", "ms", used("langium 20000"));
  say("Langium ÷ whole check", "ratio", used("langium 20000") / used("check 20000"), 30, true);
  say("Langium with a map of names ÷ whole check", "ratio", used("mapped 20000") / used("check 20000"));
}

/* Typing */

heading("typing");
const server = await mullionServer();
const typed = await typing(server, lines, true, short ? 12 : 100, !short);
server.end();
say("keystroke to findings, processor time of the server", "ms", typed.cpuMs);
say("keystroke to findings, wall, median", "ms", median(typed.findingsMs), 40);
say("keystroke to findings, wall, 95th of 100", "ms", quantile(typed.findingsMs, 0.95), 80);
if (!short) {
  say("hover, wall, 95th of 100", "ms", quantile(typed.hoverMs, 0.95), 15);
  say("completion, wall, 95th of 100", "ms", quantile(typed.completionMs, 0.95), 15);
  const langium = await langiumServer();
  const theirs = await typing(langium, lines, false, 8, false);
  langium.end();
  say("Langium server with a map of names: keystroke to findings, processor time", "ms", theirs.cpuMs);
  say("Langium server ÷ ours, processor time", "ratio", theirs.cpuMs / typed.cpuMs, 20, true);
}
heading("memory");
const edited = await mullionServer();
const { before, after } = await memoryOverEdits(edited, short ? 2_000 : lines, 1_000);
edited.end();
say("memory before 1,000 edits", "bytes", before);
say("memory after 1,000 edits ÷ before", "ratio", after / before, 1.1);

/* Many sites */

heading("many sites");
const folder = folderOf(2_000);
try {
  const runs = Array.from({ length: short ? 2 : 5 }, () => checkFolder(folder));
  say(
    `mullion check . of ${runs[0]?.files} files (${runs[0]?.findings} findings), processor time`,
    "ms",
    median(runs.map(run => run.cpuMs)),
  );
  say("the same, wall", "ms", median(runs.map(run => run.ms)), 1_500);
  say("the same, peak memory", "bytes", median(runs.map(run => run.peakBytes)), 250_000_000);
  const starts: number[] = [];
  for (let i = 0; i < (short ? 2 : 5); i++) starts.push(await startOf(["-e", "0"], folder.path));
  say("the same ÷ node -e 0, wall", "ratio", median(runs.map(run => run.ms)) / median(starts));
  const delays: number[] = [];
  for (let i = 0; i < (short ? 2 : 7); i++) delays.push((await firstFindings(folder, true)) - (await firstFindings(folder, false)));
  say("keystroke in one of them to its findings, all of them open, processor time of the server", "ms", await typingInFolder(folder, 20));
  say("first findings later because of the folder, wall", "ms", median(delays), 150);
} finally {
  folder.remove();
}

/* Plan and sheet */

heading("plan and sheet");
const slots = short ? [300, 3_000] : [300, 3_000, 30_000];
const planned = await contend(
  slots.map(count => ({ name: `${count}`, module: "full-run.ts", lines: count, share: count > 3_000 ? 0.25 : 1 })),
  4,
  short ? 4 : 12,
);
for (const count of slots)
  say(`full run of ${count.toLocaleString("en")} slots planned and proved`, "ms", planned.get(`${count}`)?.said.planMs ?? Number.NaN);
say("3,000 slots planned, proved and written as JSON", "ms", planned.get("3000")?.said.toJsonMs ?? Number.NaN, 150);
say("3,000 slots planned, proved and written as HTML", "ms", planned.get("3000")?.said.toHtmlMs ?? Number.NaN, 400);
const growth = (many: string, few: string) =>
  (planned.get(many)?.said.planMs ?? Number.NaN) / (planned.get(few)?.said.planMs ?? Number.NaN);
say("growth of planning from 300 to 3,000 slots", "ratio", growth("3000", "300"), 15);

/* Start and size */

heading("start and size");
const starting = { node: [] as number[], version: [] as number[] };
for (let i = 0; i < (short ? 5 : 15); i++) {
  starting.node.push(await startOf(["-e", "0"], root));
  starting.version.push(await startOf([join(root, "out/mullion.js"), "--version"], root));
}
say("mullion --version ÷ node -e 0, wall", "ratio", median(starting.version) / median(starting.node), 1.6);
say("the command line's body, out/cli.js", "bytes", statSync(join(root, "out/cli.js")).size, 350_000);
say("the language server, out/server.js", "bytes", statSync(join(root, "out/server.js")).size, 450_000);

const results = {
  when: new Date().toISOString(),
  node: process.version,
  cpu: cpus()[0]?.model ?? "",
  cores: cpus().length,
  short,
  figures,
};
mkdirSync(join(root, "out"), { recursive: true });
writeFileSync(join(root, "out/bench.json"), `${JSON.stringify(results, undefined, 2)}\n`);
console.log(table(figures));
