/** Deeper nesting than any definition needs; it bounds the recursion of everything that walks a tree. */
export const DEEPEST = 60;

/** A cheap upper bound of the nesting: open brackets, and indentations that stand inside one another. */
export function isTooDeep(text: string): boolean {
  if (/(?:[-?:][ \t]+){60}/.test(text)) return true;
  let open = 0;
  const indents: number[] = [];
  for (const line of text.split('\n')) {
    const indent = line.search(/[^ ]/);
    if (indent < 0) continue;
    while ((indents.at(-1) ?? -1) > indent) indents.pop();
    if ((indents.at(-1) ?? -1) < indent) indents.push(indent);
    for (const char of line) {
      if (char === '[' || char === '{') open++;
      else if ((char === ']' || char === '}') && open > 0) open--;
      if (open + indents.length > DEEPEST) return true;
    }
  }
  return false;
}
