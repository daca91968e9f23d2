import {
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
  MarkupKind,
} from 'vscode-languageserver';
import type { PlacedCompletion } from '../../core/features/completion-item.ts';
import { plainOf } from '../../core/features/snippets.ts';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

const KINDS: Readonly<Record<PlacedCompletion['kind'], CompletionItemKind>> = {
  key: CompletionItemKind.Property,
  part: CompletionItemKind.Class,
  terminal: CompletionItemKind.Field,
  setting: CompletionItemKind.Property,
  unit: CompletionItemKind.Unit,
  choice: CompletionItemKind.EnumMember,
  sheet: CompletionItemKind.File,
  colour: CompletionItemKind.Color,
  snippet: CompletionItemKind.Snippet,
};

/** Kinds whose names are the maker's, so that a name alone does not tell which one is wanted. */
const NAMED_BY_MAKERS: ReadonlySet<PlacedCompletion['kind']> = new Set(['terminal', 'setting']);

/** Which item of which list it is, so that its documentation can be had when somebody looks at it. */
interface ItemData {
  readonly list: number;
  readonly index: number;
}

/** Keys, names, terminals, settings, units, choices and whole entries that fit at the cursor. */
export function registerCompletion(session: Session): void {
  const { connection, fettle } = session;
  let list = 0;
  let last: readonly PlacedCompletion[] = [];
  connection.onCompletion(
    guard(connection, 'completion', [], async ({ textDocument, position }): Promise<CompletionItem[]> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      const offset = analysed.document.offsetAt(position);
      last = fettle.completions(analysed.analysis, offset);
      list += 1;
      return last.map((item, index) => ({
        ...toItem(session, analysed, item, offset),
        sortText: String(index).padStart(5, '0'),
        data: { list, index } satisfies ItemData,
      }));
    }),
  );
  connection.onCompletionResolve((item) => {
    const { list: from, index } = (item.data ?? {}) as Partial<ItemData>;
    const documentation = from === list && index !== undefined ? (last[index]?.documentation ?? '') : '';
    return documentation === ''
      ? item
      : { ...item, documentation: { kind: MarkupKind.Markdown, value: documentation } };
  });
}

function toItem(
  session: Session,
  { document, analysis }: Analysed,
  item: PlacedCompletion,
  offset: number,
): CompletionItem {
  const range = toRange(document, { from: item.from, to: item.to });
  const plain = plainOf(item.insert);
  const isSnippet = item.kind === 'snippet' && session.client.fillsSnippets;
  return {
    label: item.label,
    kind: KINDS[item.kind],
    filterText: item.kind === 'snippet' ? item.label : analysis.tree.text.slice(item.from, offset) + plain,
    textEdit: { range, newText: isSnippet ? numbered(item.insert) : plain },
    ...(isSnippet && { insertTextFormat: InsertTextFormat.Snippet }),
    ...(plain.includes('\n') && { insertTextMode: InsertTextMode.asIs }),
    ...(item.detail !== '' && { detail: item.detail }),
    ...(session.client.describesLabels &&
      NAMED_BY_MAKERS.has(item.kind) && { labelDetails: { description: item.detail } }),
  };
}

/** The places to fill in as the protocol writes them; what would mean something in a snippet is escaped. */
function numbered(snippet: string): string {
  let number = 0;
  return snippet.replaceAll(/[\\$}]/g, String.raw`\$&`).replaceAll(/‹([^›]*)›/g, (_, text: string) => {
    number += 1;
    return `\${${number}:${text}}`;
  });
}
