import fs from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { git, runCli } from '../support/cli.ts';
import { readExamples } from '../support/examples.ts';
import { playHistory, readHistory } from '../support/history.ts';

/* Every example has a history: dated changes, each with what follows from it. */
describe.each(readExamples())('$name', (example) => {
  const history = readHistory(example.name);
  let folder = '';
  beforeAll(async () => {
    folder = await playHistory(example, history);
  });
  afterAll(() => fs.rmSync(folder, { recursive: true }));

  test('ends at the example that ships', async () => {
    expect(await git(folder, 'show', `HEAD:${example.machine}`)).toBe(example.files.get(example.machine));
    expect((await git(folder, 'log', '--format=%ad', '--date=short')).trim().split('\n').reverse()).toEqual([
      history[0]?.date,
      ...history.map(({ date }) => date),
    ]);
  });

  test.each(history.map((revision, index) => ({ ...revision, index })))(
    '$date: $message',
    async ({ follows, index }) => {
      const back = history.length - 1 - index;
      const [before, after] = [`HEAD~${back + 1}:${example.machine}`, `HEAD~${back}:${example.machine}`];
      const { code, out, err } = await runCli(['diff', before, after], folder);
      expect([code, err]).toEqual([1, '']);
      for (const line of follows) expect(out).toContain(line);
    },
  );
});
