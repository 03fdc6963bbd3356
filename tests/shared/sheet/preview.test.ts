/** What a hover or an inlay hint shows of one line: the same keys and words as the sheet. */
import { describe, expect, test } from "vitest";
import { planFor } from "../../../shared/plan/start.ts";
import { exampleOf, exampleOfSetting } from "../../../shared/sheet/example.ts";
import type { Preview, Previewer, PreviewOptions } from "../../../shared/sheet/preview.ts";
import { previewer, previewOf } from "../../../shared/sheet/preview.ts";
import { spaced } from "../../../shared/sheet/remarks.ts";
import { sheetOf } from "../../../shared/sheet/sheet.ts";
import { models } from "./models.ts";
import { model, record, siteOf, wharf } from "./wharf.ts";

function previewed(text: string, options: Partial<PreviewOptions> = {}) {
  const site = siteOf(text);
  const keypad = [...site.keypads.values()][0];
  if (!keypad) throw new Error("the fixture has a keypad");
  const preview: Previewer | undefined = previewer(site, keypad, { hideCodes: false, ...options });
  if (!preview) throw new Error("the keypad has a model");
  return { site, keypad, preview };
}

const lines = ({ rows }: Preview) => rows.map(({ keys, shows }) => `${spaced(keys)}${shows === undefined ? "" : `  → ${shows}`}`);

describe("an entry", () => {
  test("shows its keys, what must be seen, its door and whether it is fitted", () => {
    const { keypad, preview } = previewed(wharf + model + record);
    expect(
      keypad.placements.map(placement => preview.placement(placement)).map(found => [...lines(found), found.door, found.slot, found.state]),
    ).toEqual([
      ["7 4 01 48291 OK  → one beep", "Foot gate", "01", "fitted"],
      ["7 4 02 55910 OK  → one beep", "Foot gate", "02", "to type"],
      ["7 4 03 73046 OK  → one beep", "Foot gate", "03", "fitted"],
      ["8 4 10 [present tag 8061261] OK  → one beep", "Foot gate", "10", "fitted"],
      ["8 4 11 [present tag 8061262] OK  → one beep", "Foot gate", "11", "to type"],
      ["7 5 01 01153 OK  → one beep", "Vehicle gate", "01", "fitted"],
    ]);
  });

  test("shows the same keys as the sheet", () => {
    for (const text of [wharf + model, ...Object.values(models)]) {
      const { site, keypad, preview } = previewed(text);
      const plan = planFor(site, keypad);
      if ("cannot" in plan) throw new Error(plan.cannot);
      const sheet = sheetOf(site, keypad, plan, { hideCodes: false, showInstaller: false, today: "2026-11-25" });
      const typed = sheet.sessions.flatMap(({ entries }) => entries).filter(({ operation }) => operation.startsWith("put "));
      const shown = keypad.placements.flatMap(placement => preview.placement(placement).rows);
      expect(shown.map(({ keys, text: words }) => `${words}: ${spaced(keys)}`).sort()).toEqual(
        typed.map(({ keys, text: words }) => `${words}: ${spaced(keys)}`).sort(),
      );
    }
  });

  test("hides its code where codes are hidden", () => {
    const { site, keypad } = previewed(wharf + model + record);
    const [first] = keypad.placements;
    if (!first) throw new Error("the keypad has an entry");
    const preview = previewOf(site, keypad, first, { hideCodes: true });
    expect(preview && lines(preview)).toEqual(["7 4 01 ••••• OK  → one beep"]);
  });

  test("is unknown where the record does not say", () => {
    const partly = `${wharf}${model}fitted gate 2026-11-20 partly { model dunlin relay 1 { 01 code 48291 02 unknown } }`;
    const { keypad, preview } = previewed(partly);
    expect(keypad.placements.map(placement => preview.placement(placement).state)).toEqual([
      "fitted",
      "unknown",
      "unknown",
      "unknown",
      "unknown",
      "unknown",
    ]);
  });

  test("half typed has no keys", () => {
    const { keypad, preview } = previewed(wharf.replace("02 u2", "02 nobody") + model);
    expect(preview.placement(keypad.placements[1] as (typeof keypad.placements)[number]).rows).toEqual([]);
  });
});

test("the other lines of a keypad", () => {
  const { keypad, preview } = previewed(wharf + model + record);
  const [allRelay] = keypad.allRelay;
  const [foot, vehicle, spare] = keypad.relays;
  if (!allRelay || !foot || !vehicle || !spare) throw new Error("the fixture has them");
  const shown = [
    preview.allRelay(allRelay),
    preview.installer(),
    preview.setting("key light", 2),
    preview.release(foot),
    preview.release(vehicle),
  ];
  expect(shown.map(found => [...lines(found), found.state])).toEqual([
    ["32 91827 OK  → two beeps", "fitted"],
    ["31 [new installer code] [new installer code] OK  → two beeps", "fitted"],
    ["81 2 OK", "to type"],
    ["6 4 05 OK  → one beep", "fitted"],
    ["6 5 00 OK  → one beep", "to type"],
  ]);
  expect(preview.release(spare).rows).toEqual([]);
});

test("an operation of a model is shown with real values", () => {
  const { keypad } = previewed(wharf + model);
  if (!keypad.model) throw new Error("the keypad has a model");
  const example = (operation: Parameters<typeof exampleOf>[1]) =>
    spaced(exampleOf(keypad.model as NonNullable<typeof keypad.model>, operation) ?? []);
  expect(example("enter")).toBe("OK [installer code] OK");
  expect(example("put code")).toBe("7 4 00 48291 OK");
  expect(example("put tag")).toBe("8 4 00 [present tag 8061261] OK");
  expect(example("set release")).toBe("6 4 05 OK");
  expect(example("open all-relay")).toBe("1 B 48291");
  expect(example("clear tag")).toBe("");
  expect(spaced(exampleOfSetting(keypad.model, "key light") ?? [])).toBe("81 2 OK");
  expect(exampleOfSetting(keypad.model, "no such")).toBeUndefined();
});
