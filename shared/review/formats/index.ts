/** The forms in which reviews are written. */
import type { Review } from "../review.ts";
import type { Shown } from "../told.ts";
import { json } from "./json.ts";
import { md } from "./md.ts";
import { text } from "./text.ts";

export interface ReviewFormat {
  readonly name: string;
  /** Of one site each. */
  render(reviews: readonly Review[], shown: Shown): string;
}

export const reviewFormats: readonly ReviewFormat[] = [text, md, json];
