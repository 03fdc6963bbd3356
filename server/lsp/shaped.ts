/** Whether what a client sends has the shape that the protocol gives it: what has not is refused before anything reads it. */

type Test = (value: unknown) => boolean;

const isText: Test = value => typeof value === "string";
const isListOf =
  (one: Test): Test =>
  value =>
    Array.isArray(value) && value.every(one);
const isOf =
  (parts: Readonly<Record<string, Test>>): Test =>
  value =>
    isObject(value) && Object.entries(parts).every(([name, test]) => test(value[name]));

const isCount: Test = value => Number.isInteger(value) && (value as number) >= 0;
const isPosition = isOf({ line: isCount, character: isCount });
const isRange = isOf({ start: isPosition, end: isPosition });
const isChange: Test = value => isOf({ text: isText })(value) && (!isObject(value) || value.range === undefined || isRange(value.range));
const isFolder = isOf({ uri: isText });
const isTextOrNone: Test = value => value === undefined || isText(value);

/** What the fields that requests and notifications share are, by name. */
const fields: Readonly<Record<string, Test>> = {
  textDocument: isOf({ uri: isText }),
  position: isPosition,
  positions: isListOf(isPosition),
  range: isRange,
  ranges: isListOf(isRange),
  uri: isText,
  newName: isText,
  query: isText,
  ch: isText,
  text: isText,
  files: isListOf(isOf({ oldUri: isText, newUri: isText })),
  changes: isListOf(isOf({ uri: isText, type: isCount })),
  contentChanges: isListOf(isChange),
  previousResultIds: isListOf(isOf({ uri: isText, value: isText })),
  secrets: isListOf(isOf({ identities: isTextOrNone, passphrase: isTextOrNone })),
  event: isOf({ added: isListOf(isFolder), removed: isListOf(isFolder) }),
};

/** Every field that is there is what it should be, and those that are named are there. */
export function isShaped(params: unknown, ...needed: readonly string[]): boolean {
  if (!isObject(params)) return false;
  return Object.entries(fields).every(([name, test]) => (params[name] === undefined ? !needed.includes(name) : test(params[name])));
}

/** Of the fields that say what a request is about, none is there. */
export function isAboutNothing(params: unknown): boolean {
  return !isObject(params) || !["textDocument", "uri", "files", "query", "name", "code", "data"].some(name => params[name] !== undefined);
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
