import type { Location, LocationLink } from 'vscode-languageserver';
import { toLocation, toSpanRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** From a name to where it is defined, in this document or in a sheet. */
export function registerDefinition(session: Session): void {
  const { connection, fettle } = session;
  connection.onDefinition(
    guard(
      connection,
      'definition',
      null,
      async ({ textDocument, position }): Promise<Location | LocationLink[] | null> => {
        const analysed = await session.analysisOf(textDocument.uri);
        const target = analysed && fettle.definition(analysed.analysis, analysed.document.offsetAt(position));
        const location = target && toLocation(session, analysed, target.file, target.at);
        if (!location) return null;
        if (!session.client.linkedLocations) return location;
        const { uri, range } = location;
        return [
          {
            targetUri: uri,
            targetRange: range,
            targetSelectionRange: range,
            originSelectionRange: toSpanRange(analysed, target.origin),
          },
        ];
      },
    ),
  );
}
