import { describe, expect, test } from 'vitest';
import { HINT_KINDS } from '../../server/core/features/inlay-hints.ts';
import { createFettle } from '../../server/core/fettle.ts';
import { itemView } from '../../server/core/summary/item-view.ts';
import { printHtml } from '../../server/core/summary/view.ts';
import { AXIS, smallMachine } from '../core/values/small-machine.ts';
import { analyseTexts } from '../support/marked.ts';
import { worldOf } from '../support/world.ts';

const lathe = (reference: string, ranges = '0..5 V, 0..10 V', wiring = true) => `machine: Toy lathe
parts:
  panel: { class: controller, terminals: { spindle: [SV, G] }, circuits: { speed: { analog-out: [SV, G], does: spindle speed, span: 0..10 V, resistance: 100 ohm } } }
  converter: { class: converter, terminals: { control: [AI, AC] }, circuits: { speed: { analog-in: [AI, AC], does: spindle speed, span: 0..10 V, resistance: 47 kohm } }, settings: { reference: { is: speed-reference, choices: [${ranges}], default: ${reference} } }, set: { reference: ${reference} } }
${wiring ? 'wiring:\n  - panel.SV -> converter.AI\n  - panel.G -> converter.AC\n' : ''}spindle: { converter: converter }
`;
const codes = (text: string) =>
  analyseTexts(new Map([['lathe.machine.yaml', text]]))
    .findings.map(({ code }) => code)
    .filter((code) => /^(level|setting)\//.test(code));

describe('a speed reference of the wrong span', () => {
  test('is told once, with what becomes of the speed', () =>
    expect(codes(lathe('0..5 V'))).toEqual(['level/reference-span']));
  test('is told as a setting while the signal is not wired', () =>
    expect(codes(lathe('0..5 V', '0..5 V, 0..10 V', false))).toEqual(['setting/differs']));
  test('is silent when it is right', () => expect(codes(lathe('0..10 V'))).toEqual([]));
});

describe('numbers that rest on a figure which a finding rejects', () => {
  const file = 'small.machine.yaml';
  const text = smallMachine({ axis: AXIS.replace('lead: 10 mm', 'lead: 10000000 mm') });
  const fettle = createFettle(worldOf(new Map([[file, text]])));
  const analysis = fettle.analyse(file, text);

  test('are not shown inline, above the axis, or at a glance', () => {
    expect(fettle.findings(analysis).map(({ code }) => code)).toContain('unit/implausible');
    const hints = fettle.inlayHints(analysis, 0, text.length, new Set(HINT_KINDS));
    expect(hints.map(({ label }) => label)).toEqual(['feeds 2 A, 20 %', 'gets 48 V']);
    expect(
      fettle
        .lenses(analysis)
        .map(({ title }) => title)
        .join('\n'),
    ).not.toMatch(/top feed|\/mm/);
    const axes = fettle.summary(analysis).items.find(({ id }) => id === 'axes');
    const view = axes && itemView(axes);
    const printed = view ? printHtml(view) : '';
    expect(printed).toContain('<th scope="row">X</th>');
    // What rests on the lead is not there at all: only the feed that is wanted, which does not.
    expect(printed.match(/<td class="number"[^>]*>[^<]*<\/td>/g)).toEqual([
      '<td class="number">6000 mm/min</td>',
    ]);
  });

  test('are marked where somebody asks for them', () => {
    expect(fettle.explain(analysis, 'axes.X.pulses-per-length').lines[1]).toBe(
      '  It rests on a figure that is at fault, so it means nothing yet.',
    );
    const hover = fettle.hover(analysis, text.indexOf('  X:') + 2)?.markdown;
    expect(hover).toContain('It rests on a figure that is at fault');
  });
});

test.each([
  [['psu.V+ -> stop.A', 'stop.B -> psu.V-'], ['wiring/supply-shorted']],
  [[], ['setting/unwired-input-in-use']],
])('a switch wired by %j, away from the input that is set for it, is told by %j alone', (links, told) => {
  const text = `machine: Toy
parts:
  psu: { class: supply, terminals: { all: [V+, V-] }, circuits: { out: { power-out: [V+, V-], voltage: 24 V, current: 2 A } } }
  panel: { class: controller, terminals: { inputs: [XF, C] }, circuits: {
    x-far: { pulled-up-in: [XF, C], does: limit X far, pull: 5 V, resistance: 2.2 kohm, on-below: 1.5 V, off-above: 3.5 V } },
    settings: { use: { is: input-use, circuit: x-far, choices: [off, on], default: off } }, set: { use: on } }
  stop: { class: switch, terminals: { all: [A, B] }, circuits: { contact: { contact: [A, B], rest: open } } }
axes:
  X: { switches: { far: stop } }
${links.length > 0 ? 'wiring:\n' : ''}${links.map((link) => `  - ${link}\n`).join('')}`;
  const found = analyseTexts(new Map([['toy.machine.yaml', text]])).findings;
  expect(
    found
      .map(({ code }) => code)
      .filter((code) => code === 'wiring/supply-shorted' || code === 'setting/unwired-input-in-use'),
  ).toEqual(told);
});

test.each([
  ['microstep-drive-24v-inputs', 'level/too-little', /gets too little to turn on: .* 0\.8 mA/],
  ['microstep-drive-50v', 'level/uncertain', /left between its thresholds: .* 5\.0 mA/],
])('%s on a panel that gives pairs is told of the pair, not of a higher voltage', (sheet, code, words) => {
  const text = `machine: Pairs
parts:
  psu: { sheet: generic/supply-24v-5a }
  panel: { sheet: generic/controller-3-axis }
  drive: { sheet: generic/${sheet}, set: { microsteps: 8 } }
wiring:
  - psu.V+ -> panel.DC+, drive.V+
  - psu.V- -> panel.DC-, drive.V-
  - panel.XP+ -> drive.PUL+
  - panel.XP- -> drive.PUL-
`;
  const { findings } = analyseTexts(new Map([['pairs.machine.yaml', text]]));
  const messages = findings.filter((each) => each.code === code).map(({ message }) => message);
  expect(messages).toHaveLength(1);
  expect(messages[0]).toMatch(words);
  expect(messages[0]).toMatch(/Its signal comes as a pair of lines.*line receivers/);
});
