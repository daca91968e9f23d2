/**
 * Estimates how wide a text is in a common sans serif face, in the unit of `size`. Rather too wide than too narrow:
 * the average letter of such faces is about 0.53 em wide, capitals 0.68 em, East Asian letters 1 em. From memory.
 */
export function estimateWidth(text: string, size: number): number {
  let ems = 0;
  for (const char of text) ems += estimateChar(char);
  return ems * size;
}

/** Letters beyond the Latin blocks count as wide ones. */
const LATIN_END = 0x250;

function estimateChar(char: string): number {
  if (/[A-Z@%&+<>=~#mwMW_]/.test(char)) return 0.7;
  if (/[ .,:;|!'()[\]ijlt-]/.test(char)) return 0.36;
  return (char.codePointAt(0) ?? 0) < LATIN_END ? 0.58 : 1;
}

/** Cuts a text so that it fits into a width, with an ellipsis where something was cut. */
export function fitText(text: string, size: number, width: number): string {
  if (estimateWidth(text, size) <= width) return text;
  let fitting = '';
  for (const char of text) {
    if (estimateWidth(`${fitting}${char}…`, size) > width) break;
    fitting += char;
  }
  return `${fitting.trimEnd()}…`;
}
