/** What is installed before anything runs: once for each lock file, and never through a link into a folder that others use. */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, onTestFinished, test } from "vitest";

/** A project of two folders, whose `node_modules` is a link to the other one, and an npm that says that it was started. */
function linkedProject(stamp: string) {
  const folder = mkdtempSync(join(tmpdir(), "mullion-install-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const name of [".ci", "shared/kept", "bin"]) mkdirSync(join(folder, name), { recursive: true });
  cpSync(join(import.meta.dirname, "../.ci/node.mjs"), join(folder, ".ci/node.mjs"));
  writeFileSync(join(folder, "package-lock.json"), "{}");
  writeFileSync(join(folder, "shared/.mullion-lock"), stamp);
  writeFileSync(join(folder, "bin/npm"), "#!/bin/sh\necho npm was started\n", { mode: 0o755 });
  symlinkSync(join(folder, "shared"), join(folder, "node_modules"));
  return folder;
}

function install(folder: string) {
  const script = `import(${JSON.stringify(pathToFileURL(join(folder, ".ci/node.mjs")).href)}).then(({ install }) => install())`;
  const env = { ...process.env, PATH: `${join(folder, "bin")}:${process.env.PATH}` };
  const { status, stdout, stderr } = spawnSync(process.execPath, ["-e", script], { env, encoding: "utf8" });
  return { status, out: stdout, err: stderr };
}

test.skipIf(process.platform === "win32")("a link to what another lock file names is left alone, and told", () => {
  const folder = linkedProject("another");
  const { status, out, err } = install(folder);
  expect({ status, out }).toEqual({ status: 1, out: "" });
  expect(err).toContain("node_modules is a link");
  expect(existsSync(join(folder, "shared/kept"))).toBe(true);
});

test.skipIf(process.platform === "win32")("a link to what this lock file names will do, and a folder of its own is filled", () => {
  const folder = linkedProject(createHash("sha256").update("{}").digest("hex"));
  expect(install(folder)).toEqual({ status: 0, out: "", err: "" });
  rmSync(join(folder, "node_modules"));
  expect(install(folder)).toEqual({ status: 0, out: "Installing what package-lock.json names …\nnpm was started\n", err: "" });
});
