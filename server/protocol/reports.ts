import {
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import { hashText } from '../core/summary/hash.ts';
import { toDiagnostic } from './convert.ts';
import type { Analysed, Session } from './session.ts';

/** What is said of one version of a document. */
export interface Report {
  readonly items: readonly Diagnostic[];
  /** Equal for equal findings, so that a client which has them is told `unchanged`. */
  readonly id: string;
}

const kept = new WeakMap<Analysed, Report>();

/** The findings of an analysis as the client gets them, made once. */
export function reportOf(session: Session, analysed: Analysed): Report {
  let report = kept.get(analysed);
  if (!report) {
    const items = session.fettle
      .findings(analysed.analysis)
      .map((finding) => toDiagnostic(session, analysed, finding));
    report = { items, id: hashText(JSON.stringify(items)) };
    kept.set(analysed, report);
  }
  return report;
}

/** All findings, or that they are what the client has already. */
export function answerWith(
  { items, id }: Report,
  previous: string | undefined,
): Pick<DocumentDiagnosticReport, 'kind'> & DocumentDiagnosticReport {
  return previous === id
    ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId: id }
    : { kind: DocumentDiagnosticReportKind.Full, resultId: id, items: [...items] };
}
