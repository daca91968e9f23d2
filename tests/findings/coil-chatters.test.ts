import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/** What is said of a contactor whose coil, contacts and resistor are wired so. */
function told(...links: readonly string[]) {
  const text = `machine: Toy lathe
parts:
  psu:
    class: supply
    terminals: { output: [V+, V-] }
    circuits: { output: { power-out: [V+, V-], voltage: 24 V, current: 2 A } }
  button: &button
    class: switch
    terminals: { contact: [C1, C2] }
    circuits: { contact: { contact: [C1, C2], rest: open } }
  second: *button
  k: &relay
    class: relay
    terminals: { coil: [A1, A2], contacts: [13, 14, 21, 22] }
    circuits:
      coil: { coil: [A1, A2], voltage: 24 V, resistance: 1 kohm, clamp: yes }
      opens: { contact: [21, 22], rest: closed, voltage: 240 V, current: 3 A }
      closes: { contact: [13, 14], rest: open, voltage: 240 V, current: 3 A }
  other: *relay
  r:
    class: resistor
    terminals: { ends: [1, 2] }
    circuits: { it: { resistor: [1, 2], resistance: 1 kohm } }
  small:
    class: resistor
    terminals: { ends: [1, 2] }
    circuits: { it: { resistor: [1, 2], resistance: 100 ohm } }
wiring:
${links.map((link) => `  - ${link}\n`).join('')}`;
  const { findings } = analyseTexts(new Map([['lathe.machine.yaml', text]]));
  return findings.filter(({ code }) => code === 'wiring/coil-chatters').map(({ message }) => message);
}

test('a coil behind its own closed contact chatters', () => {
  expect(told('psu.V+ -> k.21', 'k.22 -> k.A1', 'k.A2 -> psu.V-')).toEqual([
    'k gets 24.0 V over its own contact between k.21 and k.22, and 0.0 V as soon as it has pulled in: it lets go, pulls in again, and chatters until its contacts burn or weld. Feed the coil past that contact; a relay that is to hold itself in does so over a contact that is open at rest.',
  ]);
});

test('it does on the minus side as well, and behind one button or two', () => {
  expect(told('psu.V+ -> k.A1', 'k.A2 -> k.21', 'k.22 -> psu.V-')).toHaveLength(1);
  const button = ['psu.V+ -> button.C1', 'button.C2 -> k.21'];
  expect(told(...button, 'k.22 -> k.A1', 'k.A2 -> psu.V-')).toHaveLength(1);
  const both = ['psu.V+ -> button.C1', 'button.C2 -> second.C1', 'second.C2 -> k.21'];
  expect(told(...both, 'k.22 -> k.A1', 'k.A2 -> psu.V-')).toHaveLength(1);
});

test('a contactor that holds itself in over the wrong contact chatters', () => {
  const start = ['psu.V+ -> button.C1, k.21', 'button.C2 -> k.A1', 'k.A2 -> psu.V-'];
  expect(told(...start, 'k.22 -> k.A1')).toHaveLength(1);
});

test('one that holds itself in over the right contact does not', () => {
  const start = ['psu.V+ -> button.C1, k.13', 'button.C2 -> k.A1', 'k.A2 -> psu.V-'];
  expect(told(...start, 'k.14 -> k.A1')).toEqual([]);
});

test('a contact that puts a resistor before the coil once it has pulled in leaves it enough', () => {
  const saving = ['psu.V+ -> k.21, r.1', 'k.22 -> k.A1', 'r.2 -> k.A1', 'k.A2 -> psu.V-'];
  expect(told(...saving)).toEqual([]);
});

test('a contact that only switches something else, or another relay, does not matter', () => {
  expect(told('psu.V+ -> k.A1, k.21', 'k.22 -> r.1', 'r.2 -> psu.V-', 'k.A2 -> psu.V-')).toEqual([]);
  const interlock = ['psu.V+ -> k.21, other.21', 'k.22 -> other.A1', 'other.22 -> k.A1'];
  expect(told(...interlock, 'k.A2 -> psu.V-', 'other.A2 -> psu.V-')).toEqual([]);
});

test('a contact that shorts its own coil behind a resistor takes its supply as well', () => {
  const behind = (r: string) =>
    told(`psu.V+ -> ${r}.1`, `${r}.2 -> k.A1, k.13`, 'k.A2 -> psu.V-', 'k.14 -> psu.V-');
  // 24 V * 1000 / 1100 = 21.8 V pull it in; half of 24 V need not.
  expect(behind('small')[0]).toMatch(
    /^k gets 21\.8 V over its own contact between k\.13 and k\.14, and 0\.0 V /,
  );
  expect(behind('r')).toEqual([]);
});
