import type { Circuit, Sheet } from '../model/sheet.ts';
import { type Draft, joinDrafts, supplyOf } from './draft.ts';
import { endOf, feedAll } from './feeds.ts';

/*
 * Benches for what gives, guards, switches or takes power. They ask for far more than any part can do, so that a check
 * that has its figure finds something, and one that lacks it does not.
 */

const HUNGRY =
  '{ class: load, terminals: { t: [a, b] }, circuits: { supply: { power-in: [a, b], voltage: 1..1500 V, current: 900 A } } }';

export function supplyBench(sheet: Sheet): Draft {
  const outputs = [...sheet.circuits.values()].filter(({ kind }) => kind === 'power-out');
  return joinDrafts(
    feedAll(sheet),
    ...outputs.map(
      (output, place): Draft => ({
        parts: { [`load-${place + 1}`]: HUNGRY },
        links: [
          [endOf(output, 0), `load-${place + 1}.a`],
          [endOf(output, 1), `load-${place + 1}.b`],
        ],
      }),
    ),
  );
}

/** A fuse or a breaker in front of a load and a thin wire. */
export function fuseBench(sheet: Sheet): Draft {
  const fuses = [...sheet.circuits.values()].filter(({ kind }) => kind === 'fuse');
  return joinDrafts(
    { parts: { psu: supplyOf(24) }, links: [] },
    ...fuses.map((fuse, place): Draft => {
      const load = `load-${place + 1}`;
      return {
        parts: { [load]: HUNGRY },
        links: [
          ['psu.V+', endOf(fuse, 0)],
          [endOf(fuse, 1), `${load}.a`],
          ['psu.V-', `${load}.b`],
        ],
      };
    }),
  );
}

/** A relay: its coil on a supply of its voltage behind a switch, each of its contacts before a load. */
export function relayBench(sheet: Sheet): Draft {
  const circuits = [...sheet.circuits.values()];
  const volts = circuits.find(({ kind }) => kind === 'coil')?.figures.quantity('voltage')?.value.value ?? 24;
  return joinDrafts(
    feedAll(sheet),
    {
      parts: { psu: supplyOf(volts) },
      links: circuits.filter(({ kind }) => kind === 'coil' || kind === 'opto-in').flatMap(drive),
    },
    ...circuits
      .filter(({ kind }) => kind === 'contact' || kind === 'changeover')
      .map((contact, place) => loadBehind(contact, `load-${place + 1}`)),
  );
}

const drive = (circuit: Circuit): [string, string][] => [
  ['psu.V+', endOf(circuit, 0)],
  ['psu.V-', endOf(circuit, 1)],
];

/** More current than any contact carries. */
const DROPPING =
  '{ class: load, terminals: { t: [a, b] }, circuits: { coil: { coil: [a, b], voltage: 24 V, resistance: 0.1 ohm, clamp: yes } } }';

function loadBehind(contact: Circuit, name: string): Draft {
  const to = contact.kind === 'changeover' ? 2 : 1;
  return {
    parts: { [name]: DROPPING },
    links: [
      ['psu.V+', endOf(contact, 0)],
      [endOf(contact, to), `${name}.a`],
      ['psu.V-', `${name}.b`],
    ],
  };
}

/** Anything that draws current, and what a contactor's coil or a valve's is. */
export function loadBench(sheet: Sheet): Draft {
  const coils = [...sheet.circuits.values()].filter(({ kind }) => kind === 'coil' || kind === 'resistor');
  const draft = joinDrafts(feedAll(sheet), { parts: {}, links: coils.flatMap(drive) });
  return draft;
}
