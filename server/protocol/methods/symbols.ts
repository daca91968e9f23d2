import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { DocumentSymbol as CoreSymbol } from '../../core/features/symbols.ts';
import { toRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

const KINDS: Readonly<Record<CoreSymbol['kind'], SymbolKind>> = {
  section: SymbolKind.Module,
  part: SymbolKind.Class,
  axis: SymbolKind.Object,
  link: SymbolKind.Event,
  cable: SymbolKind.Package,
  circuit: SymbolKind.Interface,
  setting: SymbolKind.Property,
  key: SymbolKind.Key,
};

/** The outline of a document. */
export function registerSymbols(session: Session): void {
  const { connection, fettle } = session;
  connection.onDocumentSymbol(
    guard(
      connection,
      'symbols',
      [],
      async ({ textDocument }): Promise<DocumentSymbol[] | SymbolInformation[]> => {
        const analysed = await session.analysisOf(textDocument.uri);
        if (!analysed) return [];
        const symbols = fettle.symbols(analysed.analysis);
        return session.client.nestedSymbols
          ? symbols.map((symbol) => toNested(analysed.document, symbol))
          : toFlat(analysed.document, symbols);
      },
    ),
  );
}

function toNested(document: TextDocument, symbol: CoreSymbol): DocumentSymbol {
  const { name, detail, kind, children } = symbol;
  // A long text has thousands of entries: what is empty is not sent.
  return {
    name,
    ...(detail !== '' && { detail }),
    kind: KINDS[kind],
    ...rangesOf(document, symbol),
    ...(children.length > 0 && { children: children.map((child) => toNested(document, child)) }),
  };
}

/** Most entries begin with their name, and many are nothing else: what is the same is looked up once. */
function rangesOf(
  document: TextDocument,
  { range, nameRange }: CoreSymbol,
): Pick<DocumentSymbol, 'range' | 'selectionRange'> {
  const whole = toRange(document, range);
  const start = nameRange.from === range.from ? whole.start : document.positionAt(nameRange.from);
  const end = nameRange.to === range.to ? whole.end : document.positionAt(nameRange.to);
  return { range: whole, selectionRange: { start, end } };
}

/** For clients that know no tree. */
function toFlat(document: TextDocument, symbols: readonly CoreSymbol[]): SymbolInformation[] {
  return symbols.flatMap((symbol) => [
    {
      name: symbol.name,
      kind: KINDS[symbol.kind],
      location: { uri: document.uri, range: toRange(document, symbol.range) },
    },
    ...toFlat(document, symbol.children),
  ]);
}
