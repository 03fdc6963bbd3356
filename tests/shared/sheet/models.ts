/** Sites on keypads of other kinds, so that the sheet is seen to know none of them. Their keys are made up. */
import { mullion } from "../../support/fixture.ts";

export const models: Readonly<Record<string, string>> = {
  "shared numbers without padding, one entry a session, tags by number": mullion`
    model shared "Shared" {
      relays   1 = 1, 2 = 2
      slots    1..500 shared
      codes    4..8 digits
      length   free
      rewrite  refused
      twins    first fires
      session  one entry
      lapse    20s
      refused  shows "red"
      enter       # {installer} #
      put code    1 # {slot} # {relay} # {code} #    shows "green"
      put tag     2 # {slot} # {relay} # {tag:10} #  shows "green"
      clear slot  3 # {slot} #                       shows "green"
      set installer 4 # {code} # {code} #
      open code   {code} #
      open tag    [present tag]
      factory {
        installer code 1234
      }
    }
    site "Shared" {}
    holder a "Ann's" code 55901 tag 8061261
    holder b "Bea" code 7390
    keypad k "Kitchen" : shared {
      installer code 80808
      relay 1 "Kitchen door" { 1 a 12 b 500 a.tag }
      relay 2 "Yard" no codes
    }
  `,
  "numbers found by the keypad, cleared by code or tag, several tags by mark": mullion`
    model loose "Loose" {
      keys     0..9 * #
      relays   1 = 1
      slots    50 unnumbered
      codes    6 digits
      twins    all fire
      lapse    10s
      lockout  none
      enter       * {installer} #    shows "lamp"
      put code    5 {code} #         shows "beep"
      put tag     6 [present tag] #  shows "beep"
      clear code  7 {code} #         shows "beep"
      clear tag   8 [present tag] #  shows "beep"
      open code   {code}
      open tag    [present tag]
      factory {
        installer code 000000
        relay 1 {
          code 123456
        }
      }
    }
    site "Loose" {}
    holder a "Άννα" code 559013 tag "red dot"
    holder b "בית" code 739022 tag spare "green | dot"
    keypad k "Hall" : loose {
      relay 1 "Hall door" { a b a.tag b.spare }
    }
  `,
  "sets of relays, a code and a tag in one number, several all-relay codes": mullion`
    model sets "Sets" {
      keys     0..9 OK A
      relays   1 = 1, 2 = 2, 1+2 = 3
      slots    001..499 shared, 990..999 all-relay holds code or tag
      codes    5 digits installer 6 digits
      twins    refused
      rewrite  replaces
      release  1s..60s
      enter           A {installer} OK
      leave           A OK
      put code        1 {slot} {relay} {code} {code} OK   shows "beep"
      put tag         2 {slot} {relay} [present tag] OK   shows "beep"
      clear slot      3 {slot} OK                         shows "beep"
      set all-relay   4 {slot} {code} OK                  shows "beep"
      clear all-relay 5 {slot} OK                         shows "beep"
      set release     6 {relay-number} {seconds:2} OK     shows "beep"
      open code       {code}
      open all-relay  {relay-number} A {code}
      open tag        [present tag]
      factory {
        installer code 111111
      }
    }
    site "Sets" {}
    holder a "Unit 1" code 55901 tag 99
    holder b "Unit 2" code 73902
    holder m "Manager" code 40404
    keypad k "Yard" : sets {
      all-relay 990 code m
      relay 1 "Gate" release 4s { 001 a or a.tag }
      relay 2 "Porch" no codes
      relay 1+2 { 002 b }
    }
  `,
};
