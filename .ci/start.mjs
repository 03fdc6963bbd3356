// `npm start`: VS Code in the browser, at an address of this machine, with the extension installed and Tannery Wharf open.
// What is edited is a copy, out/start; it stays until it is deleted.
import { spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { cpSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { prepareHost } from "./editor-host.mjs";
import { installExtension, startEditor } from "./editor-session.mjs";
import { root } from "./node.mjs";
import { packExtension } from "./package.mjs";

const { path: vsix } = await packExtension();
console.log("Fetching VS Code where it is not here yet …");
const host = await prepareHost("newest");
const extensions = mkdtempSync(join(tmpdir(), "mullion-extensions-"));
installExtension(host, vsix, extensions);

const folder = join(root, "out/start");
// The files that show what is found would drown what the sites have to say.
const sound = { recursive: true, filter: source => !source.startsWith(join(root, "samples/broken")) };
if (!existsSync(folder)) cpSync(join(root, "samples"), folder, sound);
const editor = await startEditor(host, { extensions, token: randomBytes(16).toString("hex"), port: Number(process.env.MULLION_PORT ?? 0) });
const site = `vscode-remote://localhost:${editor.port}${join(folder, "tannery-wharf/tannery-wharf.mullion")}`;
const address = editor.address({ folder }, [["openFile", site]]);
console.log(`\nTannery Wharf in VS Code ${host.vscode}:\n\n  ${address}\n\nCtrl+C ends it. What you change is in ${folder}.`);
openBrowser(address);

for (const signal of ["SIGINT", "SIGTERM"])
  process.on(signal, async () => {
    await editor.stop();
    rmSync(extensions, { recursive: true, force: true });
    process.exit(0);
  });

/** Shows the address in the user's browser, where there is a screen to show it on. */
function openBrowser(url) {
  const openers = { darwin: "open", win32: "explorer", linux: process.env.DISPLAY || process.env.WAYLAND_DISPLAY ? "xdg-open" : undefined };
  const opener = openers[process.platform];
  if (opener) spawn(opener, [url], { stdio: "ignore", detached: true }).on("error", () => {});
}
