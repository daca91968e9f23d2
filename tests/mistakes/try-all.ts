import { readExamples } from '../support/examples.ts';
import { createJudge, type Said, type Verdict } from './judge.ts';
import { readMistakes } from './mistake.ts';

/** What is said of an example before anything is wrong in it, and how each mistake in it fared. */
export interface Trial {
  readonly example: string;
  readonly clean: readonly Said[];
  readonly verdicts: readonly Verdict[];
}

/** Makes every mistake of the corpus, each by itself. Throws where one is made in an example that is not there. */
export function tryAll(): readonly Trial[] {
  const mistakes = readMistakes();
  const examples = readExamples();
  const lost = mistakes.find(({ example }) => examples.every(({ name }) => name !== example));
  if (lost) throw new Error(`${lost.class}: there is no example ${lost.example}`);
  return examples.map((example) => {
    const { clean, judge } = createJudge(example);
    const verdicts = mistakes.filter((mistake) => mistake.example === example.name).map(judge);
    return { example: example.name, clean, verdicts };
  });
}
