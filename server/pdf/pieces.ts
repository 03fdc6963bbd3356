/** What a page is set from: runs of words, rows of keys, columns, gaps. Each knows its height before it is drawn. Lengths are points. */
import type PDFKit from "pdfkit";
import type { SheetGroup } from "../../shared/sheet/shape.ts";

export type Ink = InstanceType<typeof PDFKit>;

export interface Piece {
  height(ink: Ink, width: number): number;
  draw(ink: Ink, x: number, y: number, width: number): void;
  /** Words that may go on over the end of a page, where they are longer than one. */
  readonly flows?: (ink: Ink, x: number, y: number, width: number) => void;
  /** What stands in it, one after the other, where it has to be taken apart because it is longer than a page. */
  readonly parts?: readonly Piece[];
}

/** The same piece, measured once for each width: setting words is what takes the time. */
function remembered(piece: Piece): Piece {
  let known: { readonly width: number; readonly height: number } | undefined;
  return {
    ...piece,
    height(ink, width) {
      if (known?.width !== width) known = { width, height: piece.height(ink, width) };
      return known.height;
    },
  };
}

export interface TextLook {
  readonly size?: number;
  readonly bold?: boolean;
  readonly indent?: number;
  readonly after?: number;
  readonly align?: "left" | "center" | "right";
}

const bodySize = 9.5;

/** Marks that keep writing directions apart have no shape of their own; what is written from right to left is not printed here at all. */
export function printable(text: string): string {
  return text.replace(/[\u2066-\u2069]/g, "");
}

export function words(text: string, { size = bodySize, bold = false, indent = 0, after = 2, align = "left" }: TextLook = {}): Piece {
  const shown = printable(text);
  const set = (ink: Ink) => ink.font(bold ? "bold" : "regular").fontSize(size);
  const draw = (ink: Ink, x: number, y: number, width: number) => {
    set(ink).fillColor("#000");
    ink.text(broken(ink, shown, width - indent), x + indent, y, { width: width - indent, align });
  };
  return remembered({
    height: (ink, width) => set(ink).heightOfString(broken(ink, shown, width - indent), { width: width - indent, align }) + after,
    draw,
    flows: draw,
  });
}

/** A word that may be longer than a line has so many letters or more. */
const longWord = 30;

/** The text with a word that is longer than a line broken where it must be: the library does that letter by letter, in quadratic time. */
function broken(ink: Ink, text: string, width: number): string {
  if (!text.split(/\s/).some(word => word.length >= longWord)) return text;
  return text.replace(/\S+/g, word => {
    if (word.length < longWord || ink.widthOfString(word) <= width) return word;
    const letters = [...word];
    const lines: string[] = [];
    let take = Math.max(1, Math.floor((letters.length * width) / ink.widthOfString(word)));
    for (let at = 0; at < letters.length; ) {
      let line = letters.slice(at, at + take).join("");
      while (take > 1 && ink.widthOfString(line) > width) {
        take = Math.max(1, Math.floor(take * 0.9));
        line = letters.slice(at, at + take).join("");
      }
      lines.push(line);
      at += take;
    }
    return lines.join("\n");
  });
}

/** Words behind a box to tick. */
export function ticked(text: string, look: TextLook = {}): Piece {
  const size = look.size ?? bodySize;
  const indent = size * 1.7;
  const inner = words(text, { ...look, indent });
  const box = (ink: Ink, x: number, y: number) =>
    ink
      .lineWidth(1)
      .rect(x + 0.5, y + size * 0.22, size, size)
      .stroke("#000");
  return {
    height: inner.height,
    draw(ink, x, y, width) {
      box(ink, x, y);
      inner.draw(ink, x, y, width);
    },
    flows(ink, x, y, width) {
      box(ink, x, y);
      inner.flows?.(ink, x, y, width);
    },
  };
}

/** Words behind a bar, for what has to be read. */
export function barred(text: string): Piece {
  const inner = words(text, { bold: true, indent: 8 });
  return {
    ...inner,
    draw(ink, x, y, width) {
      ink.rect(x, y, 2.5, inner.height(ink, width) - 2).fill("#000");
      inner.draw(ink, x, y, width);
    },
  };
}

export function gap(points: number): Piece {
  return { height: () => points, draw: () => {} };
}

export function rule(weight = 0.5): Piece {
  return {
    height: () => weight + 3,
    draw: (ink, x, y, width) => {
      ink
        .lineWidth(weight)
        .moveTo(x, y + 1)
        .lineTo(x + width, y + 1)
        .stroke("#000");
    },
  };
}

export function heading(text: string): readonly Piece[] {
  return [gap(8), words(text, { size: 12.5, bold: true, after: 1 }), rule(1.25)];
}

const keySize = 13.5;
const keyHeight = 21;
const keyGap = 4;

interface KeyCap {
  readonly text: string;
  readonly hand: boolean;
}

/** Groups of keys, each in a frame; what the hand does has a broken one. */
export function keys(groups: readonly SheetGroup[]): Piece {
  return caps(groups.map(({ text, is }) => ({ text: text.replace(/^\[|\]$/g, ""), hand: is === "hand" || text.startsWith("[") })));
}

function caps(shown: readonly KeyCap[]): Piece {
  const widthOf = (ink: Ink, cap: KeyCap, most: number) => {
    ink.font("bold").fontSize(cap.hand ? 10 : keySize);
    return Math.min(most, Math.max(22, ink.widthOfString(printable(cap.text)) + 12));
  };
  const placed = (ink: Ink, width: number) => {
    let x = 0;
    let y = 0;
    let row = keyHeight;
    const all = shown.map(cap => {
      const wide = widthOf(ink, cap, width);
      const tall = Math.max(keyHeight, ink.heightOfString(printable(cap.text), { width: wide - 8 }) + 6);
      if (x > 0 && x + wide > width) {
        x = 0;
        y += row + keyGap;
        row = keyHeight;
      }
      const place = { cap, x, y, wide, tall };
      x += wide + keyGap;
      row = Math.max(row, tall);
      return place;
    });
    return { all, height: shown.length === 0 ? 0 : y + row };
  };
  return {
    height: (ink, width) => placed(ink, width).height + 4,
    draw(ink, left, top, width) {
      for (const { cap, x, y, wide, tall } of placed(ink, width).all) {
        ink.lineWidth(cap.hand ? 1.25 : 0.75);
        if (cap.hand) ink.dash(3, { space: 2 });
        ink.roundedRect(left + x, top + y, wide, tall, 2).stroke("#000");
        if (cap.hand) ink.undash();
        const size = cap.hand ? 10 : keySize;
        ink.font("bold").fontSize(size).fillColor("#000");
        ink.text(printable(cap.text), left + x + 4, top + y + (cap.hand ? 3.5 : 2), { width: wide - 8, align: "center" });
      }
    },
  };
}

/** Keys with gaps to fill in by hand. */
export function pattern(parts: readonly ({ readonly keys: string } | { readonly gap: string; readonly width: number })[]): Piece {
  const widthOf = (ink: Ink, part: (typeof parts)[number]) => {
    if ("gap" in part) return Math.max(part.width * 11, ink.font("regular").fontSize(7).widthOfString(printable(part.gap)) + 8);
    return Math.max(18, ink.font("bold").fontSize(9.5).widthOfString(printable(part.keys)) + 8);
  };
  const rows = (ink: Ink, width: number) => {
    const found: { part: (typeof parts)[number]; x: number; row: number; wide: number }[] = [];
    let x = 0;
    let row = 0;
    for (const part of parts) {
      const wide = Math.min(width, widthOf(ink, part));
      if (x > 0 && x + wide > width) {
        x = 0;
        row++;
      }
      found.push({ part, x, row, wide });
      x += wide + 3;
    }
    return found;
  };
  const tall = 19;
  return {
    height: (ink, width) => ((rows(ink, width).at(-1)?.row ?? -1) + 1) * tall + 2,
    draw(ink, left, top, width) {
      for (const { part, x, row, wide } of rows(ink, width)) {
        const y = top + row * tall;
        ink.lineWidth(0.75).fillColor("#000");
        if ("gap" in part) {
          ink
            .moveTo(left + x, y + 16)
            .lineTo(left + x + wide, y + 16)
            .stroke("#000");
          ink
            .font("regular")
            .fontSize(7)
            .text(printable(part.gap), left + x, y, { lineBreak: false });
        } else {
          const hand = part.keys.startsWith("[");
          if (hand) ink.dash(3, { space: 2 });
          ink.roundedRect(left + x, y, wide, 16, 2).stroke("#000");
          if (hand) ink.undash();
          ink.font("bold").fontSize(9.5);
          ink.text(printable(part.keys.replace(/^\[|\]$/g, "")), left + x + 2, y + 1.5, {
            width: wide - 4,
            align: "center",
            lineBreak: false,
          });
        }
      }
    },
  };
}

/** Pieces one under the other. */
export function stack(parts: readonly Piece[]): Piece {
  return remembered({
    height: (ink, width) => parts.reduce((sum, part) => sum + part.height(ink, width), 0),
    draw(ink, x, y, width) {
      let at = y;
      for (const part of parts) {
        part.draw(ink, x, at, width);
        at += part.height(ink, width);
      }
    },
    parts,
  });
}

/** Columns side by side; a share of the width each. */
export function columns(cells: readonly { readonly share: number; readonly parts: readonly Piece[] }[], between = 8): Piece {
  const total = cells.reduce((sum, { share }) => sum + share, 0);
  const pieces = cells.map(({ parts }) => stack(parts));
  const laid = (width: number) => {
    const free = width - between * (cells.length - 1);
    let x = 0;
    return pieces.map((piece, at) => {
      const own = { x, width: (free * (cells[at]?.share ?? 1)) / total, piece };
      x += own.width + between;
      return own;
    });
  };
  return {
    height: (ink, width) => Math.max(0, ...laid(width).map(cell => cell.piece.height(ink, cell.width))),
    draw(ink, x, y, width) {
      for (const cell of laid(width)) cell.piece.draw(ink, x + cell.x, y, cell.width);
    },
    parts: cells.flatMap(({ parts }) => parts),
  };
}

/** A frame of fixed width with a word and a large number in it: the slot, apart from everything else. */
export function framed(label: string, large: string): Piece {
  const height = 42;
  return {
    height: () => height,
    draw(ink, x, y, width) {
      ink
        .lineWidth(1.25)
        .rect(x, y, width, height - 2)
        .stroke("#000");
      ink.fillColor("#000").font("regular").fontSize(8);
      ink.text(label, x, y + 2, { width, align: "center", lineBreak: false });
      const size = ink.font("bold").fontSize(22).widthOfString(large) > width - 6 ? 12 : 22;
      ink.fontSize(size).text(large, x + 2, y + (size === 22 ? 9 : 16), { width: width - 4, align: "center", lineBreak: false });
    },
  };
}
