import { describe, expect, test } from 'vitest';
import { analyse } from '../../../server/core/analysis.ts';
import { listSilences } from '../../../server/core/features/silence.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { findAll, findSilenced } from '../../../server/core/findings/find.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import type { World } from '../../../server/core/world.ts';
import { analyseTexts, VARIANTS } from '../../support/marked.ts';
import { worldOf } from '../../support/world.ts';

const MACHINE = 'machine: Toy lathe\naxes:\n  X: { travel: 640 }\n';

function found(files: Readonly<Record<string, string>>, file = 'a/b/x.machine.yaml') {
  const texts = new Map(Object.entries(files));
  const analysis = analyse(file, texts.get(file) ?? '', worldOf(texts), createTrees());
  return { analysis, shown: findAll(analysis), silenced: findSilenced(analysis) };
}

describe.each([...VARIANTS])('a project stored with %s', (_, vary) => {
  test('says how much findings matter, the code before its family', () => {
    const project = vary('severities:\n  unit: warning\n  unit/missing: hint\n');
    const { shown } = found({ 'a/b/x.machine.yaml': MACHINE, 'a/.fettle.yaml': project });
    expect(shown.map(({ code, severity }) => `${severity} ${code}`)).toEqual(['hint unit/missing']);
    expect(shown[0]?.fixes?.length).toBeGreaterThan(0);
  });

  test('silences codes and families, with a reason', () => {
    const project = vary('silence: { unit: read off the old drawing }\n');
    const { shown, silenced } = found({ 'a/b/x.machine.yaml': MACHINE, 'a/.fettle.yaml': project });
    expect(shown).toEqual([]);
    expect(silenced).toMatchObject([
      {
        finding: { code: 'unit/missing', severity: 'error' },
        by: 'project',
        reason: 'read off the old drawing',
      },
    ]);
  });
});

test('the nearest project counts, alone', () => {
  const { shown } = found({
    'a/b/x.machine.yaml': MACHINE,
    'a/.fettle.yaml': 'silence: { unit: far }\n',
    'a/b/.fettle.yaml': 'severities: { unit: warning }\n',
  });
  expect(shown.map(({ severity }) => severity)).toEqual(['warning']);
});

test('an edit of the project is seen at the next analysis', () => {
  const texts = new Map([['.fettle.yaml', 'severities: { unit: warning }\n']]);
  const fettle = createFettle(worldOf(texts));
  const severity = () => fettle.findings(fettle.analyse('x.machine.yaml', MACHINE))[0]?.severity;
  expect(severity()).toBe('warning');
  texts.set('.fettle.yaml', 'severities: { unit: hint }\n');
  expect(severity()).toBe('hint');
});

test('a project names folders of sheets and the standard of the colours', () => {
  const { analysis, shown } = found({
    'a/b/x.machine.yaml':
      'machine: Toy\nparts:\n  psu: { sheet: toy.part.yaml }\nwiring:\n  - mains.PE -> psu.PE  BN\n',
    'a/.fettle.yaml': 'sheets: [../sheets]\nconventions: { wire-colours: NFPA }\n',
    'sheets/toy.part.yaml':
      'part: Toy supply\nclass: supply\nterminals: { power: [PE] }\ncircuits: { earth: { earth: PE } }\n',
  });
  expect(analysis.kind === 'machine' && analysis.machine.parts.get('psu')?.sheetFile).toBe(
    'sheets/toy.part.yaml',
  );
  const colour = shown.find(({ code }) => code === 'wire/colour');
  expect(colour?.message).toContain('NFPA 79');
  expect(colour?.related?.[0]?.file).toBe('a/.fettle.yaml');
});

test('a project is checked itself', () => {
  const { findings } = analyseTexts(
    new Map([
      ['.fettle.yaml', 'severity: {}\nsilence: { unit/mising: x, yaml: y }\nseverities: { wire: fatal }\n'],
    ]),
  );
  expect(findings.map(({ code }) => code)).toEqual([
    'shape/unknown-key',
    'silence/unknown-code',
    'silence/unknown-code',
    'shape/not-a-choice',
  ]);
  expect(findings[1]?.fixes?.[0]?.edits[0]?.text).toBe('unit/missing');
});

test('keys and words are completed in a project', () => {
  const fettle = createFettle(worldOf(new Map()));
  const labels = (text: string) =>
    fettle.completions(fettle.analyse('.fettle.yaml', text), text.length).map(({ label }) => label);
  expect(labels('')).toEqual(expect.arrayContaining(['severities', 'silence', 'conventions', 'sheets']));
  expect(labels('severities:\n  wire/drop: ')).toEqual(['error', 'warning', 'hint']);
});

test.each([
  ['that is not there is made', undefined, 'silence:\n  unit/missing: no reason given\n'],
  ['without a silence gets one', 'about: x', 'about: x\nsilence:\n  unit/missing: no reason given\n'],
  [
    'with silences gets one more',
    'silence:\n  wire: y # z\n',
    'silence:\n  wire: y # z\n  unit/missing: no reason given\n',
  ],
  [
    'with silences on one line too',
    'silence: { wire: y }\n',
    'silence: { wire: y, unit/missing: no reason given }\n',
  ],
])('a project %s', (_, before, after) => {
  const { analysis, shown } = found(
    { 'x.machine.yaml': MACHINE, ...(before !== undefined && { '.fettle.yaml': before }) },
    'x.machine.yaml',
  );
  const fix = shown
    .flatMap((finding) => listSilences(analysis, finding))
    .find(({ title }) => title.endsWith('project'));
  const made = fix?.newFiles?.[0];
  const changed = fix?.elsewhere?.map(
    ({ from, to, text }) => before?.slice(0, from) + text + before?.slice(to),
  );
  expect([made?.file ?? fix?.elsewhere?.[0]?.file, made?.text ?? changed?.join('')]).toEqual([
    '.fettle.yaml',
    after,
  ]);
});

describe('what a text needs', () => {
  const TEXT =
    'machine: Wants\nparts:\n  a: { sheet: own.part.yaml }\n  b: { sheet: generic/earth-bar-24 }\n';

  /** A world in which some files are not known yet, as an editor's is when it starts. */
  const worldLacking = (files: ReadonlyMap<string, string>, unknown: ReadonlySet<string>): World => {
    const world = worldOf(files);
    return { ...world, file: (id) => (unknown.has(id) ? undefined : world.file(id)) };
  };

  test('is told from the text alone, and is what an analysis would lack', () => {
    const fettle = createFettle(worldLacking(new Map(), new Set(['own.part.yaml', '.fettle.yaml'])));
    const wanted = [...fettle.wantsOf('m.machine.yaml', TEXT)].sort();
    expect(new Set(wanted)).toEqual(new Set(['.fettle.yaml', 'own.part.yaml']));
    expect(new Set(fettle.analyse('m.machine.yaml', TEXT).wants)).toEqual(new Set(wanted));
  });

  test('is sought in the folders of its project once that is known', () => {
    const project = new Map([['.fettle.yaml', 'sheets: [shelf]\n']]);
    const fettle = createFettle(worldLacking(project, new Set(['shelf/own.part.yaml'])));
    expect([...fettle.wantsOf('m.machine.yaml', TEXT)]).toEqual(['shelf/own.part.yaml']);
  });

  test('is nothing for a text that is no definition, and where everything is known', () => {
    const fettle = createFettle(worldOf(new Map([['own.part.yaml', 'part: Own\n']])));
    expect(fettle.wantsOf('m.machine.yaml', TEXT)).toEqual([]);
    expect(fettle.wantsOf('m.machine.yaml', '[half a\n\0')).toEqual([]);
  });
});
