/** How long the command line takes to start, against Node itself. Figures that are missed by more than twice are a failure. */
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
const tolerance = 2;

test("--version and a check of a small site, as multiples of `node -e 0`", () => {
  expect(fiftyLines.split("\n").length).toBe(51);
  const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": fiftyLines });
  const runs = { node: ["-e", "0"], version: [bundle, "--version"], check: [bundle, "check"] };
  const times: Record<string, number[]> = { node: [], version: [], check: [] };
  for (let turn = 0; turn < 12; turn++) {
    for (const [name, words] of Object.entries(runs)) {
      const begun = performance.now();
      const { status } = spawnSync(process.execPath, words, { cwd });
      // The first turn fills the cache.
      if (turn > 0) times[name]?.push(performance.now() - begun);
      expect(status).toBe(0);
    }
  }
  const median = (name: string) => times[name]?.sort((a, b) => a - b)[5] ?? Number.NaN;
  const ratios = { version: median("version") / median("node"), check: median("check") / median("node") };
  console.log(
    `node -e 0 ${median("node").toFixed(0)} ms; --version ${ratios.version.toFixed(2)} times (figure ${figures.version}), check ${ratios.check.toFixed(2)} times (figure ${figures.check})`,
  );
  // The quickest of each is held against the figure: it says least of what else the machine is doing.
  const least = (name: string) => Math.min(...(times[name] ?? []));
  expect(least("version") / least("node")).toBeLessThan(figures.version * tolerance);
  expect(least("check") / least("node")).toBeLessThan(figures.check * tolerance);
});

test("the bundle is at most twice 350 kB", () => {
  expect(statSync(join(root, "out/cli.js")).size).toBeLessThan(350_000 * tolerance);
});
