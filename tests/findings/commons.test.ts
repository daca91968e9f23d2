import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/* Isolated inputs of a drive that each lack one wire: what they lack is told once where it is one common wire. */

function lacks(links: readonly string[]): readonly string[] {
  const text = `machine: Toy
parts:
  control: { class: controller, terminals: { all: [V5, G, X, D] }, circuits: {
    feed: { power-out: [V5, G], voltage: 5 V },
    pulse: { sink-out: [X, G], does: pulse X, drop: 0.3 V, current: 50 mA },
    way: { sink-out: [D, G], does: direction X, drop: 0.3 V, current: 50 mA } } }
  drive: { class: drive, terminals: { all: [P+, P-, D+, D-] }, circuits: {
    pulse: { opto-in: [P+, P-], does: pulse, forward: 1.2 V, series: 350 ohm, on-at: 6 mA },
    way: { opto-in: [D+, D-], does: direction, forward: 1.2 V, series: 350 ohm, on-at: 6 mA } } }
axes:
  X: { drive: drive }
wiring:
${links.map((link) => `  - ${link}\n`).join('')}`;
  return analyseTexts(new Map([['toy.machine.yaml', text]]))
    .findings.filter(({ code }) => code === 'wiring/terminal-unconnected')
    .map(({ message }) => message.slice(0, message.indexOf(',')));
}

test('inputs with signals of their own lack one common', () => {
  expect(lacks(['control.X -> drive.P-', 'control.D -> drive.D-'])).toEqual([
    'drive.P+ and drive.D+ go nowhere',
  ]);
});

test('inputs that share their plus lack a signal each', () => {
  expect(lacks(['control.V5 -> drive.P+', 'control.V5 -> drive.D+'])).toEqual([
    'drive.P- goes nowhere',
    'drive.D- goes nowhere',
  ]);
});
