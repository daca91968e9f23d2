import { describe, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readExamples } from '../../support/examples.ts';
import { randomFrom } from '../../support/random.ts';
import { doOnce } from '../../support/typist.ts';
import { worldOf } from '../../support/world.ts';
import { expectAsAnewAt } from './as-anew.ts';

/*
 * Entries keep their nodes while somebody types comments and blanks, and figures now and then. Whatever is asked of a place
 * is answered as if the text had been read afresh: what stands there, what could be done with it, and where.
 */

const ROUNDS = Number(process.env.KEEPING_EDITS ?? 10);
const FIRST = Number(process.env.KEEPING_SEED ?? 1);
const EDITS_A_ROUND = 6;
const PLACES_A_ROUND = 12;
const PATIENCE = { timeout: 300_000 + ROUNDS * 20_000 };

const EXAMPLES = readExamples();

describe('what is said of a place after comments and blanks were typed is what would be said anew', () => {
  it.each(EXAMPLES.map((example, index) => [example.name, example, index + FIRST] as const))(
    '%s',
    PATIENCE,
    (_, example, seed) => {
      const random = randomFrom(seed);
      const texts = new Map(example.files);
      const fettle = createFettle(worldOf(texts));
      let text = texts.get(example.machine) ?? '';
      fettle.analyse(example.machine, text);
      for (let round = 1; round <= ROUNDS; round++) {
        for (let edit = 0; edit < EDITS_A_ROUND; edit++) {
          text = doOnce(text, random.oneOf(['note', 'note', 'space', 'space', 'figure']), random, []);
          texts.set(example.machine, text);
          fettle.analyse(example.machine, text);
        }
        const offsets = Array.from({ length: PLACES_A_ROUND }, () => random.below(text.length));
        expectAsAnewAt(fettle, texts, example.machine, offsets, `round ${round}, seed ${seed}`);
      }
    },
  );
});
