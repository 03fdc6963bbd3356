/**
 * A door keypad in everyday use, as plain as can be: keys go in one by one, and after each one every stored string is compared
 * with what was keyed. Shares nothing with the recogniser under test, not even the model.
 */
export interface PlainString {
  /** Whose it is; `enter` for what enters programming mode. */
  readonly id: string;
  readonly keys: readonly string[];
  /** Undefined for `enter`. */
  readonly relay?: string;
}

export interface PlainRules {
  readonly listens: "to the last keys" | "from the first key";
  readonly acts: "at once" | "after a pause";
}

/** The strings that the keypad acts on while these keys are keyed, followed by a pause. */
export function keyed(rules: PlainRules, strings: readonly PlainString[], keys: readonly string[]): readonly PlainString[] {
  const acted: PlainString[] = [];
  let buffer: string[] = [];
  let waiting: readonly PlainString[] = [];
  for (const key of keys) {
    buffer.push(key);
    const complete = strings.filter(({ keys: own }) => {
      if (own.length === 0 || own.length > buffer.length) return false;
      if (rules.listens === "from the first key" && own.length !== buffer.length) return false;
      return own.every((one, index) => one === buffer[buffer.length - own.length + index]);
    });
    const lengths = complete.map(({ keys: own }) => own.length);
    if (rules.acts === "at once") {
      const shortest = complete.filter(({ keys: own }) => own.length === Math.min(...lengths));
      acted.push(...shortest);
      if (shortest.length > 0) buffer = [];
    } else waiting = complete.filter(({ keys: own }) => own.length === Math.max(...lengths));
  }
  return rules.acts === "at once" ? acted : waiting;
}
