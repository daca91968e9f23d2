/** A bracket that is opened and never closed, and where its line's content ends. */
interface OpenBracket {
  readonly at: number;
  readonly open: string;
  readonly end: number;
}

/** The last bracket of a text that is opened and never closed; quotes and comments are passed over. */
export function findOpenBracket(text: string): OpenBracket | undefined {
  const open: number[] = [];
  const skip = /"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|(?<=^|\s)#.*|[[\]{}]/gm;
  for (const { 0: token, index } of text.matchAll(skip)) {
    if (token === '{' || token === '[') open.push(index);
    else if (token === '}' || token === ']') open.pop();
  }
  const at = open.at(-1);
  if (at === undefined) return undefined;
  const line = /^.*/.exec(text.slice(at))?.[0] ?? '';
  const content = line.replace(/\s#.*$/, '').trimEnd();
  return { at, open: text[at] ?? '', end: at + content.length };
}
