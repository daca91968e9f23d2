import { describe, expect, test } from 'vitest';
import { ROLE_TEXTS } from '../../../schemas/roles.ts';
import type { Summary, SummaryItem } from '../../../server/core/summary/summary.ts';
import type { Table } from '../../../server/core/summary/tables/table.ts';
import type { View } from '../../../server/core/summary/view.ts';
import { readExamples } from '../../support/examples.ts';
import { englishLeft, wordsOfTexts } from '../../support/pseudo.ts';
import { inBoth } from './compare.ts';
import { FORMAT_WORDS, quotesIn, sheets } from './known.ts';

/**
 * The wiring summary and everything that is written of it: in a language that nobody speaks it has the same items with
 * the same ids, every text is said in it but for those of the definition, and no English is left in those that are.
 */

const EXAMPLES = readExamples().map(({ name, machine, files }) => ({ name, machine, files }));

const GANTRY = EXAMPLES.find(({ name }) => name === 'gantry-router');

/** What the examples have none of: nothing at all, and a machine with findings, overload and settings to change. */
const SAMPLES = [
  ...EXAMPLES,
  { name: 'nothing', machine: 'a.machine.yaml', files: new Map([['a.machine.yaml', 'machine:\n']]) },
  {
    name: 'gantry-router with mistakes',
    machine: GANTRY?.machine ?? '',
    files: new Map(
      [...(GANTRY?.files ?? [])].map(([file, text]) => [
        file,
        text
          .replace('sheet: generic/supply-24v,', 'sheet: generic/supply-48v,')
          .replace(/lead: 5 mm/, 'lead: 2 mm')
          .replace(/microsteps: \d+/, 'microsteps: 128'),
      ]),
    ),
  },
];

/** Attributes that are read out or shown. */
const SAID_ATTRIBUTES = ['aria-label', 'title', 'placeholder', 'data-working'];

/** Every text that a view shows or tells, in its order. */
function textsOf(view: View): string[] {
  if (typeof view === 'string') return [view];
  const told = SAID_ATTRIBUTES.flatMap((name) => view.attributes[name] ?? []);
  return [...told, ...view.children.flatMap(textsOf)];
}

/** What no language changes: the elements and all that names a thing. */
function shapeOf(view: View): unknown {
  if (typeof view === 'string') return '';
  const { tag, attributes, children } = view;
  const names = Object.entries(attributes).filter(
    ([name]) => /^(?:data-|class$)/.test(name) && name !== 'data-working' && name !== 'data-fix',
  );
  return [tag, names, children.map(shapeOf)];
}

interface Seen {
  readonly name: string;
  readonly shapes: readonly unknown[];
  /** In their order, the same in both languages. */
  readonly texts: readonly string[];
  readonly markdown: string;
  /** The names of findings, of the steps of the commissioning list, and the mark of the settings: they are written into files. */
  readonly codes: readonly string[];
  readonly lang: string | undefined;
}

async function lookAt({ name, machine, files }: (typeof SAMPLES)[number]): Promise<Seen> {
  const { createFettle } = await import('../../../server/core/fettle.ts');
  const { worldOf } = await import('../../support/world.ts');
  const { itemView } = await import('../../../server/core/summary/item-view.ts');
  const { sectionTitle } = await import('../../../server/core/summary/summary.ts');
  const { printMarkdown } = await import('../../../server/core/summary/export/print-markdown.ts');
  const { printPage } = await import('../../../server/core/summary/export/print-page.ts');
  const { listTriedSteps } = await import('../../../server/core/commission/results.ts');
  const fettle = createFettle(worldOf(files));
  const analysis = fettle.analyse(machine, files.get(machine) ?? '');
  if (analysis.kind !== 'machine') throw new Error(name);
  const steps = listTriedSteps(analysis);
  const summary: Summary = fettle.summary(analysis);
  const views = summary.items.flatMap((item) => itemView(item) ?? []);
  const page = printPage(summary, { styles: '', drawings: new Map() });
  return {
    name,
    shapes: [summary.items.map(({ id, section, kind }) => [id, section, kind]), views.map(shapeOf)],
    texts: [
      ...views.flatMap(textsOf),
      ...summary.items.flatMap(textsOfTable),
      ...(await textsOfDrawings(summary)),
      ...new Set(summary.items.map(({ section }) => sectionTitle(section))),
      ...[...page.matchAll(/<title>(.*?)<\/title>|aria-label="(.*?)"/g)].map(
        ([, title, label]) => title ?? label ?? '',
      ),
    ],
    markdown: printMarkdown(summary),
    codes: [
      ...fettle.findings(analysis).map(({ code }) => code),
      ...steps.map(({ id }) => id),
      ...steps.flatMap(({ recorded }) => /\(mark (\w+)\)/.exec(recorded)?.[1] ?? []),
    ],
    lang: /<html lang="(.*?)">/.exec(page)?.[1],
  };
}

/** What files have of a table, and the page may leave out: all columns, and what stands in place of no rows. */
function textsOfTable(item: SummaryItem): string[] {
  if (item.kind !== 'table') return [];
  const { columns, note = '', empty = '' }: Table = item.table;
  return [...columns.map(({ title }) => title), note, empty];
}

/** The drawing and each of its parts: the blocks, and what is said of every link. Where things stand says nothing. */
async function textsOfDrawings({ items }: Summary): Promise<string[]> {
  const { listViews } = await import('../../../server/core/summary/drawing/filter.ts');
  const { planDrawing } = await import('../../../server/core/summary/drawing/plan.ts');
  const { drawWiring } = await import('../../../server/core/summary/drawing/drawing-svg.ts');
  const { describeLink } = await import('../../../server/core/summary/drawing/draw-link.ts');
  return items
    .flatMap((item) => (item.kind === 'drawing' ? listViews(item.drawing) : []))
    .flatMap(({ title, drawing }) => {
      const plan = planDrawing(drawing);
      const links = plan.links.map((joined) => describeLink(joined.link, drawing, joined));
      return [title, ...textsOf(drawWiring(plan, {})), ...links];
    });
}

const { english, pseudo } = await inBoth(async () => {
  const { sayRole } = await import('../../../server/core/model/role.ts');
  const seen: Seen[] = [];
  for (const sample of SAMPLES) seen.push(await lookAt(sample));
  return { seen, roles: ROLE_TEXTS.map(sayRole) };
});

test('what a circuit can be used for is said, and in English as files have it', () => {
  expect(english.roles).toEqual(ROLE_TEXTS);
  expect(pseudo.roles.filter((role) => !/^(?:⟦[^⟧]+⟧|[A-Z]|\d+| )+$/.test(role))).toEqual([]);
});

/** Texts and single words of the definitions and sheets. */
const written = new Set(
  [...SAMPLES.flatMap(({ files }) => [...files.values()]), ...sheets].flatMap((text) =>
    [...text.matchAll(/[^\s,:{}[\]"'#]+/g), ...text.matchAll(/[^,:{}[\]"'#\n]+/g)]
      .map(([word]) => word.trim())
      // Names of circuits are shown with blanks.
      .flatMap((word) => [word, word.replaceAll('-', ' ')]),
  ),
);

/** A unit behind its figure, and names of formats. */
const UNITS = /^(?:mm2?|min|rpm|us|ns|ms|kHz|MHz|mA|uA|mV|kW|ohm|deg|Hz|SVG|CSV)$/;

/** True for a text that is made of words of the definitions alone, with figures, units and signs; its end may be cut off. */
function isWritten(text: string): boolean {
  const isKnown = (piece: string): boolean => written.has(piece) || !/[A-Za-z]{2}/.test(piece);
  const whole = text.replace(/[^\s.·]*…$/, '');
  return whole
    .split(/[,;:] | · |\n|[()]/)
    .map((piece) => piece.trim())
    .every(
      (piece) =>
        isKnown(piece) ||
        piece
          .split(/\s+/)
          .every(
            (word) =>
              isKnown(word) || word.split(/[.+=→-]+/).every((part) => isKnown(part) || UNITS.test(part)),
          ),
    );
}

describe.each(SAMPLES.map(({ name }, index) => [name, index] as const))('the summary of %s', (_, index) => {
  const [given, said] = [english.seen[index], pseudo.seen[index]];

  test('is the same but for its words', () => {
    expect(said?.shapes).toEqual(given?.shapes);
    expect(said?.texts.length).toBe(given?.texts.length);
    expect([given?.lang, said?.lang]).toEqual(['en', 'en-XA']);
  });

  test('says everything that the definition does not say', () => {
    const { texts = [], codes = [] } = said ?? {};
    const unsaid = texts.filter((text) => !text.includes('⟦') && !codes.includes(text) && !isWritten(text));
    expect([...new Set(unsaid)]).toEqual([]);
  });

  test('has no English left in what it says', () => {
    const { texts = [], codes = [], markdown = '' } = said ?? {};
    const sources = [...SAMPLES.flatMap(({ files }) => [...files.values()]), ...sheets];
    const known = new Set([...FORMAT_WORDS, ...wordsOfTexts([...sources, ...codes]), 'CSV', 'SVG']);
    const quotes = quotesIn(sources);
    const marked = [...texts.filter((text) => text.includes('⟦')), markdown];
    expect(englishLeft(marked, known, quotes)).toEqual([]);
    // Names of figures are put together of words that definitions have as well; these would stand between them.
    const rests = texts
      .filter((text) => text.includes('⟦') || !text.endsWith('…'))
      .map((text) => quotes.reduce((rest, quote) => rest.replaceAll(quote, ''), text));
    const joined = rests.filter((text) => /(?<![\w-])(?:of|for|with|and|per|from)(?![\w-])/.test(text));
    expect([...new Set(joined)]).toEqual([]);
  });
});
