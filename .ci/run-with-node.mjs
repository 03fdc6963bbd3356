// `npm run demo`, `npm test`, `npm start`: install if needed, then go on with the project's own Node.
import { join } from "node:path";
import { install, root, run } from "./node.mjs";

const [task, ...args] = process.argv.slice(2);
install();
process.exit(run("node", [join(root, ".ci", `${task}.mjs`), ...args]));
