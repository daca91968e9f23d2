import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type LinkedEditingRanges,
  type Location,
} from 'vscode-languageserver';
import { toLocationIn, toSourceRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** The other places of a name: in the workspace, in this document, and those that change while it is typed. */
export function registerNames(session: Session): void {
  const { connection, fettle } = session;
  connection.onReferences(
    guard(connection, 'references', [], async ({ textDocument, position, context }): Promise<Location[]> => {
      const sources = await session.workspace();
      const open = session.sourceOf(textDocument.uri);
      if (!open) return [];
      const { document, source } = open;
      const found = fettle.references(
        source,
        document.offsetAt(position),
        sources,
        context.includeDeclaration,
      );
      return found.flatMap((each) => toLocationIn(session, each.source, each.mention.at) ?? []);
    }),
  );
  connection.onDocumentHighlight(
    guard(connection, 'highlights', [], ({ textDocument, position }): DocumentHighlight[] => {
      const open = session.sourceOf(textDocument.uri);
      if (!open) return [];
      return fettle.highlights(open.source, open.document.offsetAt(position)).map(({ at, access }) => ({
        range: toSourceRange(open, at),
        kind: access === 'use' ? DocumentHighlightKind.Read : DocumentHighlightKind.Write,
      }));
    }),
  );
  connection.languages.onLinkedEditingRange(
    guard(connection, 'linked editing', null, ({ textDocument, position }): LinkedEditingRanges | null => {
      const open = session.sourceOf(textDocument.uri);
      const places = open && fettle.linkedPlaces(open.source, open.document.offsetAt(position));
      if (!places) return null;
      return { ranges: places.map(({ at }) => toSourceRange(open, at)), wordPattern: WORD };
    }),
  );
}

/** What a name may be made of while it is typed: no blank, dot, comma or bracket. */
const WORD = '[^\\s.,:{}\\[\\]]+';
