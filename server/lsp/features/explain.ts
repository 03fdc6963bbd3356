/** The full explanation of a finding, the same text that `mullion explain` prints. */
import { explain as explanationOf } from "../../../shared/checks/explain.ts";
import type { ExplainParams, ExplainResult } from "../../../shared/requests.ts";
import { answer } from "../answer.ts";
import type { Feature } from "./feature.ts";

export const explain: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/explain", "the explanation", ({ code }: ExplainParams): ExplainResult => {
      const markdown = explanationOf(code);
      return markdown === "" ? {} : { markdown };
    });
  },
};
