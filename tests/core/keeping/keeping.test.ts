import { describe, it } from 'vitest';
import type { Analysis } from '../../../server/core/analysis.ts';
import { createFettle, type Fettle } from '../../../server/core/fettle.ts';
import { readExamples } from '../../support/examples.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { createTypist } from '../../support/typist.ts';
import { worldOf } from '../../support/world.ts';
import { expectAsAnew } from './as-anew.ts';

/*
 * What is kept from one version of a text to the next gives what computing everything anew would have given: the same
 * findings, values, summary, tokens and symbols, byte by byte, after every edit of a long sequence. More edits:
 * KEEPING_EDITS=1000 vitest …
 */

const EDITS = Number(process.env.KEEPING_EDITS ?? 25);
const FIRST = Number(process.env.KEEPING_SEED ?? 1);

/** Everything is computed twice after each edit; this is no measure of anything. */
const PATIENCE = { timeout: 300_000 + EDITS * 10_000 };

const EXAMPLES = readExamples();
const DONORS = EXAMPLES.flatMap(({ files }) => [...files.values()]);

/** Of a version that was typed over at once little was asked, or nothing: not what it means, its values, its findings. */
function askLittle(fettle: Fettle, analysis: Analysis, random: Random): void {
  const asked = random.oneOf(['nothing', 'names', 'values', 'findings']);
  if (asked === 'names') fettle.symbols(analysis);
  if (asked === 'values') fettle.lenses(analysis);
  if (asked === 'findings') fettle.findings(analysis);
}

describe('what is kept over the versions of a text is what would be computed anew', () => {
  it.each(EXAMPLES.map((example, index) => [example.name, example, index + FIRST] as const))(
    '%s',
    PATIENCE,
    (_, example, seed) => {
      const random = randomFrom(seed);
      const texts = new Map(example.files);
      const fettle = createFettle(worldOf(texts));
      const typist = createTypist(texts.get(example.machine) ?? '', random, DONORS);
      fettle.findings(fettle.analyse(example.machine, typist.text));
      for (let edit = 1; edit <= EDITS; edit++) {
        typist.edit();
        texts.set(example.machine, typist.text);
        // Not every version is looked at, and not everything of each: a fast hand is ahead of the questions.
        if (random.below(4) === 0) {
          askLittle(fettle, fettle.analyse(example.machine, typist.text), random);
          continue;
        }
        const what = `edit ${edit} (${typist.did}), seed ${seed}`;
        expectAsAnew(fettle, texts, example.machine, what, edit % 8 === 0);
      }
    },
  );

  const withSheets = EXAMPLES.filter(({ files }) => files.size > 1);
  it.each(withSheets.map((example, index) => [example.name, example, index + FIRST + 100] as const))(
    '%s, while its sheets and its project are typed',
    PATIENCE,
    (_, example, seed) => {
      const random = randomFrom(seed);
      const texts = new Map([...example.files, ['.fettle.yaml', 'severities:\n  wire/drop: hint\n']]);
      const fettle = createFettle(worldOf(texts));
      const typists = new Map(
        [...texts].map(([file, text]) => [file, createTypist(text, random, [text, ...DONORS])] as const),
      );
      fettle.findings(fettle.analyse(example.machine, texts.get(example.machine) ?? ''));
      for (let edit = 1; edit <= EDITS; edit++) {
        const file = random.oneOf([...typists.keys()]);
        const typist = typists.get(file);
        if (!typist) continue;
        typist.edit();
        texts.set(file, typist.text);
        const what = `edit ${edit} of ${file} (${typist.did}), seed ${seed}`;
        for (const each of texts.keys()) expectAsAnew(fettle, texts, each, what, edit % 8 === 0);
      }
    },
  );
});
