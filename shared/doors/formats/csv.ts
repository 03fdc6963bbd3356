/** Doors and supplies for a spreadsheet: one row each, numbers in the unit of their column. */
import { byteOrderMark, quotedCell } from "../../sheet/csv-cell.ts";
import { visible } from "../../sheet/visible.ts";
import { relayWords } from "../list.ts";
import { rounded } from "../words.ts";
import type { DoorsFormat } from "./index.ts";

const columns = [
  "what",
  "label",
  "relays",
  "lock",
  "without power",
  "rated V",
  "rated A",
  "fed by",
  "cable m",
  "cable ohm",
  "at the lock on mains V",
  "at the lock at battery end V",
  "lowest V",
  "highest V",
  "all at once A",
  "supply A",
  "battery Ah",
  "battery needed Ah",
  "battery lasts h",
  "to be said",
  "cautions",
] as const;

type Row = Partial<Record<(typeof columns)[number], string | number>>;

export const csv: DoorsFormat = {
  name: "csv",
  render({ doors, supplies }) {
    const rows: Row[] = [
      ...doors.map(({ label, relays, sum, words, cautions }): Row => {
        const { lock, limits, cable, fedBy = [], onMains, atBatteryEnd } = sum ?? {};
        return given({
          what: "door",
          label,
          relays: relays.map(relayWords).join("; "),
          lock: lock?.kind,
          "without power": lock?.withoutPower,
          "rated V": lock?.ratedVolts,
          "rated A": lock?.ratedAmps,
          "fed by": fedBy.map(supply => supply.label).join("; "),
          "cable m": cable?.metres,
          "cable ohm": cable?.ohms,
          "at the lock on mains V": onMains?.lost.volts,
          "at the lock at battery end V": atBatteryEnd?.lost.volts,
          "lowest V": limits?.lowest,
          "highest V": limits?.highest,
          "to be said": words.missing.join("; "),
          cautions: cautions.join("; "),
        });
      }),
      ...supplies.map(({ sum, words }): Row => {
        const { batterySum } = sum;
        return given({
          what: "supply",
          label: sum.label,
          "rated V": sum.volts,
          "all at once A": sum.totalAmps,
          "supply A": sum.amps,
          "battery Ah": batterySum?.ampHours,
          "battery needed Ah": batterySum?.needed?.ampHours,
          "battery lasts h": batterySum?.lasts?.hours,
          "to be said": words.missing.join("; "),
        });
      }),
    ];
    const lines = [columns.map(quotedCell), ...rows.map(row => columns.map(column => cellOf(row[column])))];
    return `${byteOrderMark}${lines.map(line => line.join(",")).join("\r\n")}\r\n`;
  },
};

function given(row: { readonly [column in keyof Row]: Row[column] | undefined }): Row {
  return Object.fromEntries(Object.entries(row).filter(([, cell]) => cell !== undefined));
}

/** A number stays one, so that a column can be summed. */
function cellOf(cell: string | number | undefined): string {
  if (cell === undefined) return "";
  return typeof cell === "number" ? rounded(cell, 3) : quotedCell(visible(cell));
}
