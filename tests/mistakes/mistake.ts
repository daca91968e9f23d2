import fs from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';

/*
 * The corpus: what people type wrongly, as data. Each file of `cases` holds classes of mistakes:
 *
 *     - class: sensor of the wrong kind
 *       finding: polarity/sensor-kind            # the one finding that each of them must give
 *       gantry-router:                           # mistakes in this example, each by itself
 *         - { line: 'home-x:', for: inductive-pnp-nc, typed: inductive-npn-nc, look: home-x.BK -> panel.I3 }
 *
 * A mistake names its line by a piece of it that stands nowhere else in the example. Then it is one of: `typed` for
 * what should stand there (nothing, where that was left out); `forgotten`, the whole line left out; `added`, a line
 * written behind it. `look` is a piece of the line where the finding must stand, if that is another.
 * `also` are findings beside the expected one that are accepted, each with the reason why it is a second fact.
 */

const mistake = z.strictObject({
  line: z.string(),
  for: z.string().optional(),
  typed: z.string().optional(),
  forgotten: z.literal('line').optional(),
  added: z.string().optional(),
  look: z.string().optional(),
  finding: z.string().optional(),
  also: z.record(z.string(), z.string()).optional(),
});

const mistakeClass = z
  .object({ class: z.string(), finding: z.string().optional() })
  .catchall(z.array(mistake).min(1));

const FOLDER = new URL('cases/', import.meta.url);

/** One mistake of the corpus. */
export interface Mistake
  extends Pick<z.infer<typeof mistake>, 'line' | 'for' | 'typed' | 'forgotten' | 'added' | 'look'> {
  readonly family: string;
  readonly class: string;
  readonly example: string;
  readonly finding: string;
  /** Findings beside the expected one that are accepted: their codes, and why each is a second fact. */
  readonly also: ReadonlyMap<string, string>;
}

/** Reads the corpus, family by family. Throws where a file does not keep to the form. */
export function readMistakes(): readonly Mistake[] {
  return fs.readdirSync(FOLDER).sort().flatMap(readFamily);
}

function readFamily(file: string): Mistake[] {
  const classes = z
    .array(mistakeClass)
    .parse(parse(fs.readFileSync(new URL(file, FOLDER), 'utf8'), { schema: 'failsafe' }));
  const family = file.replace(/\.yaml$/, '');
  return classes.flatMap(({ class: name, finding, ...examples }) =>
    Object.entries(examples).flatMap(([example, mistakes]) =>
      mistakes.map((given) => {
        const expected = given.finding ?? finding;
        if (expected === undefined) throw new Error(`${file}: ${name} names no finding`);
        const also = new Map(Object.entries(given.also ?? {}));
        return { ...given, family, class: name, example, finding: expected, also };
      }),
    ),
  );
}
