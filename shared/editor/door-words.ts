/** A door and a supply in words: which relays release it, the sum, and what the sum takes for granted. */
import { capital } from "../capital.ts";
import { doorSum } from "../doors/door-sum.ts";
import type { SumWords } from "../doors/sum-words.ts";
import { behindTheSum, doorSumWords, supplySumWords } from "../doors/sum-words.ts";
import { supplySum } from "../doors/supply-sum.ts";
import { decides } from "../doors/words.ts";
import type { Site } from "../site/site.ts";
import { plain, verbatim } from "./markdown.ts";

/** As Markdown; undefined where neither a relay nor a `door` has this label. */
export function doorWords(site: Site, label: string): string | undefined {
  const relays = [...site.keypads.values()].flatMap(keypad =>
    keypad.relays
      .filter(relay => relay.label === label)
      .map(
        relay =>
          `relay ${relay.set} of ${plain(keypad.label || keypad.id)}, ${relay.placements.length} ${relay.placements.length === 1 ? "entry" : "entries"}`,
      ),
  );
  const sum = doorSum(site, label);
  if (relays.length === 0 && !sum) return undefined;
  return described(`**${plain(label)}**`, relays, sum && doorSumWords(sum));
}

/** As Markdown; undefined where there is no such supply. */
export function supplyWords(site: Site, id: string): string | undefined {
  const sum = supplySum(site, id);
  return sum && described(`**${plain(sum.label)}** ${verbatim(id)}`, [], supplySumWords(sum));
}

function described(head: string, before: readonly string[], words: SumWords | undefined): string {
  const lines = [...before, ...(words?.lines ?? []).map(plain)].map(line => `- ${line}`);
  const parts = [head, lines.join("\n"), ...(words ? behindTheSum(words, plain).map(said => `${capital(said)}.`) : [])];
  // Every sum about a door ends with who decides.
  if (words && words.lines.length > 0) parts.push(decides);
  return parts.filter(part => part !== "").join("\n\n");
}
