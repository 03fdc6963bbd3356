/** Which fields an operation needs, while it is typed. */

import { expect, test } from "vitest";
import { SignatureHelpRequest } from "vscode-languageserver/node";
import { inEditor } from "./editor.ts";

/** The label with the active field between `«` and `»`. */
async function checkSignature(line: string, expected: string | undefined): Promise<void> {
  const text = `model heron "Heron" {\n  relays 1 = 4, 2 = 5\n  slots 01..59 per relay\n  codes 5 digits\n  ${line}\n}\n`;
  await inEditor(text, async ({ client, uri, position }) => {
    const help = await client.sendRequest(SignatureHelpRequest.type, { textDocument: { uri }, position });
    const signature = help?.signatures[0];
    const active = signature?.parameters?.[help?.activeParameter ?? -1]?.label;
    const { label } = signature ?? {};
    const [start, end] = Array.isArray(active) ? active : [label?.length ?? 0, label?.length ?? 0];
    expect(label && (active ? `${label.slice(0, start)}«${label.slice(start, end)}»${label.slice(end)}` : label)).toBe(expected);
  });
}

test.each([
  ["the first that is missing", "put code 7 $0", "put code «{code}» {slot} {relay}"],
  ["the next, once one is there", "put code 7 {code} {relay} $0", "put code {code} «{slot}» {relay}"],
  ["the one that the cursor is in", "put code 7 {rel$0ay} {slot} {code} OK", "put code {code} {slot} «{relay}»"],
  ["a tag", "put tag 8 {relay} {slot} $0", "put tag «[present tag]» {slot} {relay}"],
  ["nothing more", "put code 7 {relay} {slot} {code} OK $0", "put code {code} {slot} {relay}"],
  ["none in what is shown", 'put code 7 {relay} {slot} {code} OK shows "o$0ne"', undefined],
  ["none in the name", "put c$0ode 7", undefined],
  ["none in another fact", "settle $015s", undefined],
])("%s", (_what, line, expected) => checkSignature(line, expected));
