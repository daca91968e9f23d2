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
    range: toRange(document, symbol.range),
    selectionRange: toRange(document, symbol.nameRange),
    ...(children.length > 0 && { children: children.map((child) => toNested(document, child)) }),
  };
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
