import { expect, test } from "vitest";
import { checkFindings } from "./fixture.ts";
import * as models from "./models.ts";

test.each(Object.entries(models))("%s is a model without a finding", (_name, text) => {
  expect(checkFindings(text)).toEqual([]);
});
