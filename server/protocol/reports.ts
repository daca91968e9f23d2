import {
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import type { Finding } from '../core/findings/rule.ts';
import { keptBy } from '../core/reuse/kept-by.ts';
import { hashText } from '../core/summary/hash.ts';
import { toDiagnostic } from './convert.ts';
import type { Analysed, Session } from './session.ts';

/** What is said of one version of a document. */
export interface Report {
  readonly items: readonly Diagnostic[];
  /** Equal for equal findings, so that a client which has them is told `unchanged`. */
  readonly id: string;
}

/** Only made for clients that fetch findings: the others never see it. */
const nameOf = keptBy((items: readonly Diagnostic[]) => hashText(JSON.stringify(items)));

const kept = new WeakMap<Analysed, Report>();

/** No editor shows more, and a text that is no definition can have hundreds of thousands. The status counts them all. */
const MOST_ITEMS = 2000;

function mostGrave(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length <= MOST_ITEMS) return findings;
  const grave = (['error', 'warning', 'hint'] as const).flatMap((severity) =>
    findings.filter((finding) => finding.severity === severity),
  );
  return grave.slice(0, MOST_ITEMS);
}

/** The findings of an analysis as the client gets them, made once; of too many the gravest. */
export function reportOf(session: Session, analysed: Analysed): Report {
  let report = kept.get(analysed);
  if (!report) {
    const items = mostGrave(session.fettle.findings(analysed.analysis)).map((finding) =>
      toDiagnostic(session, analysed, finding),
    );
    report = {
      items,
      get id() {
        return nameOf(items);
      },
    };
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
