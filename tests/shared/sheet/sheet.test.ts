/** The run sheet of a keypad, from its text to what stands on paper. */
import { describe, expect, test } from "vitest";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { BrokenInvariant } from "../../../shared/must.ts";
import type { Plan } from "../../../shared/plan/plan.ts";
import { planFor } from "../../../shared/plan/start.ts";
import { csv } from "../../../shared/sheet/formats/csv.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import { json } from "../../../shared/sheet/formats/json.ts";
import { md } from "../../../shared/sheet/formats/md.ts";
import { txt } from "../../../shared/sheet/formats/txt.ts";
import { readNumber, sheetNumbers } from "../../../shared/sheet/number.ts";
import type { Sheet } from "../../../shared/sheet/shape.ts";
import type { SheetOptions } from "../../../shared/sheet/sheet.ts";
import { sheetOf } from "../../../shared/sheet/sheet.ts";
import type { Keypad, Site } from "../../../shared/site/site.ts";
import { models } from "./models.ts";
import type { Printed } from "./read-back.ts";
import { actsOf, fromCsv, fromJson, fromMarkdown, fromText } from "./read-back.ts";
import { codes, model, record, siteOf, wharf } from "./wharf.ts";

type From = "fitted" | "factory" | "reset";
const every = formats;
/** Those whose text a person may compare: the page's style and script change for reasons of their own. */
const plain = formats.filter(({ name }) => name !== "html");

interface Made {
  readonly site: Site;
  readonly keypad: Keypad;
  readonly plan: Plan;
  readonly sheet: Sheet;
}

function made(text: string, from: From = "fitted", options: Partial<SheetOptions> = {}): Made {
  const site = siteOf(text);
  expect(site.files.flatMap(({ problems }) => problems)).toEqual([]);
  const keypad = [...site.keypads.values()][0];
  if (!keypad) throw new Error("the fixture has a keypad");
  const plan = planFor(site, keypad, from);
  if ("cannot" in plan) throw new Error(plan.cannot);
  const sheet = sheetOf(site, keypad, plan, { hideCodes: false, showInstaller: false, today: "2026-11-25", ...options });
  return { site, keypad, plan, sheet };
}

describe("golden sheets", () => {
  test.each(plain.map(format => [format.name, format] as const))("what changed, as %s", async (_, format) => {
    const { sheet } = made(wharf + model + record, "fitted", { commit: "1a2b3c4" });
    await expect(format.render([sheet])).toMatchFileSnapshot(`golden/changed.${format.extension}.snap`);
  });
  test.each(plain.map(format => [format.name, format] as const))("everything after a reset, codes hidden, as %s", async (_, format) => {
    const { sheet } = made(wharf + model + record, "reset", { hideCodes: true });
    await expect(format.render([sheet])).toMatchFileSnapshot(`golden/reset-hidden.${format.extension}.snap`);
  });
});

describe("what is printed leads to what the text wants", () => {
  const texts: readonly (readonly [string, string, From])[] = [
    ["what changed", wharf + model + record, "fitted"],
    ["from factory", wharf + model + record, "factory"],
    ["after a reset", wharf + model + record, "reset"],
    ...Object.entries(models).map(([name, text]) => [name, text, "fitted"] as const),
  ];
  const readers: readonly (readonly [string, (sheet: Sheet) => Printed])[] = [
    ["md", sheet => fromMarkdown(md.render([sheet]))],
    ["txt", sheet => fromText(txt.render([sheet]))],
    ["csv", sheet => fromCsv(csv.render([sheet]))],
    ["json", sheet => fromJson(json.render([sheet]))],
  ];
  for (const [name, text, from] of texts)
    test.each(readers)(`${name}, read from %s`, (_, read) => {
      const { plan, sheet } = made(text, from, { showInstaller: true });
      let memory = plan.before;
      for (const session of read(sheet)) {
        const result = replay(
          plan.model,
          memory,
          session.flatMap(groups => groups.flatMap(actsOf)),
        );
        expect(result.steps.filter(step => !step.taken)).toEqual([]);
        memory = result.memory;
      }
      expect(sameMemory(memory, plan.target, plan.model)).toBe(true);
      expect(plan.counts.entries).toBeGreaterThan(0);
    });
});

describe("codes", () => {
  test("hidden ones stand in no format", () => {
    for (const from of ["fitted", "factory", "reset"] as const) {
      const { sheet } = made(wharf + model + record, from, { hideCodes: true, showInstaller: true });
      for (const format of every) {
        const text = format.render([sheet]);
        for (const code of codes) expect(text.includes(code), `${format.name}, ${from}`).toBe(false);
        expect(text, format.name).toContain("•••••");
      }
    }
  });

  test("the installer code is named, not shown, unless it is asked for", () => {
    for (const format of every) {
      const named = format.render([made(wharf + model, "factory").sheet]);
      expect(named.includes("60441") || named.includes("24680"), format.name).toBe(false);
      expect(named.replace(/\\(?=\])/g, ""), format.name).toContain("new installer code");
      const shown = format.render([made(wharf + model, "factory", { showInstaller: true }).sheet]);
      expect(shown.includes("60441") && shown.includes("24680"), format.name).toBe(true);
    }
  });

  test("no address stands on a sheet", () => {
    for (const format of every) expect(format.render([made(wharf + model).sheet]), format.name).not.toContain("Slip Lane");
  });
});

describe("before you start", () => {
  const seeTo = (sheet: Sheet) => sheet.before.map(({ text }) => text);

  test("on a changed keypad: power, installer code, tags, the record tried, whom to tell, cautions", () => {
    const { sheet } = made(wharf + model + record);
    expect(seeTo(sheet)).toEqual([
      "If the keypad was off: power it and wait 15 s before the first key.",
      "Have the installer code in hand.",
      'Bring Unit 3\'s tag "bike", tag 8061262.',
      "Is the record still true? Key Unit 1's code: Foot gate must open. If not, stop and find out what is fitted.",
      "Tell Unit 2: the code changes with this visit.",
      "Vehicle gate has moving parts within reach of whoever stands at the keypad: stand clear before keying what opens it.",
      "The keypad only asks Vehicle gate to move; the operator's own protective devices are to be tested by a competent person. Local code, the maker's instructions and a competent person decide.",
    ]);
    expect(sheet.before.find(({ kind }) => kind === "key")?.keys).toEqual([{ text: "48291", is: "code" }]);
  });

  test("after a reset: what to do by hand, and that everyone is shut out", () => {
    const { sheet } = made(wharf + model + record, "reset");
    expect(seeTo(sheet)[0]).toBe("Reset by hand first: Power off, bridge the reset pins, power on, wait for the long beep");
    expect(seeTo(sheet)).toContainEqual(
      expect.stringMatching(/^Shut out meanwhile: everyone, until their own entry is typed; the last for about \d+ minutes\.$/),
    );
  });

  test("where nothing is known: what to do when the installer code does not enter", () => {
    const { sheet } = made(`${wharf}${model}fitted gate unknown`);
    expect(seeTo(sheet)).toContainEqual(expect.stringContaining("If the installer code does not enter, stop"));
    expect(sheet.from).toBe("unknown");
  });

  test("who is shut out while codes change places, and for how long", () => {
    const swapped = wharf.replace("01 u1 02 u2 03 u3", "01 u3 02 u2 03 u1");
    const { sheet, plan } = made(swapped + model + record);
    const writes = plan.sessions
      .flatMap(({ entries }) => entries)
      .filter(({ operation }) => operation.operation === "put code" && operation.slot !== 2);
    const shut = seeTo(sheet).filter(text => text.startsWith("Shut out"));
    expect(shut).toContainEqual(
      expect.stringMatching(/^Shut out meanwhile: Unit [13]'s code at Foot gate, from entry \d+ to entry \d+, about a minute\.$/),
    );
    expect(shut.length).toBeLessThanOrEqual(writes.length);
  });
});

describe("tries", () => {
  test("every new code and tag opens, every withdrawn one does not, a lost tag is not tried", () => {
    const { sheet } = made(wharf + model + record);
    expect(sheet.tries.filter(({ kind }) => kind !== "again").map(({ who, expect: outcome }) => `${who}: ${outcome}`)).toEqual(
      expect.arrayContaining([
        "Unit 2's code: Foot gate opens",
        'Unit 3\'s tag "bike": Foot gate opens',
        "The code that slot 02 of Foot gate held: nothing",
        "The code that slot 09 of Foot gate held: nothing",
        "tag 555, if it is at hand: nothing",
      ]),
    );
    expect(sheet.tries.some(({ keys }) => keys.some(({ text }) => text.includes("4711")))).toBe(false);
  });

  test("on a full run JSON has them all, paper one for each relay and the first and last of a session", () => {
    const { sheet } = made(wharf + model, "factory");
    expect(sheet.tries.map(({ who }) => who)).toEqual([
      "Unit 1's code",
      "Unit 2's code",
      "Unit 3's code",
      "Unit 1's tag (blue fob)",
      'Unit 3\'s tag "bike"',
      'Unit 3\'s code "yard"',
      "Wharf manager's code at Foot gate",
      "Wharf manager's code at Vehicle gate",
    ]);
    expect(sheet.paperTries.length + sheet.triesLeftOut).toBe(sheet.tries.length);
    expect(new Set(sheet.paperTries.flatMap(({ opens }) => opens))).toEqual(new Set(["1", "2"]));
    expect(txt.render([sheet])).toContain(`${sheet.triesLeftOut} more tries are in the JSON sheet`);
  });

  test("after a reset, codes that were fitted are tried and open nothing", () => {
    const { sheet } = made(wharf + model + record, "reset");
    expect(sheet.tries).toContainEqual(expect.objectContaining({ who: "The code that slot 09 of Foot gate held", opens: [] }));
  });

  test("a set of relays opens both its doors", () => {
    const { sheet } = made(models["sets of relays, a code and a tag in one number, several all-relay codes"] ?? "");
    expect(sheet.tries.find(({ who }) => who === "Unit 2's code")).toMatchObject({ opens: ["1", "2"], expect: "Gate and Porch open" });
  });
});

describe("a new installer code", () => {
  test("has a session of its own, and says what to do when it does not enter", () => {
    const { sheet } = made(wharf + model, "factory");
    const [first, second] = sheet.sessions;
    expect(first?.entries.map(({ operation }) => operation)).toEqual(["set installer"]);
    expect(first?.enter.map(({ text }) => text)).toEqual(["OK", "[installer code]", "OK"]);
    expect(second?.enter.map(({ text }) => text)).toEqual(["OK", "[new installer code]", "OK"]);
    expect(second?.enterNote).toContain("try the old one before anything else");
  });
});

describe("the number of a sheet", () => {
  const text = wharf + model + record;
  const numberOf = (of: string, options: Partial<SheetOptions> = {}, from: From = "fitted") => made(of, from, options).sheet.number;

  test("is the plan's: another start or change gives another", () => {
    expect(numberOf(text)).toMatch(/^[0-9A-HJKMNP-TV-Z]{3}-[0-9A-HJKMNP-TV-Z]{3}$/);
    expect(numberOf(text)).toBe(numberOf(text));
    expect(numberOf(text, {}, "factory")).not.toBe(numberOf(text));
    expect(numberOf(text.replace("02 u2", "04 u2"))).not.toBe(numberOf(text));
  });

  test("changes with a code that stands on the sheet, and tells nothing of one that does not", () => {
    const other = text.replace("55910", "55911");
    expect(numberOf(other)).not.toBe(numberOf(text));
    expect(numberOf(other, { hideCodes: true })).toBe(numberOf(text, { hideCodes: true }));
    const installer = text.replaceAll("60441", "60442");
    expect(numberOf(installer, {}, "factory")).toBe(numberOf(text, {}, "factory"));
    expect(numberOf(installer, { showInstaller: true }, "factory")).not.toBe(numberOf(text, { showInstaller: true }, "factory"));
    expect(numberOf(installer, { showInstaller: true, hideCodes: true }, "factory")).toBe(numberOf(text, { hideCodes: true }, "factory"));
  });

  test("made with a key it changes with every code, and is one whatever the sheet shows", () => {
    const keyed = { numberKey: "a key that is kept" };
    expect(numberOf(text.replace("55910", "55911"), { ...keyed, hideCodes: true })).not.toBe(numberOf(text, keyed));
    expect(numberOf(text.replaceAll("60441", "60442"), keyed, "factory")).not.toBe(numberOf(text, keyed, "factory"));
    expect(numberOf(text, { ...keyed, hideCodes: true })).toBe(numberOf(text, keyed));
    expect(numberOf(text, { numberKey: "another" })).not.toBe(numberOf(text, keyed));
  });

  test("every number that a sheet of the plan carries is known", () => {
    const { plan } = made(text, "factory");
    const carried = [{}, { hideCodes: true }, { showInstaller: true }, { hideCodes: true, showInstaller: true }].map(options =>
      numberOf(text, options, "factory"),
    );
    expect(new Set(sheetNumbers("gate", plan))).toEqual(new Set(carried));
    expect(sheetNumbers("gate", plan, "a key")).toEqual([numberOf(text, { numberKey: "a key" }, "factory")]);
  });
});

test("a key that is printed wrong is noticed, by the number of its entry, without a code", () => {
  const { site, keypad, plan } = made(wharf + model + record);
  const last = plan.sessions.at(-1);
  if (!last) throw new Error("the plan has a session");
  const entries = last.entries.map(entry =>
    entry.operation.operation === "put code"
      ? { ...entry, groups: entry.groups.map(group => (group.is === "code" ? { ...group, text: `${group.text}0` } : group)) }
      : entry,
  );
  const wrong = entries.find(entry => entry.operation.operation === "put code");
  const tampered: Plan = { ...plan, sessions: [...plan.sessions.slice(0, -1), { ...last, entries }] };
  const prove = () => sheetOf(site, keypad, tampered, { hideCodes: false, showInstaller: false, today: "2026-11-25" });
  expect(prove).toThrow(BrokenInvariant);
  expect(prove).toThrow(new RegExp(`entry ${wrong?.n}$`));
  expect(prove).not.toThrow(/\d{4,}/);
});

describe("labels of the text, to the sheet and back", () => {
  const hostile = [
    "=HYPERLINK(1)",
    "a | b `c` <script>x</script> # *d*",
    "\u202eevil\u202c",
    "\u200b",
    "x".repeat(10_000),
    "🚪 Θύρα בית",
    "]",
    "slot 01  keys  7",
  ];
  test.each(hostile.map(words => [words.slice(0, 20), words]))("%s", (_, words) => {
    const text = (wharf + model)
      .replaceAll('"Unit 1"', `"${words}"`)
      .replace('"blue fob"', `"${words}"`)
      .replace("8061261", "")
      .replaceAll("Foot gate", words);
    const { plan, sheet } = made(text, "factory", { showInstaller: true });
    expect(sheet.proof).toEqual({ reachesTarget: true, safeAtEveryEntry: true });
    expect(plan.tags).toContain(`"${words}"`);
    for (const format of formats) expect(format.render([sheet]), format.name).not.toMatch(/[\u202a-\u202e\u200b]/);
    const entries = sheet.sessions.flatMap(session => session.entries).length;
    expect(fromMarkdown(md.render([sheet])).flat()).toHaveLength(entries + 4);
    expect(fromCsv(csv.render([sheet])).flat()).toHaveLength(entries + 4);
  });
});

test("an entry that waits longer than the keypad listens says so", () => {
  const slow = model.replace("[present tag] OK   shows", "[wait 40s] [present tag] OK   shows");
  const { sheet } = made(wharf + slow + record);
  const tagged = sheet.sessions.flatMap(({ entries }) => entries).find(({ operation }) => operation === "put tag");
  expect(tagged?.lapse).toBe(
    "Takes 42 s between two keys, longer than the 30 s after which programming mode ends: the model may be wrong.",
  );
  expect(txt.render([sheet]).replace(/\s+/g, " ")).toContain(tagged?.lapse);
});

test("nothing to type is a sheet that says so", () => {
  const { sheet } = made(
    `${wharf.replace("installer code firm.gate", "")}${model}`.replace(
      /keypad gate[\s\S]*?\n {2}\}/,
      'keypad gate "Lane gate" : dunlin { relay 1 "Foot gate" no codes relay 2 "Vehicle gate" no codes }',
    ),
  );
  expect(sheet.sessions).toEqual([]);
  expect(txt.render([sheet])).toContain("Nothing to type");
});

test("the JSON has the stable shape", () => {
  for (const from of ["fitted", "factory", "reset"] as const) {
    const { sheet } = made(wharf + model + record, from);
    const parsed = JSON.parse(json.render([sheet]));
    const keys = expect.toSatisfy(value => Array.isArray(value) && value.every(group => typeof group === "string" && group !== ""));
    expect(parsed.site).toBe("Tannery Wharf");
    for (const keypad of parsed.keypads) {
      expect(keypad).toMatchObject({
        keypad: "gate",
        label: "Lane gate",
        model: "dunlin",
        from: from === "fitted" ? "2026-11-20" : from,
        counts: { entries: expect.any(Number), keys: expect.any(Number) },
        seconds: expect.any(Number),
        proof: { reachesTarget: true, safeAtEveryEntry: true },
      });
      let n = 0;
      for (const session of keypad.sessions) {
        expect(session).toMatchObject({ enter: keys, leave: keys });
        for (const entry of session.entries) {
          n += 1;
          expect(entry).toMatchObject({
            n,
            operation: expect.any(String),
            keys,
            text: expect.any(String),
            repeatable: expect.any(Boolean),
            skippable: expect.any(Boolean),
          });
          for (const optional of ["relay", "slot", "holder", "credential", "shows"])
            expect(["string", "undefined"]).toContain(typeof entry[optional]);
        }
      }
      expect(keypad.counts.entries).toBe(n);
      for (const one of keypad.tries) expect(one).toMatchObject({ text: expect.any(String), keys, opens: expect.any(Array) });
      expect(JSON.stringify(keypad)).not.toContain("null");
    }
  }
});

test.each(["7K3-Q90", "7k3q9o", " 7K3 Q9O", "7K3-Q9O"])("a number is read as it was copied: %s", written => {
  expect(readNumber(written)).toBe("7K3-Q90");
});
