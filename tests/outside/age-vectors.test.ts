/**
 * The age file format's published test vectors: CCTV, age (C2SP, Community Cryptography Test Vectors), as the npm package
 * cctv-age carries them; its README says what each line of a vector means.
 */
import { createHash } from "node:crypto";
import { inflateSync } from "node:zlib";
import * as vectors from "cctv-age";
import { expect, test } from "vitest";
import type { Opened } from "../../server/seal/age.ts";
import { openArmored, openBinary } from "../../server/seal/age.ts";

interface Vector {
  readonly name: string;
  readonly expected: string;
  readonly payload: string | undefined;
  readonly identities: readonly string[];
  readonly passphrases: readonly string[];
  readonly armored: boolean;
  readonly unknown: readonly string[];
  readonly file: Uint8Array;
}

function read(name: string, bytes: Uint8Array): Vector {
  const all = Buffer.from(bytes);
  const end = all.indexOf("\n\n");
  const lines = all
    .toString("utf8", 0, end)
    .split("\n")
    .map(line => [line.slice(0, line.indexOf(": ")), line.slice(line.indexOf(": ") + 2)] as const);
  const of = (key: string) => lines.filter(([found]) => found === key).map(([, value]) => value);
  const body = all.subarray(end + 2);
  const known = ["expect", "payload", "identity", "passphrase", "armored", "file key", "comment", "compressed"];
  return {
    name,
    expected: of("expect")[0] ?? "",
    payload: of("payload")[0],
    identities: of("identity"),
    passphrases: of("passphrase"),
    armored: of("armored")[0] === "yes",
    unknown: lines.map(([key]) => key).filter(key => !known.includes(key)),
    file: of("compressed")[0] === "zlib" ? inflateSync(body) : body,
  };
}

const all = Object.entries(vectors)
  .filter((entry): entry is [string, Uint8Array] => entry[1] instanceof Uint8Array)
  .map(([name, bytes]) => read(name, bytes));

test("there are the vectors that the package names, all of a kind that is understood", () => {
  expect(all.length).toBeGreaterThan(100);
  expect(all.flatMap(({ unknown }) => unknown)).toEqual([]);
});

test.each(all)("$name: $expected", async ({ expected, payload, identities, passphrases, armored, file }) => {
  const opened: Opened = await (armored ? openArmored : openBinary)(file, { identities, passphrases });
  if ("failed" in opened) {
    expect(opened.failed).toBe(expected);
    // What a vector would give out before it fails stays in: an opened file is whole, or there is none.
    expect(Object.keys(opened)).toEqual(["failed"]);
  } else {
    expect(expected).toBe("success");
    expect(createHash("sha256").update(opened.bytes).digest("hex")).toBe(payload);
  }
});
