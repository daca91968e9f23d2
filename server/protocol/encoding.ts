import type { InitializeParams, Position, Range } from 'vscode-languageserver';
import { TextDocument, type TextDocumentContentChangeEvent } from 'vscode-languageserver-textdocument';

/**
 * In which units the client counts characters of a line: bytes of UTF-8, code units of UTF-16, or code points. Offsets
 * inside are always UTF-16 units; documents made here turn them into the client's positions and back, so nobody else
 * has to know.
 */
export type Encoding = 'utf-8' | 'utf-16' | 'utf-32';

const KNOWN: readonly Encoding[] = ['utf-8', 'utf-16', 'utf-32'];

/** The first encoding in the client's order that we know; UTF-16 for a client that names none. */
export function chooseEncoding({ capabilities }: InitializeParams): Encoding {
  const offered = capabilities.general?.positionEncodings ?? [];
  const [first] = offered.flatMap((each) => KNOWN.find((encoding) => encoding === each) ?? []);
  return first ?? 'utf-16';
}

/** Makes a document whose positions are in an encoding. */
export function createDocument(
  uri: string,
  languageId: string,
  version: number,
  text: string,
  encoding: Encoding,
): TextDocument {
  const document = TextDocument.create(uri, languageId, version, text);
  return encoding === 'utf-16' ? document : new EncodedDocument(document, encoding);
}

/** Changes a document in place, by changes whose positions are in its encoding; each counts in the text that the one before left. */
export function updateDocument(
  document: TextDocument,
  changes: TextDocumentContentChangeEvent[],
  version: number,
): TextDocument {
  if (!(document instanceof EncodedDocument)) return TextDocument.update(document, changes, version);
  for (const change of changes) document.change(change, version);
  return document;
}

/** A text document that counts characters in other units than the one it wraps. */
class EncodedDocument implements TextDocument {
  private readonly inner: TextDocument;
  private readonly encoding: Encoding;

  constructor(inner: TextDocument, encoding: Encoding) {
    this.inner = inner;
    this.encoding = encoding;
  }

  get uri(): string {
    return this.inner.uri;
  }
  get languageId(): string {
    return this.inner.languageId;
  }
  get version(): number {
    return this.inner.version;
  }
  get lineCount(): number {
    return this.inner.lineCount;
  }

  getText(range?: Range): string {
    return this.inner.getText(range && this.toInner(range));
  }

  positionAt(offset: number): Position {
    return this.toOuter(this.inner.positionAt(offset));
  }

  private toOuter({ line, character }: Position): Position {
    const from = this.inner.offsetAt({ line, character: 0 });
    return { line, character: countUnits(this.inner.getText(), from, from + character, this.encoding) };
  }

  /** A position within a character means its start; one behind the end of the line means the end. */
  offsetAt({ line, character }: Position): number {
    const from = this.inner.offsetAt({ line, character: 0 });
    const to = this.inner.offsetAt({ line, character: Number.MAX_SAFE_INTEGER });
    return skipUnits(this.inner.getText(), from, to, character, this.encoding);
  }

  getLineRange(line: number): Range {
    const { start, end } = this.inner.getLineRange(line);
    return { start: this.toOuter(start), end: this.toOuter(end) };
  }

  getEOLCharacters(line: number): string {
    return this.inner.getEOLCharacters(line);
  }

  change(change: TextDocumentContentChangeEvent, version: number): void {
    const inner =
      'range' in change ? { range: this.toInner(change.range), text: change.text } : { text: change.text };
    TextDocument.update(this.inner, [inner], version);
  }

  private toInner({ start, end }: Range): Range {
    return {
      start: this.inner.positionAt(this.offsetAt(start)),
      end: this.inner.positionAt(this.offsetAt(end)),
    };
  }
}

function countUnits(text: string, from: number, to: number, encoding: Encoding): number {
  let units = 0;
  for (let at = from; at < to; ) {
    const code = text.codePointAt(at) ?? 0;
    units += unitsOf(code, encoding);
    at += code > 0xffff ? 2 : 1;
  }
  return units;
}

function skipUnits(text: string, from: number, to: number, units: number, encoding: Encoding): number {
  let [at, left] = [from, units];
  while (at < to) {
    const code = text.codePointAt(at) ?? 0;
    left -= unitsOf(code, encoding);
    if (left < 0) break;
    at += code > 0xffff ? 2 : 1;
  }
  return at;
}

function unitsOf(code: number, encoding: Encoding): number {
  if (encoding === 'utf-32') return 1;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}
