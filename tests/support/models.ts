/** Small keypad models for tests, each with one thing that `tiny` does not have. Their keys are made up. */
import { mullion } from "./fixture.ts";

/** Two relays, each with its own slots 01 to 60; tags; twins refused. */
export const two: string = mullion`
model two "Two relays" {
  relays 1 = 1, 2 = 2
  slots 01..60 per relay
  codes 4 digits
  rewrite replaces
  twins refused
  release 1s..99s, toggle = 00
  enter * {installer} #
  leave * *
  put code 1 {relay} {slot} {code} #
  put tag 2 {relay} {slot} [present tag] #
  clear slot 3 {relay} {slot} #
  set installer 4 {code} {code} #
  set all-relay 5 {code} #
  clear all-relay 6 #
  set release 7 {relay} {seconds:2} #
  open code {code}
  open all-relay {relay-number} # {code}
  open tag [present tag]
  factory { installer code 9753 }
}
`;

/** One memory for two relays and their set, ranges by kind, numbered all-relay codes, an installer code of its own length. */
export const shared: string = mullion`
model shared "Shared slots" {
  relays 1 = 1, 2 = 2, 1+2 = 3
  slots 001..099 codes, 100..199 tags shared, 990..993 all-relay
  codes 4 digits installer 6..8 digits
  rewrite replaces
  twins first fires
  tags 32 bits
  enter * {installer} #
  leave * *
  put code 1 {slot} {relay} {code} #
  put tag 2 {slot} {relay} [present tag] #
  clear slot 3 {slot} #
  set installer 4 {code} # {code} #
  set all-relay 5 {slot} {code} #
  clear all-relay 6 {slot} #
  open code {code} #
  open all-relay {relay-number} * {code} #
  open tag [present tag]
  factory { installer code 975310 }
}
`;

/** No numbers: the keypad finds its own place; all twins fire. */
export const loose: string = mullion`
model loose "Unnumbered slots" {
  relays 1 = 1, 2 = 2
  slots 60 unnumbered
  codes 5 digits
  twins all fire
  enter * {installer} #
  leave * *
  put code 1 {relay} {code} #
  put tag 2 {relay} [present tag] #
  clear code 3 {code} #
  clear tag 4 [present tag] #
  set installer 5 {code} {code} #
  open code {code}
  open tag [present tag]
  factory { installer code 97531 }
}
`;

/** One code for each relay; its length follows the installer code. */
export const fixed: string = mullion`
model fixed "One code for each relay" {
  relays 1 = 1, 2 = 2
  slots one per relay
  codes 4 | 6 digits
  length follows installer code
  rewrite replaces
  twins refused
  enter * {installer} #
  leave * *
  put code 1 {relay} {code} #
  clear slot 3 {relay} #
  set installer 4 {code} #
  open code {code}
  factory { installer code 9753 }
}
`;

/** One number may hold a code and a tag, and either opens. */
export const either: string = mullion`
model either "A code or a tag" {
  relays 1 = 1
  slots 01..20 per relay holds code or tag
  codes 4 digits
  rewrite replaces
  enter * {installer} #
  leave * *
  put code 1 {slot} {code} #
  put tag 2 {slot} [present tag] #
  clear slot 3 {slot} #
  set installer 4 {code} {code} #
  open code {code}
  open tag [present tag]
  factory { installer code 9753 }
}
`;

/** One number holds a code and a tag, and both are needed. */
export const both: string = mullion`
model both "A code with a tag" {
  relays 1 = 1
  slots 01..20 per relay holds code with tag
  codes 4 digits
  rewrite replaces
  enter * {installer} #
  leave * *
  put code 1 {slot} {code} #
  put tag 2 {slot} [present tag] #
  clear slot 3 {slot} #
  set installer 4 {code} {code} #
  open both {code} [present tag]
  factory { installer code 9753 }
}
`;

/** The code length is set by an entry; any run of keys that ends in a code opens; two settings. */
export const running: string = mullion`
model running "Listens to the last keys" {
  relays 1 = 1
  slots 01..20 per relay
  codes 4..6 digits
  length set by entry
  rewrite replaces
  twins refused
  relength clears
  listens to the last keys
  acts at once
  setting "key light" 0..2 factory 1 8 {value:1} #
  enter * {installer} #
  leave * *
  put code 1 {slot} {code} #
  clear slot 3 {slot} #
  set installer 4 {code} {code} #
  set length 5 {digits:1} #
  open code {code}
  factory { installer code 9753 code length 4 }
}
`;
