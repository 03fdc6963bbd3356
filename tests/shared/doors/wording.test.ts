/** What is said about doors: who decides is never left out, and nothing is ever called what only others may call it. */
import { describe, expect, test } from "vitest";
import type { Check } from "../../../shared/checks/check.ts";
import { checks } from "../../../shared/checks/index.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { cautionsOf } from "../../../shared/doors/cautions.ts";
import { doorSums } from "../../../shared/doors/door-sum.ts";
import { supplySums } from "../../../shared/doors/supply-sum.ts";
import { whoDecides } from "../../../shared/doors/words.ts";
import { siteOf, today } from "../../support/fixture.ts";
import { sampleSites } from "../../support/samples.ts";

const judging = [
  "release-short",
  "release-long",
  "lock-volts",
  "contact-overload",
  "supply-overload",
  "battery-short",
  "exit-caution",
] as const;
const aboutDoors: readonly Check[] = checks.filter(({ code }) => ["door-unit", "fed-twice", ...judging].includes(code));
const never = /\b(?:compliant|certified|safe to use|approved)\b/i;

describe.each(aboutDoors.map((check): [string, Check] => [check.code, check]))("%s", (code, check) => {
  const site = siteOf(check.explain.triggers);
  const messages = findingsOf(site, { today }).map(({ message }) => message);

  test("claims nothing that only others may say", () => {
    expect(messages).not.toEqual([]);
    expect([...messages, check.explain.what, check.explain.why].filter(text => never.test(text))).toEqual([]);
  });

  test("says who decides, if it judges", () => {
    const says = messages.every(message => message.endsWith(whoDecides));
    expect(says).toBe(judging.some(one => one === code));
    expect(check.explain.why.toLowerCase().includes(whoDecides)).toBe(code !== "door-unit");
  });
});

test("the sums of the samples claim nothing either", () => {
  const said = sampleSites().flatMap(site => [
    ...doorSums(site).flatMap(sum => [...sum.assumed, ...sum.missing, ...cautionsOf(sum).map(({ text }) => text)]),
    ...supplySums(site).flatMap(sum => [...sum.assumed, ...sum.unknown]),
  ]);
  expect(said).toContain("20 °C");
  expect(said.filter(text => never.test(text))).toEqual([]);
});
