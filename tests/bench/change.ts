import type { Client } from '../support/lsp-client.ts';
import type { Edit } from './edits.ts';

/** Makes an edit in an open text, and tells how it is taken back. @param text the text as it was before */
export function change(client: Client, uri: string, text: string, { from, to, typed }: Edit): () => void {
  const [start, end] = [client.positionAt(uri, from), client.positionAt(uri, to)];
  client.replace(uri, { start, end }, typed);
  const after = client.positionAt(uri, from + typed.length);
  return () => client.replace(uri, { start, end: after }, text.slice(from, to));
}
