import { type CompletionItem, CompletionItemKind, MarkupKind } from 'vscode-languageserver';
import type { Completion } from '../../core/features/completion-item.ts';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

const KINDS: Readonly<Record<Completion['kind'], CompletionItemKind>> = {
  key: CompletionItemKind.Property,
  part: CompletionItemKind.Class,
  terminal: CompletionItemKind.Field,
  setting: CompletionItemKind.Property,
  unit: CompletionItemKind.Unit,
  choice: CompletionItemKind.EnumMember,
  sheet: CompletionItemKind.File,
  colour: CompletionItemKind.Color,
};

/** Keys, names, terminals, settings, units and choices that fit at the cursor. */
export function registerCompletion(session: Session): void {
  const { connection, fettle } = session;
  connection.onCompletion(
    guard(connection, 'completion', [], async ({ textDocument, position }): Promise<CompletionItem[]> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      const offset = analysed.document.offsetAt(position);
      return fettle.completions(analysed.analysis, offset).map((item, index) => ({
        label: item.label,
        kind: KINDS[item.kind],
        sortText: String(index).padStart(5, '0'),
        filterText: analysed.document.getText().slice(item.from, offset) + item.insert,
        textEdit: {
          range: toRange(analysed.document, { from: item.from, to: offset }),
          newText: item.insert,
        },
        ...(item.detail !== '' && { detail: item.detail }),
        ...(item.documentation !== '' && {
          documentation: { kind: MarkupKind.Markdown, value: item.documentation },
        }),
      }));
    }),
  );
}
