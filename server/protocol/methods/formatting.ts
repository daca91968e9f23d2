import type { TextEdit } from 'vscode-languageserver';
import type { TextChange } from '../../core/features/formatting.ts';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

/** Lays the text out: all of it, some lines, or what has just been finished by typing. */
export function registerFormatting(session: Session): void {
  const { connection, fettle } = session;
  connection.onDocumentFormatting(
    guard(connection, 'formatting', null, async ({ textDocument }): Promise<TextEdit[] | null> => {
      const analysed = await session.analysisOf(textDocument.uri);
      return analysed ? toEdits(analysed, fettle.format(analysed.analysis)) : null;
    }),
  );
  connection.onDocumentRangeFormatting(
    guard(
      connection,
      'range formatting',
      null,
      async ({ textDocument, range }): Promise<TextEdit[] | null> => {
        const analysed = await session.analysisOf(textDocument.uri);
        if (!analysed) return null;
        const { document, analysis } = analysed;
        return toEdits(
          analysed,
          fettle.formatRange(analysis, document.offsetAt(range.start), document.offsetAt(range.end)),
        );
      },
    ),
  );
  connection.onDocumentOnTypeFormatting(
    guard(
      connection,
      'on-type formatting',
      null,
      async ({ textDocument, position }): Promise<TextEdit[] | null> => {
        const analysed = await session.analysisOf(textDocument.uri);
        return analysed
          ? toEdits(analysed, fettle.formatOnType(analysed.analysis, analysed.document.offsetAt(position)))
          : null;
      },
    ),
  );
}

function toEdits({ document }: Analysed, changes: readonly TextChange[]): TextEdit[] {
  return changes.map(({ from, to, text }) => ({ range: toRange(document, { from, to }), newText: text }));
}
