/** Which fields an operation of a model needs, while its keys are typed. */
import type { SignatureHelp, SignatureHelpParams } from "vscode-languageserver";
import { MarkupKind } from "vscode-languageserver";
import { signatureAt } from "../../../shared/editor/signature.ts";
import { offsetOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const signatureHelp: Feature = {
  capability: { signatureHelpProvider: { triggerCharacters: ["{", " "], retriggerCharacters: ["}", "]"] } },
  register(connection, workspace) {
    connection.onSignatureHelp(
      guarded(
        workspace,
        "the fields of an operation",
        null,
        async ({ textDocument, position }: SignatureHelpParams): Promise<SignatureHelp | null> => {
          const at = await workspace.fileInSite(textDocument.uri);
          const signature = at && signatureAt(at.site, at.source, offsetOf(at.source, position));
          if (!signature) return null;
          const { label, documentation, fields, active } = signature;
          const markdown = (value: string | undefined) => value !== undefined && { documentation: { kind: MarkupKind.Markdown, value } };
          return {
            signatures: [
              {
                label,
                ...markdown(documentation),
                parameters: fields.map(field => ({ label: [field.start, field.end], ...markdown(field.documentation) })),
              },
            ],
            activeSignature: 0,
            // One beyond the last: nothing is missing any more.
            activeParameter: active ?? fields.length,
          };
        },
      ),
    );
  },
};
