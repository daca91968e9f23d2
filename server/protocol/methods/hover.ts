import { type Hover, MarkupKind } from 'vscode-languageserver';
import { codeSpan } from '../../core/features/markdown.ts';
import type { Tryable } from '../../core/features/tryable.ts';
import { say } from '../../core/language/say.ts';
import { toSpanRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** What stands under the cursor, with its numbers and their working. */
export function registerHover(session: Session): void {
  const { connection, fettle } = session;
  connection.onHover(
    guard(connection, 'hover', null, async ({ textDocument, position }): Promise<Hover | null> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return null;
      const { analysis, document } = analysed;
      const offset = document.offsetAt(position);
      const hover = fettle.hover(analysis, offset);
      if (!hover) return null;
      const kind = session.client.showsMarkdown ? MarkupKind.Markdown : MarkupKind.PlainText;
      const tryable = fettle.tryableAt(analysis, offset);
      const markdown = `${hover.markdown}${tryable ? `\n\n---\n\n${offer(session, document.uri, tryable)}` : ''}`;
      const value = session.client.showsMarkdown ? markdown : toPlainText(markdown);
      return { contents: { kind, value }, range: toSpanRange(analysed, hover.at) };
    }),
  );
}

/** The client's command that asks for another value. */
const TRY_VALUE = 'fettle.tryValue';

/** The way to try another value: a link where the client runs our commands, else the words of the command line. */
function offer({ client }: Session, uri: string, { path, now }: Tryable): string {
  if (!client.linksCommands) {
    const command = codeSpan(`fettle explain FILE --set "${path}=VALUE"`);
    return say`To see what another value would change: ${command}`;
  }
  const given = encodeURIComponent(JSON.stringify([uri, path, now])).replace(/[()]/g, (mark) =>
    mark === '(' ? '%28' : '%29',
  );
  const about = say`Shows what would change. The text stays as it is.`;
  return `[${say`Try another value`}](command:${TRY_VALUE}?${given} "${about}")`;
}

/** For clients without Markdown: the same text without its marks. */
function toPlainText(markdown: string): string {
  return markdown
    .replace(/\*\*|`/g, '')
    .replace(/^---$/gm, '')
    .replace(/\\([!-/:-@[-`{-~])/g, '$1')
    .replace(/ {2}$/gm, '');
}
