/** `mullion fmt`: the one canonical layout. */
import type { Command, ExitStatus } from "../command.ts";

export const fmt: Command = {
  name: "fmt",
  about: "Put files into the canonical layout.",
  arguments: [{ name: "[path...]", about: "files, or folders to look through (default: this folder)" }],
  options: [{ flags: "--check", about: "write nothing; name the files that would change and end with status 1" }],
  examples: [{ line: "fmt --check samples/tannery-wharf", shows: "says which files are not in the canonical layout" }],
  run: async (paths, options, around) => {
    const [{ filesAsked, sayUnreadable }, { readText }, { format }, { shownPath }, { writeFileWhole }] = await Promise.all([
      import("../asked.ts"),
      import("../../files.ts"),
      import("../../../grammar/format.ts"),
      import("../paths.ts"),
      import("../../write-file.ts"),
    ]);
    const asked = filesAsked(paths, around.cwd);
    const problems = [...asked.problems];
    let status: ExitStatus = 0;
    for (const file of asked.files) {
      const found = readText(file);
      if (!("text" in found)) {
        if ("unreadable" in found) problems.push({ file, reason: found.unreadable });
        // In a folder they are passed over; one that was named is answered for.
        else if ("sealed" in found && paths.some(path => path.endsWith(".age")))
          around.out(`${shownPath(file, around.cwd)}: sealed, and left as it is\n`);
        continue;
      }
      const shown = shownPath(file, around.cwd);
      const formatted = format(found.text);
      if (formatted === undefined) {
        around.out(`${shown}: left as it is, since it has syntax errors (mullion check ${shown})\n`);
        status = 1;
      } else if (formatted !== found.text) {
        if (options.check === true) status = 1;
        else writeFileWhole(file, formatted, shown);
        around.out(`${shown}: ${options.check === true ? "is not in the canonical layout" : "formatted"}\n`);
      }
    }
    return sayUnreadable(problems, around) ? 2 : status;
  },
};
