import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/* What is to be done about an input that is on while its voltage is low, and does not come low enough. */

/** What the input of a home switch is told, with a sensor of some drop on it, on an input that is on below 1.5 V. */
const told = (drop: string) => {
  const text = `machine: Toy lathe
parts:
  panel: { class: controller, terminals: { s: [5V, XH, G] }, circuits: { logic: { power-out: [5V, G], voltage: 5 V, current: 200 mA }, home: { pulled-up-in: [XH, G], does: home X, pull: 5 V, resistance: 2.2 kohm, on-below: 1.5 V, off-above: 3.5 V } } }
  home-x: { class: sensor, terminals: { s: [P, M, S] }, circuits: { out: { sensor: [P, M, S], switching: npn, rest: open, drop: ${drop}, voltage: 4..30 V, current: 100 mA, draws: 5 mA } } }
wiring:
  - panel.5V -> home-x.P
  - panel.G -> home-x.M
  - home-x.S -> panel.XH
`;
  const { findings } = analyseTexts(new Map([['lathe.machine.yaml', text]]));
  return findings.filter(({ code }) => /^level\/(too-little|uncertain)$/.test(code));
};

const ADVICE =
  /It is on while its voltage is low, and home-x by itself leaves (.*) while it conducts: another supply voltage would not change that\. Use a sensor with a smaller drop, a contact, or an input that turns on at more\.$/;

test.each([
  ['2 V', 'level/uncertain', '2.0 V'],
  ['3.8 V', 'level/too-little', '3.8 V'],
])('a drop of %s is named as what keeps the input off, and no other voltage advised', (drop, code, left) => {
  const [found] = told(drop);
  expect(found?.code).toBe(code);
  expect(ADVICE.exec(found?.message ?? '')?.[1]).toBe(left);
});

test('with a drop below the threshold nothing is told', () => expect(told('0.8 V')).toEqual([]));
