import { describe, expect, it } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/* The span of a signal and that of the input that looks at it. */

const codes = (gives: string, does: string) =>
  analyseTexts(
    new Map([
      [
        'toy.machine.yaml',
        `machine: Toy
parts:
  source: { class: load, terminals: { all: [D, G] }, circuits: { divided: { analog-out: [D, G], span: ${gives}, resistance: 1 kohm } } }
  unit:   { class: load, terminals: { all: [V, M] }, circuits: { arc: { analog-in: [V, M], ${does}span: 0..10 V, resistance: 200 kohm } } }
wiring:
  - source.D -> unit.V
  - source.G -> unit.M
`,
      ],
    ]),
  ).findings.map(({ code }) => code);

describe('an input that only measures', () => {
  it.each(['0..8 V', '2..10 V'])('measures %s within its 0..10 V as well', (gives) => {
    expect(codes(gives, '')).not.toContain('level/reference-span');
  });
  it.each(['0..12 V', '-10..10 V'])('does not measure all of %s', (gives) => {
    expect(codes(gives, '')).toContain('level/reference-span');
  });
});

it('an input that takes its top for all of a speed must get its top', () => {
  expect(codes('0..8 V', 'does: spindle speed, ')).toContain('level/reference-span');
});
