import { expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import type { Span } from '../../../server/core/syntax/node.ts';
import type { Derived } from '../../../server/core/values/derived.ts';
import { usersOf } from '../../../server/core/values/uses.ts';
import { makeMachine, placesToType, readPanelSheet } from '../../bench/machines.ts';
import { randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';

/*
 * Who uses a value or a figure is kept for what an edit leaves alone. By definition it is whatever names it among its inputs.
 */

const SHEETS = new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]]);
const EDITS = 12;

/** Everything that any value uses, with those that do. */
function listUses(values: Iterable<Derived>): ReadonlyMap<string | Span, readonly Derived[]> {
  const uses = new Map<string | Span, Derived[]>();
  for (const value of values)
    for (const used of new Set(value.inputs.flatMap(({ address, at }) => [address ?? [], at ?? []].flat())))
      uses.set(used, [...(uses.get(used) ?? []), value]);
  return uses;
}

it('finds who uses what, from edit to edit', () => {
  const fettle = createFettle(worldOf(SHEETS));
  const text = makeMachine(500);
  const random = randomFrom(7);
  for (let edit = 0; edit < EDITS; edit++) {
    const place = random.oneOf(placesToType(text));
    const typed = edit % 2 === 0 ? text : `${text.slice(0, place)}1${text.slice(place)}`;
    const { values } = fettle.analyse('bench.machine.yaml', typed);
    const uses = listUses(values.byAddress.values());
    expect(uses.size).toBeGreaterThan(100);
    expect(usersOf(values, [...uses.keys()])).toEqual(uses);
  }
});

it('tells of what nobody uses that nobody does', () => {
  const { values } = createFettle(worldOf(SHEETS)).analyse('bench.machine.yaml', makeMachine(300));
  expect(usersOf(values, ['no.such.value'])).toEqual(new Map([['no.such.value', []]]));
  expect(usersOf(values, [])).toEqual(new Map());
});
