import { describe, expect, test } from 'vitest';
import { STANDING_CAUTION } from './judge.ts';
import { tryAll } from './try-all.ts';

/** What people type wrongly is caught, in the line where they must look, and said once. */

const trials = tryAll();
const verdicts = trials.flatMap((trial) => trial.verdicts);

test('the corpus is as large as it is said to be', () => {
  expect(verdicts.length).toBeGreaterThanOrEqual(500);
  expect(new Set(verdicts.map(({ mistake }) => mistake.class)).size).toBeGreaterThanOrEqual(100);
});

describe.each(trials)('$example', ({ clean, verdicts: made }) => {
  test('has nothing wrong by itself but the standing caution', () => {
    const faults = clean.filter(({ severity, code }) => severity !== 'hint' && code !== STANDING_CAUTION);
    expect(faults).toEqual([]);
  });

  test('takes part', () => expect(made.length).toBeGreaterThan(0));

  test.each(made.map((verdict) => [describeMistake(verdict.mistake), verdict] as const))(
    '%s',
    (_, { mistake, isCaught, isPlaced, extra, unexplained, unneeded }) => {
      const said = extra.map(({ file, line, code, message }) => `${file}:${line} ${code}: ${message}`);
      expect(isCaught, `${mistake.finding} is not among: ${said.join('\n')}`).toBe(true);
      expect(isPlaced, `${mistake.finding} stands in another line`).toBe(true);
      expect(unexplained, 'one mistake gives one finding').toEqual([]);
      expect(unneeded, 'accepted, but not said').toEqual([]);
    },
  );
});

function describeMistake({ class: name, line, typed, added }: (typeof verdicts)[number]['mistake']): string {
  return `${name}: in '${line}', ${typed ?? (added === undefined ? 'left out' : `added ${added}`)}`;
}
