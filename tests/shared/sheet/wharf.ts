/** A small site for the sheets: two keypads' worth of what a sheet can say, and its records. */
import { parse } from "../../../grammar/parse.ts";
import type { SourceFile } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import type { Site } from "../../../shared/site/site.ts";
import { mullion } from "../../support/fixture.ts";

export const model = mullion`
  model dunlin "Three-relay keypad, numbered slots" {
    keys     0..9 B C OK
    relays   1 = 4, 2 = 5, 3 = 6
    slots    00..59 per relay
    codes    5 digits
    rewrite  replaces
    twins    refused
    release  1s..99s, toggle = 00
    settle   15s
    lapse    30s
    lockout  3 tries 60s
    refused  shows "three short beeps"
    cancel   C
    reset    wipes everything "Power off, bridge the reset pins, power on, wait for the long beep"
    setting  "key light" 0..2 factory 1   81 {value:1} OK
    enter           OK {installer} OK                   shows "lamp steady"
    leave           OK OK                               shows "lamp off"
    put code        7 {relay} {slot} {code} OK          shows "one beep"
    put tag         8 {relay} {slot} [present tag] OK   shows "one beep"
    clear slot      9 {relay} {slot} OK                 shows "one beep"
    set installer   31 {code} {code} OK                 shows "two beeps"
    set all-relay   32 {code} OK                        shows "two beeps"
    clear all-relay 33 OK                               shows "two beeps"
    set release     6 {relay} {seconds:2} OK            shows "one beep"
    clear all       70 {installer} OK                   shows "long beep"
    open code       {code}
    open all-relay  {relay-number} B {code}
    open tag        [present tag]
    factory {
      installer code 24680
      relay 1 release 5s
    }
  }
`;

export const wharf = mullion`
  site "Tannery Wharf" { address "Slip Lane, Eastmere" }
  holder u1 "Unit 1" code 48291 tag 8061261 "blue fob"
  holder u2 "Unit 2" code 55910
  holder u3 "Unit 3"
    code 73046
    code yard 01153
    tag bike 123,00334
    tag old 4711 lost
  holder mgr "Wharf manager" code 91827
  holder firm "Our own codes" code gate 60441
  keypad gate "Lane gate" : dunlin {
    installer code firm.gate
    all-relay code mgr
    setting "key light" 2
    relay 1 "Foot gate" release 5s { 01 u1 02 u2 03 u3 10 u1.tag 11 u3.bike }
    relay 2 "Vehicle gate" release toggle { 01 u3.yard }
    relay 3 spare
  }
  door "Vehicle gate" { lock start contact near people }
`;

/** What was fitted: unit 2 had another code, unit 9 is gone, the manager's code and unit 3's stand. */
export const record = mullion`
  fitted gate 2026-11-20 {
    model dunlin
    installer code 60441
    all-relay code 91827
    setting "key light" 1
    relay 1 release 5s {
      01 code 48291
      02 code 55000
      03 code 73046
      09 code 99001
      10 tag 8061261
      12 tag 4711
      13 tag 555
    }
    relay 2 release 1s { 01 code 01153 }
  }
`;

/** Every code of the site, its record and its model. */
export const codes = ["48291", "55910", "73046", "01153", "91827", "60441", "55000", "99001", "24680"];

/** Loads a site from one text. */
export function siteOf(text: string): Site {
  const file: SourceFile = { file: "/wharf.mullion", text, ...parse(text) };
  return loadSite(file.file, wanted => (wanted === file.file ? file : undefined));
}
