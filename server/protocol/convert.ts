import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
  type Location,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../core/analysis.ts';
import type { FileEdit } from '../core/features/sheet-links.ts';
import type { Finding, Severity } from '../core/findings/rule.ts';
import { say } from '../core/language/say.ts';
import type { Source } from '../core/names/mention.ts';
import type { Edit, Related } from '../core/problem.ts';
import type { Span } from '../core/syntax/node.ts';
import { rangeOf } from '../core/syntax/tree.ts';
import type { FileId } from '../core/world.ts';
import type { Analysed, OpenSource, Session } from './session.ts';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  hint: DiagnosticSeverity.Information,
};

const START: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Offsets to lines and columns of a document. */
export function toRange(
  document: TextDocument,
  range: { readonly from: number; readonly to: number },
): Range {
  return { start: document.positionAt(range.from), end: document.positionAt(range.to) };
}

/** A place of the core in the document that it is of; the start of the text for a place that is gone. */
export function toSpanRange({ document, analysis }: Analysed, at: Span): Range {
  return toRange(document, rangeOf(analysis.tree, at) ?? { from: 0, to: 0 });
}

/** Nobody follows more places of one finding, as of a bar with fifty wires too many. What explains it comes first. */
const MOST_PLACES = 12;

/** A finding in the protocol's terms. */
export function toDiagnostic(session: Session, analysed: Analysed, finding: Finding): Diagnostic {
  const related = (finding.related ?? [])
    .slice(0, MOST_PLACES)
    .flatMap((each) => toRelated(session, analysed, each));
  return {
    range: toSpanRange(analysed, finding.at),
    severity: SEVERITIES[finding.severity],
    code: finding.code,
    ...describePage(session, finding.code),
    source: 'fettle',
    message: finding.message,
    data: finding.data,
    ...(related.length > 0 && { relatedInformation: related }),
    ...(finding.code === 'name/unused-part' && { tags: [DiagnosticTag.Unnecessary] }),
  };
}

/** Where to read more of a finding, for clients that show a link. */
function describePage({ client, pageOf }: Session, code: string): Pick<Diagnostic, 'codeDescription'> {
  const href = client.linksToPages ? pageOf(code) : undefined;
  return href === undefined ? {} : { codeDescription: { href } };
}

function toRelated(session: Session, analysed: Analysed, related: Related): DiagnosticRelatedInformation[] {
  const location = toLocation(session, analysed, related.file ?? analysed.analysis.file, related.at);
  return location ? [{ location, message: related.note }] : [];
}

/** A place in the analysed document or in a sheet that it uses; without a span the start of the file. */
export function toLocation(
  session: Session,
  analysed: Analysed,
  file: FileId,
  at: Span | undefined,
): Location | undefined {
  if (file === analysed.analysis.file)
    return { uri: analysed.document.uri, range: at ? toSpanRange(analysed, at) : START };
  const document = session.documentOf(file);
  if (!at) return { uri: document?.uri ?? file, range: START };
  const range = session.fettle.rangeIn(file, at);
  return document && range && { uri: document.uri, range: toRange(document, range) };
}

/** A place in one of the texts of the workspace; undefined for a text that has changed meanwhile. */
export function toLocationIn(session: Session, { file, tree }: Source, at: Span): Location | undefined {
  const document = session.documentOf(file);
  const range = rangeOf(tree, at);
  return document && range && { uri: document.uri, range: toRange(document, range) };
}

/** Edits of the core in the protocol's terms, with the document's own line ends. */
export function toTextEdits(analysed: Analysed, edits: readonly Edit[]): TextEdit[] {
  const lineEnd = analysed.document.getText().includes('\r\n') ? '\r\n' : '\n';
  return edits.map((edit) => ({
    range: toSpanRange(analysed, edit.at),
    newText: edit.text.replace(/\r?\n/g, lineEnd),
  }));
}

/** How many findings of each severity an analysis has. */
export function countFindings(findings: readonly Finding[]): Record<Severity, number> {
  const counts = { error: 0, warning: 0, hint: 0 };
  for (const finding of findings) counts[finding.severity] += 1;
  return counts;
}

/** What a check covered, in words. */
export function describeCoverage(analysis: Analysis, silenced: number): string {
  const what = describeContents(analysis);
  // What somebody silenced is found all the same, and must not be forgotten.
  return silenced === 0 ? what : [what, say`${silenced} silenced`].filter((words) => words !== '').join(', ');
}

function describeContents(analysis: Analysis): string {
  if (analysis.kind === 'part')
    return say`${analysis.sheet.terminals.size} terminals, ${analysis.sheet.circuits.size} circuits`;
  if (analysis.kind === 'project') return '';
  const { parts, links, axes } = analysis.machine;
  return say`${parts.size} parts, ${links.length} links, ${axes.size} axes, ${analysis.values.byAddress.size} numbers`;
}

const describePlaces = (count: number, name: string) =>
  say`${count} ${count === 1 ? 'place' : 'places'} in ${name}`;

/** A place of an open document's names. */
export function toSourceRange({ document, source }: OpenSource, at: Span): Range {
  return toRange(document, rangeOf(source.tree, at) ?? { from: 0, to: 0 });
}

/** Edits in several files; those that reach beyond one file are described one file at a time, where the client shows that. */
export function toFileEdits(session: Session, edits: readonly FileEdit[], label: string): WorkspaceEdit {
  const { annotatedEdits, versionedEdits } = session.client;
  const byFile = new Map<FileId, TextEdit[]>();
  for (const { source, at, text } of edits) {
    const location = toLocationIn(session, source, at);
    if (!location) continue;
    const there = byFile.get(source.file) ?? [];
    byFile.set(source.file, there);
    there.push({ range: location.range, newText: text });
  }
  const files = [...byFile].flatMap(([file, changes]) => {
    const document = session.documentOf(file);
    return document ? [{ document, changes, isOpen: session.documents.get(document.uri) !== undefined }] : [];
  });
  if (!versionedEdits)
    return { changes: Object.fromEntries(files.map(({ document, changes }) => [document.uri, changes])) };
  const annotate = annotatedEdits && files.length > 1;
  const changeAnnotations = Object.fromEntries(
    files.map(({ document, changes }) => [
      document.uri,
      { label, description: describePlaces(changes.length, session.files.world.nameOf(document.uri)) },
    ]),
  );
  return {
    documentChanges: files.map(({ document, changes, isOpen }) => ({
      textDocument: { uri: document.uri, version: isOpen ? document.version : null },
      edits: annotate ? changes.map((edit) => ({ ...edit, annotationId: document.uri })) : changes,
    })),
    ...(annotate && { changeAnnotations }),
  };
}
