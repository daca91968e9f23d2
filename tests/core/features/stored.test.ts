import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../../server/core/analysis.ts';
import { HINT_KINDS } from '../../../server/core/features/inlay-hints.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import type { Source } from '../../../server/core/names/mention.ts';
import type { Span } from '../../../server/core/syntax/node.ts';
import { rangeOf } from '../../../server/core/syntax/tree.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { VARIANTS } from '../../support/marked.ts';
import { worldOf } from '../../support/world.ts';

/*
 * Every feature says the same of a text in whichever way it is stored: with other line ends, a mark at its start, no
 * line end at its end, or characters of two units. Places are compared as lines and columns.
 */

const FILE = 'a.machine.yaml';
const SHEETS = path.join(EXAMPLE_FOLDER, 'sheets');
const UNITLESS = 'travel:       620';
/** The example as it would be typed: a unit is lacking, a silence does nothing, a line is laid out oddly. */
const TEXT = readExample()
  .replace(/^(?:#.*\n)+/, '')
  .replace('travel:       620 mm', UNITLESS)
  .replace('mains: 230 V 50 Hz', 'mains: 230 V 50 Hz # fettle silence unit/missing')
  .replace('lead: 10 mm,', 'lead:  10 mm,');

interface Asked {
  readonly fettle: Fettle;
  readonly analysis: Analysis;
  readonly source: Source;
  readonly sources: readonly Source[];
  /** The offset of some text in the text as it is stored. */
  readonly at: (text: string, shift?: number) => number;
}

const FEATURES: Readonly<Record<string, (asked: Asked) => unknown>> = {
  hover: ({ fettle, analysis, at }) =>
    ['  X: ', 'drive-x.PUL-', 'lead:'].map((text) => fettle.hover(analysis, at(text, 2))),
  completion: ({ fettle, analysis, at }) =>
    ['drive-x.PUL-', 'sheet: generic/', 'lead:'].map((text) =>
      fettle.completions(analysis, at(text, text.length - 2)),
    ),
  'inlay hints': ({ fettle, analysis }) =>
    fettle.inlayHints(analysis, 0, analysis.tree.text.length, new Set(HINT_KINDS)),
  lenses: ({ fettle, analysis }) => fettle.lenses(analysis),
  outline: ({ fettle, analysis }) => fettle.symbols(analysis),
  folding: ({ fettle, source }) => fettle.folds(source),
  selection: ({ fettle, source, at }) => fettle.selections(source, at('lead:', 2)),
  colours: ({ fettle, analysis }) => fettle.colours(analysis),
  tokens: ({ fettle, analysis }) =>
    fettle
      .tokens(analysis)
      .flatMap(({ block, tokens }) =>
        tokens.map((token) => ({ ...token, at: { block, from: token.from, to: token.to }, from: 0, to: 0 })),
      ),
  definition: ({ fettle, source, at }) => fettle.definition(source, at('drive-x.PUL-', 2)),
  'type definition': ({ fettle, source, at }) => fettle.typeDefinition(source, at('drive-x.PUL-', 2)),
  references: ({ fettle, source, sources, at }) =>
    fettle.references(source, at('drive-x.PUL-', 2), sources, true),
  highlights: ({ fettle, source, at }) => fettle.highlights(source, at('drive-x.PUL-', 2)),
  'linked editing': ({ fettle, source, at }) => fettle.linkedPlaces(source, at('drive-x.PUL-', 2)),
  rename: ({ fettle, source, sources, at }) =>
    fettle.rename(source, at('drive-x.PUL-', 2), 'renamed', sources),
  'workspace symbols': ({ fettle, sources }) => fettle.workspaceSymbols('drx', sources),
  'document links': ({ fettle, source }) => fettle.sheetLinks(source),
  'the way of a signal': ({ fettle, analysis, at }) =>
    fettle
      .stations(analysis, at('drive-x.PUL-', 10))
      .map((station) => [station, fettle.signalInto(analysis, station)]),
  'quick fixes': ({ fettle, analysis, at }) =>
    fettle
      .findingsAt(analysis, at(UNITLESS, UNITLESS.length - 2), at(UNITLESS, UNITLESS.length))
      .flatMap((finding) => [finding.code, finding.fixes, fettle.silences(analysis, finding)]),
  'fix all': ({ fettle, analysis }) => fettle.fixAll(analysis),
  refactorings: ({ fettle, analysis, at }) => fettle.refactorings(analysis, at('10 mm', 1), at('10 mm', 1)),
  formatting: ({ fettle, analysis }) => fettle.format(analysis),
  'formatting of lines': ({ fettle, analysis, at }) =>
    fettle.formatRange(analysis, at('lead:'), at('lead:', 4)),
  summary: ({ fettle, analysis }) => fettle.summary(analysis),
  'what could be tried': ({ fettle, analysis, at }) => fettle.tryableAt(analysis, at('10 mm', 1)),
  'the thing of the summary': ({ fettle, analysis, at }) => fettle.idAt(analysis, at('  X: ', 2)),
};

/** Opens the text as it is stored, beside the sheets of the example. */
function open(store: (text: string) => string): Asked {
  const text = store(TEXT);
  const sheets = fs
    .readdirSync(SHEETS)
    .map((name): [string, string] => [`sheets/${name}`, fs.readFileSync(path.join(SHEETS, name), 'utf8')]);
  const fettle = createFettle(worldOf(new Map([[FILE, text], ...sheets])));
  const at = (words: string, shift = 0): number => {
    const index = text.indexOf(words);
    if (index < 0) throw new Error(`not in the text: ${words}`);
    return index + shift;
  };
  const source = fettle.read(FILE, text);
  return { fettle, analysis: fettle.analyse(FILE, text), source, sources: fettle.workspace().sources, at };
}

const PLACES = new Set(['from', 'to', 'offset', 'opens']);

/** An answer as plain text: places as lines and columns, sources by their names, line ends alike. */
function write({ analysis: { tree } }: Asked, answer: unknown): string {
  const place = (offset: number): string => {
    const before = tree.text.slice(0, offset).replace(/^\uFEFF/, '');
    return `${before.split('\n').length}:${before.length - before.lastIndexOf('\n')}`;
  };
  return (
    JSON.stringify(
      answer,
      (key, value: unknown) => {
        if (typeof value === 'string') return value.replaceAll('\r\n', '\n');
        if (typeof value === 'number' && PLACES.has(key)) return place(value);
        if (typeof value !== 'object' || value === null) return value;
        if (value instanceof Map || value instanceof Set) return [...value];
        if ('tree' in value && 'world' in value) return (value as unknown as Source).file;
        if (!('block' in value && 'from' in value && 'to' in value)) return value;
        const range = rangeOf(tree, value as Span);
        const { block, from, to } = value as Span;
        return range ? `${place(range.from)}-${place(range.to)}` : block.text.slice(from, to);
      },
      1,
    ) ?? 'nothing'
  );
}

const usual = open((text) => text);

describe.each([...VARIANTS].filter(([way]) => way !== 'LF'))('a text stored with %s', (way, store) => {
  const stored = open(store);

  // A selection ends, and formatting adds a line end, where the text has none.
  const skipped = way === 'no final line end' ? ['selection', 'formatting'] : [];
  it.each(Object.entries(FEATURES).filter(([name]) => !skipped.includes(name)))('%s', (_name, ask) => {
    const wanted = write(usual, ask(usual));
    expect(wanted.length).toBeGreaterThan(2); // it says something at all
    expect(write(stored, ask(stored))).toBe(wanted);
  });
});
