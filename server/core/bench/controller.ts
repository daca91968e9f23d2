import type { Circuit, Sheet } from '../model/sheet.ts';
import { axisOn } from './axis.ts';
import { type Draft, joinDrafts } from './draft.ts';
import { endOf, feedAll, voltageFor } from './feeds.ts';
import { SPINDLE_SECTION } from './spindle.ts';

/* A bench for a controller: a drive on each of its axes, a switch on each of its inputs, a spindle, a wheel, and coils. */

export function controllerBench(sheet: Sheet): Draft {
  const circuits = [...sheet.circuits.values()];
  const axes = [
    ...new Set(circuits.flatMap(({ does }) => (does?.word === 'pulse' && does.axis ? [does.axis] : []))),
  ];
  const volts = voltageFor(sheet);
  return joinDrafts(
    feedAll(sheet),
    ...axes.map((axis) => driveOn(axis, circuits, volts)),
    ...circuits.filter(isSwitched).map((circuit) => switchOn(circuit)),
    ...circuits.filter(({ kind, does }) => kind === 'sink-out' && !isOfAxis(does?.word)).map(coilOn),
    ...circuits.filter(({ kind }) => kind === 'power-out').map(loadOn),
    spindleOn(circuits, volts),
    wheelOn(circuits),
    {
      parts: {},
      links: [],
      sections: axes.length > 0 ? ['axes:', ...axes.map((axis) => axisFor(axis, circuits))] : [],
    },
  );
}

const isOfAxis = (word: string | undefined): boolean =>
  word === 'pulse' || word === 'direction' || word === 'enable';

/** A drive whose inputs suit the outputs of one axis. */
function driveOn(axis: string, circuits: readonly Circuit[], volts: number): Draft {
  const links: [string, string][] = [];
  const inputs = circuits.flatMap((circuit) => {
    const { does } = circuit;
    if (!does || !isOfAxis(does.word) || (does.axis !== undefined && does.axis !== axis)) return [];
    const { kind, wires } = receive(circuit, `drive-${axis}.${does.word}`, volts);
    links.push(...wires);
    return `${does.word}: { ${kind}: [${does.word}+, ${does.word}-], does: ${does.word}, ${INPUT_FIGURES[kind](volts)}, ${ASKED[does.word] ?? 'delay: 1 ms'} }`;
  });
  const drive = `{ class: drive, terminals: { t: [pulse+, pulse-, direction+, direction-, enable+, enable-] }, circuits: { ${inputs.join(', ')} }, settings: { microsteps: { is: microsteps, choices: [8], default: 8 } } }`;
  return { parts: { [`drive-${axis}`]: drive, motor: '{ sheet: generic/stepper-57mm-1nm }' }, links };
}

const ASKED: Readonly<Record<string, string>> = {
  pulse: 'least-on: 1 us, least-off: 1 us, top-rate: 500 kHz',
  direction: 'lead: 1 us, hold: 1 us',
};

const INPUT_FIGURES = {
  'line-in': () => 'voltage: 0.2 V, resistance: 120 ohm',
  'opto-in': (volts: number) =>
    `forward: 1.2 V, series: ${Math.max(1, Math.round((volts - 1.2) / 0.01))} ohm, on-at: 5 mA, off-at: 1 mA, most: 30 mA`,
} as const;

/** How an output goes to an input of the bench: a pair to a pair, everything else through a lamp. */
function receive(circuit: Circuit, input: string, volts: number) {
  const [first, second, third] = [0, 1, 2].map((place) => endOf(circuit, place));
  const wires = (...list: (readonly [string | undefined, string])[]) =>
    list.flatMap(([from, to]): [string, string][] => (from === undefined ? [] : [[from, to]]));
  switch (circuit.kind) {
    case 'line-out':
      return { kind: 'line-in', wires: wires([first, `${input}+`], [second, `${input}-`]), volts } as const;
    case 'source-out':
      return {
        kind: 'opto-in',
        wires: wires(['psu.V+', second ?? ''], [first, `${input}+`], ['psu.V-', `${input}-`]),
      } as const;
    case 'push-pull-out':
      return { kind: 'opto-in', wires: wires([first, `${input}+`], [third, `${input}-`]) } as const;
    case 'contact':
      return {
        kind: 'opto-in',
        wires: wires(['psu.V+', first ?? ''], [second, `${input}+`], ['psu.V-', `${input}-`]),
      } as const;
    default:
      return {
        kind: 'opto-in',
        wires: wires(['psu.V+', `${input}+`], [first, `${input}-`], ['psu.V-', second ?? '']),
      } as const;
  }
}

/** Inputs that a switch acts on. */
function isSwitched({ kind, does }: Circuit): boolean {
  return (
    ['pulled-up-in', 'pulled-down-in', 'opto-in'].includes(kind) &&
    !(does?.word ?? '').startsWith('handwheel') &&
    !isOfAxis(does?.word)
  );
}

const switchName = ({ name }: Circuit): string => `switch-${name}`;

/** A switch between an input and what turns it on. */
export function switchOn(circuit: Circuit): Draft {
  const name = switchName(circuit);
  const [first, second] = [endOf(circuit, 0), endOf(circuit, 1)];
  const contact =
    '{ class: switch, terminals: { t: [a, b] }, circuits: { contact: { contact: [a, b], rest: closed, voltage: 250 V, current: 5 A } }, facts: { delay: 1 ms, repeatability: 0.02 mm } }';
  const links: [string, string][] =
    circuit.kind === 'pulled-up-in'
      ? [
          [first, `${name}.a`],
          [`${name}.b`, second],
          ['psu.V-', second],
        ]
      : [
          ['psu.V+', `${name}.a`],
          [`${name}.b`, first],
          ['psu.V-', second],
        ];
  return { parts: { [name]: contact }, links };
}

/** A coil on an output that sinks. */
function coilOn(circuit: Circuit): Draft {
  const name = `coil-${circuit.name}`;
  return {
    parts: {
      [name]:
        '{ class: load, terminals: { t: [a, b] }, circuits: { coil: { coil: [a, b], voltage: 24 V, resistance: 1 kohm } } }',
    },
    links: [
      ['psu.V+', `${name}.a`],
      [endOf(circuit, 0), `${name}.b`],
      ['psu.V-', endOf(circuit, 1)],
    ],
  };
}

/** A load on a supply for the part's own surroundings. */
function loadOn(circuit: Circuit): Draft {
  const name = `load-${circuit.name}`;
  return {
    parts: {
      [name]:
        '{ class: load, terminals: { t: [a, b] }, circuits: { supply: { power-in: [a, b], voltage: 1..50 V, current: 0.1 A } } }',
    },
    links: [
      [endOf(circuit, 0), `${name}.a`],
      [endOf(circuit, 1), `${name}.b`],
    ],
  };
}

/** A converter with its motor behind the speed output. */
function spindleOn(circuits: readonly Circuit[], volts: number): Draft {
  const speed = circuits.find(({ kind, does }) => kind === 'analog-out' && does?.word === 'spindle speed');
  if (!speed) return { parts: {}, links: [] };
  const run = circuits.find(({ does }) => does?.word === 'spindle run');
  const { kind, wires } = run
    ? receive(run, 'converter.run', volts)
    : { kind: 'opto-in' as const, wires: [] };
  const converter = `{ class: converter, terminals: { t: [AI, AC, run+, run-] }, circuits: { speed: { analog-in: [AI, AC], does: spindle speed, span: 0..10 V, resistance: 20 kohm, bits: 12 }, run: { ${kind}: [run+, run-], does: spindle run, ${INPUT_FIGURES[kind](volts)} } }, settings: { top: { is: top-frequency, unit: Hz, default: 400 Hz }, ramp: { is: ramp-up, unit: s, default: 5 s } } }`;
  return {
    parts: { converter, 'spindle-motor': '{ sheet: generic/spindle-2-pole-800w }' },
    links: [[endOf(speed, 0), 'converter.AI'], [endOf(speed, 1), 'converter.AC'], ...wires],
    sections: SPINDLE_SECTION('converter', 'spindle-motor'),
  };
}

/** A wheel whose signals suit the counting inputs. */
function wheelOn(circuits: readonly Circuit[]): Draft {
  const counting = circuits.filter(({ does }) => does?.word.startsWith('handwheel'));
  if (counting.length === 0) return { parts: {}, links: [] };
  const isPair = counting[0]?.kind === 'line-in';
  return {
    parts: { wheel: `{ sheet: generic/handwheel-${isPair ? 'pair' : 'single-ended'} }`, five: FIVE_VOLTS },
    links: [
      ['five.V+', 'wheel.5V'],
      ['five.V-', 'wheel.0V'],
      ...counting.flatMap((circuit): [string, string][] => {
        const lead = `wheel.W${circuit.does?.word.at(-1) ?? 'A'}`;
        return isPair
          ? [
              [endOf(circuit, 0), `${lead}+`],
              [endOf(circuit, 1), `${lead}-`],
            ]
          : [
              [endOf(circuit, 0), lead],
              [endOf(circuit, 1), 'five.V-'],
            ];
      }),
    ],
    sections: ['handwheel: { part: wheel, spin: 1 rev/s }'],
  };
}

export const FIVE_VOLTS =
  '{ class: supply, terminals: { out: [V+, V-] }, circuits: { out: { power-out: [V+, V-], voltage: 5 V, current: 5 A } } }';

function axisFor(axis: string, circuits: readonly Circuit[]): string {
  const switches = circuits.filter(isSwitched).flatMap((circuit) => {
    const { does } = circuit;
    if (does?.axis !== axis) return [];
    const place = does.word === 'home' ? 'home' : does.word === 'limit' ? does.last : undefined;
    return place ? [`${place}: ${switchName(circuit)}`] : [];
  });
  const named = [...new Set(switches)];
  return axisOn(`drive-${axis}`, 'motor', axis, named.length > 0 ? `switches: { ${named.join(', ')} }` : '');
}
