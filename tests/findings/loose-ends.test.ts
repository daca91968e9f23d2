import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/** Where a wire is said to be missing: at an end that leads nowhere, before a common of two supplies that feed the same. */

const SUPPLY =
  '{ class: supply, terminals: { all: [V+, V-] }, circuits: { output: { power-out: [V+, V-], voltage: 24 V } } }';
const SWITCH =
  '{ class: switch, terminals: { all: [A, B] }, circuits: { contact: { contact: [A, B], rest: open } } }';

/** A valve that either of two supplies feeds through a switch of its own, and what is said of how it is wired. */
function saidOf(...links: readonly string[]): readonly unknown[] {
  const text = `machine: Two feeds
parts:
  one: ${SUPPLY}
  two: ${SUPPLY}
  first: ${SWITCH}
  second: ${SWITCH}
  fuse: { class: fuse, terminals: { all: [A, B] }, circuits: { f: { fuse: [A, B], rating: 1 A } } }
  valve: { class: load, terminals: { all: [A1, A2] }, circuits: { coil: { coil: [A1, A2], voltage: 24 V, resistance: 100 ohm } } }
wiring:
  - one.V+ -> first.A
  - two.V+ -> second.A
  - first.B -> valve.A1
  - second.B -> valve.A1
${links.map((link) => `  - ${link}\n`).join('')}`;
  return analyseTexts(new Map([['feeds.machine.yaml', text]]))
    .findings.filter(({ code }) => code === 'wiring/no-return')
    .map(({ data }) => [data.why, data.open]);
}

test('behind the fuse of a return, where nothing is joined to it', () => {
  expect(saidOf('valve.A2 -> fuse.A')).toEqual([['free', 'fuse.B']]);
});

test('between the supplies, once the return leads to one of them', () => {
  expect(saidOf('valve.A2 -> fuse.A', 'fuse.B -> one.V-')).toEqual([['common', 'second.A']]);
});

test('nowhere, once they have a common', () => {
  expect(saidOf('valve.A2 -> fuse.A', 'fuse.B -> one.V-', 'one.V- -> two.V-')).toEqual([]);
});
