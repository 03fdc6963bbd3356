/** After a slip the rest of the file is understood, and each slip is told once, at its place, in words of the language. */
import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse.ts";

/** Each problem as `what stands there | message`, in order; a missing piece stands behind the `»`. */
function problemsIn(text: string): string[] {
  return parse(text).problems.map(({ start, end, message }) => {
    const place = start === end ? `${text.slice(text.lastIndexOf("\n", start - 1) + 1, start).trim()}»` : text.slice(start, end);
    return `${place} | ${message}`;
  });
}

/** Kinds of the declarations, with the kinds of their facts. */
function outlineOf(text: string): string {
  return parse(text)
    .tree.declarations.map(declaration => {
      if (!("facts" in declaration)) return declaration.kind;
      const facts = declaration.facts.map(fact => ("entries" in fact ? `${fact.kind} with ${fact.entries.length}` : fact.kind));
      return facts.length === 0 ? declaration.kind : `${declaration.kind}: ${facts.join(", ")}`;
    })
    .join("; ");
}

describe("what is missing is reported at the end of what is before it", () => {
  const cases: [string, string[]][] = [
    ['keypad g "x" : m {\n relay 1 {\n  05\n }\n}', ["05» | expected a holder after slot 05, found `}`"]],
    ['keypad g "x" : m {\n relay 1 {\n  05\n  06 u6\n }\n}', ["05» | expected a holder after slot 05, found a number"]],
    ['keypad g "x" : m {\n relay 1 {\n  48291\n }\n}', ["48291» | expected a holder after the slot's number, found `}`"]],
    [
      'keypad g "x" : m {\n relay 1 {\n  01 u1.\n  02 u2\n }\n}',
      ["01 u1.» | expected the name of a code or tag after `.`, found a number"],
    ],
    ['keypad g "x" : m {\n relay 1 {\n  01 u1 or\n  02 u2\n }\n}', ["01 u1 or» | expected a holder after `or`, found a number"]],
    ['holder u1 "A" code\nholder u2 "B"', ['holder u1 "A" code» | expected the digits of a code after `code`, found `holder`']],
    [
      'holder u1 "A" tag\n',
      ['holder u1 "A" tag» | expected a tag\'s number, or its mark in quotes after `tag`, found the end of the file'],
    ],
    ['holder\nholder u2 "B"', ["holder» | expected the holder's name after `holder`, found `holder`"]],
    [
      "use\nsite",
      [
        "use» | expected the path of a file in quotes after `use`, found `site`",
        "site» | expected the site's name in quotes after `site`, found the end of the file",
      ],
    ],
    ['keypad g "x" {\n}', ['keypad g "x"» | expected `:` and a model after the text, found `{`']],
    ['keypad g "x" : m\n installer code 1\n}', ['keypad g "x" : m» | expected `{` after `m`, found `installer`']],
    ['keypad g "x" : m {\n relay 1 release 5\n}', ["relay 1 release 5» | expected `s` for seconds after the number, found `}`"]],
    [
      "fitted g 2026-01-01 {\n relay 1 {\n  02 code\n  03 unknown\n }\n}",
      ["02 code» | expected the digits of a code after `code`, found a number"],
    ],
    [
      'model m "x" {\n enter ok\n}',
      ["enter» | expected keys (digits, `*`, `#`, a word in capitals, a field in `{…}`, an action in `[…]`) after `enter`, found `ok`"],
    ],
    ['model m "x" {\n twins maybe\n}', ["twins» | expected `refused`, `first fires` or `all fire` after `twins`, found `maybe`"]],
    ['model m "x" {\n put code 7 {slot OK\n}', ["put code 7 {slot» | expected `}` to end the field after `slot`, found `OK`"]],
  ];
  for (const [text, problems] of cases) it(problems[0]?.split(" | ")[1] ?? "", () => expect(problemsIn(text)).toEqual(problems));
});

describe("what does not belong is reported where it stands, and skipped", () => {
  it("an unknown fact, with the word that was meant", () => {
    expect(problemsIn('holder u1 "A"\n  cod 12345\n  tag 1')).toEqual([
      "cod 12345 | expected a code, a tag, `until` or a note, found `cod`; did you mean `code`?",
    ]);
    expect(outlineOf('holder u1 "A"\n  cod 12345\n  tag 1')).toBe("holder: tag");
  });

  it("an unknown declaration, with the facts set in below it", () => {
    const text = 'hodler u1 "A"\n  code 12345\n  tag 1\nholder u2 "B"';
    expect(parse(text).problems.map(problem => problem.message)).toEqual([
      "expected a declaration (`site`, `holder`, `keypad`, `model`, `use`, `policy`, `fitted`, `door` or `supply`), found `hodler`; did you mean `holder`?",
    ]);
    expect(outlineOf(text)).toBe("holder");
  });

  it("an unknown block, as a whole", () => {
    const text = 'keypad g "x" : m {\n  relai 1 "Foot gate" {\n    01 u1\n  }\n  relay 2 spare\n}';
    expect(parse(text).problems).toHaveLength(1);
    expect(outlineOf(text)).toBe("keypad: relay with 0");
  });

  it("a stray brace inside a block and behind one", () => {
    expect(outlineOf('keypad g "x" : m {\n  relay 1 {\n    01 u1\n  } }\n  relay 2 spare\n}\nholder u1 "A"')).toBe(
      "keypad: relay with 1, relay with 0; holder",
    );
    expect(problemsIn("}")).toHaveLength(1);
  });

  it("a word in small letters among keys", () => {
    expect(outlineOf('model m "x" {\n  put code 7 relay} {slot} OK\n  put tag 8 {slot} OK\n}\nholder u1 "A"')).toBe(
      "model: operation, operation; holder",
    );
  });
});

it("a block on one line ends at its own brace where nothing is set in", () => {
  const text = 'model m "x" {\nrelays 1 = 1\nenter * {installer} #\nfactory { installer code 2468 }\n}\nholder u1 "A"\n';
  expect(parse(text).problems).toEqual([]);
  expect(parse(text.replaceAll("\n", " ")).problems).toEqual([]);
});

describe("a block that lost its first line is one slip", () => {
  it("a relay with numbered entries", () => {
    const text = 'keypad g "x" : m {\n    01 u1\n    02 u2\n  }\n  relay 2 spare\n}\nholder u1 "A"';
    expect(parse(text).problems.map(problem => problem.start)).toEqual([text.indexOf("01")]);
    expect(outlineOf(text)).toBe("keypad: relay with 0; holder");
  });

  it("a relay with unnumbered entries", () => {
    const text = 'keypad g "x" : m {\n    u1\n    u2.tag\n  }\n  relay 2 spare\n}\nholder u1 "A"';
    expect(parse(text).problems.map(problem => problem.start)).toEqual([text.indexOf("u1")]);
    expect(outlineOf(text)).toBe("keypad: relay with 0; holder");
  });

  it("a relay of a record", () => {
    const text = "fitted g 2026-01-01 {\n  model m\n    code 1\n    tag 5\n    unknown\n  }\n  relay 2 {\n    code 9\n  }\n}";
    expect(parse(text).problems.map(problem => problem.start)).toEqual([text.indexOf("code 1")]);
    expect(outlineOf(text)).toBe("fitted: model-ref, fitted-relay with 1");
  });

  it("but facts that nobody knows are a slip each", () => {
    expect(parse('keypad g "x" : m {\n  relai 1 spare\n  settin "k" 1\n  relay 2 spare\n}').problems).toHaveLength(2);
  });
});

describe("an end that is missing", () => {
  it("of a relay, where the next one begins", () => {
    const text = 'keypad g "x" : m {\n  relay 1 {\n    01 u1\n  relay 2 spare\n}\nholder u1 "A"';
    expect(problemsIn(text)).toEqual(["01 u1» | expected `}` to end the relay after `u1`, found `relay`"]);
    expect(outlineOf(text)).toBe("keypad: relay with 1, relay with 0; holder");
  });

  it("of a keypad, where the next declaration begins", () => {
    const text = 'keypad g "x" : m {\n  relay 1 {\n    01 u1\n  }\nholder u1 "A"';
    expect(problemsIn(text)).toEqual(["}» | expected `}` to end the keypad after `}`, found `holder`"]);
    expect(outlineOf(text)).toBe("keypad: relay with 1; holder");
  });

  it("of a record, where a model is declared", () => {
    expect(outlineOf('fitted g 2026-01-01 {\n  model m\nmodel m "x" {\n}')).toBe("fitted: model-ref; model");
  });

  it("of a text, at the end of its line", () => {
    expect(problemsIn('holder u1 "Unit 1\n  code 12345')).toEqual([
      'holder u1 "Unit 1» | expected `"` at the end of the text, found the end of the line',
    ]);
    expect(outlineOf('holder u1 "Unit 1\n  code 12345')).toBe("holder: code");
  });
});

describe("a half-typed line never takes the next one", () => {
  it("a beginning word that is first on its line is no name", () => {
    expect(outlineOf('keypad g "x" : m {\n relay 1 {\n  05\n  code\n }\n}')).toContain("relay with 1");
    expect(problemsIn('keypad g "x" : m {\n relay 1 {\n  tag.code\n }\n}')).toEqual([]);
    expect(problemsIn('holder tag "x"\nkeypad g "x" : m {\n relay 1 { 01 code 02 note.tag or until }\n}')).toEqual([]);
  });

  it("the first word of a model's next fact is no name of the model", () => {
    expect(outlineOf("model\n  keys 0..9\n}")).toBe("model: keys");
  });

  it("a field keeps to its line", () => {
    expect(outlineOf('model m "x" {\n  put code 7 {\n  put tag 8 {slot} OK\n}')).toBe("model: operation, operation");
  });
});

describe("a fact that is said twice", () => {
  const cases: [string, string][] = [
    ['site "x" {\n address "a"\n address "b"\n}', "expected `address` once, found it a second time"],
    ['site "x"\nsite "y"', "expected `site` once, found it a second time"],
    ['keypad g "x" : m {\n installer code a\n installer code b\n}', "expected the installer code once, found it a second time"],
    ['keypad g "x" : m {\n setting "k" 1\n setting "k" 2\n}', "expected a setting of one name once, found it a second time"],
    [
      'keypad g "x" : m {\n all-relay 990 code a\n all-relay 990 code b\n}',
      "expected the all-relay code of one number once, found it a second time",
    ],
    ['keypad g "x" : m {\n relay 1 release 5s release 6s\n}', "expected `release` once, found it a second time"],
    ['holder u1 "A"\n code 1\n until 2027-01-01\n until 2027-01-02', "expected `until` once, found it a second time"],
    ['model m "x" {\n codes 4 digits\n codes 5 digits\n}', "expected `codes` once, found it a second time"],
    ['model m "x" {\n leave OK\n leave C\n}', "expected `leave` once, found it a second time"],
    ["policy {\n weak codes warn\n weak codes refuse\n}", "expected `weak codes` once, found it a second time"],
    ['door "x" {\n exit bar\n exit lever\n}', "expected `exit` once, found it a second time"],
    ['door "x" {\n lock strike 12 V resistive resistive\n}', "expected `resistive` once, found it a second time"],
    [
      'door "x" {\n lock strike magnet\n}',
      "expected one of `strike`, `magnet`, `bolt`, `motor lock` or `start contact`, found a second one",
    ],
    ['door "x" {\n route none fire door\n}', "expected one of `escape`, `fire door` or `none`, found a second one"],
    ['supply s "x" 12 V AC 3 A DC {\n}', "expected one of `AC` or `DC`, found a second one"],
  ];
  for (const [text, message] of cases) {
    it(message, () => {
      const { problems } = parse(text);
      expect(problems.map(problem => problem.message)).toEqual([message]);
      const [problem] = problems;
      expect(problem?.related?.[0]?.start).toBeLessThan(problem?.start ?? 0);
    });
  }

  it("but settings with other labels, notes, resets, codes, tags and relays may be many", () => {
    expect(
      problemsIn(`holder u1 "A" code 1 code b 2 tag 3 tag d 4 note "x" note "y"
keypad g "x" : m { setting "k" 1 setting "l" 1 note "x" note "y" relay 1 spare relay 2 spare all-relay 1 code a all-relay 2 code b }
model m "x" { reset wipes everything "x" reset installer code "y" setting "k" 0..1 1 {value} setting "l" 0..1 2 {value} note "x" note "y" }`),
    ).toEqual([]);
  });
});

describe("five slips in one file", () => {
  it("are five problems, each at its place, and everything else is understood", () => {
    const text = `use models/dunlin-3.mullion
site "Tannery Wharf"
holder u1 "Unit 1" cod 48291
holder u2 "Unit 2" code 55910
keypad gate "Lane gate" dunlin-3 {
  installer code u2
  relay 1 "Foot gate" release 5 {
    01 u1
    02
    03 u2
  }
}
`;
    expect(problemsIn(text)).toEqual([
      "use» | expected the path of a file in quotes after `use`, found `models`",
      "cod 48291 | expected a code, a tag, `until` or a note, found `cod`; did you mean `code`?",
      'keypad gate "Lane gate"» | expected `:` and a model after the text, found `dunlin-3`',
      'relay 1 "Foot gate" release 5» | expected `s` for seconds after the number, found `{`',
      "02» | expected a holder after slot 02, found a number",
    ]);
    expect(outlineOf(text)).toBe("use; site; holder; holder: code; keypad: installer, relay with 3");
  });
});

describe("no message ever holds digits that could be a code", () => {
  it("whatever stands where", () => {
    const digits = "73046";
    for (const text of [
      `${digits}`,
      `holder ${digits} "A"`,
      `holder u1 "A" code ${digits}x`,
      `holder u1 "A" code x${digits} ${digits} ${digits}`,
      `holder u1 "${digits}" "${digits}"`,
      `keypad g "x" : m { relay 1 { ${digits} } }`,
      `keypad g "x" : m { all-relay ${digits} code a all-relay ${digits} code b }`,
      `fitted g 2026-01-01 { relay 1 { 01 code ${digits} or code ${digits} } installer ${digits} }`,
      `model m "x" { enter x${digits} put ${digits} }`,
      `keypad g "x" : m { relay 1 { 01 u${digits}. 02 u${digits} or } }`,
    ]) {
      const { problems } = parse(text);
      expect(problems).not.toEqual([]);
      expect(JSON.stringify(problems.map(({ message, related }) => [message, related?.map(place => place.message)]))).not.toContain(digits);
    }
  });
});
