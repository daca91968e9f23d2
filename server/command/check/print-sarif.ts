import { isAbsolute } from 'node:path';
import { pathToFileURL } from 'node:url';
import { RULES } from '../../core/findings/list.ts';
import { said } from '../../core/language/say.ts';
import type { Place } from '../lines.ts';
import type { SilencedFinding } from '../located.ts';
import { withSlashes } from '../paths.ts';
import { VERSION } from '../version.ts';
import type { Checked } from './checked.ts';
import type { Printer } from './printer.ts';

const LEVELS = { error: 'error', warning: 'warning', hint: 'note' } as const;

/**
 * SARIF 2.1.0, the OASIS standard for results of static analysis. Results come first and the tool after them, since
 * what could not be read is known only at the end.
 */
export function sarifPrinter(): Printer {
  let count = 0;
  const unread: string[] = [];
  return {
    begin: () =>
      '{\n  "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",\n  "version": "2.1.0",\n  "runs": [\n    {\n      "columnKind": "utf16CodeUnits",\n      "results": [',
    file: (checked) => {
      if (checked.kind === 'unread') unread.push(checked.why);
      const separate = (text: string) => `${count++ > 0 ? ',' : ''}\n        ${text}`;
      return resultsOf(checked)
        .map((result) => separate(JSON.stringify(result)))
        .join('');
    },
    end: () => {
      const invocation = {
        executionSuccessful: unread.length === 0,
        ...(unread.length > 0 && {
          toolExecutionNotifications: unread.map((text) => ({ level: 'error', message: { text } })),
        }),
      };
      return `\n      ],\n      "invocations": [${JSON.stringify(invocation)}],\n      "tool": ${JSON.stringify(tool())}\n    }\n  ]\n}\n`;
    },
  };
}

function tool() {
  const rules = RULES.map(({ code, title, severity }) => ({
    id: code,
    shortDescription: { text: said(title) },
    defaultConfiguration: { level: LEVELS[severity] },
  }));
  return { driver: { name: 'Fettle', version: VERSION, semanticVersion: VERSION, rules } };
}

const RULE_INDEX: ReadonlyMap<string, number> = new Map(RULES.map(({ code }, index) => [code, index]));

function resultsOf(checked: Checked) {
  if (checked.kind !== 'checked') return [];
  return [...checked.findings, ...checked.silenced].map((finding) => ({
    ruleId: finding.code,
    ruleIndex: RULE_INDEX.get(finding.code) ?? -1,
    level: LEVELS[finding.severity],
    message: { text: finding.message },
    suppressions: 'silenced' in finding ? [suppressionOf(finding.silenced)] : [],
    locations: [{ physicalLocation: physicalLocation(finding.file, finding) }],
    ...(finding.related && {
      relatedLocations: finding.related.map(({ file, note, ...place }, id) => ({
        id,
        physicalLocation: physicalLocation(file, place),
        message: { text: note },
      })),
    }),
  }));
}

/**
 * What silences a result: a comment in the text, or what holds for the project (SARIF 2.1.0, 3.35). Results that nothing
 * silences say so by an empty list, as 3.27.23 asks where any result has one.
 */
function suppressionOf({ by, reason }: SilencedFinding['silenced']) {
  const kind = by === 'project' ? 'external' : 'inSource';
  return { kind, ...(reason !== '' && { justification: reason }) };
}

function physicalLocation(file: string, { line, column, endLine, endColumn }: Place) {
  return {
    artifactLocation: { uri: uriOf(file) },
    region: { startLine: line, startColumn: column, endLine, endColumn },
  };
}

/** Files of this folder are named relative to it, so that a report is the same on every machine. */
function uriOf(file: string): string {
  if (isAbsolute(file)) return pathToFileURL(file).href;
  return withSlashes(file).split('/').map(encodeURIComponent).join('/');
}
