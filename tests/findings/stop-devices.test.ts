import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { createFettle } from '../../server/core/fettle.ts';
import { ROOT } from '../support/lsp-client.ts';
import { worldOf } from '../support/world.ts';

/* A rope, a pedal, a safety relay on two channels with its reset, and two contactors that it watches. */

const FILE = 'stop-devices.machine.yaml';
const bench = fs.readFileSync(path.join(ROOT, 'tests/fixtures/benches', FILE), 'utf8');

function analyse(text: string) {
  const fettle = createFettle(worldOf(new Map([[FILE, text]])));
  const analysis = fettle.analyse(FILE, text);
  return { fettle, analysis, findings: fettle.findings(analysis) };
}

function changed(...changes: readonly (readonly [from: string, to: string])[]) {
  const text = changes.reduce((before, [from, to]) => {
    expect(before.split(from), from).toHaveLength(2);
    return before.replace(from, () => to);
  }, bench);
  return analyse(text).findings.filter(({ code }) => code.startsWith('safety/'));
}

const LIMIT = 'safety/emergency-stop-caution';

test('nothing is wrong but what was not checked, and what loses its power is followed through relay and contactors', () => {
  const { findings } = analyse(bench);
  expect(findings.map(({ code }) => code)).toEqual([LIMIT]);
  expect(findings[0]?.message).toMatch(
    /^rope was traced to safety\.channel-1 and safety\.channel-2, which lose power by it, and with them .*one\.coil.*\./,
  );
  expect(findings[0]?.message).toMatch(/motor-psu\.mains/);
  expect(findings[0]?.message).toMatch(/were not checked: local codes/);
});

test.each([
  ['circuits.safety.channel-1.rest', 24],
  ['circuits.safety.channel-1.operated', 0], // rope or pedal, whichever opens
  ['circuits.safety.reset.rest', 0], // nobody presses the button, and the contactors are on
])('%s', (address, volts) => {
  const { fettle, analysis } = analyse(bench);
  const explanation = fettle.explain(analysis, address);
  expect(explanation.kind === 'value' ? explanation.value.value : explanation.lines).toBeCloseTo(volts, 1);
});

test('a reset that can do nothing while the relay is on is no lack', () => {
  const { fettle, analysis } = analyse(bench);
  expect(
    fettle.notComputed(analysis).filter(({ values }) => values.some((name) => /reset/.test(name))),
  ).toEqual([]);
});

test('limit switches on the ground of a controller without a supply are no stop devices', () => {
  const text = fs.readFileSync(
    path.join(ROOT, 'tests/fixtures/benches/pulled-up-inputs.machine.yaml'),
    'utf8',
  );
  const without = text.replace('  - psu.V- -> board.0V\n', '');
  expect(without).not.toBe(text);
  const codes = (of: string) => analyse(of).findings.map(({ code }) => code);
  expect(codes(text)).toEqual([LIMIT]);
  expect(codes(without)).toEqual(['wiring/terminal-unconnected']);
});

describe('the feedback', () => {
  const code = 'safety/feedback-not-monitored';
  test('past one of the contactors is told, and which one', () => {
    const [found, ...others] = changed(
      ['  - one.22 -> two.31\n', ''],
      ['  - two.32 -> safety', '  - one.22 -> safety'],
    );
    expect([found?.code, ...others.map((other) => other.code)]).toEqual([LIMIT, code]);
    expect(others[0]?.message).toMatch(
      /^safety switches two, and its reset at safety\.S34 does not go through a contact of it/,
    );
  });

  test('past both is told once', () => {
    const found = changed(
      ['  - reset.C2 -> one.21\n', '  - reset.C2 -> safety.S34\n'],
      ['  - one.22 -> two.31\n', ''],
      ['  - two.32 -> safety.S34\n', ''],
    ).filter((each) => each.code === code);
    expect(found).toHaveLength(1);
    expect(found[0]?.message).toMatch(/^safety switches one and two, .* a contact of each /);
  });

  test('through a contact that is closed while the contactor is on is none', () =>
    expect(
      changed(['  - reset.C2 -> one.21\n  - one.22 ->', '  - reset.C2 -> one.13\n  - one.14 ->']).map(
        (each) => each.code,
      ),
    ).toContain(code));
});

test('a relay that only tells the controller cuts nothing', () => {
  const panel =
    '  panel: { class: controller, terminals: { t: [V, I, G] }, circuits: { feed: { power-out: [V, G], voltage: 24 V, current: 1 A }, stop: { pulled-down-in: [I, G], does: emergency-stop, resistance: 4.7 kohm, on-above: 15 V, off-below: 5 V } }, settings: { acts: { is: input-sense, circuit: stop, choices: [on-when-closed, on-when-open], default: on-when-open } } }\n';
  const told = changed(
    ['wiring:\n', `${panel}wiring:\n`],
    ['safety.A1, safety.13, safety.23', 'safety.A1'],
    ['  - safety.14 -> one.A1\n', '  - panel.V -> safety.13\n  - safety.14 -> panel.I\n'],
    ['  - safety.24 -> two.A1\n', ''],
  ).filter(({ code }) => code === 'safety/emergency-stop-input-only');
  expect(told.map(({ data }) => data.part)).toEqual(['rope', 'pedal']);
  expect(told[0]?.message).toContain('rope only tells panel.I');
});

test('a foot switch whose sheet does not say that its contacts are forced open is told', () => {
  const sheet = fs.readFileSync(path.join(ROOT, 'server/parts/emergency-stop-pedal.part.yaml'), 'utf8');
  const files = new Map([
    [FILE, bench.replace('generic/emergency-stop-pedal', 'pedal.part.yaml')],
    ['pedal.part.yaml', sheet.replaceAll(', direct-opening: yes', '')],
  ]);
  const fettle = createFettle(worldOf(files));
  const found = fettle.findings(fettle.analyse(FILE, files.get(FILE) ?? ''));
  expect(found.find(({ code }) => code === 'safety/stop-not-direct-opening')?.message).toMatch(
    /^The sheet of pedal does not say that channel-1 and channel-2 is forced open/,
  );
});
