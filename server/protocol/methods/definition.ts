import type { Location, LocationLink, TextDocumentPositionParams } from 'vscode-languageserver';
import type { Target } from '../../core/features/definition.ts';
import { toLocation, toSpanRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

/** From a name to where it is defined, and to what tells what it is: in this document or in a sheet. */
export function registerDefinition(session: Session): void {
  const { connection, fettle } = session;
  const answer =
    (find: typeof fettle.definition) =>
    async ({ textDocument, position }: TextDocumentPositionParams): Promise<Location[] | LocationLink[]> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      return toLinks(session, analysed, find(analysed.analysis, analysed.document.offsetAt(position)));
    };
  connection.onDefinition(guard(connection, 'definition', [], answer(fettle.definition)));
  connection.onTypeDefinition(guard(connection, 'type definition', [], answer(fettle.typeDefinition)));
}

function toLinks(
  session: Session,
  analysed: Analysed,
  targets: readonly Target[],
): Location[] | LocationLink[] {
  const located = targets.flatMap(({ file, at, origin }) => {
    const location = toLocation(session, analysed, file, at);
    return location ? [{ ...location, origin: toSpanRange(analysed, origin) }] : [];
  });
  if (!session.client.linkedLocations) return located.map(({ uri, range }) => ({ uri, range }));
  return located.map(({ uri, range, origin }) => ({
    targetUri: uri,
    targetRange: range,
    targetSelectionRange: range,
    originSelectionRange: origin,
  }));
}
