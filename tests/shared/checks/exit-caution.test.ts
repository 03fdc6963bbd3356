import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

const stair = mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Stair" { 1 u1 }
  }
`;
const decides = "; local code, the maker's instructions and a competent person decide";
const texts = (text: string) => checkFindings(text).map(({ message }) => message.replace(decides, " …"));

test("an escape route that nothing on its inside opens", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock strike 12 V 350 mA fail-secure
      exit none
    //^^^^^^^^^ exit-caution
      route escape
    }
  `;
  expect(texts(text)).toEqual(["Stair is on an escape route and nothing on its inside opens it …"]);
});

test("an escape route that a bolt holds", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock bolt 12 V 350 mA fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ exit-caution
      exit bar
      route escape
    }
  `;
  expect(texts(text)).toEqual([
    "Stair is on an escape route and a bolt holds it whatever lever or bar is on it: leaving depends on its power …",
  ]);
});

test("a fire door that no longer latches", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock strike 12 V 350 mA fail-safe
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ exit-caution
      exit lever
      route fire door
    }
  `;
  expect(texts(text)).toEqual([
    "Stair is a fire door with a fail-safe strike: when the power fails it no longer latches, and a fire door has to …",
  ]);
});

test("something that moves beside whoever starts it", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock start contact stays
      near people
    //^^^^^^^^^^^ exit-caution
    }
  `;
  expect(texts(text)).toEqual(["the relay of Stair starts something that moves within reach of whoever stands at the keypad …"]);
});

test("a magnet that nothing lets go in a fire", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock magnet 12 V 500 mA
    //^^^^^^^^^^^^^^^^^^^^^^^ exit-caution
    }
  `;
  expect(texts(text)).toEqual(["the magnet of Stair holds on in a fire: nothing is said to cut its power (`release on alarm`) …"]);
});

test("a magnet that is called fail-secure", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock magnet 12 V 500 mA fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ exit-caution
      release on alarm
    }
  `;
  expect(texts(text)).toEqual(["Stair has a magnet that is called fail-secure: without power a magnet holds nothing …"]);
});

test("a magnet that is said to stay", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock magnet 12 V 500 mA stays
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ exit-caution
      release on alarm
    }
  `;
  expect(texts(text)).toEqual(["Stair has a magnet that is called one that stays as it is: without power a magnet holds nothing …"]);
});

test("a battery that keeps a fail-safe lock held", () => {
  const text = mullion`
    ${stair}
    door "Stair" {
      lock strike 12 V 350 mA fail-safe within 20 %
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ exit-caution
    }
    supply cupboard "Riser cupboard" 13.8 V 2 A {
      battery 12 V 7 Ah
      feeds "Stair"
    }
  `;
  expect(texts(text)).toEqual(["Stair has a fail-safe lock, and the battery of Riser cupboard keeps it held when the mains fails …"]);
});

test("who has looked and means it says so; a lever on an escape route draws the latch of a strike", () => {
  checkFindings(mullion`
    ${stair}
    door "Stair" {
      // allow exit-caution: the fire officer has seen it, the sign is up
      lock magnet 12 V 500 mA fail-safe
    }
  `);
  checkFindings(mullion`
    ${stair}
    door "Stair" {
      lock strike 12 V 350 mA fail-secure
      exit lever
      route escape
    }
  `);
});
