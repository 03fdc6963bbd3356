/** The table for another program. What does not apply is absent; there is no code in it. */
import { jsonText } from "../../json-text.ts";
import type { WhoFormat } from "./index.ts";

export const json: WhoFormat = {
  name: "json",
  render({ site, date, rows, odds }) {
    const openings = rows.map(({ way }) => ({
      door: way.door,
      keypad: way.keypad.id,
      relay: way.relay,
      ...(way.holder ? { holder: way.holder.id, label: way.holder.label, credential: way.credential } : {}),
      by: way.by,
      ...(way.until === undefined ? {} : { until: way.until }),
      now: way.now,
      after: way.after,
      lapsed: way.lapsed,
      ...(way.lost ? { lost: true } : {}),
    }));
    return jsonText({ site, date, openings, odds });
  },
};
