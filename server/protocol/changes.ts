import type { CreateFile, TextDocumentEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Fix } from '../core/problem.ts';
import { toRange, toTextEdits } from './convert.ts';
import type { Analysed, Session } from './session.ts';

/** What of a fix is done to files. */
type Change = Pick<Fix, 'edits' | 'newFiles' | 'elsewhere'>;

/** Not every editor can make a file for a server. */
export function canBeMade(session: Session, { newFiles }: Change): boolean {
  return newFiles === undefined || session.client.createsFiles;
}

/** A change of the analysed document in the protocol's terms, with the files that it makes. */
export function toWorkspaceEdit(
  session: Session,
  analysed: Analysed,
  { edits, newFiles = [], elsewhere = [] }: Change,
): WorkspaceEdit {
  const { uri, version } = analysed.document;
  const own = toTextEdits(analysed, edits);
  const others = elsewhere.flatMap(({ file, from, to, text }) => {
    const document = session.documentOf(file);
    return document
      ? [{ uri: document.uri, edit: { range: toRange(document, { from, to }), newText: text } }]
      : [];
  });
  if (!session.client.versionedEdits) {
    const changes = others.map(({ uri: other, edit }) => [other, [edit]] as [string, TextEdit[]]);
    return { changes: { ...(own.length > 0 && { [uri]: own }), ...Object.fromEntries(changes) } };
  }
  const made = newFiles.flatMap(({ file, text }): (CreateFile | TextDocumentEdit)[] => [
    { kind: 'create', uri: file, options: { ignoreIfExists: true } },
    { textDocument: { uri: file, version: null }, edits: [wholeText(text)] },
  ]);
  const changed = own.length > 0 ? [{ textDocument: { uri, version }, edits: own }] : [];
  const elsewhereChanged = others.map(({ uri: other, edit }) => ({
    textDocument: { uri: other, version: null },
    edits: [edit],
  }));
  return { documentChanges: [...made, ...changed, ...elsewhereChanged] };
}

function wholeText(newText: string): TextEdit {
  const start = { line: 0, character: 0 };
  return { range: { start, end: start }, newText };
}
