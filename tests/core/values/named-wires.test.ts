import { expect, it } from 'vitest';
import { titleOf } from '../../../server/core/features/markdown.ts';
import { analyseTexts } from '../../support/marked.ts';

/** The names of the wires in the addresses of values, in the order of the text. */
function namesOf(...links: readonly string[]): string[] {
  const text = `machine: Toy
parts:
  psu: { sheet: generic/supply-24v }
  fan: { sheet: generic/fan-24v }
wiring:
${links.map((link) => `  - ${link}\n`).join('')}`;
  const { analysis } = analyseTexts(new Map([['toy.machine.yaml', text]]));
  const addresses = [...analysis.values.byAddress.keys()];
  return addresses.flatMap((address) => /^wires\.(.*)\.resistance$/.exec(address)?.[1] ?? []);
}

const wire = (link: string, label = '') =>
  `{ link: ${link}, wire: 1 mm2, length: 1 m${label && `, label: ${label}`} }`;

const [PLUS, MINUS] = ['psu.V+ -> fan.V+', 'fan.V- -> psu.V-'];

it('a wire is called by its label, else by its ends, others with the same ends by their number among these', () => {
  expect(namesOf(wire(PLUS), wire(MINUS, 'W7'), wire(PLUS), wire(PLUS))).toEqual([
    'psu.V+:fan.V+',
    'W7',
    'psu.V+:fan.V+:2',
    'psu.V+:fan.V+:3',
  ]);
});

it('a wire keeps its name when another is put in above it', () => {
  const links = [wire(PLUS), wire(MINUS)];
  expect(namesOf(wire('psu.PE -> mains.PE'), ...links).slice(1)).toEqual(namesOf(...links));
});

it('of the ends of one link with a label the first is called by it', () => {
  expect(namesOf(wire('"psu.V+ -> fan.V+, fan.V-"', 'W7'))).toEqual(['W7', 'psu.V+:fan.V-']);
});

it('no two wires are called alike, whatever their labels say', () => {
  expect(
    namesOf(wire(PLUS), wire(PLUS), wire(MINUS, '"psu.V+:fan.V+"'), wire(MINUS, '"psu.V+:fan.V+:3"')),
  ).toEqual(['psu.V+:fan.V+:2', 'psu.V+:fan.V+:4', 'psu.V+:fan.V+', 'psu.V+:fan.V+:3']);
});

it('titles name the wire whole', () => {
  expect(titleOf('wires.psu.V+:fan.V+.drop-share')).toBe('drop share of psu.V+:fan.V+');
  expect(titleOf('wires.W7.drop')).toBe('drop of W7');
});
