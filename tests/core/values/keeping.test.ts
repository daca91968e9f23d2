import { describe, expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { rangeOf } from '../../../server/core/syntax/tree.ts';
import type { Values } from '../../../server/core/values/derived.ts';
import { placesToType, readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { worldOf } from '../../support/world.ts';

/*
 * What is taken over from the version before an edit is what would have been computed anew, and an edit of one axis
 * leaves the others alone.
 */

const FILE = 'gantry-router.machine.yaml';
const text = readExample();
const open = () =>
  createFettle(worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])));

const axisValues = ({ byAddress }: Values, axis: string) =>
  [...byAddress.values()].filter(({ address }) => address.startsWith(`axes.${axis}.`));

function isTakenOver(axis: string, edit: (before: string) => string): boolean {
  const fettle = open();
  const before = fettle.analyse(FILE, text).values;
  const changed = edit(text);
  expect(changed).not.toBe(text);
  const after = fettle.analyse(FILE, changed).values;
  // Records are compared with what is keyed in for all axes, so their values are not those of the axis alone.
  const own = axisValues(before, axis).filter(({ address }) => !/measured|corrected|rounding/.test(address));
  expect(own.length).toBeGreaterThan(20);
  return own.every((value) => after.byAddress.get(value.address) === value);
}

describe('an edit recomputes', () => {
  test.each([
    ['the travel of X', (before: string) => before.replace('620 mm\n', '610 mm\n')],
    ['the microsteps of its drive', (before: string) => before.replace('microsteps: 8', 'microsteps: 16')],
  ])('one axis alone, by %s', (_, edit) => {
    expect(['X', 'Y', 'Z', 'A'].filter((axis) => !isTakenOver(axis, edit))).toEqual(['X']);
  });

  test('every axis of a controller whose settings change, and none by a comment', () => {
    const edit = (before: string) => before.replace('c8-1: 8000 ns', 'c8-1: 7000 ns');
    expect(['X', 'Y', 'Z', 'A'].filter((axis) => !isTakenOver(axis, edit))).toEqual(['X', 'Y', 'Z', 'A']);
    const comment = (before: string) => before.replace('# Carves', '# It carves');
    expect(['X', 'Y', 'Z', 'A'].filter((axis) => !isTakenOver(axis, comment))).toEqual([]);
  });

  test.each([
    ['the voltage of the motor supply', 'output-voltage: 44.0 V', 'output-voltage: 36.0 V'],
    ['a wire of its pulses', 'panel.PX -> drive-x.PUL-', 'panel.PY -> drive-x.PUL-'],
    ['its motor', 'motor:        motor-x', 'motor:        motor-z'],
  ])('whatever rests on %s', (_, from, to) => {
    expect(isTakenOver('X', (before) => before.replace(from, to))).toBe(false);
  });
});

test('a link that is put in above others leaves the figures of their wires alone', () => {
  const fettle = open();
  const before = fettle.analyse(FILE, text).values;
  const [first = ''] = /^ {2}- \{ link: .*\n/m.exec(text) ?? [];
  const more = first.replace('label: 101', 'label: new');
  expect(more).not.toBe(first);
  const labels = new Set([...text.matchAll(/label: (\d+)/g)].map(([, label]) => label));
  const after = fettle.analyse(FILE, text.replace(first, `${more}${first}`)).values;
  const labelled = [...before.byAddress.values()].filter(({ address }) => {
    const [section, name, what = ''] = address.split('.');
    return section === 'wires' && labels.has(name) && /resistance|capacity|current/.test(what);
  });
  const kept = labelled.filter((value) => after.byAddress.get(value.address) === value);
  expect(labelled.length).toBeGreaterThan(50);
  // Those on the same way as the new one carry something else, or share what it carries.
  expect(kept.length).toBeGreaterThan(labelled.length - 12);
});

test('what is kept is what would be computed anew, with places in the text as it now stands', () => {
  const fettle = open();
  const places = placesToType(text).filter((_, index) => index % 7 === 0);
  expect(places.length).toBeGreaterThan(10);
  fettle.analyse(FILE, text);
  for (const place of places) {
    const typed = `${text.slice(0, place)}1${text.slice(place)}`;
    const analysis = fettle.analyse(FILE, typed);
    const fresh = open().analyse(FILE, typed);
    expect(listed(analysis.values)).toEqual(listed(fresh.values));
    expect([...analysis.values.missing]).toEqual([...fresh.values.missing]);
    for (const value of analysis.values.byAddress.values()) {
      for (const { at, file } of value.inputs) {
        if (at && file === FILE) expect(rangeOf(analysis.tree, at), value.address).toBeDefined();
      }
    }
  }
});

const listed = ({ byAddress }: Values) =>
  [...byAddress.values()].map(({ address, value, working, source, limit }) => ({
    address,
    value,
    working,
    source,
    limit,
  }));
