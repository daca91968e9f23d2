import { expect, test } from 'vitest';
import { analyseTexts } from '../../support/marked.ts';

const HEATER =
  '{ class: load, terminals: { t: [A, B] }, circuits: { body: { resistor: [A, B], resistance: 6 ohm } } }';

/** A heater behind a fuse and an open contact, on 12 V. */
function machineWith({ fuse = 'fuse-holder-6a', turned = false, wiring = '', back = 'psu.V-' } = {}): string {
  const [near, far] = turned ? ['B', 'A'] : ['A', 'B'];
  return `machine: Toy
parts:
  psu: { sheet: generic/supply-12v }
  fuse: { sheet: generic/${fuse} }
  button: { sheet: generic/push-button }
  heater: ${HEATER}
  heater-2: ${HEATER}
wiring:
  - { link: psu.V+ -> fuse.IN, wire: 1.5 mm2, length: 1 m, label: there }
  - fuse.OUT -> button.C1
  - button.C2 -> heater.${near}
  - { link: heater.${far} -> ${back}, wire: 1.5 mm2, length: 1 m, label: back }
${wiring}`;
}

function wiresOf(text: string) {
  const { analysis, findings } = analyseTexts(new Map([['toy.machine.yaml', text]]));
  const shown = (label: string) => analysis.values.byAddress.get(`wires.${label}.current`)?.shown;
  return { there: shown('there'), back: shown('back'), codes: findings.map(({ code }) => code) };
}

test.each([false, true])('a heater draws by its resistance, there and back; ends exchanged: %s', (turned) => {
  expect(wiresOf(machineWith({ turned }))).toMatchObject({ there: '2 A', back: '2 A' }); // 12 V / 6 ohm
});

test('two of one sheet add up', () => {
  const wiring = '  - heater-2.A -> heater.A\n  - heater-2.B -> heater.B\n';
  expect(wiresOf(machineWith({ wiring }))).toMatchObject({ there: '4 A', back: '4 A' });
});

test('a fuse that is too small for it is told', () => {
  expect(wiresOf(machineWith({ fuse: 'fuse-holder-1a' })).codes).toContain('wire/fuse-below-load');
  expect(wiresOf(machineWith()).codes).not.toContain('wire/fuse-below-load');
});

test('nothing flows that does not come back', () => {
  expect(wiresOf(machineWith({ back: 'button.C2' })).there).toBeUndefined();
});
