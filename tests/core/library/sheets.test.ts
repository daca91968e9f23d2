import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readExamples } from '../../support/examples.ts';
import { ROOT } from '../../support/lsp-client.ts';
import { worldOf } from '../../support/world.ts';

const PARTS = path.join(ROOT, 'server/parts');
const SHEETS = fs.readdirSync(PARTS);
const readBench = (name: string) =>
  fs.readFileSync(path.join(ROOT, 'tests/fixtures/benches', `${name}.machine.yaml`), 'utf8');
const bench = readBench('three-phase');

test('enough sheets ship', () => expect(SHEETS.length).toBeGreaterThan(70));

describe.each(SHEETS)('%s', (file) => {
  const text = fs.readFileSync(path.join(PARTS, file), 'utf8');

  test('has no finding, no maker, and says where its figures are from', () => {
    const fettle = createFettle(worldOf(new Map([[file, text]])));
    expect(fettle.findings(fettle.analyse(file, text))).toEqual([]);
    expect(text).toMatch(/^maker: none \(generic\)$/m);
    expect(text).toMatch(/^source: (?:Typical figures of the trade|Common practice, no source)/m);
  });
});

test('every sheet is used by an example, or on a bench', () => {
  const texts = [
    ...readExamples().flatMap(({ files }) => [...files.values()]),
    bench,
    readBench('stop-devices'),
  ].join('\n');
  const unused = SHEETS.map((file) => `generic/${file.slice(0, -'.part.yaml'.length)}`).filter(
    (name) => !new RegExp(`${name}(?![\\w-])`).test(texts),
  );
  expect(unused).toEqual([]);
});

/* What the sheets of the bench come to, worked by hand. */
test.each([
  ['axes.X.pulses-per-length', 10_000 / 5],
  ['axes.Y.pulses-per-length', (200 * 10) / 5],
  ['circuits.strong.pulse.operated', ((24 - 0.8 - 1.2) / (1800 + 270 + 0.01)) * 1000], // source, resistor, lamp
  ['circuits.panel.x-near.rest', 0], // PNP, open at rest
  ['circuits.panel.x-near.operated', 24 - 2],
  ['circuits.isolated.x-near.operated', ((24 - 2 - 1.2) / (3300 + 0.01)) * 1000], // NPN
  ['circuits.isolated.x-far.rest', 0.4], // what leaks through two wires
  ['circuits.isolated.x-far.operated', ((24 - 4 - 1.2) / (3300 + 0.01)) * 1000],
  ['circuits.contactor.coil.rest', 24], // through the pendant's stop, closed at rest
  ['circuits.contactor.coil.operated', 0],
  ['spindle.synchronous-speed', (120 * 400) / 2],
  ['handwheel.feed-at-1', 100 * 0.01 * 60],
])('%s', (address, value) => {
  const file = 'three-phase.machine.yaml';
  const fettle = createFettle(worldOf(new Map([[file, bench]])));
  const explanation = fettle.explain(fettle.analyse(file, bench), address);
  expect(explanation.kind === 'value' ? explanation.value.value : explanation.lines).toBeCloseTo(value, 2);
});
