/** The sheets of Tannery Wharf beside the text: they follow what is typed at once, and lead to every line that has an entry. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { startEditor } from "../server/lsp/editor.ts";

const samples = join(import.meta.dirname, "../../samples");

function sample(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const folder of ["tannery-wharf", "models"])
    for (const name of readdirSync(join(samples, folder)))
      if (name.endsWith(".mullion")) files.set(`/${folder}/${name}`, readFileSync(join(samples, folder, name), "utf8"));
  return files;
}

test("an edit is in the preview of all three keypads within 100 ms", async () => {
  const editor = await startEditor(sample());
  try {
    const file = "/tannery-wharf/tannery-wharf.mullion";
    const uri = await editor.open(file);
    const text = sample().get(file) ?? "";
    await editor.client.sendRequest("mullion/preview", { uri });
    const times: number[] = [];
    for (let edit = 0; edit < 21; edit++) {
      const label = `Foot gate ${edit}`;
      const begun = performance.now();
      await editor.type(file, text.replaceAll('"Foot gate"', `"${label}"`));
      const { sheets } = await editor.client.sendRequest<{ sheets: { keypad: string; html: string; entries: { n: number }[] }[] }>(
        "mullion/preview",
        { uri },
      );
      times.push(performance.now() - begun);
      expect(sheets.map(({ keypad }) => keypad)).toEqual(["gate", "loft", "boat"]);
      expect(sheets[0]?.html).toContain(label);
      for (const { html, entries } of sheets) expect(entries.length).toBe(html.match(/data-n="/g)?.length);
    }
    const median = times.sort((one, other) => one - other)[10] ?? Number.POSITIVE_INFINITY;
    console.log(`edit to preview, Tannery Wharf: median ${median.toFixed(1)} ms, slowest ${times.at(-1)?.toFixed(1)} ms`);
    expect(median).toBeLessThan(100);
  } finally {
    await editor.end();
  }
});
