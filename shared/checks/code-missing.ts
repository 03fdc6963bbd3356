/** An entry names a code that its holder does not have. */
import type { Fix } from "../finding.ts";
import type { HeldUse } from "../site/site.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { replace } from "./edits.ts";

interface Missing extends Found {
  readonly use: HeldUse;
  readonly kind: "nothing" | "unnamed" | "named" | "not a code";
  readonly as: "slot" | "installer" | "all-relay";
}

export const codeMissing = check({
  code: "code-missing",
  severity: "error",
  explain: {
    what: "An entry, an installer code or an all-relay code names a code that its holder does not have.",
    why: "There is nothing to type. Either the code has not been decided yet, or another of the holder's codes or tags is meant.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2"

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
          //^^ code-missing
          3 u1.yard
            // ^^^^ code-missing
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1"
        code 4829
        code yard 1153
      holder u2 "Unit 2" tag 8061261

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
          3 u1.yard
        }
      }
    `,
  },
  *find(site): Iterable<Missing> {
    for (const { keypad, use, as } of heldEverywhere(site)) {
      const { holder, credential, node } = use;
      if (!holder || (node.dot && !node.credential)) continue;
      if (credential && (as === "slot" || credential.kind === "code")) continue;
      const place = { ...at(use.file, node.credential ?? node), ...only(keypad), use, as };
      const related = [{ ...at(holder.file, holder.node.name ?? holder.node), message: `${holder.label}` }];
      if (credential) yield { ...place, related, kind: "not a code" };
      else if (node.credential?.text === "tag") continue;
      else if (!node.credential) yield { ...place, related, kind: holder.credentials.length === 0 ? "nothing" : "unnamed" };
      else yield { ...place, related, kind: "named" };
    }
  },
  message: ({ use, kind, as }) => {
    const label = use.holder?.label ?? "";
    const name = use.node.credential?.text ?? "";
    const place = as === "installer" ? "an installer code" : "an all-relay code";
    switch (kind) {
      case "nothing":
        return `${label} has no code and no tag`;
      case "unnamed":
        return `${label} has no code and no tag without a name; say which of the named ones is meant`;
      case "not a code":
        return `${place} is a code; ${label} has a tag under this name`;
      case "named":
        return name === "code" ? `${label} has no code without a name` : `${label} has no code and no tag called ${name}`;
    }
  },
  fixes: ({ use, as, kind }): readonly Fix[] => {
    const others = (use.holder?.credentials ?? []).filter(credential => as === "slot" || credential.kind === "code");
    const fixes: Fix[] = others.map(({ path }) => ({ title: `Use ${path}`, edits: [replace(use.file, use.node, path)] }));
    const name = use.node.credential?.text;
    const draws = name === undefined || name === "code" ? use.node.holder.text : `${use.node.holder.text}.${name}`;
    if (kind !== "not a code") fixes.push({ title: `Draw a new code for ${use.holder?.label ?? ""}`, edits: [], draws });
    return fixes;
  },
});
