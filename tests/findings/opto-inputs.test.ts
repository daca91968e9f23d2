import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/* What an isolated input is told to be wrong with, by how much voltage its lamp gets. */

/** The codes that are said of the page's reversed lamp, on a supply of so many volts. */
function codesAt(volts: number): readonly string[] {
  const [example] = readPageExamples({ code: 'polarity/opto-reversed' });
  if (!example) throw new Error('the page has no example');
  const texts = [...example.texts].map(
    ([name, text]) => [name, text.replace('voltage: 5 V', `voltage: ${volts} V`)] as const,
  );
  return analyseTexts(new Map(texts)).findings.map(({ code }) => code);
}

test('a reversed lamp is called so where it would be on the other way round', () => {
  // (3.6 V - 0.3 V - 1.2 V) / 330 ohm = 6.4 mA, and it needs 6 mA
  expect(codesAt(3.6)).toContain('polarity/opto-reversed');
});

test('a lamp that would not be on the other way round either is not', () => {
  // (2.7 V - 0.3 V - 1.2 V) / 330 ohm = 3.6 mA; without what the lamp itself takes it would be 7.3 mA
  expect(codesAt(2.7)).not.toContain('polarity/opto-reversed');
});

/** What a drive's pulse input is told on an output of the panel, of which one wire does not go where it belongs. */
const neverOn = (output: string, link: string) => {
  const text = `machine: Toy lathe
parts:
  panel: { class: controller, terminals: { s: [5V, XP, XN, G] }, circuits: { logic: { power-out: [5V, G], voltage: 5 V, current: 200 mA }, x: { ${output}, does: pulse X } } }
  drive: { class: drive, terminals: { s: [P, M] }, circuits: { pulse: { opto-in: [P, M], does: pulse, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA } } }
wiring:
  - panel.XP -> drive.P
  - ${link} -> drive.M
`;
  const { findings } = analyseTexts(new Map([['lathe.machine.yaml', text]]));
  return findings.find(({ code }) => code === 'polarity/input-never-on')?.message;
};

test('where a drive’s input is not driven, what is told is its wires, and not to move the controller', () => {
  expect(neverOn('line-out: [XP, XN], voltage: 5 V', 'panel.G')).toMatch(
    /comes as a pair of lines, and makes no difference to it\. Wire one of the two lines to each of its sides\.$/,
  );
  expect(neverOn('sink-out: [XP, G], drop: 0.3 V, current: 50 mA', 'panel.G')).toMatch(
    /^drive\.P \(pulse\) can never turn on: .* The output of panel makes no difference to it\. Check both of its wires: /,
  );
});

/** What is told of the pulse and direction inputs of a drive, and which fixes are offered. */
const reversedPair = (kind: string, common: string, links: readonly string[]) => {
  const text = `machine: Toy lathe
parts:
  panel: { class: controller, terminals: { s: [5V, XP, XD, G] }, circuits: { logic: { power-out: [5V, G], voltage: 5 V, current: 200 mA }, x: { ${kind}-out: [XP, ${common}], does: pulse X, drop: 0.3 V, current: 50 mA }, d: { ${kind}-out: [XD, ${common}], does: direction X, drop: 0.3 V, current: 50 mA } } }
  drive: { class: drive, terminals: { s: [P+, P-, D+, D-] }, circuits: { pulse: { opto-in: [P+, P-], does: pulse, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA }, way: { opto-in: [D+, D-], does: direction, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA } } }
wiring:
${links.map((link) => `  - ${link}\n`).join('')}`;
  return analyseTexts(new Map([['lathe.machine.yaml', text]]))
    .findings.filter(({ code }) => code.startsWith('polarity/'))
    .map(({ code, message, fixes = [] }) => ({ code, message, fixes: fixes.map(({ title }) => title) }));
};

test('a common at the wrong pole is told once, with the pole where it belongs', () => {
  // The outputs give 5 V, so the lamps must lead to 0 V.
  const links = [
    'panel.5V -> drive.P-',
    'drive.P- -> drive.D-',
    'panel.XP -> drive.P+',
    'panel.XD -> drive.D+',
  ];
  const found = reversedPair('source', '5V', links);
  expect(found.map(({ code }) => code)).toEqual(['polarity/opto-reversed']);
  expect(found[0]?.message).toMatch(
    /^drive\.P\+ \(pulse\) can never turn on, and neither can drive\.D\+: .* The 2 inputs share drive\.P-, which is wired to the higher voltage, so the lamps inside block\. Wire drive\.P- to the other side of the supply\.$/,
  );
  expect(found[0]?.fixes).toEqual(['Wire it to panel.G instead of panel.5V']);
});

test('inputs that are each the wrong way round are told once, and to be turned', () => {
  // The outputs sink, so 5 V is right for the common, at the other end of each lamp.
  const links = [
    'panel.5V -> drive.P-',
    'drive.P- -> drive.D-',
    'panel.XP -> drive.P+',
    'panel.XD -> drive.D+',
  ];
  const found = reversedPair('sink', 'G', links);
  expect(found.map(({ code }) => code)).toEqual(['polarity/opto-reversed']);
  expect(found[0]?.message).toMatch(
    /What drives them switches to the other side, as it should: exchange the two wires of each input\.$/,
  );
  expect(found[0]?.fixes).toEqual(['Exchange the two wires of each input']);
});
