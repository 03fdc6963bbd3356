/** A paper beside the run sheet, written beside the site's file: what each of the commands for papers does. */

import type { PaperName } from "../shared/requests.ts";
import { writeBeside } from "./beside.ts";
import { activeFile, chooseKeypads } from "./choose.ts";
import type { Command } from "./commands/command.ts";
import { text } from "./commands/command.ts";

/** @returns where the files are */
export function writePaper(name: PaperName): Command["run"] {
  return async (mullion, file, keypad) => {
    const uri = text(file) ?? activeFile();
    // Whose installer code is wanted is always asked; the other papers are about the whole site.
    const asks = name === "envelope" || text(keypad) !== undefined;
    const chosen = asks ? await chooseKeypads(mullion, uri, text(keypad)) : undefined;
    if (asks && !chosen) return [];
    const keypads = chosen ? { keypads: chosen.map(one => one.keypad) } : {};
    return writeBeside(await mullion.ask("mullion/paper", { uri, paper: name, format: "html", ...keypads }));
  };
}
