/** Text set to a width in columns, as a terminal or a plain printer counts them. */

/** Letters that take two columns: East Asian wide and full-width ones, and pictures. By the ranges of Unicode's East Asian Width. */
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}/u;

/** Marks that stand on the letter before them, joiners, and the isolates around a label: no column of their own. */
const narrow = /^(?:\p{Mn}|\p{Me}|\u200c|\u200d|\u2068|\u2069)$/u;

export function columnsOf(text: string): number {
  let columns = 0;
  for (const letter of text) columns += letterColumns(letter);
  return columns;
}

/** Lines of at most `width` columns, broken between words; a word that is longer than a line is broken where it must be. */
export function wrapped(words: readonly string[], width: number, gap = " "): readonly string[] {
  const lines: string[] = [];
  let line = "";
  let used = 0;
  for (const word of words.flatMap(word => pieces(word, width))) {
    const needed = columnsOf(word);
    if (line !== "" && used + gap.length + needed > width) {
      lines.push(line);
      line = "";
      used = 0;
    }
    line += line === "" ? word : gap + word;
    used = line === word ? needed : used + gap.length + needed;
  }
  if (line !== "") lines.push(line);
  return lines;
}

function pieces(word: string, width: number): readonly string[] {
  if (columnsOf(word) <= width) return [word];
  const cut: string[] = [];
  let piece = "";
  let used = 0;
  for (const letter of word) {
    const needed = letterColumns(letter);
    if (used + needed > width) {
      cut.push(piece);
      piece = "";
      used = 0;
    }
    piece += letter;
    used += needed;
  }
  cut.push(piece);
  return cut;
}

function letterColumns(letter: string): number {
  if (letter >= " " && letter <= "~") return 1;
  return narrow.test(letter) ? 0 : wide.test(letter) ? 2 : 1;
}
