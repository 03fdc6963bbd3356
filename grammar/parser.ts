/** The whole grammar: a file is a list of declarations. The rules of each kind stand in files of their own. */
import type { IToken } from "chevrotain";
import { DoorRules } from "./door-rules.ts";
import type { Prepared } from "./prepared.ts";
import { built, takePrepared } from "./prepared.ts";
import type { Expectation } from "./reader.ts";
import * as t from "./tokens.ts";
import { declarationWords } from "./tokens.ts";
import type { Declaration, Element, Problem, Word } from "./tree.ts";

const declarations: Expectation = {
  what: "a declaration (`site`, `holder`, `keypad`, `model`, `use`, `policy`, `fitted`, `door` or `supply`)",
  words: declarationWords,
  declarations: true,
};

export class MullionParser extends DoorRules {
  /**
   * @param checked whether Chevrotain's own checks of the grammar run: slow, for the tests.
   * @param prepared what the parser decides by, where it was worked out before.
   */
  constructor(checked = false, prepared: Prepared | undefined = built()) {
    super(checked);
    if (checked || !takePrepared(this, prepared)) this.performSelfAnalysis();
  }

  /** Declarations of a text, what is wrong with it, and where words stand that were read as units. Comments are cut out before. */
  read(text: string, tokens: IToken[]): { declarations: readonly Declaration[]; problems: Problem[]; unknownUnits: ReadonlySet<number> } {
    this.begin(text, tokens);
    const list = this.file();
    return { declarations: list ?? [], problems: this.problems, unknownUnits: this.unknownUnits };
  }

  /** Keys written outside a model: `7 4 01 {code} OK`. */
  readKeys(text: string, tokens: IToken[]): { elements: readonly Element[]; problems: Problem[] } {
    this.begin(text, tokens);
    const elements = this.keysText();
    return { elements: elements ?? [], problems: this.problems };
  }

  private readonly file = this.RULE("file", (): Declaration[] => {
    const list: Declaration[] = [];
    const single = new Map<string, Word>();
    const ways = [
      {
        GATE: () => !this.isLoneModel(),
        ALT: () => {
          const known = this.problems.length;
          const declaration = this.SUBRULE(this.declaration);
          list.push(declaration);
          this.SUBRULE(this.restOfLine, { ARGS: [declaration, known, true] });
          if (declaration?.kind === "site" || declaration?.kind === "policy") {
            this.ACTION(() => this.once(single, `\`${declaration.kind}\``, declaration.keyword));
          }
        },
      },
      { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.astray) },
    ];
    this.MANY(() => this.OR(ways));
    return list;
  });

  /** Made once: a list anew for each of many thousand holders takes longer than choosing from it. */
  private readonly declarationWays: { readonly ALT: () => Declaration }[] = [
    { ALT: () => this.SUBRULE(this.holder) },
    { ALT: () => this.SUBRULE(this.keypad) },
    { ALT: () => this.SUBRULE(this.use) },
    { ALT: () => this.SUBRULE(this.site) },
    { ALT: () => this.SUBRULE(this.policy) },
    { ALT: () => this.SUBRULE(this.model) },
    { ALT: () => this.SUBRULE(this.fitted) },
    { ALT: () => this.SUBRULE(this.door) },
    { ALT: () => this.SUBRULE(this.supply) },
  ];

  private readonly declaration = this.RULE("declaration", (): Declaration => this.OR(this.declarationWays));

  /** What is no declaration, and with it everything set in below it, which belonged to it. */
  private readonly astray = this.RULE("astray", (): void => {
    this.SUBRULE(this.junk, { ARGS: [declarations] });
    this.MANY({
      GATE: () => (!this.isDeclaration() || this.isLoneModel()) && this.isBelow(),
      DEF: () => this.CONSUME(t.Any),
    });
  });

  /** `model dunlin-3` set in, of a record that lost its first line. */
  private isLoneModel(): boolean {
    const next = this.LA(1);
    return next.tokenType === t.first("model") && (this.indentOf(next) ?? 0) > 0 && this.isModelRef(undefined);
  }

  private isBelow(): boolean {
    const next = this.LA(1);
    return this.isA(next, t.First) || next.tokenType === t.Close || this.indentOf(next) !== 0;
  }
}
