/** What the editor can do with Mullion texts: one line a feature. */
import { definition } from "./definition.ts";
import { diagnostics } from "./diagnostics.ts";
import { documentHighlight } from "./document-highlight.ts";
import { documentLinks } from "./document-links.ts";
import { documentSymbols } from "./document-symbols.ts";
import type { Feature } from "./feature.ts";
import { folding } from "./folding.ts";
import { hover } from "./hover.ts";
import { references } from "./references.ts";
import { rename } from "./rename.ts";
import { selectionRanges } from "./selection-ranges.ts";
import { semanticTokens } from "./semantic-tokens.ts";
import { workspaceSymbols } from "./workspace-symbols.ts";

export const features: readonly Feature[] = [
  diagnostics,
  hover,
  definition,
  references,
  documentHighlight,
  rename,
  documentSymbols,
  workspaceSymbols,
  documentLinks,
  folding,
  selectionRanges,
  semanticTokens,
];
