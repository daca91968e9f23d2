import { type FoldingRange, FoldingRangeKind, type SelectionRange } from 'vscode-languageserver';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** What a text is made of: what can be folded, and what a selection grows to. */
export function registerStructure(session: Session): void {
  const { connection, fettle } = session;
  connection.onFoldingRanges(
    guard(connection, 'folding', [], ({ textDocument }): FoldingRange[] => {
      const open = session.sourceOf(textDocument.uri);
      if (!open) return [];
      return fettle.folds(open.source).map(({ from, to, kind }) => ({
        startLine: open.document.positionAt(from).line,
        endLine: open.document.positionAt(to).line,
        ...(kind === 'comment' && { kind: FoldingRangeKind.Comment }),
      }));
    }),
  );
  connection.onSelectionRanges(
    guard(connection, 'selection', [], ({ textDocument, positions }): SelectionRange[] => {
      const open = session.sourceOf(textDocument.uri);
      if (!open) return [];
      const { document, source } = open;
      return positions.map((position) => {
        const stretches = fettle.selections(source, document.offsetAt(position));
        return stretches.reduceRight<SelectionRange>(
          (parent, stretch) => ({ range: toRange(document, stretch), parent }),
          { range: toRange(document, { from: 0, to: source.tree.text.length }) },
        );
      });
    }),
  );
}
