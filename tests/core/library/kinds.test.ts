import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { type Circuit, readSheetTree, type Sheet } from '../../../server/core/model/sheet.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';
import { ROOT } from '../../support/lsp-client.ts';

/* What somebody with a controller, some drives and a free evening looks for, and finds among the generic sheets. */

const PARTS = path.join(ROOT, 'server/parts');
const SHEETS: readonly Sheet[] = fs
  .readdirSync(PARTS)
  .map((file) => readSheetTree(file, readTree(fs.readFileSync(path.join(PARTS, file), 'utf8'))));

const circuitsOf = ({ circuits }: Sheet): Circuit[] => [...circuits.values()];
const has =
  (kind: string, does?: string) =>
  (sheet: Sheet): boolean =>
    circuitsOf(sheet).some(
      (circuit) => circuit.kind === kind && (does === undefined || circuit.does?.word === does),
    );
const axesOf = (sheet: Sheet): number =>
  circuitsOf(sheet).filter(({ does }) => does?.word === 'pulse').length;
const quantity = (sheet: Sheet, kind: string, key: string): number | undefined =>
  circuitsOf(sheet)
    .find((circuit) => circuit.kind === kind)
    ?.figures.quantity(key)?.value.value;
const word = (sheet: Sheet, kind: string, key: string): string | undefined =>
  circuitsOf(sheet)
    .find((circuit) => circuit.kind === kind)
    ?.figures.text(key)?.value;
const sensor = (switching: string, rest: string) => (sheet: Sheet) =>
  word(sheet, 'sensor', 'switching') === switching && word(sheet, 'sensor', 'rest') === rest;
const supply = (volts: number) => (sheet: Sheet) =>
  sheet.partClass === 'supply' && quantity(sheet, 'power-out', 'voltage') === volts;
const titled = (words: RegExp) => (sheet: Sheet) => words.test(sheet.title);
const ofClass =
  (partClass: string, ...others: readonly ((sheet: Sheet) => boolean)[]) =>
  (sheet: Sheet): boolean =>
    sheet.partClass === partClass && others.every((holds) => holds(sheet));
/** The series resistor of the pulse input tells for which voltage it is made: 10 mA or so through it. */
const pulseAt = (volts: number) => (sheet: Sheet) =>
  circuitsOf(sheet).some(({ kind, does, figures }) => {
    const series = figures.quantity('series')?.value.value ?? 0;
    const forward = figures.quantity('forward')?.value.value ?? 1.2;
    const amps = (volts - forward) / series;
    return kind === 'opto-in' && does?.word === 'pulse' && amps > 0.006 && amps < 0.02;
  });

test.each<readonly [string, (sheet: Sheet) => boolean]>([
  ['a controller with inputs to ground', ofClass('controller', has('pulled-up-in', 'home'))],
  ['a controller with inputs to supply', ofClass('controller', has('pulled-down-in', 'home'))],
  ['a controller with isolated pairs', ofClass('controller', has('opto-in', 'home'))],
  ['a controller of three axes', ofClass('controller', (sheet) => axesOf(sheet) === 3)],
  ['a controller of four axes', ofClass('controller', (sheet) => axesOf(sheet) === 4)],
  ['a controller with a speed output', ofClass('controller', has('analog-out', 'spindle speed'))],
  ['a controller without one', ofClass('controller', (sheet) => !has('analog-out')(sheet))],
  ['a board of 5 V logic', ofClass('controller', has('push-pull-out', 'pulse'))],
  ['a drive for 5 V lamps', ofClass('drive', pulseAt(5))],
  ['a drive for 24 V lamps', ofClass('drive', pulseAt(24))],
  ['a drive with line receivers', ofClass('drive', has('line-in', 'pulse'))],
  [
    'a drive that tells an alarm',
    ofClass('drive', (sheet) => circuitsOf(sheet).some(({ does }) => does?.word === 'alarm')),
  ],
  [
    'a servo in pulses and direction',
    ofClass('drive', (sheet) => [...sheet.settings.values()].some(({ is }) => is === 'pulses-per-turn')),
  ],
  ...[42, 57, 60, 86].map(
    (size) => [`a stepper of ${size} mm`, ofClass('motor', titled(new RegExp(`\\b${size} mm`)))] as const,
  ),
  ...[5, 12, 24, 36, 48].map((volts) => [`a supply of ${volts} V`, supply(volts)] as const),
  ...['roller', 'lever', 'micro'].map(
    (sort) =>
      [
        `a switch with ${sort}, of either contact`,
        ofClass(
          'switch',
          titled(new RegExp(sort, 'i')),
          (sheet) =>
            has('changeover')(sheet) ||
            [...sheet.settings.values()].some(({ is, choices }) => is === 'contact' && choices.length === 2),
        ),
      ] as const,
  ),
  ...['pnp', 'npn'].flatMap((switching) =>
    ['open', 'closed'].map(
      (rest) => [`an inductive sensor, ${switching}, ${rest}`, sensor(switching, rest)] as const,
    ),
  ),
  ...['open', 'closed'].map(
    (rest) =>
      [
        `a sensor on two wires, ${rest}`,
        (sheet: Sheet) => word(sheet, 'two-wire-sensor', 'rest') === rest,
      ] as const,
  ),
  ['an optical sensor', ofClass('sensor', titled(/optical/i))],
  ['a Hall sensor', ofClass('sensor', titled(/hall/i))],
  ['a handwheel with pairs', ofClass('handwheel', has('line-out', 'handwheel A'))],
  ['a handwheel with single leads', ofClass('handwheel', has('push-pull-out', 'handwheel A'))],
  [
    'a pendant with selectors and a stop',
    ofClass('handwheel', titled(/pendant/i), has('contact', 'axis-select'), has('contact', 'step-select')),
  ],
  ['a converter on one phase', ofClass('converter', has('mains-in'), has('three-phase-out'))],
  ['a converter on three phases', ofClass('converter', has('three-phase-in'), has('three-phase-out'))],
  ...[2, 4].map(
    (poles) =>
      [
        `a spindle of ${poles} poles`,
        ofClass('spindle', ({ facts }) => facts.count('poles')?.value === poles),
      ] as const,
  ),
  [
    'a brushless driver with a speed input',
    ofClass('converter', titled(/brushless/i), has('analog-in', 'spindle speed')),
  ],
  ['a relay', ofClass('relay', has('coil'), has('changeover'))],
  ['a contactor', ofClass('relay', titled(/contactor/i), has('coil'))],
  ['a relay with guided contacts', ofClass('relay', titled(/guided/i))],
  ['a solid-state relay', ofClass('relay', titled(/solid/i), has('opto-in'))],
  [
    'a safety relay with a reset',
    ofClass('relay', (sheet) => circuitsOf(sheet).some(({ does }) => does?.word === 'reset')),
  ],
  ...['button', 'rope', 'foot'].map(
    (sort) => [`a stop device: ${sort}`, ofClass('emergency-stop', titled(new RegExp(sort, 'i')))] as const,
  ),
  ['a fuse', ofClass('fuse', has('fuse'))],
  ['a breaker', ofClass('breaker', has('fuse'))],
  ['a terminal strip', ofClass('terminal-strip')],
  ['a touch probe', ofClass('probe', titled(/touch/i))],
  ['a tool setter', ofClass('probe', titled(/setter/i))],
  ['a coolant valve', ofClass('load', titled(/valve/i), has('coil'))],
  ['a mains filter', titled(/mains filter/i)],
  ['a braking resistor', titled(/braking resistor/i)],
])('there is %s', (_, holds) => expect(SHEETS.filter(holds).map(({ file }) => file)).not.toEqual([]));
