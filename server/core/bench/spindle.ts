import type { Sheet } from '../model/sheet.ts';
import { type Draft, joinDrafts, TRIED } from './draft.ts';
import { endOf, feedAll } from './feeds.ts';

/* Benches for a frequency converter between a controller and a motor, and for a spindle motor behind a converter. */

export const SPINDLE_SECTION = (converter: string, motor: string): string[] => [
  'spindle:',
  `  converter: ${converter}`,
  `  motor: ${motor}`,
  '  top-speed: 24000 rpm',
  '  least-speed: 8000 rpm',
];

const PANEL =
  '{ class: controller, terminals: { t: [AO, GA, F1, F2] }, circuits: { speed: { analog-out: [AO, GA], does: spindle speed, span: 0..10 V, resistance: 50 ohm, bits: 12 }, run: { contact: [F1, F2], does: spindle run, rest: open, voltage: 30 V, current: 500 mA } }, settings: { top: { is: spindle-top-speed, unit: rpm, default: 24000 rpm }, wait: { is: spindle-wait, unit: s, default: 10 s }, use: { is: spindle-use, choices: [off, on], default: on } } }';

export function converterBench(sheet: Sheet): Draft {
  const circuits = [...sheet.circuits.values()];
  const speed = circuits.find(({ kind }) => kind === 'analog-in');
  const run = circuits.find(({ does }) => does?.word === 'spindle run');
  const motor = circuits.find(({ kind }) => kind === 'three-phase-out');
  return joinDrafts(feedAll(sheet), {
    parts: { panel: PANEL, motor: '{ sheet: generic/spindle-2-pole-800w }' },
    links: [
      ...(speed
        ? ([
            ['panel.AO', endOf(speed, 0)],
            ['panel.GA', endOf(speed, 1)],
          ] as const)
        : []),
      // A dry contact: between input and common where it is pulled up, from plus where it is not.
      ...(run?.kind === 'pulled-up-in'
        ? ([
            ['panel.F1', endOf(run, 0)],
            ['panel.F2', endOf(run, 1)],
          ] as const)
        : []),
      ...(run && run.kind !== 'pulled-up-in'
        ? ([
            ['psu.V+', 'panel.F1'],
            ['panel.F2', endOf(run, 0)],
            ['psu.V-', endOf(run, 1)],
          ] as const)
        : []),
      ...(motor ? ['U', 'V', 'W'].map((lead, place) => [endOf(motor, place), `motor.${lead}`] as const) : []),
    ],
    sections: SPINDLE_SECTION(TRIED, 'motor'),
  });
}

export function spindleBench(sheet: Sheet): Draft {
  const stator = [...sheet.circuits.values()].find(({ kind }) => kind === 'three-phase-in');
  return joinDrafts(feedAll(sheet), {
    parts: {
      panel: PANEL,
      converter:
        '{ sheet: generic/frequency-converter-1ph, set: { base-frequency: 400 Hz, top-frequency: 400 Hz, run-source: terminals, speed-source: terminals } }',
    },
    links: [
      ['mains.L', 'converter.L'],
      ['mains.N', 'converter.N'],
      ['panel.AO', 'converter.AI'],
      ['panel.GA', 'converter.AC'],
      ['panel.F1', 'converter.RUN'],
      ['panel.F2', 'converter.COM'],
      ...(stator
        ? ['U', 'V', 'W'].map((lead, place) => [`converter.${lead}`, endOf(stator, place)] as const)
        : []),
    ],
    sections: SPINDLE_SECTION('converter', TRIED),
  });
}
