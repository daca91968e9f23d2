/** A Markdown table; every row has as many cells as the head. Columns in which nothing stands are left out. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const used = head.map((_, column) => rows.some((row) => row[column] !== ''));
  const line = (cells: readonly string[]) =>
    `| ${cells
      .filter((_, column) => used[column])
      .map(escapeCell)
      .join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

function escapeCell(cell: string): string {
  return cell.replaceAll('|', '\\|').replaceAll('\n', ' ');
}

/** Inline code. */
export function code(text: string): string {
  return `\`${text}\``;
}

/** Words in inline code, with commas. */
export function codes(words: Iterable<string>): string {
  return [...words].map(code).join(', ');
}

/** Blocks of Markdown with a blank line between them; empty ones are left out. */
export function blocks(...parts: readonly string[]): string {
  return parts.filter((part) => part !== '').join('\n\n');
}
