import { SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver';
import type { NameKind } from '../../core/names/mention.ts';
import { toLocationIn } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

const KINDS: Readonly<Record<NameKind, SymbolKind>> = {
  part: SymbolKind.Class,
  terminal: SymbolKind.Field,
  circuit: SymbolKind.Interface,
  setting: SymbolKind.Property,
  cable: SymbolKind.Package,
  label: SymbolKind.String,
  axis: SymbolKind.Object,
  sheet: SymbolKind.File,
  anchor: SymbolKind.Constant,
  title: SymbolKind.File,
};

/** Parts, axes, cables, terminals, circuits and settings anywhere in the workspace, by some of their letters. */
export function registerWorkspaceSymbols(session: Session): void {
  const { connection, fettle } = session;
  connection.onWorkspaceSymbol(
    guard(connection, 'workspace symbols', [], async ({ query }): Promise<WorkspaceSymbol[]> => {
      const found = fettle.workspaceSymbols(query, await session.workspace());
      return found.flatMap(({ source, mention }) => {
        const location = toLocationIn(session, source, mention.at);
        if (!location) return [];
        const containerName = [source.world.nameOf(source.file), mention.owner].filter(Boolean).join(' › ');
        return [{ name: mention.text, kind: KINDS[mention.kind], location, containerName }];
      });
    }),
  );
}
