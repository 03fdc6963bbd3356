import { expect, test } from "vitest";
import { checkFix, fixesIn } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";

const messages = (text: string) => checkFindings(text).map(({ message }) => message);

test("units as a person writes them", () => {
  checkFindings(mullion`
    model wader "One relay" {
      relays 1 = 1
      slots 1..3 per relay
      codes 4 digits
      draws 0.06 A
      contact 2A 30V
      enter * {installer} #
      put code 1 {slot} {code} #
      clear slot 3 {slot} #
      set installer 4 {code} {code} #
      open code {code}
      factory { installer code 9753 }
    }
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : wader {
      installer code 6044
      relay 1 "Foot gate" { 1 u1 }
    }
    door "Foot gate" {
      lock strike 12V 0.35 A 500mA inrush fail-secure DC within 15%
      cable 28m 0.75mm² class 5 at -5 °C
    }
    supply cupboard "Riser cupboard" 13.8V DC 3000 mA {
      battery 12 V 7Ah for 4h down to 10.8V
    }
  `);
  checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Foot gate" { 1 u1 }
    }
    door "Foot gate" {
      lock bolt 24 V AC 350 mA fail-safe resistive
      cable 28.5 m 22 AWG at 40C
    }
  `);
});

test("a unit that is missing, unknown, or another's", () => {
  expect(
    messages(mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" { 1 u1 }
      }
      door "Foot gate" {
        lock strike 12 volts 350 fail-secure within 15
                  //^^^^^^^^ door-unit
                           //^^^ door-unit
                                                  //^^ door-unit
        cable 28 ft 0.75 V
            //^^^^^ door-unit
                  //^^^^^^ door-unit
        exit 3 s lever
           //^^^ door-unit
      }
      supply cupboard "Riser cupboard" 13.8vdc 3 Ah {
                                     //^^^^^^^ door-unit
                                             //^^^^ door-unit
        battery 12 V 7 A for 4 V
                   //^^^ door-unit
                           //^^^ door-unit
      }
    `),
  ).toEqual([
    "volts is no unit here: V, A, mA or %; did you mean V?",
    "350 has no unit: V, A, mA or %",
    "15 has no unit: V, A, mA or %",
    "ft is no unit here: m, mm2, AWG or C; did you mean 8.53 m?",
    "0.75 V does not belong here: the unit is m, mm2, AWG or C",
    "`exit` takes no number",
    "vdc is no unit here: V, A or mA; did you mean V DC?",
    "3 Ah does not belong here: the unit is V, A or mA",
    "7 A does not belong here: the unit is V or Ah",
    "4 V does not belong here: the unit is h",
  ]);
});

test("a number that is said twice, is nothing, or is out of range; a fact that lacks one", () => {
  expect(
    messages(mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" { 1 u1 }
      }
      keypad yard "Yard" : tiny {
        installer code 6045
        relay 1 "Yard" { 1 u1 }
      }
      door "Foot gate" {
        lock strike 12 V 24 V 0 mA 0,35 A
                       //^^^^ door-unit
                            //^^^^ door-unit
                                 //^^^^^^ door-unit
        cable 28 m 0.6 mm2 class 3 at 400 C
                 //^^^^^^^ door-unit
                               //^ door-unit
                                    //^^^^^ door-unit
      }
      door "Yard" {
        lock bolt 12 V 1.5 A 350 mA inrush
                           //^^^^^^ door-unit
        cable 28 m
      //^^^^^^^^^^ door-unit
      }
      supply cupboard "Riser cupboard" 13.8 V {
    //^^^^^^ door-unit
        battery 12 V for 4 h down to 13 V
      //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ door-unit
      }
    `),
  ).toEqual([
    "24 V is a second voltage; the first one counts",
    "0 mA is not more than nought",
    "0,35 is written with a point instead of the comma",
    "0.6 mm2 is no cross-section: 0.5, 0.75, 1, 1.5, 2.5 mm², the table of IEC 60228, or an AWG",
    "3 is no class: 1, 2 or 5",
    "400 C is no temperature: -50 to 150 °C",
    "350 mA is no inrush current: it is not less than the lock's current, and stands before `inrush`",
    "the cable lacks its cross-section, like `0.75 mm2` or `22 AWG`",
    "the supply lacks its current, like `3 A`",
    "the battery lacks its capacity, like `7 Ah`",
  ]);
});

test("gauges are whole numbers from 0 to 40; a battery ends below its own volts", () => {
  expect(
    messages(mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" { 1 u1 }
      }
      door "Foot gate" {
        cable 28 m 41 AWG
                 //^^^^^^ door-unit
      }
      supply cupboard "Riser cupboard" 13.8 V 2 A {
        battery 12 V 7 Ah down to 12 V
                                //^^^^ door-unit
      }
    `),
  ).toEqual(["41 AWG is no gauge: a whole number from 0 to 40", "12 V is no voltage at the end: less than the battery's 12 V"]);
});

test("what a model draws and its contacts stand", () => {
  expect(
    messages(mullion`
      model wader "One relay" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        draws 60
            //^^ door-unit
        contact 30 V 2 A
              //^^^^ door-unit
                   //^^^ door-unit
        enter * {installer} #
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        open code {code}
        factory { installer code 9753 }
      }
    `),
  ).toEqual(["60 has no unit: A or mA", "30 V does not belong here: the unit is A or mA", "2 A does not belong here: the unit is V"]);
});

test("the unit that was meant, and the point, are put in", () => {
  const text = (lock: string) => mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Foot gate" { 1 u1 }
    }
    door "Foot gate" {
      ${lock}
    }
  `;
  checkFix(text("lock strike 12volts 350 mA"), "door-unit", "Change to V", text("lock strike 12 V 350 mA"));
  checkFix(text("lock strike 12VDC 350 mA"), "door-unit", "Change to V DC", text("lock strike 12 V DC 350 mA"));
  checkFix(text("cable 100ft 22 AWG"), "door-unit", "Change to 30.48 m", text("cable 30.48 m 22 AWG"));
  checkFix(text("lock strike 12 V 0,35 A"), "door-unit", "Change to 0.35", text("lock strike 12 V 0.35 A"));
});

test("a comma before three digits may be for thousands: nothing is put in", () => {
  const fixes = fixesIn(
    mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" { 1 u1 }
      }
      door "Foot gate" { lock strike 12 V 1,200 mA }
    `,
    "door-unit",
  );
  expect(fixes.map(({ fix }) => fix.title)).toEqual([]);
});
