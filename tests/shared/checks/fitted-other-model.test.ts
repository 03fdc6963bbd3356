import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";

const site = (model: string) => mullion`
  model heron "One relay" {
    slots 1..3 per relay
    codes 4 digits
    enter * {installer} #
    leave * *
    put code 1 {slot} {code} #
    clear slot 3 {slot} #
    set installer 4 {code} {code} #
    open code {code}
    factory { installer code 9753 }
  }
  model egret "Another" {
    slots 1..3 per relay
    codes 4 digits
    enter # {installer} #
    leave * *
    put code 1 {slot} {code} #
    clear slot 3 {slot} #
    set installer 4 {code} {code} #
    open code {code}
    factory { installer code 9753 }
  }
  keypad gate "Gate" : ${model} {
    installer code 6044
    relay 1 spare
  }
  fitted gate 2026-11-20 {
    model heron
    installer code 6044
  }
`;

test("it stands at both ends, each with the way to the other, and holds back that keypad alone", () => {
  const marked = site("egret")
    .replace(/( *)(keypad gate .*)/, "$1$2\n$1                   //^^^^^ fitted-other-model")
    .replace(/( *)( {2}model heron\n)/, "$1$2$1      //^^^^^ fitted-other-model\n");
  const found = checkFindings(marked);
  expect(found.map(({ keypads, related }) => [keypads, related.map(({ message }) => message)])).toEqual([
    [["gate"], ["its record is of a heron"]],
    [["gate"], ["the text names egret"]],
  ]);
});

test("a keypad of which nothing is known is of any model", () => {
  checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted gate unknown
  `);
});

test("the text may take the model of the record", () => {
  checkFix(site("egret"), "fitted-other-model", "The keypad is a heron", site("heron"));
});
