/** A link as it is written: one blank around the arrow and after commas, two before the wire. */
export function printLink(text: string): string {
  const { ends, wire } = splitLink(text);
  return wire === '' ? ends : `${ends}  ${wire}`;
}

/** A link taken apart into its ends and its wire, with the blanks between them as typed. */
export function splitLink(text: string): { ends: string; gap: number; wire: string } {
  const arrow = text.indexOf('->');
  const [left, right] = [text.slice(0, arrow).trim(), text.slice(arrow + 2).trim()];
  const pieces = right.split(',').map((piece) => piece.trim());
  const last = pieces.pop() ?? '';
  const [, end = last, blanks = '', wire = ''] = /^(\S+)(\s+)(.*)$/.exec(last) ?? [];
  const ends = [left, '->', [...pieces, end].join(', ')].filter((word) => word !== '').join(' ');
  return { ends, gap: blanks.length, wire };
}
