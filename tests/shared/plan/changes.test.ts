import { describe, expect, test } from "vitest";
import type { Memory } from "../../../shared/keypad/memory.ts";
import { entriesOf, modelOf, planOf, tryPlan } from "./keypads.ts";

/** Two relays and a set, an all-relay code, lengths that follow the installer code; the rules are each test's. */
const model = (rules: string, without: readonly string[] = [], slots = "slots 1..9 per relay") =>
  modelOf(
    [
      "relays 1 = 1, 2 = 2, 1+2 = 3",
      slots,
      "codes 4 | 5 digits",
      "length follows installer code",
      rules,
      "release 1s..9s, toggle = 0",
      'setting "key light" 0..2 factory 1 81 {value} OK',
      "keys 0..9 B OK",
      "enter OK {installer} OK",
      ...[
        "leave OK OK",
        "put code 7 {relay} {slot} {code} OK",
        "put tag 8 {relay} {slot} [present tag] OK",
        slots.includes("per relay") ? "clear slot 9 {relay} {slot} OK" : "clear slot 9 {slot} OK",
        "set installer 31 {code} {code} OK",
        "set all-relay 32 {code} OK",
        "clear all-relay 33 OK",
        "set release 6 {relay} {seconds} OK",
        "clear all 70 OK",
      ].filter(line => !without.some(name => line.startsWith(name))),
      "open code {code}",
      "open all-relay {relay} B {code}",
      "open tag [present tag]",
      "factory { installer code 9753 }",
    ].join("\n"),
  );

const plain = model("rewrite replaces twins refused relength clears");
const typed = (...[one, before, wanted, options]: Parameters<typeof planOf>) => entriesOf(planOf(one, before, wanted, options)).split("\n");

describe("codes that move under twins refused", () => {
  test("a ring through the all-relay code costs one extra clear", () => {
    expect(
      typed(
        plain,
        "installer code 9753 all-relay code 1111 relay 1 { 1 code 2222 2 code 3333 }",
        "installer code 9753 all-relay code 2222 relay 1 { 1 code 3333 2 code 1111 }",
      ),
    ).toEqual([
      "1 clear all-relay (breaks a cycle)",
      "2 put code 1/2 1111 after 1",
      "3 put code 1/1 3333 after 2",
      "4 set all-relay 2222 after 1,3",
    ]);
  });

  test("two rings cost two", () => {
    const swapped = planOf(
      plain,
      "installer code 9753 relay 1 { 1 code 1111 2 code 2222 3 code 3333 4 code 4444 }",
      "installer code 9753 relay 1 { 1 code 2222 2 code 1111 3 code 4444 4 code 3333 }",
    );
    expect(swapped.counts.entries).toBe(6);
  });

  test("under rewrite refused everything is cleared first, and a ring costs nothing more", () => {
    const refused = model("rewrite refused twins refused");
    expect(
      planOf(refused, "installer code 9753 relay 1 { 1 code 1111 2 code 2222 }", "installer code 9753 relay 1 { 1 code 2222 2 code 1111 }")
        .counts.entries,
    ).toBe(4);
  });
});

describe("what shuts comes before what opens", () => {
  test("leavers are cleared first, then the text's order", () => {
    expect(
      typed(
        plain,
        "installer code 9753 relay 1 { 5 code 5555 } relay 2 { 1 code 6666 }",
        "installer code 9753 relay 1 { 1 code 1111 2 code 2222 } relay 2 { 1 code 7777 }",
      ),
    ).toEqual(["1 clear slot 1/5 (no longer wanted)", "2 put code 2/1 7777", "3 put code 1/1 1111", "4 put code 1/2 2222"]);
  });

  test("a ring is broken where what must not open is shut soonest", () => {
    // 1111 must stop opening relay 1, 3333 relay 2: broken at 1/1 both are shut after two entries, at 2/1 after three.
    expect(
      typed(
        plain,
        "installer code 9753 relay 1 { 1 code 1111 2 code 2222 } relay 2 { 1 code 3333 }",
        "installer code 9753 relay 1 { 1 code 2222 2 code 3333 } relay 2 { 1 code 1111 }",
      )[0],
    ).toBe("1 clear slot 1/1 (breaks a cycle)");
  });
});

describe("the installer code", () => {
  test("changes first, in a session of its own, entered with the old one and left", () => {
    const plan = planOf(plain, "installer code 9753 relay 1 { 1 code 1111 }", "installer code 8642 relay 1 { 1 code 2222 }");
    expect(entriesOf(plan)).toBe("1 set installer 8642\n--\n2 put code 1/1 2222");
    expect(plan.sessions.map(({ enter, changesInstaller }) => [enter.map(({ text }) => text).join(" "), changesInstaller])).toEqual([
      ["OK 9753 OK", true],
      ["OK 8642 OK", false],
    ]);
    // What follows is entered with it; alone, it may be left for another day.
    expect(plan.sessions[0]?.entries[0]).toMatchObject({ skippable: false, repeatable: true, needs: [] });
    const alone = planOf(plain, "installer code 9753 relay 1 { 1 code 1111 }", "installer code 8642 relay 1 { 1 code 1111 }");
    expect(alone.sessions[0]?.entries[0]).toMatchObject({ skippable: true });
  });

  test("is typed when nothing blocks it any more: the code that did is cleared before, in another session", () => {
    const last = modelOf(`
      slots 1..9 per relay
      codes 2..4 digits
      length free
      rewrite replaces
      listens to the last keys
      enter OK {installer} OK
      leave OK OK
      put code 7 {slot} {code} OK
      clear slot 9 {slot} OK
      set installer 31 {code} OK
      open code {code}
      keys 0..9 OK
      factory { installer code 9753 }`);
    expect(typed(last, "installer code 9753 relay 1 { 1 code 642 2 code 555 }", "installer code 8642 relay 1 { 2 code 777 }")).toEqual([
      "1 clear slot /1 (installer blocked)",
      "--",
      "2 set installer 8642 after 1",
      "--",
      "3 put code /2 777",
    ]);
  });

  test("of another length takes the codes with it: everything is typed again", () => {
    expect(
      typed(
        plain,
        "installer code 9753 relay 1 { 1 code 1111 2 tag 77 3 code 3333 }",
        "installer code 86420 relay 1 { 1 code 11111 2 tag 77 }",
      ),
    ).toEqual(["1 set installer 86420", "--", "2 put code 1/1 11111 (length changed) after 1"]);
  });

  test("of another length where codes are kept: the old ones sleep, and are cleared or written over", () => {
    const keeps = model("rewrite replaces twins refused relength keeps what was stored");
    expect(
      typed(keeps, "installer code 9753 relay 1 { 1 code 1111 3 code 3333 }", "installer code 86420 relay 1 { 1 code 11111 }"),
    ).toEqual(["1 set installer 86420", "--", "2 clear slot 1/3 (no longer wanted)", "3 put code 1/1 11111 after 1"]);
  });

  test("of a length that wakes what sleeps: that is cleared before", () => {
    const keeps = model("rewrite replaces twins refused relength keeps what was stored");
    expect(typed(keeps, "installer code 9753 relay 1 { 1 code 11111 }", "installer code 86420")).toEqual([
      "1 clear slot 1/1 (no longer wanted)",
      "--",
      "2 set installer 86420 after 1",
    ]);
  });
  test("of a length that wakes an all-relay code: that is cleared before", () => {
    const keeps = model("rewrite replaces twins refused relength keeps what was stored");
    expect(typed(keeps, "installer code 9753 all-relay code 11111", "installer code 86420")).toEqual([
      "1 clear all-relay (no longer wanted)",
      "--",
      "2 set installer 86420 after 1",
    ]);
    expect(typed(keeps, "installer code 9753 all-relay code 11111", "installer code 86420 all-relay code 22222")).toEqual([
      "1 clear all-relay (breaks a cycle)",
      "--",
      "2 set installer 86420 after 1",
      "--",
      "3 set all-relay 22222 after 1,2",
    ]);
  });
});

describe("settings, release times, all-relay codes", () => {
  test("what the text does not state is not touched; the toggle is typed as the model says", () => {
    const plan = planOf(
      plain,
      'installer code 9753 all-relay code 1111 setting "key light" 2 relay 1 release 5s relay 2 release 3s',
      'installer code 9753 setting "key light" 0 relay 2 release toggle',
    );
    expect(entriesOf(plan)).toBe("1 clear all-relay (no longer wanted)\n2 set setting key light 0\n3 set release 2 toggle");
    expect(plan.target.releases.get("1")).toBe(5);
    expect(plan.sessions[0]?.entries[2]?.groups.map(({ text }) => text)).toEqual(["6", "2", "0", "OK"]);
  });

  test("a set of relays is typed with its own keys", () => {
    const plan = planOf(plain, "installer code 9753", "installer code 9753 relay 1+2 { 5 code 1111 }");
    expect(plan.sessions[0]?.entries[0]?.groups.map(({ text }) => text)).toEqual(["7", "3", "5", "1111", "OK"]);
  });
});

describe("a slot that holds a code and a tag", () => {
  const either = model("rewrite replaces twins refused", [], "slots 1..9 shared holds code or tag");
  const both = modelOf(`
    slots 1..9 shared holds code with tag
    codes 4 digits
    rewrite replaces twins refused
    enter OK {installer} OK
    leave OK OK
    put code 7 {slot} {code} OK
    put tag 8 {slot} [present tag] OK
    clear slot 9 {slot} OK
    set installer 31 {code} OK
    open both {code} [present tag]
    keys 0..9 OK
    factory { installer code 9753 }`);

  test("one half changes without the other being typed", () => {
    expect(
      typed(either, "installer code 9753 relay 1 { 1 code 1111 or tag 77 }", "installer code 9753 relay 1 { 1 code 2222 or tag 77 }"),
    ).toEqual(["1 put code 1/1 2222"]);
  });

  test("where only the relay changes the code says so: no tag need be in the room", () => {
    expect(
      typed(either, "installer code 9753 relay 1 { 1 code 1111 or tag 77 }", "installer code 9753 relay 2 { 1 code 1111 or tag 77 }"),
    ).toEqual(["1 put code 2/1 1111"]);
  });

  test("a half that goes takes the other with it, which is written again", () => {
    const plan = planOf(either, "installer code 9753 relay 1 { 1 code 1111 or tag 77 }", "installer code 9753 relay 1 { 1 tag 77 }");
    expect(entriesOf(plan)).toBe("1 clear slot /1 (no longer wanted)\n2 put tag 1/1 77 after 1");
    expect(plan.tags).toEqual(["77"]);
  });

  test("where both are needed and both change, no mixed pair ever opens", () => {
    expect(
      typed(both, "installer code 9753 relay 1 { 1 code 1111 with tag 77 }", "installer code 9753 relay 1 { 1 code 2222 with tag 88 }"),
    ).toEqual(["1 clear slot /1 (no longer wanted)", "2 put code /1 2222 after 1", "3 put tag /1 88 after 1"]);
  });

  test("half a pair is completed after the pair that used to open has been cleared", () => {
    const twice = modelOf(`
      slots 1..9 shared holds code with tag
      codes 4 digits
      rewrite replaces twins all fire
      enter OK {installer} OK
      leave OK OK
      put code 7 {slot} {code} OK
      put tag 8 {slot} [present tag] OK
      clear slot 9 {slot} OK
      set installer 31 {code} OK
      open both {code} [present tag]
      keys 0..9 OK
      factory { installer code 9753 }`);
    const before = "installer code 9753 relay 1 { 1 code 1111 with tag 77 2 code 1111 }";
    expect(typed(twice, before, "installer code 9753 relay 1 { 2 code 2222 with tag 77 }")).toEqual([
      "1 clear slot /1 (no longer wanted)",
      "2 put code /2 2222",
      "3 put tag /2 77 after 2",
    ]);
  });

  test("two rings that share a slot are broken with one clear", () => {
    const plan = planOf(
      either,
      "installer code 9753 relay 1 { 1 code 1111 or tag 71 2 code 2222 3 tag 73 }",
      "installer code 9753 relay 1 { 1 code 2222 or tag 73 2 code 1111 3 tag 71 }",
    );
    expect(plan.counts.entries).toBe(5);
  });
});

describe("clear all", () => {
  const before = "installer code 9753 relay 1 { 1 code 1111 2 tag 77 3 code 3333 }";
  const wanted = "installer code 9753 relay 1 { 1 code 1111 2 tag 77 }";

  test("is typed when asked for, and everything again", () => {
    expect(typed(plain, before, wanted, { clearAll: true })).toEqual([
      "1 clear all",
      "2 put code 1/1 1111 after 1",
      "3 put tag 1/2 77 after 1",
    ]);
  });

  test("or when nothing else is possible", () => {
    expect(typed(plain, before, wanted)).toEqual(["1 clear slot 1/3 (no longer wanted)"]);
    expect(typed(model("rewrite replaces twins refused", ["clear slot"]), before, wanted)[0]).toBe("1 clear all");
  });

  test("but never so that a lost tag would have to be presented", () => {
    const bare = model("rewrite replaces twins refused", ["clear slot"]);
    expect(tryPlan(bare, before, wanted, { lost: new Set(["77"]) })).toMatchObject({
      cannot: expect.stringContaining("a lost tag cannot be presented"),
    });
    expect(typed(plain, before, wanted, { lost: new Set(["77"]) })).toEqual(["1 clear slot 1/3 (no longer wanted)"]);
  });

  test("that wipes everything is followed by a session with the factory's installer code", () => {
    const wiping = modelOf(`
      slots 1..9 per relay
      codes 4 digits
      rewrite replaces
      release 1s..9s
      enter OK {installer} OK
      leave OK OK
      put code 7 {slot} {code} OK
      set installer 31 {code} OK
      set release 6 {seconds} OK
      clear all 81 {installer} OK wipes everything
      open code {code}
      keys 0..9 OK
      factory { installer code 9753 relay 1 release 2s { 9 code 1234 } }`);
    const plan = planOf(
      wiping,
      "installer code 8642 relay 1 release 5s { 1 code 1111 2 code 2222 }",
      "installer code 8642 relay 1 { 1 code 1111 9 code 5555 }",
    );
    expect(entriesOf(plan)).toBe(
      "1 clear all\n--\n2 set installer 8642 after 1\n--\n3 put code /9 5555 after 1\n4 set release 1 5 after 1\n5 put code /1 1111 after 1".replace(
        "set release 1 5",
        "set release 1 5",
      ),
    );
    expect(plan.sessions.map(({ enter }) => enter[1]?.text)).toEqual(["8642", "9753", "8642"]);
  });
});

describe("without numbers", () => {
  const unnumbered = (twins: string) =>
    modelOf(`
      relays 1 = 1, 2 = 2
      slots 4 unnumbered
      codes 4 digits
      twins ${twins}
      session one entry
      enter OK {installer} OK
      put code 7 {relay} {code} OK
      put tag 8 {relay} [present tag] OK
      clear code 55 {code} OK
      clear tag 56 [present tag] OK
      set installer 31 {code} OK
      open code {code}
      open tag [present tag]
      keys 0..9 OK
      factory { installer code 9753 }`);

  test("a code is cleared by its digits, one entry for all places that hold it, and each entry is a session", () => {
    const plan = planOf(
      unnumbered("all fire"),
      "installer code 9753 relay 1 { code 1111 code 2222 } relay 2 { code 1111 }",
      "installer code 9753 relay 1 { code 2222 code 3333 }",
    );
    expect(entriesOf(plan)).toBe("1 clear code 1111 (no longer wanted)\n--\n2 put code 1 3333");
    expect(plan.sessions.every(({ leave }) => leave.length === 0)).toBe(true);
  });

  test("a full memory is cleared before it is written", () => {
    const full = "code 1111 code 2222 code 3333";
    expect(
      typed(
        unnumbered("all fire"),
        `installer code 9753 relay 1 { ${full} code 4444 }`,
        `installer code 9753 relay 1 { ${full} code 5555 }`,
      ),
    ).toEqual(["1 clear code 4444 (no longer wanted)", "--", "2 put code 1 5555 after 1"]);
  });

  test("a lost tag that only presenting could clear cannot be cleared", () => {
    expect(
      tryPlan(unnumbered("all fire"), "installer code 9753 relay 1 { tag 77 }", "installer code 9753", { lost: new Set(["77"]) }),
    ).toMatchObject({ cannot: "a place of relay 1: the model has no entry that clears a place" });
  });
});

test("a model whose entries cannot be told apart is no fault of the plan, and has none", () => {
  const ambiguous = modelOf(`
    slots 1..9 per relay
    codes 4 digits
    enter OK {installer} OK
    leave OK OK
    put code 7 {slot} {code} OK
    set installer 71 {code} OK
    open code {code}
    keys 0..9 OK
    factory { installer code 9753 }`);
  expect(tryPlan(ambiguous, "installer code 9753", "installer code 8642 relay 1 { 2 code 1111 }")).toMatchObject({
    cannot: expect.stringMatching(
      /the keys of "(put code|set installer)" and "(put code|set installer)" of model heron cannot be told apart/,
    ),
  });
});

test("a keypad that cannot be entered is reset by hand, where the model says how", () => {
  const resetting = modelOf(`
    slots 1..9 per relay
    codes 2..4 digits
    length free
    rewrite replaces
    listens to the last keys
    acts at once
    enter OK {installer} OK
    put code 7 {slot} {code} OK
    clear slot 9 {slot} OK
    set installer 31 {code} OK
    reset wipes everything "Bridge the pins"
    open code {code}
    keys 0..9 OK
    factory { installer code 9753 }`);
  const plan = planOf(resetting, "installer code 9753 relay 1 { 1 code 975 }", "installer code 9753 relay 1 { 1 code 1111 }");
  expect([plan.reset?.text, plan.start.from, entriesOf(plan)]).toEqual(["Bridge the pins", "reset", "1 put code /1 1111"]);
});

test("what is wanted but no keypad of the model could hold is refused in words without a code", () => {
  const wrong: readonly [Memory | string, RegExp][] = [
    ["installer code 9753 relay 1 { 1 code 1111 2 code 1111 }", /the same code or tag is wanted in two places/],
    ["installer code 9753 all-relay code 1111 relay 1 { 1 code 1111 }", /the same code or tag is wanted in two places/],
    ["installer code 9753 relay 1 { 1 code 11111 }", /a code of another length/],
  ];
  for (const [wanted, reason] of wrong) {
    const plan = tryPlan(plain, "installer code 9753", wanted);
    if (!("cannot" in plan)) throw new Error("there is a plan");
    expect(plan.cannot).toMatch(reason);
    expect(plan.cannot).not.toContain("1111");
  }
});

test("what is cleared to make way for its twin says so, and what is only cleared says that", () => {
  expect(typed(plain, "installer code 9753 relay 1 { 1 code 1111 2 code 2222 }", "installer code 9753 relay 1 { 3 code 1111 }")).toEqual([
    "1 clear slot 1/2 (no longer wanted)",
    "2 clear slot 1/1 (frees a twin)",
    "3 put code 1/3 1111 after 2",
  ]);
});
