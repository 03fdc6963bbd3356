/** The sites at work, one memo per phase: resolved, checked. A phase is done again only when a file that the site reads has changed. */

import { findingsOf } from "../../shared/checks/run.ts";
import type { FileId, Finding, SourceFile } from "../../shared/finding.ts";
import { holdsBack } from "../../shared/plan/held-back.ts";
import type { CannotPlan, Plan } from "../../shared/plan/plan.ts";
import { planFor } from "../../shared/plan/start.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Day, Keypad, Site } from "../../shared/site/site.ts";
import type { Texts } from "./texts.ts";

export interface SiteAtWork {
  readonly site: Site;
  findings(): readonly Finding[];
  /** From what is fitted to what the text wants; none where an error holds the sheet back, undefined where the keypad has no model. */
  plan(keypad: Keypad): Plan | CannotPlan | undefined;
}

interface Memo {
  /** Every file that was asked for, found or not. */
  readonly reads: ReadonlyMap<FileId, SourceFile | undefined>;
  readonly work: SiteAtWork;
}

export class Sites {
  readonly #texts: Texts;
  readonly #today: () => Day;
  readonly #memos = new Map<FileId, Memo>();
  /** How often each phase was done, for whoever wants to know that it was not done in vain. */
  readonly counts = { resolved: 0, checked: 0, planned: 0 };

  constructor(texts: Texts, today: () => Day) {
    this.#texts = texts;
    this.#today = today;
  }

  /** The site named by this file, with everything that it reads as it is now. */
  async at(root: FileId): Promise<SiteAtWork> {
    for (;;) {
      const memo = this.#memos.get(root);
      const unread = new Set(memo ? [...memo.reads.keys()].filter(file => this.#texts.needsReading(file)) : []);
      if (unread.size === 0) {
        if (memo && [...memo.reads].every(([file, source]) => this.#texts.now(file) === source)) return memo.work;
        const reads = new Map<FileId, SourceFile | undefined>();
        const site = loadSite(root, file => {
          if (this.#texts.needsReading(file)) unread.add(file);
          const source = this.#texts.now(file);
          reads.set(file, source);
          return source;
        });
        this.counts.resolved++;
        if (unread.size === 0) this.#memos.set(root, { reads, work: this.#work(site) });
      }
      await this.#texts.readIn(unread);
    }
  }

  /** Forgets the sites that are no longer there. */
  keepOnly(roots: readonly FileId[]): void {
    const kept = new Set(roots);
    for (const root of this.#memos.keys()) if (!kept.has(root)) this.#memos.delete(root);
  }

  #work(site: Site): SiteAtWork {
    let checked: { readonly day: Day; readonly findings: readonly Finding[] } | undefined;
    const plans = new Map<Keypad, Plan | CannotPlan>();
    const work: SiteAtWork = {
      site,
      findings: () => {
        const day = this.#today();
        if (checked?.day !== day) {
          this.counts.checked++;
          checked = { day, findings: findingsOf(site, { today: day }) };
        }
        return checked.findings;
      },
      plan: keypad => {
        if (!keypad.model) return undefined;
        const known = plans.get(keypad);
        if (known) return known;
        this.counts.planned++;
        const held = work.findings().some(finding => holdsBack(finding, keypad));
        const plan = held ? heldBack : planFor(site, keypad);
        plans.set(keypad, plan);
        return plan;
      },
    };
    return work;
  }
}

const heldBack: CannotPlan = { cannot: "an error holds its sheet back" };
