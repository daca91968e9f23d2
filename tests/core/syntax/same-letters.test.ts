import fc from 'fast-check';
import { expect, it } from 'vitest';
import { countSameLetters } from '../../../server/core/syntax/same-letters.ts';

const pieces = fc.array(fc.constantFrom('a', 'ab', 'ö', '😀', '\n', 'x'.repeat(5000)), { maxLength: 6 });

it('tells what two texts have in common at their ends, of any length', () => {
  fc.assert(
    fc.property(pieces, pieces, pieces, (head, [was = ''], tail) => {
      const [start, end] = [head.join(''), tail.join('')];
      for (const is of ['', was, `${was}a`, 'b'.repeat(9000)]) {
        const [past, present] = [start + was + end, start + is + end];
        const [first, last] = countSameLetters(past, present);
        expect(past.slice(0, first)).toBe(present.slice(0, first));
        expect(past.slice(past.length - last)).toBe(present.slice(present.length - last));
        // Together they are never longer than a text, and as long as can be.
        const most = Math.min(past.length, present.length);
        expect(first + last).toBeLessThanOrEqual(most);
        if (first + last < most) {
          expect(past[first]).not.toBe(present[first]);
          expect(past[past.length - 1 - last]).not.toBe(present[present.length - 1 - last]);
        }
      }
    }),
    { numRuns: 300 },
  );
});
