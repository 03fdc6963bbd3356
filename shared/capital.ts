/** Words as the beginning of a sentence: with a capital letter, where the first one has any. */
export function capital(words: string): string {
  return words.replace(/^\p{Ll}/u, letter => letter.toUpperCase());
}
