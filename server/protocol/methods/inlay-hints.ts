import { type InlayHint, MarkupKind } from 'vscode-languageserver';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** Computed numbers in the text, of the kinds that the user wants. */
export function registerInlayHints(session: Session): void {
  const { connection, fettle } = session;
  connection.languages.inlayHint.on(
    guard(connection, 'inlay hints', [], async ({ textDocument, range }): Promise<InlayHint[]> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      const { document, analysis } = analysed;
      const hints = fettle.inlayHints(
        analysis,
        document.offsetAt(range.start),
        document.offsetAt(range.end),
        session.options.hints,
      );
      return hints.map((hint) => ({
        position: document.positionAt(hint.offset),
        label: hint.label,
        paddingLeft: true,
        paddingRight: true,
        tooltip: { kind: MarkupKind.Markdown, value: hint.tooltip },
      }));
    }),
  );
}
