import { expect, vi } from 'vitest';
import type { Fettle } from '../../../server/core/fettle.ts';
import type { FileId } from '../../../server/core/world.ts';
import { curesOf, everythingAt, everythingOf } from '../../support/everything.ts';

/* What was solved last is remembered by file, whoever asked: what is anew has modules of its own, and remembers for itself. */
vi.resetModules();
const { createFettle } = await import('../../../server/core/fettle.ts');
const anewOf = await import('../../support/everything.ts');
const { worldOf } = await import('../../support/world.ts');

/**
 * Checks that a product which has seen earlier versions says of a text what a fresh one says.
 * @param cures whether the cures of all findings are compared too, which takes long
 */
export function expectAsAnew(
  fettle: Fettle,
  texts: ReadonlyMap<FileId, string>,
  file: FileId,
  what: string,
  cures: boolean,
): void {
  const names = [...texts.keys()];
  const text = texts.get(file) ?? '';
  const fresh = createFettle(worldOf(texts));
  const [kept, anew] = [fettle.analyse(file, text), fresh.analyse(file, text)];
  const [left, right] = [everythingOf(fettle, kept, names), anewOf.everythingOf(fresh, anew, names)];
  // Feature by feature, since the first that differs says most of where to look.
  for (const [feature, said] of Object.entries(right))
    expectSame(left[feature] ?? '', said, `${feature} after ${what}`);
  if (cures)
    expectSame(curesOf(fettle, kept, names), anewOf.curesOf(fresh, anew, names), `cures after ${what}`);
}

/** Checks that a product which has seen earlier versions says of a place of a text what a fresh one says. */
export function expectAsAnewAt(
  fettle: Fettle,
  texts: ReadonlyMap<FileId, string>,
  file: FileId,
  offsets: readonly number[],
  what: string,
): void {
  const text = texts.get(file) ?? '';
  const fresh = createFettle(worldOf(texts));
  const [kept, anew] = [fettle.analyse(file, text), fresh.analyse(file, text)];
  for (const offset of offsets) {
    const [left, right] = [everythingAt(fettle, kept, offset), anewOf.everythingAt(fresh, anew, offset)];
    for (const [feature, said] of Object.entries(right))
      expectSame(left[feature] ?? '', said, `${feature} at ${offset} after ${what}`);
  }
}

/** Two long texts that must be equal; of what differs only the first stretch is shown. */
function expectSame(kept: string, anew: string, what: string): void {
  if (kept === anew) return;
  let at = 0;
  while (kept[at] === anew[at]) at++;
  const stretch = (text: string) => text.slice(Math.max(0, at - 400), at + 200);
  expect(stretch(kept), what).toBe(stretch(anew));
}
