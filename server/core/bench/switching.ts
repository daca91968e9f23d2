import type { Circuit, Sheet } from '../model/sheet.ts';
import { axisOn } from './axis.ts';
import { type Draft, joinDrafts, TRIED } from './draft.ts';
import { endOf, feedAll, voltageFor } from './feeds.ts';

/* A bench for what acts on an input: switches, sensors, probes, stop devices. It homes an axis, and each contact has an input. */

const ROLES = ['home X', 'limit X far', 'limit X near', 'probe', 'start', 'pause'];

export function switchingBench(sheet: Sheet): Draft {
  const acting = [...sheet.circuits.values()].filter(({ kind }) =>
    ['contact', 'changeover', 'sensor', 'two-wire-sensor'].includes(kind),
  );
  const volts = voltageFor(sheet);
  const inputs = acting.map((circuit, place) => {
    const kind = isSinking(circuit) ? 'pulled-up-in' : 'pulled-down-in';
    const levels =
      kind === 'pulled-up-in'
        ? `pull: ${volts} V, resistance: 2.2 kohm, on-below: ${volts * 0.3} V, off-above: ${volts * 0.6} V`
        : `resistance: 4.7 kohm, on-above: ${volts * 0.6} V, off-below: ${volts * 0.3} V`;
    return `${nameOf(place)}: { ${kind}: [I${place}, G], does: ${ROLES[place] ?? 'pause'}, delay: 1 ms, ${levels} }`;
  });
  const controller = `{ class: controller, terminals: { t: [V, G, P, D${acting.map((_, place) => `, I${place}`).join('')}] }, circuits: { supply: { power-in: [V, G], voltage: 1..300 V, current: 0.1 A }, pulse: { sink-out: [P, G], does: pulse X, top-rate: 50 kHz, on-time: 10 us, off-time: 10 us }, direction: { sink-out: [D, G], does: direction X, lead: 50 us, hold: 50 us }${inputs.map((input) => `, ${input}`).join('')} } }`;
  return joinDrafts(feedAll(sheet), {
    parts: {
      panel: controller,
      drive: '{ sheet: generic/microstep-drive-50v }',
      motor: '{ sheet: generic/stepper-57mm-1nm }',
    },
    links: [
      ['psu.V+', 'panel.V'],
      ['psu.V-', 'panel.G'],
      ...acting.flatMap((circuit, place) => wire(circuit, `panel.I${place}`)),
    ],
    sections: [
      'axes:',
      axisOn('drive', 'motor', 'X', `switches: { home: ${TRIED}, far: ${TRIED}, near: ${TRIED} }`),
    ],
  });
}

const nameOf = (place: number): string => `input-${place + 1}`;

function isSinking({ kind, figures }: Circuit): boolean {
  return kind === 'sensor' && figures.text('switching')?.value === 'npn';
}

function wire(circuit: Circuit, input: string): [string, string][] {
  const [first, second, third] = [endOf(circuit, 0), endOf(circuit, 1), endOf(circuit, 2)];
  switch (circuit.kind) {
    case 'sensor':
      return [[third, input]];
    case 'changeover':
      return [
        ['psu.V+', first],
        [third, input],
      ];
    default:
      return [
        ['psu.V+', first],
        [second, input],
      ];
  }
}
