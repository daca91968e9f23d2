import { linkOhms } from '../../server/core/circuits/solve/conductors.ts';
import type { Reads } from '../../server/core/circuits/solve/element.ts';
import { findLoads } from '../../server/core/circuits/solve/loads.ts';
import { judge } from '../../server/core/circuits/solve/reading.ts';
import { inputOf, machineOf, solveText } from '../core/circuits/machines.ts';
import { checkRows, setAside } from './rows.ts';

/**
 * Levels and currents as the solver finds them in whole small machines, against what standards and data sheets print.
 * @param feed V of the supply
 * @param circuits of a part with the terminals IN and C, which C joins to the minus
 * @param path what leads from the plus to IN
 */
function machine(
  feed: number,
  circuit: string,
  path: { circuits: string; from: string; to: string },
): string {
  return `machine: Reference
parts:
  psu: { class: supply, terminals: { all: [P, M] }, circuits: { o: { power-out: [P, M], voltage: ${feed} V } } }
  reader: { class: controller, terminals: { all: [IN, C] }, circuits: { i: { ${circuit} } } }
  path: { class: sensor, terminals: { all: [A, B, M] }, circuits: { s: { ${path.circuits} } } }
wiring: [psu.P -> path.${path.from}, path.${path.to} -> reader.IN, reader.C -> psu.M, psu.M -> path.M]
`;
}

/** What an input sees while what leads to it conducts (or leaks), in the unit of its reading. */
function seen(feed: number, circuit: string, path: string, to = 'B'): number {
  const { rest } = inputOf(solveText(machine(feed, circuit, { circuits: path, from: 'A', to })), 'reader.i');
  return rest.value ?? Number.NaN;
}

const CONTACT = 'contact: [A, B], rest: closed';
const resistor = (ohms: number) => `resistor: [A, B], resistance: ${ohms} ohm`;
const lamp = (forward: number, series: number) =>
  `opto-in: [IN, C], forward: ${forward} V, series: ${series} ohm, on-at: 1 mA, off-at: 0.5 mA`;
const pulledDown = (ohms: number) =>
  `pulled-down-in: [IN, C], resistance: ${ohms} ohm, on-above: 15 V, off-below: 5 V`;

/** The current that a contact carries into an input of so many ohms, in mA. */
function inputCurrent(feed: number, ohms: number): number {
  const solved = solveText(machine(feed, pulledDown(ohms), { circuits: CONTACT, from: 'A', to: 'B' }));
  return (findLoads(solved)[0]?.amps ?? Number.NaN) * 1e3;
}

/** The highest voltage, in steps of 0.1 V, at which an input with these thresholds is surely off; or the least surely on. */
function edge(reads: Partial<Reads>, level: 'on' | 'off'): number {
  const full: Reads = {
    unit: 'V',
    eitherWay: false,
    on: undefined,
    off: undefined,
    below: false,
    most: undefined,
    ...reads,
  };
  const at = Array.from({ length: 301 }, (_, step) => step / 10).filter(
    (volts) => judge(volts, full).level === level,
  );
  return level === 'on' ? Math.min(...at) : Math.max(...at);
}

/** The input of the generic example panel, 4.7 kohm. */
const OHMS = 4700;
const practice = 'common practice, no source';
const here = 'worked out here' as const;
const memory = 'from memory';

checkRows(
  'Digital inputs and sensors (6.1, 6.3, 6.5)',
  [
    {
      id: 'N321',
      source: 'DI1',
      what: 'V, type 1 surely off up to',
      value: edge({ on: 15, off: 5 }, 'off'),
      published: '5',
    },
    {
      id: 'N324',
      source: 'DI3',
      what: 'V, type 3 surely off up to',
      value: edge({ on: 11, off: 5 }, 'off'),
      published: '5',
    },
    {
      id: 'N326',
      source: 'MEM',
      what: 'V, type 2 surely on from',
      value: edge({ on: 11, off: 5 }, 'on'),
      published: '11',
      standing: memory,
    },
    {
      id: 'N323',
      source: 'DI1',
      what: 'mA at 15 V into the input of 7.5 kohm that just is of type 1',
      value: inputCurrent(15, 7500),
      published: '2',
    },
    {
      id: 'N327',
      source: 'MEM',
      what: 'mA at 11 V into the input of 1833 ohm that just is of type 2',
      value: inputCurrent(11, 11 / 6e-3),
      published: '6',
      standing: memory,
    },
    {
      id: 'N353',
      source: 'MEM',
      what: 'V that a two-wire sensor leaking its 1.5 mA leaves on 4.7 kohm: above the 5 V of a type 1 input',
      value: seen(24, pulledDown(OHMS), 'two-wire-sensor: [A, B], rest: open, drop: 5 V, leak: 1.5 mA'),
      recomputed: 7.05,
      standing: memory,
      within: [5e-6, 'the leak of the solver, 100 Gohm'],
    },
    {
      id: 'N359',
      source: 'PF2',
      what: 'V that a two-wire sensor leaking 0.8 mA leaves on 4.7 kohm',
      value: seen(24, pulledDown(OHMS), 'two-wire-sensor: [A, B], rest: open, drop: 8 V, leak: 0.8 mA'),
      recomputed: 3.76,
      standing: here,
      within: [5e-6, 'the leak of the solver, 100 Gohm'],
    },
    {
      id: 'N355',
      source: 'PF',
      what: 'V that a three-wire sensor leaking 0.5 mA leaves on 4.7 kohm',
      value: seen(
        24,
        pulledDown(OHMS),
        'sensor: [A, M, B], switching: pnp, rest: open, drop: 2 V, leak: 0.5 mA',
      ),
      recomputed: 2.35,
      standing: here,
      within: [5e-6, 'the leak of the solver, 100 Gohm'],
    },
    {
      id: 'N350',
      source: 'MEM',
      what: 'V left at the input by a three-wire sensor with the largest drop, 3.5 V',
      value: seen(24, pulledDown(OHMS), 'sensor: [A, M, B], switching: pnp, rest: closed, drop: 3.5 V'),
      recomputed: 20.5,
      standing: memory,
      within: [5e-6, 'the slope of its transistor, 10 mohm'],
    },
    {
      id: 'N371',
      source: 'OMR',
      what: 'V left at the input by a two-wire sensor that loses 5 V',
      value: seen(24, pulledDown(OHMS), 'two-wire-sensor: [A, B], rest: closed, drop: 5 V'),
      recomputed: 19,
      standing: here,
      within: [5e-6, 'the slope of its transistor, 10 mohm'],
    },
  ],
  10,
);

checkRows(
  'Opto inputs (6.4)',
  [
    {
      id: 'N361',
      source: 'OPT',
      what: 'mA through the printed 1520 ohm at 24 V',
      value: seen(24, lamp(1.2, 1520), CONTACT) * 1e3,
      published: '15',
      recomputed: 15,
    },
    {
      id: 'N363',
      source: 'RAM',
      what: 'mA through the printed 75 ohm at 5 V',
      value: seen(5, lamp(1.25, 75), CONTACT) * 1e3,
      published: '50',
      recomputed: 50,
    },
    // The printed formula leaves the voltage of the lamp out, so the supply is that much higher here.
    ...(
      [
        ['N364', 10, 525, 500],
        ['N366', 15, 1025, 1000],
        ['N367', 24, 1925, 2000],
      ] as const
    ).map(([id, volts, ohms, table]) => ({
      id,
      source: 'RMS' as const,
      what: `mA at ${volts} V with the ${ohms} ohm of the printed formula; its table prints ${table} ohm`,
      value: seen(volts + 1.2, lamp(1.2, 475), resistor(ohms)) * 1e3,
      recomputed: 10,
      standing: here,
    })),
    {
      id: 'N369',
      source: 'RMS',
      what: 'mA at 12 V through 1143 ohm in all',
      value: seen(12, lamp(1.2, 475), resistor(1143 - 475)) * 1e3,
      recomputed: 9.448819,
      standing: practice,
    },
    {
      id: 'N370',
      source: 'RMS',
      what: 'mA at 24 V through 2475 ohm in all',
      value: seen(24, lamp(1.2, 475), resistor(2000)) * 1e3,
      recomputed: 9.212121,
      standing: practice,
    },
  ],
  7,
);

const RECEIVER: Partial<Reads> = { on: 0.2, off: -0.2 };

checkRows(
  'RS-422 line levels (7.3)',
  [
    {
      id: 'N390',
      source: 'R422',
      what: 'mV of difference from which on a receiver is sure',
      value: edge(RECEIVER, 'on') * 1e3,
      published: '200',
    },
    {
      id: 'N393',
      source: 'R422',
      what: 'V that a driver of 2 V behind 30 ohm leaves on the least input resistance, 4 kohm',
      value: seenLine(4000),
      recomputed: (2 * 4000) / 4030,
      standing: here,
    },
  ],
  2,
);

function seenLine(ohms: number): number {
  const text = `machine: Reference
parts:
  wheel: { class: handwheel, terminals: { all: [P, N] }, circuits: { o: { line-out: [P, N], voltage: 2 V, resistance: 30 ohm } } }
  reader: { class: controller, terminals: { all: [P, N] }, circuits: { i: { line-in: [P, N], voltage: 0.2 V, resistance: ${ohms} ohm } } }
wiring: [wheel.P -> reader.P, wheel.N -> reader.N]
`;
  return inputOf(solveText(text), 'reader.i').operations[0]?.sight.value ?? Number.NaN;
}

/** The resistance of a link of a kilometre, in ohm. The format takes 500 m at most, so two such stand for it. */
function kilometre(wire: string): number {
  const { links } = machineOf(
    `machine: Reference\nwiring: [{ link: a.x -> b.y, wire: ${wire}, length: 500 m }]\n`,
  );
  return 2 * (links[0] ? (linkOhms(links[0]) ?? Number.NaN) : Number.NaN);
}

checkRows(
  'Wires in circuits (1.3, 1.4)',
  [
    {
      id: 'N036',
      source: 'TOOL',
      what: 'ohm/km, 24 AWG',
      value: kilometre('24 AWG'),
      published: '84.2',
      recomputed: 84.21323,
    },
    { id: 'N039', source: 'C228', what: 'ohm/km, 0.5 mm2', value: kilometre('0.5 mm2'), published: '39.0' },
    { id: 'N041', source: 'C228', what: 'ohm/km, 0.75 mm2', value: kilometre('0.75 mm2'), published: '26.0' },
    { id: 'N045', source: 'C228', what: 'ohm/km, 1.5 mm2', value: kilometre('1.5 mm2'), published: '13.3' },
  ],
  4,
);

setAside({
  N329: '0.5 mA off-state current limit of a type 1 input: a limit on sensors, held in N355',
  N330: '2 mA off-state current limit of a type 2 input, from memory: no input here states its type',
  N332: '15 mA largest current of type 1 and 3 inputs, from memory: no input here states its type',
  N333: '30 mA largest current of type 2 inputs, from memory: no input here states its type',
  N352: '0.5 mA off-state current limit of three-wire sensors, from memory: the product of N355 meets it',
  N356: '5 V largest drop of a two-wire sensor: held in N371',
  N358: '8 V largest drop of a two-wire sensor for both kinds of current: a data sheet figure',
  N373: 'dissipation of a bleeder: no bleeder is chosen yet',
  N392: '7 V common mode of a receiver: the format has no figure for it',
});
