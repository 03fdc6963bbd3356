/** Where a holder gets in, and until when. */
import type { Credential, Day, Holder, Site } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import { usesOf } from "../site/where.ts";
import { plain, verbatim } from "./markdown.ts";

/** As Markdown, without any code. @param today decides what has lapsed */
export function holderWords(site: Site, holder: Holder, today: Day): string {
  const lines = holder.credentials.map(credential => `- ${credentialLine(site, credential, today)}`);
  const head = `**${plain(holder.label || holder.id)}** ${verbatim(holder.id)}`;
  return [head, "", ...(lines.length > 0 ? lines : ["Has no code and no tag."])].join("\n");
}

export function credentialLine(site: Site, credential: Credential, today: Day): string {
  const kind = credential.name === undefined ? credential.kind : `${credential.kind} ${verbatim(credential.name)}`;
  const mark = credential.mark === undefined ? "" : ` (${plain(credential.mark)})`;
  const uses = usesOf(site, credential);
  const where = uses.length === 0 ? "placed nowhere" : uses.map(useWords).join("; ");
  return `${kind}${mark}: ${where}${credential.lost ? "; lost" : ""}${untilWords(credential, today)}`;
}

function useWords(at: HeldAt): string {
  const keypad = plain(at.keypad.label || at.keypad.id);
  if (at.as === "installer") return `installer code of ${keypad}`;
  if (at.as === "all-relay") return `every relay of ${keypad}`;
  const { relay, slot, mode } = at.placement;
  const door = relay.label === undefined ? `relay ${relay.set}` : plain(relay.label);
  const place = slot === undefined ? "" : `, slot ${at.placement.node.slot?.text ?? slot}`;
  const both = mode === "with" ? ", together with its pair" : "";
  return `**${door}** at ${keypad}${place}${both}`;
}

function untilWords({ until }: Credential, today: Day): string {
  if (until === undefined) return "";
  return until < today ? `; lapsed after ${until}, and opens until it is taken out` : `; until ${until}`;
}
