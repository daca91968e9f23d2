import type { ColorInformation, ColorPresentation } from 'vscode-languageserver';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** Wire colours as swatches, and the letter codes for a colour that was picked. */
export function registerColours(session: Session): void {
  const { connection, fettle } = session;
  connection.onDocumentColor(
    guard(connection, 'colours', [], async ({ textDocument }): Promise<ColorInformation[]> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      return fettle.colours(analysed.analysis).map(({ from, to, shade }) => ({
        range: toRange(analysed.document, { from, to }),
        color: { ...shade, alpha: 1 },
      }));
    }),
  );
  connection.onColorPresentation(
    guard(connection, 'colour codes', [], ({ color, range }): ColorPresentation[] =>
      fettle.nearestCodes(color).map(({ code, name }) => ({
        label: `${code} ${name}`,
        textEdit: { range, newText: code },
      })),
    ),
  );
}
