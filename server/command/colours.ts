/** Ways to set words off on a terminal; without colours they give the words back as they are. */
export interface Colours {
  readonly error: (text: string) => string;
  readonly warning: (text: string) => string;
  readonly hint: (text: string) => string;
  readonly mark: (text: string) => string;
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
  readonly added: (text: string) => string;
  readonly removed: (text: string) => string;
}

/** Colours by the select graphic rendition codes of ECMA-48, or none. */
export function createColours(wanted: boolean): Colours {
  const paint = (code: number) => (text: string) => (wanted ? `\u001b[${code}m${text}\u001b[0m` : text);
  return {
    error: paint(31),
    warning: paint(33),
    hint: paint(36),
    mark: paint(35),
    strong: paint(1),
    faint: paint(2),
    added: paint(32),
    removed: paint(31),
  };
}

/** Text of a user's file as a terminal may show it: what could steer the terminal becomes a sign, a tab one blank. */
export function printable(text: string): string {
  return text.replace(/\p{Cc}|[\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, (char) => {
    const code = char.charCodeAt(0);
    if (code === 9) return ' ';
    return code < 0x20 ? String.fromCharCode(0x2400 + code) : '\ufffd';
  });
}
