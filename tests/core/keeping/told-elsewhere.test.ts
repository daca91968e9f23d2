import { expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readExamples } from '../../support/examples.ts';
import { worldOf } from '../../support/world.ts';
import { expectAsAnew } from './as-anew.ts';

/*
 * Edits of one link after which something else is told of another link, or of a part that the link does not name: what was
 * found of that one must not be taken over. The figure is how often it is told then.
 */

type Step = readonly [from: string, to: string, told: number];

const CASES: readonly (readonly [what: string, code: string, ...steps: Step[]])[] = [
  [
    'a link that stands twice, of which the first comes, leads elsewhere, and goes',
    'wiring/link-twice',
    ['  - { link: earth-bar.E3', '  - filter.PE -> earth-bar.E2\n  - { link: earth-bar.E3', 1],
    ['link: earth-bar.E2 -> filter.PE', 'link: earth-bar.E2 -> converter.PE', 0],
    ['  - { link: earth-bar.E4', '  - earth-bar.E2 -> filter.PE\n  - { link: earth-bar.E4', 1],
    ['  - filter.PE -> earth-bar.E2\n', '', 0],
  ],
  [
    'a link from a terminal to itself',
    'wiring/link-to-itself',
    ['link: earth-bar.E2 -> filter.PE', 'link: filter.PE -> filter.PE', 1],
    ['link: filter.PE -> filter.PE', 'link: filter.PE -> earth-bar.E2', 0],
  ],
  [
    'labels, of which the first is the one that stays right',
    'name/defined-twice',
    ['label: 121 ', 'label: 120 ', 1],
    ['label: 123 ', 'label: 120 ', 2],
    ['label: 120 ', 'label: 129 ', 1],
    ['label: 129 ', 'label: 120 ', 2],
    ['label: 120 ', 'label: 121 ', 1],
  ],
  [
    'a part that is earthed through another',
    'safety/chassis-without-earth',
    ['link: earth-bar.E5 -> converter.PE', 'link: logic-psu.PE -> converter.PE', 0],
    ['link: earth-bar.E3 -> logic-psu.PE', 'link: earth-bar.E3 -> filter.PE', 1],
    ['mains.PE -> earth-bar.E1', 'mains.PE -> logic-psu.PE', 1],
  ],
  [
    'a stop button that cuts the power of a coil through other contacts',
    'safety/emergency-stop-caution',
    ['link: contactor.14 -> contactor.A1', 'link: contactor.14 -> contactor.T3', 1],
    ['link: on-button.C2 -> contactor.A1', 'link: on-button.C2 -> contactor.L3', 0],
    ['link: on-button.C2 -> contactor.L3', 'link: on-button.C2 -> contactor.A1', 1],
  ],
];

it.each(CASES)('%s (%s)', (_, code, ...steps) => {
  const example = readExamples().find(({ name }) => name === 'gantry-router');
  expect(example).toBeDefined();
  if (!example) return;
  const texts = new Map(example.files);
  const fettle = createFettle(worldOf(texts));
  const count = () => {
    const analysis = fettle.analyse(example.machine, texts.get(example.machine) ?? '');
    return fettle.findings(analysis).filter((finding) => finding.code === code).length;
  };
  count();
  for (const [from, to, told] of steps as readonly Step[]) {
    const before = texts.get(example.machine) ?? '';
    expect(before).toContain(from);
    texts.set(example.machine, before.replace(from, to));
    expect(count(), to).toBe(told);
    expectAsAnew(fettle, texts, example.machine, to, false);
  }
});
