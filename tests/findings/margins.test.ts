import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/** Two axes whose pulses are 2.5 us long, with drives that ask for so much each. */
const messages = (onX: string, onY: string) => {
  const drive = (name: string, on: string) =>
    `  ${name}: { class: drive, terminals: { s: [P, M] }, circuits: { pulse: { opto-in: [P, M], does: pulse, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA, least-on: ${on} } } }`;
  const text = `machine: Toy mill
parts:
  panel: { class: controller, terminals: { s: [5V, XP, YP, G] }, circuits: { logic: { power-out: [5V, G], voltage: 5 V, current: 200 mA }, x: { sink-out: [XP, G], does: pulse X, drop: 0.3 V, current: 50 mA }, y: { sink-out: [YP, G], does: pulse Y, drop: 0.3 V, current: 50 mA } }, settings: { width: { is: pulse-width, unit: us, decimals: 1, default: 2.5 us } } }
${drive('drive-x', onX)}
${drive('drive-y', onY)}
wiring:
  - panel.5V -> drive-x.P, drive-y.P
  - panel.XP -> drive-x.M
  - panel.YP -> drive-y.M
axes:
  X: { drive: drive-x }
  Y: { drive: drive-y }
`;
  const { findings } = analyseTexts(new Map([['mill.machine.yaml', text]]));
  return findings.filter(({ code }) => code.startsWith('timing/')).map(({ message }) => message);
};

test('an axis whose drive just gets what it asks for is not named among those that get too little', () => {
  expect(messages('2.5 us', '5 us')).toEqual([
    'A pulse is on for 2.5 us, and drive-y asks for 5 us: 2.5 us too little on Y, so pulses can be missed and the axis loses its place. Set width of panel to 6.0 us.',
  ]);
  expect(messages('4 us', '5 us')[0]).toContain('2.5 us too little on Y (and X), so');
  expect(messages('2.5 us', '2.4 us')[0]).toContain('nothing is left on X (and Y) for tolerances');
});
