import { expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readExamples } from '../../support/examples.ts';
import { worldOf } from '../../support/world.ts';
import { expectAsAnew } from './as-anew.ts';

/** Edits after which something that was kept was once not what would have been computed anew. */
const FOUND: readonly (readonly [
  what: string,
  example: string,
  ...edits: (readonly [from: string, to: string])[],
])[] = [
  // The ways of the drawing went on naming links by the numbers that they had before.
  ['a link above others', 'gantry-router', ['wiring:\n', 'wiring:\n  - psu-24.V+ -> nowhere.A\n']],
  // A rail was called by another terminal, since the supply was that of a later version of its part.
  ['a setting that is torn', 'foam-cutter', ['x-home-feed: 600 mm/min', 'x-\nhome-feed: 600 mm/min']],
  // The list of parts is kept with the wiring, to which a part without a sheet does not belong.
  [
    'a sheet that is not there, spelt otherwise',
    'dial-engraver',
    ['sheet: generic/supply-36v', 'sheet: generic/supply-016v'],
    ['sheet: generic/supply-016v', 'sheet: generic/supply-036v'],
  ],
];

it.each(FOUND)('%s (%s)', (_, name, ...edits) => {
  const example = readExamples().find((each) => each.name === name);
  expect(example).toBeDefined();
  if (!example) return;
  const texts = new Map(example.files);
  const fettle = createFettle(worldOf(texts));
  const look = () => {
    const analysis = fettle.analyse(example.machine, texts.get(example.machine) ?? '');
    fettle.findings(analysis);
    fettle.summary(analysis);
  };
  look();
  for (const [from, to] of edits as readonly (readonly [string, string])[]) {
    const before = texts.get(example.machine) ?? '';
    expect(before).toContain(from);
    texts.set(example.machine, before.replace(from, to));
    expectAsAnew(fettle, texts, example.machine, to, true);
    look();
  }
});
