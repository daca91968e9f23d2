import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { EXAMPLE_FOLDER, readExample } from '../../support/example.ts';
import { worldOf } from '../../support/world.ts';

const NAME = 'gantry-router.machine.yaml';
const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const makeFettle = () =>
  createFettle(worldOf(new Map([[SHEET, fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8')]])));

const EDITS: readonly (readonly [string, string])[] = [
  ['feed:         5000 mm/min', 'feed:         4000 mm/min'],
  ['label: 301', 'label: 399'],
  ['wire: 0.75 mm2 BU,  length: 0.4 m, label: 201', 'wire: 1 mm2 RD,  length: 0.5 m, label: 201'],
  ['at: bed }', 'at: floor }'],
  ['mains: 230 V 50 Hz', 'mains: 240 V 50 Hz'],
  ['c10-1: on-when-open', 'c10-1: on-when-closed'],
  ['near-x:          { sheet: generic/roller-switch', 'near-x:          { sheet: generic/inductive-pnp-nc'],
  ['revision: 7', 'revision: 8'],
  ['near-x.C2 -> panel.I1  WH', 'near-x.C2 -> panel.I1  YE'],
];

it.each(EDITS)('what is kept over an edit is what a fresh start makes: %s', (from, to) => {
  const kept = makeFettle();
  const before = readExample();
  kept.summary(kept.analyse(NAME, before));
  const after = before.replaceAll(from, to);
  expect(after).not.toBe(before);
  const fresh = makeFettle();
  expect(kept.summary(kept.analyse(NAME, after))).toEqual(fresh.summary(fresh.analyse(NAME, after)));
});
