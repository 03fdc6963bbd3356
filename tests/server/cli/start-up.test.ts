/** How long the command line takes to start, against Node itself. The quickest run of each says least of what else the machine is doing. */
import { spawnSync } from "node:child_process";
import { statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { bundle, folderOf, model, root, site } from "./support/mullion.ts";

/** Holders and entries enough for fifty lines. */
const fiftyLines = [
  site.trimEnd().slice(0, -"  }\n}".length),
  ...Array.from({ length: 16 }, (_, index) => `    // ${index}\n`),
  "  }\n}\n",
  ...Array.from({ length: 18 }, (_, index) => `holder h${index} "Holder ${index}" tag ${8061300 + index} // not placed yet\n`),
].join("");

const figures = { version: 1.6, check: 2.5 };
/** The machine may be busy with something else: that makes single runs slow, and hardly all of many. */
const tolerance = 1.5;
/** The first ones fill the cache. */
const turns = { first: 4, least: 12, most: 60 };

test("--version and a check of a small site, as multiples of `node -e 0`", { timeout: 120_000 }, () => {
  expect(fiftyLines.split("\n").length).toBe(51);
  const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": fiftyLines });
  const runs = { node: ["-e", "0"], version: [bundle, "--version"], check: [bundle, "check"] };
  const times: Record<keyof typeof runs, number[]> = { node: [], version: [], check: [] };
  const quickest = (name: keyof typeof runs) => Math.min(...times[name]);
  const ratio = (name: keyof typeof figures) => quickest(name) / quickest("node");
  const isQuick = (name: keyof typeof figures) => ratio(name) < figures[name] * tolerance;
  const env = { ...process.env, XDG_CACHE_HOME: folderOf(), LOCALAPPDATA: folderOf() };
  for (let turn = 1 - turns.first; turn <= turns.most; turn++) {
    for (const name of ["node", "version", "check"] as const) {
      const begun = performance.now();
      const { status } = spawnSync(process.execPath, runs[name], { cwd, env });
      if (turn > 0) times[name].push(performance.now() - begun);
      expect(status).toBe(0);
    }
    if (turn >= turns.least && isQuick("version") && isQuick("check")) break;
  }
  const said = (name: keyof typeof figures) => `${ratio(name).toFixed(2)} times (figure ${figures[name]})`;
  console.log(
    `quickest of ${times.node.length}: node -e 0 ${quickest("node").toFixed(0)} ms; --version ${said("version")}, check ${said("check")}`,
  );
  expect(ratio("version")).toBeLessThan(figures.version * tolerance);
  expect(ratio("check")).toBeLessThan(figures.check * tolerance);
});

test("what every command loads, and a check loads nothing else of ours, is at most a quarter more than 350 kB", () => {
  expect(statSync(join(root, "out/cli.js")).size).toBeLessThan(350_000 * 1.25);
});
