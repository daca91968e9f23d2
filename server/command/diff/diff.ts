import { type Changes, compareVersions, isEmpty } from '../../core/changes/changes.ts';
import { later, say } from '../../core/language/say.ts';
import { CommandError, defineCommand, EXIT, onlyFile } from '../command.ts';
import { OUTPUT_OPTIONS, writeResult } from '../output.ts';
import { convertToText, driveDiff } from './driver.ts';
import { printChangesHtml, printChangesJson, printChangesMarkdown, printChangesText } from './print.ts';
import { loadSide, readSides, type Side } from './sides.ts';

const FORMATS = ['text', 'markdown', 'json', 'html'] as const;

/** `fettle diff OLD NEW`: what follows from the differences between two versions. */
export const diff = defineCommand({
  name: 'diff',
  operands: 'OLD NEW',
  about: later`what follows from a change: values, settings to key in again, findings, steps to do again`,
  details: later`Compares consequences, not lines: parts, links, settings to key in again, derived values before and after with the
reason, findings new and gone, commissioning steps to do again. OLD and NEW are files, or REV:FILE for a file as it stood
in a git revision, with the sheets of that revision; FILE is named as from this folder.

  text      for a terminal: + new, - gone, ~ changed
  markdown  for a pull request
  json      {title, revision, parts, links, settings, values, findings, steps}
  html      one self-contained page

In place of changed lines, git itself shows consequences after these two lines of set-up:

  echo '*.machine.yaml diff=fettle' >> .gitattributes
  git config diff.fettle.command 'fettle diff --driver'

or, to have git compare computed values as lines (also in git log -p and git blame):

  git config diff.fettle.textconv 'fettle diff --textconv'

Both read sheets as they are in the working tree; --git and REV:FILE read those of the revision.

Exit codes: 0 nothing follows, 1 something does, 2 the command could not run.`,
  options: {
    format: { choices: FORMATS, about: later`how to write it` },
    git: { takes: 'REV', about: later`compare one FILE with how it stood in this revision` },
    driver: { about: later`for git: be the driver that shows a difference` },
    textconv: { about: later`for git: write what follows from one FILE as lines to compare` },
    ...OUTPUT_OPTIONS,
  },
  examples: [
    'fettle diff --git HEAD router.machine.yaml',
    'fettle diff --format markdown main:router.machine.yaml router.machine.yaml',
    'fettle diff old.machine.yaml new.machine.yaml',
  ],
  run: async ({ operands, options }, streams) => {
    if (options.driver || options.textconv) {
      const text = options.driver
        ? await driveDiff(operands)
        : await convertToText(
            onlyFile(operands, say`--textconv is for git, which gives it one file; see "fettle help diff".`),
          );
      streams.out(text);
      return EXIT.clean;
    }
    const sides = readSides(operands, options.git);
    const changes = await compareSides(sides);
    const names = [nameOf(sides[0]), nameOf(sides[1])] as const;
    await writeResult(await print(changes, options.format, names, streams.colour === true), options, streams);
    if (!isEmpty(changes)) return EXIT.findings;
    streams.err(`${say`Nothing follows from what differs.`}\n`);
    return EXIT.clean;
  },
});

async function compareSides([old, now]: readonly [Side, Side]): Promise<Changes> {
  const [before, after] = [(await loadSide(old)).analysis, (await loadSide(now)).analysis];
  if (before.kind !== after.kind)
    throw new CommandError(
      say`one of the two is a machine and the other a part sheet; they cannot be compared.`,
    );
  return compareVersions(before, after);
}

function nameOf({ file, revision }: Side): string {
  return revision === undefined ? file : `${revision}:${file}`;
}

function print(
  changes: Changes,
  format: (typeof FORMATS)[number],
  names: readonly [string, string],
  colour: boolean,
): string | Promise<string> {
  switch (format) {
    case 'text':
      return printChangesText(changes, colour);
    case 'markdown':
      return printChangesMarkdown(changes);
    case 'json':
      return printChangesJson(changes);
    case 'html':
      return printChangesHtml(changes, names);
  }
}
