/** Groups of keys as they stand on a sheet: codes as digits or dots, the installer code by its name. */
import type { Digits, KeyGroup } from "../keypad/memory.ts";
import type { SheetGroup } from "./shape.ts";
import { visible } from "./visible.ts";

export interface Show {
  /** Every code becomes dots; then the installer code is never shown either. */
  readonly hideCodes: boolean;
  readonly showInstaller: boolean;
  /** The installer code that replaces the one in force, where the plan changes it. */
  readonly newInstaller?: Digits;
}

export const hidden = "•";

/** The group with everything that `show` asks to hide hidden. */
export function shownGroup(group: KeyGroup, show: Show): SheetGroup {
  switch (group.is) {
    case "installer":
    case "new installer": {
      const replaces = group.is === "new installer" || group.text === show.newInstaller;
      if (show.showInstaller && !show.hideCodes) return { text: group.text, is: "installer" };
      return { text: replaces ? "[new installer code]" : "[installer code]", is: "installer" };
    }
    case "code":
      return { text: show.hideCodes ? hidden.repeat(group.text.length) : group.text, is: "code" };
    default:
      return { text: visible(group.text), is: group.is };
  }
}

export function shownGroups(groups: readonly KeyGroup[], show: Show): readonly SheetGroup[] {
  return groups.map(group => shownGroup(group, show));
}
