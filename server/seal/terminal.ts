/** Asks for a secret on the terminal, without showing what is typed. */
import type { Readable, Writable } from "node:stream";

/** What a terminal is to the one that asks: its keys, one way to say something, and whether it shows what is typed. */
export interface Terminal {
  readonly keys: Readable;
  readonly says: Writable;
  readonly shows: (typed: boolean) => void;
  readonly close: () => void;
}

/** The terminal of this process, also where standard input is something else; undefined where there is none. */
async function ownTerminal(): Promise<Terminal | undefined> {
  const [{ openSync, closeSync }, { ReadStream, WriteStream }] = await Promise.all([import("node:fs"), import("node:tty")]);
  try {
    const path = process.platform === "win32" ? ["\\\\.\\CONIN$", "\\\\.\\CONOUT$"] : ["/dev/tty", "/dev/tty"];
    const input = openSync(path[0] ?? "", "r+");
    const output = openSync(path[1] ?? "", "r+");
    const keys = new ReadStream(input);
    const says = new WriteStream(output);
    return {
      keys,
      says,
      shows: typed => void keys.setRawMode(!typed),
      close: () => {
        keys.destroy();
        says.destroy();
        for (const each of [input, output])
          try {
            closeSync(each);
          } catch {
            // The stream has closed it.
          }
      },
    };
  } catch {
    return undefined;
  }
}

/** Control characters of a terminal that passes on every key. */
const enter = /[\r\n]/;
const interrupt = "\u0003";
const endOfInput = "\u0004";
const eraseOne = /[\b\u007f]/;
const eraseAll = "\u0015";

/** What was typed before the return key; undefined where it was broken off. */
export async function askOn(terminal: Terminal, question: string): Promise<string | undefined> {
  const { keys, says, shows } = terminal;
  says.write(question);
  shows(false);
  const decoder = new TextDecoder();
  let typed: string[] = [];
  try {
    return await new Promise(resolve => {
      const done = (answer: string | undefined) => {
        keys.off("data", onKeys);
        keys.pause();
        resolve(answer);
      };
      const onKeys = (bytes: Buffer) => {
        for (const key of decoder.decode(bytes, { stream: true })) {
          if (enter.test(key)) return done(typed.join(""));
          if (key === interrupt || (key === endOfInput && typed.length === 0)) return done(undefined);
          if (eraseOne.test(key)) typed.pop();
          else if (key === eraseAll) typed = [];
          else if (key >= " ") typed.push(key);
        }
      };
      keys.on("data", onKeys);
      keys.once("end", () => done(undefined));
      keys.once("error", () => done(undefined));
      keys.resume();
    });
  } finally {
    shows(true);
    says.write("\n");
  }
}

/** Asks on this process's own terminal. @returns undefined where there is none, or the question was broken off */
export async function askHidden(question: string): Promise<string | undefined> {
  const terminal = await ownTerminal();
  if (!terminal) return undefined;
  try {
    return await askOn(terminal, question);
  } finally {
    terminal.close();
  }
}
