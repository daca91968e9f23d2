import type { CreateFile, TextDocumentEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Fix } from '../core/problem.ts';
import { toTextEdits } from './convert.ts';
import type { Analysed, Session } from './session.ts';

/** What of a fix is done to files. */
type Change = Pick<Fix, 'edits' | 'newFiles'>;

/** Not every editor can make a file for a server. */
export function canBeMade(session: Session, { newFiles }: Change): boolean {
  return newFiles === undefined || session.client.createsFiles;
}

/** A change of the analysed document in the protocol's terms, with the files that it makes. */
export function toWorkspaceEdit(
  session: Session,
  analysed: Analysed,
  { edits, newFiles = [] }: Change,
): WorkspaceEdit {
  const { uri, version } = analysed.document;
  const own = toTextEdits(analysed, edits);
  if (!session.client.versionedEdits) return { changes: { [uri]: own } };
  const made = newFiles.flatMap(({ file, text }): (CreateFile | TextDocumentEdit)[] => [
    { kind: 'create', uri: file, options: { ignoreIfExists: true } },
    { textDocument: { uri: file, version: null }, edits: [wholeText(text)] },
  ]);
  const changed = own.length > 0 ? [{ textDocument: { uri, version }, edits: own }] : [];
  return { documentChanges: [...made, ...changed] };
}

function wholeText(newText: string): TextEdit {
  const start = { line: 0, character: 0 };
  return { range: { start, end: start }, newText };
}
