import { expect, test } from 'vitest';
import { AXIS, smallMachine } from '../core/values/small-machine.ts';
import { analyseTexts } from '../support/marked.ts';

/** What is said of a feed that a controller with 20 kHz ends at 7500 mm/min, and the motor at 18718.6 mm/min. */
const said = (feed: string) => {
  const axis = AXIS.replace('feed: 6000 mm/min', `feed: ${feed}`);
  const text = smallMachine({ axis, pulse: 'top-rate: 20 kHz' });
  return analyseTexts(new Map([['small.machine.yaml', text]])).findings.find(
    ({ code }) => code === 'motion/feed-above-limit',
  )?.message;
};

test('a feed above the limit is told how far it would go without it', () => {
  expect(said('9000 mm/min')).toMatch(
    /change what limits it; without it the motor speed would end it at 18720 mm\/min\.$/,
  );
  expect(said('24000 mm/min')).toMatch(/at 18720 mm\/min, which is still too slow\.$/);
  expect(said('7500 mm/min')).toBeUndefined();
});
