/** A small site with two keypads, as text. */
export const model = `model tiny "One relay, three slots" {
  keys     0..9 OK C
  relays   1 = 1
  slots    1..3 per relay
  codes    4 digits
  rewrite  replaces
  twins    refused
  cancel   C

  enter           OK {installer} OK                   shows "lamp on"
  leave           OK OK                               shows "lamp off"
  put code        7 {relay} {slot} {code} OK          shows "one beep"
  clear slot      9 {relay} {slot} OK                 shows "one beep"
  set installer   31 {code} {code} OK                 shows "two beeps"

  open code       {code}

  factory {
    installer code 2468
  }
}
`;

export const people = `holder own "Our own codes" code gate 6044
holder u1 "Unit 1" code 4829
holder u2 "Unit 2" code 5590
`;

const keypad = (id: string) => `
keypad ${id} "Keypad ${id}" : tiny {
  installer code own.gate

  relay 1 "Door ${id}" {
    1 u1
    2 u2
  }
}
`;

export const site = `use "model.mullion"
use "people.mullion"

site "Reed Yard"
${keypad("k0")}${keypad("k1")}`;
