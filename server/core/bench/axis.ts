import type { Circuit, Sheet } from '../model/sheet.ts';
import { type Draft, joinDrafts, supplyOf, TRIED } from './draft.ts';
import { endOf, feedAll } from './feeds.ts';

/* Benches for what moves an axis: a drive between a controller of the bench and a motor, a motor behind a drive. */

/** An axis on which everything is known. */
export const axisOn = (drive: string, motor: string, letter = 'X', more = ''): string =>
  [
    `  ${letter}:`,
    `    drive: ${drive}`,
    `    motor: ${motor}`,
    ...('ABC'.includes(letter)
      ? ['    travel: 360 deg', '    worm: 72:1', '    feed: 4 rpm', '    acceleration: 60 deg/s2']
      : [
          '    travel: 300 mm',
          '    screw: { lead: 5 mm, root: 13 mm, length: 400 mm, ends: fixed-supported, efficiency: 90 %, nut-speed: 3000 rpm }',
          '    mass: 5 kg',
          '    friction: 0.02',
          '    force: 50 N',
          '    feed: 1500 mm/min',
          '    acceleration: 300 mm/s2',
          '    homing: { feed: 600 mm/min, creep: 30 mm/min }',
        ]),
    ...(more === '' ? [] : [`    ${more}`]),
  ].join('\n');

const SIGNALS = ['pulse', 'direction', 'enable'] as const;
type Signal = (typeof SIGNALS)[number];

/** What the bench's own controller gives, with every time that a drive may ask for. */
const TIMES: Readonly<Record<Signal, string>> = {
  pulse: 'top-rate: 50 kHz, on-time: 10 us, off-time: 10 us',
  direction: 'lead: 50 us, hold: 50 us',
  enable: 'current: 100 mA',
};

interface Partner {
  readonly output: string;
  readonly ends: readonly string[];
}

/** The output that suits a kind of input, and how its terminals go to the two ends of that input. */
const PARTNERS: Readonly<Record<string, (signal: Signal) => Partner>> = {
  'opto-in': (signal) => ({ output: `sink-out: [${signal}, G]`, ends: ['V', signal] }),
  'pulled-up-in': (signal) => ({ output: `sink-out: [${signal}, G]`, ends: [signal, 'G'] }),
  'pulled-down-in': (signal) => ({ output: `source-out: [${signal}, V]`, ends: [signal, 'G'] }),
  'line-in': (signal) => ({
    output: `line-out: [${signal}, ${signal}-], voltage: 3 V, resistance: 30 ohm`,
    ends: [signal, `${signal}-`],
  }),
};

export function driveBench(sheet: Sheet): Draft {
  const circuits = [...sheet.circuits.values()];
  const links: [string, string][] = [];
  const outputs = SIGNALS.map((signal) => {
    const input = circuits.find(({ does }) => does?.word === signal);
    const partner = input && PARTNERS[input.kind]?.(signal);
    for (const [place, end] of (partner?.ends ?? []).entries())
      if (input) links.push([`panel.${end}`, endOf(input, place)]);
    return `${signal}: { ${partner?.output ?? `sink-out: [${signal}, G]`}, does: ${signal} X, ${TIMES[signal]} }`;
  });
  return joinDrafts(feedAll(sheet), {
    parts: {
      motor: '{ sheet: generic/stepper-57mm-1nm }',
      panel: `{ class: controller, terminals: { t: [V, G, ${SIGNALS.map((signal) => `${signal}, ${signal}-`).join(', ')}] }, circuits: { five: { power-out: [V, G], voltage: 5 V, current: 1 A }, ${outputs.join(', ')} } }`,
      ...(needsSupply(circuits) ? { psu: supplyOf(36) } : {}),
    },
    links,
    sections: ['axes:', axisOn(TRIED, 'motor')],
  });
}

/** A drive whose sheet does not say what it takes is tried on 36 V, which suits most. */
const needsSupply = (circuits: readonly Circuit[]): boolean =>
  !circuits.some(({ kind, figures }) => kind === 'power-in' && figures.span('voltage'));

export function motorBench(): Draft {
  return {
    parts: {
      psu: supplyOf(36),
      drive: '{ sheet: generic/microstep-drive-50v }',
      panel:
        '{ class: controller, terminals: { t: [V, G, P, D] }, circuits: { five: { power-out: [V, G], voltage: 5 V, current: 1 A }, pulse: { sink-out: [P, G], does: pulse X, top-rate: 50 kHz, on-time: 10 us, off-time: 10 us }, direction: { sink-out: [D, G], does: direction X, lead: 50 us, hold: 50 us } } }',
    },
    links: [
      ['psu.V+', 'drive.V+'],
      ['psu.V-', 'drive.V-'],
      ['panel.V', 'drive.PUL+'],
      ['panel.V', 'drive.DIR+'],
      ['panel.P', 'drive.PUL-'],
      ['panel.D', 'drive.DIR-'],
    ],
    sections: ['axes:', axisOn('drive', TRIED)],
  };
}
