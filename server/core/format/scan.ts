/** Reads pieces of a line of YAML that is known to be right. Offsets are those of the given text. */

/** Where a quoted text ends that starts at an offset: just behind its closing quote. */
export function endOfQuoted(text: string, from: number): number {
  const quote = text[from];
  for (let at = from + 1; at < text.length; at++) {
    if (quote === '"' && text[at] === '\\') at++;
    else if (text[at] === quote) {
      if (quote === "'" && text[at + 1] === "'") at++;
      else return at + 1;
    }
  }
  return text.length;
}

/** Cuts a line into what it says and its comment, which starts with the # that follows a blank. */
export function splitComment(text: string): { code: string; comment: string } {
  let open = true; // a quote counts only where a scalar can begin
  for (let at = 0; at < text.length; at++) {
    const char = text[at] as string;
    if (open && (char === '"' || char === "'")) {
      at = endOfQuoted(text, at) - 1;
      open = false;
    } else if (char === '#' && (at === 0 || /\s/.test(text[at - 1] ?? ''))) {
      return { code: text.slice(0, at), comment: text.slice(at) };
    } else if (!/\s/.test(char)) open = /[:,[{-]/.test(char);
  }
  return { code: text, comment: '' };
}

/** A key with its colon, and what follows. Undefined where a line of a block map has no key. */
export function splitKey(text: string): { key: string; gap: number; value: string } | undefined {
  const quoted = /^["']/.test(text) ? endOfQuoted(text, 0) : 0;
  const colon = /^\s*:(?=\s|$)/.exec(text.slice(quoted));
  const plain = quoted > 0 ? undefined : /^[^\s[\]{},#&*!|>%@`?][^\n]*?(?=\s*:(?:\s|$))/.exec(text)?.[0];
  const end = quoted > 0 ? quoted : (plain?.length ?? 0);
  const mark = quoted > 0 ? colon : /^\s*:/.exec(text.slice(end));
  if (end === 0 || !mark) return undefined;
  const rest = text.slice(end + mark[0].length);
  const value = rest.trimStart();
  return { key: text.slice(0, end), gap: rest.length - value.length, value };
}
