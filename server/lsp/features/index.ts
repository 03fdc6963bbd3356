/** What the editor can do with Mullion texts: one line a feature. */
import { codeActions } from "./code-actions.ts";
import { codeLens } from "./code-lens.ts";
import { completion } from "./completion.ts";
import { definition } from "./definition.ts";
import { diagnostics } from "./diagnostics.ts";
import { documentHighlight } from "./document-highlight.ts";
import { documentLinks } from "./document-links.ts";
import { documentSymbols } from "./document-symbols.ts";
import { draw } from "./draw.ts";
import { explain } from "./explain.ts";
import type { Feature } from "./feature.ts";
import { folding } from "./folding.ts";
import { formatting } from "./formatting.ts";
import { hover } from "./hover.ts";
import { inlayHints } from "./inlay-hints.ts";
import { newSite } from "./new-site.ts";
import { paper } from "./paper.ts";
import { preview } from "./preview.ts";
import { record } from "./record.ts";
import { references } from "./references.ts";
import { rename } from "./rename.ts";
import { sealed } from "./sealed.ts";
import { selectionRanges } from "./selection-ranges.ts";
import { semanticTokens } from "./semantic-tokens.ts";
import { sheet } from "./sheet.ts";
import { signatureHelp } from "./signature-help.ts";
import { waiting } from "./waiting.ts";
import { who } from "./who.ts";
import { willRename } from "./will-rename.ts";
import { workspaceSymbols } from "./workspace-symbols.ts";

export const features: readonly Feature[] = [
  diagnostics,
  codeActions,
  hover,
  completion,
  inlayHints,
  codeLens,
  signatureHelp,
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
  formatting,
  willRename,
  sheet,
  preview,
  paper,
  waiting,
  explain,
  draw,
  who,
  newSite,
  record,
  sealed,
];
