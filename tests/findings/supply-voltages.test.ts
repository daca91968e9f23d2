import { describe, expect, it } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/* What a load takes, by what its sheet says of it. */

const machine = (given: string, taken: string, links: readonly string[]) =>
  new Map([
    [
      'toy.machine.yaml',
      `machine: Toy
parts:
  psu: { class: supply, terminals: { all: [V+, V-] }, circuits: { out: { power-out: [V+, V-], voltage: ${given}, current: 2 A } } }
  fan: { class: load, terminals: { all: [P, M] }, circuits: { supply: { power-in: [P, M], ${taken}current: 0.2 A } } }
wiring:
${links.map((link) => `  - ${link}\n`).join('')}`,
    ],
  ]);

const fed = (given: string, taken: string) =>
  analyseTexts(machine(given, taken, ['psu.V+ -> fan.P', 'psu.V- -> fan.M'])).findings.map(
    ({ code }) => code,
  );

describe('a load that states one voltage', () => {
  it.each(['21.7 V', '24 V', '26.3 V'])('takes %s for 24 V', (given) => {
    expect(fed(given, 'voltage: 24 V, ')).not.toContain('power/outside-span');
  });
  it.each(['21.5 V', '26.5 V'])('does not take %s for 24 V', (given) => {
    expect(fed(given, 'voltage: 24 V, ')).toContain('power/outside-span');
  });
});

describe('a load that states a span takes what is within it and no more', () => {
  it.each([
    ['19.9 V', true],
    ['20 V', false],
    ['28 V', false],
    ['28.1 V', true],
  ])('%s', (given, isWrong) => {
    expect(fed(given, 'voltage: 20..28 V, ').includes('power/outside-span')).toBe(isWrong);
  });
});

describe('a load with one loose end is offered the supply', () => {
  const offered = (taken: string) =>
    analyseTexts(machine('24 V', taken, ['psu.V+ -> fan.P']))
      .findings.filter(({ code }) => code === 'wiring/terminal-unconnected')
      .flatMap(({ fixes = [] }) => fixes.map(({ title }) => title));
  it.each(['voltage: 24 V, ', 'voltage: 20..28 V, ', ''])('where it says “%s” of its voltage', (taken) => {
    expect(offered(taken)).toEqual(['Add psu.V- -> fan.M']);
  });
});

it('the outputs of a part on the wrong supply are not told as overloaded as well', () => {
  const codes = (volts: string) =>
    analyseTexts(
      new Map([
        [
          'toy.machine.yaml',
          `machine: Toy
parts:
  psu: { class: supply, terminals: { all: [V+, V-] }, circuits: { out: { power-out: [V+, V-], voltage: ${volts}, current: 2 A } } }
  board:
    class: controller
    terminals: { all: [5V, 0V, P] }
    circuits:
      supply: { power-in: [5V, 0V], voltage: 4.75..5.25 V, current: 0.2 A }
      pulse: { push-pull-out: [P, 5V, 0V], does: pulse X, drop: 0.4 V, current: 20 mA }
  load: { class: load, terminals: { all: [1, 2] }, circuits: { r: { resistor: [1, 2], resistance: 330 ohm, power: 5 W } } }
wiring:
  - psu.V+ -> board.5V
  - psu.V- -> board.0V
  - board.P -> load.1
  - load.2 -> board.0V
`,
        ],
      ]),
    ).findings.map(({ code }) => code);
  expect(codes('24 V')).toContain('power/outside-span');
  expect(codes('24 V')).not.toContain('level/output-overloaded');
  expect(codes('5 V')).not.toContain('power/outside-span');
});
