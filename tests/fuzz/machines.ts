import fc from 'fast-check';
import { randomFrom } from '../support/random.ts';
import { DEEDS, doOnce } from '../support/typist.ts';
import type { TextCase } from './case.ts';
import { DONORS, LARGE, SMALL } from './corpus.ts';
import { examine } from './examine.ts';
import type { Target } from './target.ts';

const edits = fc.array(fc.tuple(fc.constantFrom(...DEEDS), fc.integer()), { minLength: 1, maxLength: 8 });

/** Valid machines, sheets and projects, and what becomes of them under somebody's hands. */
export const machinesTarget: Target<TextCase> = {
  name: 'machines',
  about:
    'valid machines and sheets under random edits, up to eight, held to a fresh reading and renamed back',
  share: 3,
  cases: fc
    .record({
      start: fc.oneof(
        { weight: 40, arbitrary: fc.constantFrom(...SMALL) },
        { weight: 1, arbitrary: fc.constantFrom(...LARGE) },
      ),
      edits,
      cursor: fc.double({ min: 0, max: 1, noNaN: true }),
    })
    .map(({ start: { file, text, others }, edits: deeds, cursor }) => {
      const versions = [text];
      for (const [deed, seed] of deeds)
        versions.push(doOnce(versions.at(-1) ?? '', deed, randomFrom(seed), DONORS));
      return { file, versions, others, cursor };
    }),
  check: examine,
  store: (one) => one,
  replay: (stored) => examine(stored as TextCase),
};
