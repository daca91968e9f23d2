import type { CodeLens } from 'vscode-languageserver';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** The client's command that opens the wiring summary at a thing of a text. */
const SHOW_SUMMARY = 'fettle.showSummary';

/** Headline figures above axes, supplies and parts, where the user wants them. */
export function registerCodeLens(session: Session): void {
  const { connection, fettle } = session;
  connection.onCodeLens(
    guard(connection, 'code lens', [], async ({ textDocument: { uri } }): Promise<CodeLens[]> => {
      const shown = await session.options.of(uri);
      const analysed = shown.lenses.size > 0 ? await session.analysisOf(uri) : undefined;
      if (!analysed) return [];
      const { analysis, document } = analysed;
      const wanted = fettle.lenses(analysis).filter(({ kind }) => shown.lenses.has(kind));
      return wanted.map((lens) => ({
        range: toRange(document, lens),
        command: {
          title: lens.title,
          command: SHOW_SUMMARY,
          arguments: [uri, fettle.idAt(analysis, lens.opens)],
        },
      }));
    }),
  );
}
