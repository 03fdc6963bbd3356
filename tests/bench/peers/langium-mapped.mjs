// The Langium language with names in a map of our own: what somebody would do who measures it.
import { prepared } from "./langium.mjs";

export const prepare = lines => prepared(lines, true);
