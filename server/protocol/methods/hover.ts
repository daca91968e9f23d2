import { type Hover, MarkupKind } from 'vscode-languageserver';
import { toSpanRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** What stands under the cursor, with its numbers and their working. */
export function registerHover(session: Session): void {
  const { connection, fettle } = session;
  connection.onHover(
    guard(connection, 'hover', null, async ({ textDocument, position }): Promise<Hover | null> => {
      const analysed = await session.analysisOf(textDocument.uri);
      const hover = analysed && fettle.hover(analysed.analysis, analysed.document.offsetAt(position));
      if (!analysed || !hover) return null;
      const kind = session.client.showsMarkdown ? MarkupKind.Markdown : MarkupKind.PlainText;
      const value = session.client.showsMarkdown ? hover.markdown : toPlainText(hover.markdown);
      return { contents: { kind, value }, range: toSpanRange(analysed, hover.at) };
    }),
  );
}

/** For clients without Markdown: the same text without its marks. */
function toPlainText(markdown: string): string {
  return markdown
    .replace(/\*\*|`/g, '')
    .replace(/^---$/gm, '')
    .replace(/\\([!-/:-@[-`{-~])/g, '$1')
    .replace(/ {2}$/gm, '');
}
