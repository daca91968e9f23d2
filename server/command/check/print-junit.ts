import { say } from '../../core/language/say.ts';
import type { SilencedFinding } from '../located.ts';
import { withSlashes } from '../paths.ts';
import type { Checked, ShownFinding } from './checked.ts';
import { escapeXml, type Printer, type PrinterOptions } from './printer.ts';

/**
 * The XML that continuous integration hosts show as test results, in the form that JUnit's runners made usual: a suite
 * for each file, a case for each finding. A file without findings is one case that passed.
 */
export function junitPrinter({ fails }: PrinterOptions): Printer {
  return {
    begin: () => `<?xml version="1.0" encoding="UTF-8"?>
<testsuites name="fettle">
`,
    file: (checked) => printSuite(checked, fails),
    end: () => '</testsuites>\n',
  };
}

function printSuite(checked: Checked, fails: PrinterOptions['fails']): string {
  if (checked.kind === 'left-out') return '';
  const name = escapeXml(withSlashes(checked.file));
  const open = (tests: number, failures: number, errors: number, skipped = 0) =>
    `  <testsuite name="${name}" tests="${tests}" failures="${failures}" errors="${errors}" skipped="${skipped}">\n`;
  const close = '  </testsuite>\n';
  if (checked.kind === 'unread') {
    const why = escapeXml(checked.why);
    return `${open(1, 0, 1)}    <testcase classname="${name}" name="can be read">\n      <error message="${why}"/>\n    </testcase>\n${close}`;
  }
  const { findings, silenced } = checked;
  const cases = findings.map((finding) => printCase(finding, name, fails(finding)));
  if (cases.length === 0) cases.push(`    <testcase classname="${name}" name="has no findings"/>\n`);
  const skipped = silenced.map((finding) => printSkipped(finding, name));
  const failures = findings.filter(fails).length;
  const all = [...cases, ...skipped];
  return `${open(all.length, failures, 0, skipped.length)}${all.join('')}${close}`;
}

/** What somebody has silenced is a case that was skipped, with their reason. */
function printSkipped({ code, line, column, message, silenced }: SilencedFinding, name: string): string {
  const words = escapeXml(say`${message} Silenced (${silenced.by}): ${silenced.reason || 'no reason given'}`);
  return `    <testcase classname="${name}" name="${escapeXml(`${code}:${line}:${column}`)}">\n      <skipped message="${words}"/>\n    </testcase>\n`;
}

/** A finding that does not make the check fail is a case that passed, with the finding as what it wrote. */
function printCase(finding: ShownFinding, name: string, failed: boolean): string {
  const { file, line, column, severity, code, message } = finding;
  const words = escapeXml(`${withSlashes(file)}:${line}:${column}: ${severity}: ${message}`);
  const body = failed
    ? `<failure type="${severity}" message="${escapeXml(message)}">${words}</failure>`
    : `<system-out>${words}</system-out>`;
  return `    <testcase classname="${name}" name="${escapeXml(`${code}:${line}:${column}`)}">\n      ${body}\n    </testcase>\n`;
}
