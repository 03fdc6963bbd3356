/** Scratch repositories of git, made with nothing of the machine's own settings of it. */
import { execFileSync, spawnSync } from "node:child_process";
import { folderOf } from "./mullion.ts";

const settings = ["user.name=A", "user.email=a@example.org", "init.defaultBranch=main", "core.autocrlf=false"].flatMap(each => [
  "-c",
  each,
]);
const environment = () => ({ ...process.env, GIT_CONFIG_GLOBAL: "/dev/null", GIT_CONFIG_SYSTEM: "/dev/null" });

/** What git says, without the blanks around it. */
export function git(cwd: string, ...words: readonly string[]): string {
  return execFileSync("git", [...settings, ...words], { cwd, encoding: "utf8", env: environment(), stdio: "pipe" }).trim();
}

/** The exit status, where git may refuse. */
export function gitStatus(cwd: string, ...words: readonly string[]): number | null {
  return spawnSync("git", [...settings, ...words], { cwd, env: environment() }).status;
}

/** A new folder with these files, all of them committed. */
export function repositoryOf(files: Readonly<Record<string, string>>): string {
  const cwd = folderOf(files);
  commitAll(cwd);
  return cwd;
}

/** Makes a folder a repository, and all that is in it its first commit. */
export function commitAll(cwd: string): void {
  git(cwd, "init", "-q");
  git(cwd, "add", ".");
  git(cwd, "commit", "-q", "-m", "first");
}
