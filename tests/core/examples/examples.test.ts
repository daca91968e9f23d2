import { describe, expect, test } from 'vitest';
import type { MachineAnalysis } from '../../../server/core/analysis.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { RULES } from '../../../server/core/findings/list.ts';
import { STANDING_CAUTION } from '../../support/example.ts';
import { type Example, readExamples } from '../../support/examples.ts';
import { worldOf } from '../../support/world.ts';
import { applyTry, readTries } from './tries.ts';
import { countUses } from './use.ts';

const examples = readExamples();

function analyseExample({ machine, files }: Example, text = files.get(machine) ?? '') {
  const fettle = createFettle(worldOf(new Map([...files, [machine, text]])));
  return { fettle, analysis: fettle.analyse(machine, text) };
}

const machines = examples.flatMap((example): MachineAnalysis[] => {
  const { analysis } = analyseExample(example);
  return analysis.kind === 'machine' ? [analysis] : [];
});

test('there are five examples', () => expect(machines).toHaveLength(5));

describe.each(examples)('$name', (example) => {
  const { fettle, analysis } = analyseExample(example);

  test('gives no warning, and no hint but the standing caution', () => {
    expect(fettle.findings(analysis).filter(({ code }) => !STANDING_CAUTION.test(code))).toEqual([]);
  });

  test.each(
    readTries(example.name).map((each) => ({
      ...each,
      first: each.changes.map(({ to }) => to).join(' and '),
    })),
  )('to $first', (each) => {
    const changed = analyseExample(example, applyTry(each, example.files.get(example.machine) ?? ''));
    const found = new Set(changed.fettle.findings(changed.analysis).map(({ code }) => code));
    expect([...found]).toEqual(expect.arrayContaining([...each.codes]));
  });
});

test('between them the examples use every circuit kind, role, setting meaning and carrier', () => {
  const unused = [...countUses(machines)].flatMap(([kind, uses]) =>
    [...uses].flatMap(([word, count]) => (count === 0 ? [`${kind} ${word}`] : [])),
  );
  console.log(`not used by any example: ${unused.join(', ') || 'nothing'}`);
  expect(unused).toEqual([]);
});

test('what their readers are told to try gives findings of every family', () => {
  const tried = new Set(
    examples.flatMap(({ name }) => readTries(name).flatMap(({ codes }) => codes.map(familyOf))),
  );
  const families = new Set(RULES.map(({ code }) => familyOf(code)));
  expect([...families].filter((family) => !tried.has(family))).toEqual([]);
});

const familyOf = (code: string) => code.split('/')[0] ?? '';
