import { describe, expect, test } from 'vitest';
import type { Step } from '../../../server/core/features/signal-way.ts';
import { readPlaces } from '../../support/places.ts';
import { analyseExample, fettle } from './example.ts';

const analysis = analyseExample();
const text = analysis.tree.text;
const name = ({ station: { part, circuit }, through }: Step) =>
  `${part}.${circuit}${through.length > 0 ? ` (${through.join(', ')})` : ''}`;
const goesTo = (part: string, circuit: string) => fettle.signalFrom(analysis, { part, circuit }).map(name);
const cameFrom = (part: string, circuit: string) => fettle.signalInto(analysis, { part, circuit }).map(name);

describe('a signal', () => {
  test('begins at the circuits of a terminal', () => {
    const found = fettle.stations(analysis, text.indexOf('panel.PY ->') + 'panel.'.length);
    expect(found).toMatchObject([{ part: 'panel', circuit: 'y-pulse', about: 'pulse Y' }]);
  });
  test('begins at every signal of a part', () => {
    const found = fettle.stations(analysis, text.indexOf('  drive-x:') + 2).map(({ circuit }) => circuit);
    expect(found).toEqual(expect.arrayContaining(['pulse', 'direction', 'enable', 'phase-a']));
  });
  test('goes from one output to two drives, and through each to its motor', () => {
    expect(goesTo('panel', 'y-pulse')).toEqual(['drive-y1.pulse', 'drive-y2.pulse']);
    expect(goesTo('drive-y1', 'pulse')).toEqual(['drive-y1.phase-a', 'drive-y1.phase-b']);
    expect(goesTo('drive-y1', 'phase-a')).toEqual(['motor-y1.phase-a']);
    expect(goesTo('motor-y1', 'phase-a')).toEqual([]);
  });
  test('is followed back from the winding to the switch', () => {
    expect(cameFrom('motor-x', 'phase-b')).toEqual(['drive-x.phase-b']);
    expect(cameFrom('drive-x', 'pulse')).toEqual(['panel.x-pulse']);
    expect(cameFrom('panel', 'x-near')).toEqual(['near-x.contact']);
    expect(cameFrom('panel', 'x-home')).toEqual(['home-x.output']);
  });
  test('of the emergency stop goes over the contactor to what it feeds', () => {
    expect(goesTo('stop-button', 'power-chain')).toEqual(['contactor.coil (contactor)']);
    expect(goesTo('contactor', 'coil')).toContain('contactor.pole-1');
    expect(goesTo('contactor', 'pole-1')).toEqual(['motor-psu.mains']);
  });
  test('takes the links that stand in the text', () => {
    const [step] = fettle.signalFrom(analysis, { part: 'near-x', circuit: 'contact' });
    const links = step?.along.map((at) => at.block.text.slice(at.from, at.to)).join();
    expect(links).toMatch(/near-x\.\w+ -> panel\.I1/);
  });
  test('goes through strips and resistors', () => {
    const { fettle: own, texts } = readPlaces(`machine: m§
parts:
  switch: { sheet: generic/roller-switch }
  strip: { sheet: generic/terminal-strip-6 }
  drop: { class: load, terminals: { all: [A, B] }, circuits: { r: { resistor: [A, B], resistance: 2 kohm } } }
  lamp: { class: relay, terminals: { all: [A1, A2] }, circuits: { coil: { coil: [A1, A2], voltage: 24 V, resistance: 300 ohm } } }
  psu: { sheet: generic/supply-24v }
wiring:
  - psu.V+ -> switch.C1
  - switch.C2 -> strip.1a
  - strip.1b -> drop.A
  - drop.B -> lamp.A1
  - lamp.A2 -> psu.V-
`);
    const found = own.analyse('a.machine.yaml', texts.get('a.machine.yaml') ?? '');
    expect(own.signalFrom(found, { part: 'switch', circuit: 'contact' }).map(name)).toEqual([
      'lamp.coil (strip, drop)',
    ]);
  });
  test('stops at the rails, on which everything else hangs as well', () => {
    const coil =
      '{ class: relay, terminals: { all: [A1, A2] }, circuits: { coil: { coil: [A1, A2], voltage: 24 V, resistance: 300 ohm } } }';
    const { fettle: own, texts } = readPlaces(`machine: m§
parts:
  switch: { sheet: generic/roller-switch }
  lamp: ${coil}
  other: ${coil}
  psu: { sheet: generic/supply-24v }
wiring:
  - psu.V+ -> switch.C1, other.A1
  - switch.C2 -> lamp.A1
  - psu.V- -> lamp.A2, other.A2
`);
    const found = own.analyse('a.machine.yaml', texts.get('a.machine.yaml') ?? '');
    expect(own.signalFrom(found, { part: 'switch', circuit: 'contact' }).map(name)).toEqual(['lamp.coil']);
    expect(own.signalInto(found, { part: 'other', circuit: 'coil' }).map(name)).toEqual([]);
  });
  test('of a part or circuit that is not there goes nowhere', () => {
    expect(goesTo('nobody', 'x')).toEqual([]);
    expect(cameFrom('__proto__', 'constructor')).toEqual([]);
  });
});
