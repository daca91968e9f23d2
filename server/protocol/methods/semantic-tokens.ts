import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { TOKEN_MODIFIERS, TOKEN_TYPES, type TokenChunk } from '../../core/features/semantic-tokens.ts';
import { countSameEnds } from '../../core/same-ends.ts';
import { rangeOf, type Tree } from '../../core/syntax/tree.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

/** What the client is told once: the numbers in the answers count in these lists. */
export const TOKENS_LEGEND = { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] };

/** A token as line, character, length, type and modifiers; lines count from the start of its block. */
type Placed = readonly [line: number, character: number, length: number, type: number, modifiers: number];

/** What each word means: for a whole text, for some lines, or as what differs from the last answer. */
export function registerSemanticTokens(session: Session): void {
  const { connection, documents, fettle } = session;
  const last = new Map<string, { readonly id: string; readonly data: readonly number[] }>();
  documents.onDidClose(({ document }) => last.delete(document.uri));

  const answer = (uri: string, analysed: Analysed): SemanticTokens => {
    const data = encode(analysed, fettle.tokens(analysed.analysis));
    last.set(uri, { id: analysed.id, data });
    return { resultId: analysed.id, data };
  };
  const nothing: SemanticTokens = { data: [] };
  connection.languages.semanticTokens.on(
    guard(connection, 'semantic tokens', nothing, async ({ textDocument: { uri } }) => {
      const analysed = await session.analysisOf(uri);
      return analysed ? answer(uri, analysed) : nothing;
    }),
  );
  connection.languages.semanticTokens.onDelta(
    guard<{ textDocument: { uri: string }; previousResultId: string }, SemanticTokens | SemanticTokensDelta>(
      connection,
      'semantic token delta',
      nothing,
      async ({ textDocument: { uri }, previousResultId }) => {
        const analysed = await session.analysisOf(uri);
        if (!analysed) return nothing;
        const before = last.get(uri);
        const now = answer(uri, analysed);
        if (before?.id !== previousResultId) return now;
        return { resultId: analysed.id, edits: difference(before.data, now.data) };
      },
    ),
  );
  connection.languages.semanticTokens.onRange(
    guard(connection, 'semantic tokens of lines', nothing, async ({ textDocument: { uri }, range }) => {
      const analysed = await session.analysisOf(uri);
      if (!analysed) return nothing;
      const lines = { from: range.start.line, to: range.end.line };
      return { data: encode(analysed, fettle.tokens(analysed.analysis), lines) };
    }),
  );
}

const placed = new WeakMap<TokenChunk, readonly Placed[]>();

/** Numbers as the protocol wants them: each token's line and character count from the token before. */
function encode(
  { document, analysis: { tree } }: Analysed,
  chunks: readonly TokenChunk[],
  lines = { from: 0, to: Number.POSITIVE_INFINITY },
): number[] {
  const data: number[] = [];
  let [line, character, end] = [0, 0, 0];
  for (const chunk of chunks) {
    const start = tree.starts.get(chunk.block);
    if (start === undefined) continue;
    const top = document.positionAt(start).line;
    let tokens = tree.moved.has(chunk.block) ? undefined : placed.get(chunk);
    if (!tokens) {
      tokens = place(document, tree, chunk, top);
      if (!tree.moved.has(chunk.block)) placed.set(chunk, tokens);
    }
    for (const [down, at, length, type, modifiers] of tokens) {
      const now = top + down;
      // What an alias brings in from elsewhere stands before what has been told already.
      if (now < lines.from || now > lines.to || now < line || (now === line && at < end)) continue;
      data.push(now - line, now === line ? at - character : at, length, type, modifiers);
      [line, character, end] = [now, at, at + length];
    }
  }
  return data;
}

function place(document: TextDocument, tree: Tree, { block, tokens }: TokenChunk, top: number): Placed[] {
  return tokens.map(({ from, to, type, modifier }) => {
    const range = rangeOf(tree, { block, from, to }) ?? { from, to };
    const [first, end] = [document.positionAt(range.from), document.positionAt(range.to)];
    const modifiers = modifier ? 1 << TOKEN_MODIFIERS.indexOf(modifier) : 0;
    return [
      first.line - top,
      first.character,
      end.character - first.character,
      TOKEN_TYPES.indexOf(type),
      modifiers,
    ];
  });
}

/** One edit from the first number that differs to the last one; none where all are equal. */
function difference(before: readonly number[], now: readonly number[]): SemanticTokensDelta['edits'] {
  const [same, end] = countSameEnds(before, now);
  if (same === before.length && same === now.length) return [];
  return [{ start: same, deleteCount: before.length - same - end, data: now.slice(same, now.length - end) }];
}
