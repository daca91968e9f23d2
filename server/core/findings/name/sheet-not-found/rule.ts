import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { partsOf } from '../../../model/resolve.ts';
import { nearestName } from '../../../nearest.ts';
import type { Data, Fix } from '../../../problem.ts';
import { type Scalar, spanWithin } from '../../../syntax/node.ts';
import type { FileState } from '../../../world.ts';
import { renameAll } from '../../common/edits.ts';
import { sheetOf } from '../../common/own-sheets.ts';
import { figure, places, word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { createSheet } from './create-sheet.ts';

export const rule: Rule = {
  code: 'name/sheet-not-found',
  severity: 'error',
  title: later`A part sheet cannot be read`,
  find: findMissing,
  say: (data) => {
    const name = word(data, 'name');
    const nearest = word(data, 'nearest');
    const where = places(figure(data, 'mentions'));
    const then = say`Nothing is known of ${word(data, 'part')}${figure(data, 'mentions') > 1 ? ' and others' : ''} until it can be read.`;
    switch (word(data, 'state')) {
      case 'outside':
        return say`${name} lies outside the workspace, and sheets are read from inside it only. Move the sheet beside the machine.`;
      case 'unreadable':
        return say`${name} is there and could not be read: ${word(data, 'why')}. ${then}`;
      case 'too-large':
        return say`${name} has ${word(data, 'size')}, and a sheet is read up to ${word(data, 'most')}. A sheet has a few hundred lines at most: is this another file?`;
      case 'no-sheet':
        return say`${name} can be read and is no part sheet: it has neither a class nor terminals. Name the sheet of ${word(data, 'part')}.`;
      default:
        return say`There is no sheet ${name}${where ? say`, named${where}` : ''}. ${nearest === '' ? `${then}${data.library === true ? say` No sheet of that name ships with the tool.` : say` Sheets stand beside the machine or are called generic/….`}` : say`Did you mean ${nearest}?`}`;
    }
  },
};

/** One finding for each file: five parts that name one sheet that is missing are one mistake. */
function* findMissing(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const unread = partsOf(analysis.machine).flatMap((part) => {
    const state = part.sheetFile === undefined ? undefined : stateOf(analysis, part, part.sheetFile);
    return state && part.sheetName ? [{ part, scalar: part.sheetName, file: part.sheetFile, state }] : [];
  });
  for (const same of groupBy(unread, ({ file }) => file).values()) {
    const [first, ...others] = same;
    if (!first) continue;
    const names =
      first.state.state === 'missing' || first.state.state === 'no-sheet'
        ? candidates(analysis, first.scalar.text)
        : [];
    const nearest = first.state.state === 'missing' ? nearestName(first.scalar.text, names) : undefined;
    yield {
      at: spanWithin(first.scalar, 0, first.scalar.text.length),
      data: {
        ...first.state,
        name: first.scalar.text,
        part: first.part.name,
        mentions: same.length,
        ...(nearest !== undefined && { nearest }),
      },
      related: others.map(({ scalar, part }) => ({
        at: spanWithin(scalar, 0, scalar.text.length),
        note: say`${part.name} names it as well`,
      })),
      fixes: [
        ...fixesFor(
          same.map(({ scalar }) => scalar),
          nearest === undefined ? names.slice(0, 3) : [nearest],
        ),
        ...(first.file !== undefined && canBeCreated(first.state, first.scalar.text)
          ? [
              createSheet(
                analysis,
                same.map(({ part }) => part),
                first.file,
              ),
            ]
          : []),
      ],
    };
  }
}

/** A sheet beside the machine that is not there; nobody adds to the library. */
function canBeCreated({ state }: Data, name: string): boolean {
  return state === 'missing' && !name.startsWith('generic/') && /\.part\.ya?ml$/i.test(name);
}

/** Why a sheet says nothing; undefined where it does, or where it has not been fetched yet. */
function stateOf({ world }: MachineAnalysis, part: Part, file: string): Data | undefined {
  const state = world.file(file);
  if (!state) return undefined;
  if (state.kind === 'text') {
    return part.sheet && !sheetOf(part) ? { state: 'no-sheet' } : undefined;
  }
  return { ...describe(state), library: part.sheetName?.text.startsWith('generic/') === true };
}

function describe(state: Exclude<FileState, { kind: 'text' }>): Data {
  if (state.kind === 'unreadable') return { state: state.kind, why: state.why };
  if (state.kind === 'too-large')
    return { state: state.kind, size: showBytes(state.bytes), most: showBytes(state.most) };
  return { state: state.kind };
}

function showBytes(bytes: number): string {
  return bytes >= 1e6 ? `${(bytes / 1e6).toFixed(1)} MB` : `${Math.ceil(bytes / 1e3)} kB`;
}

/** Sheets that there are, those that share a word with the name first. */
function candidates({ world, file }: MachineAnalysis, name: string): string[] {
  const known = [...world.sheetsNear(file), ...world.library];
  const wanted = wordsOf(name);
  const shared = (other: string) => wordsOf(other).filter((each) => wanted.includes(each)).length;
  const near = nearestName(name, known);
  const others = known
    .filter((each) => each !== near && shared(each) > 0)
    .sort((a, b) => shared(b) - shared(a));
  return near === undefined ? others : [near, ...others];
}

function wordsOf(name: string): string[] {
  return name
    .toLowerCase()
    .replace(/\.part\.ya?ml$/, '')
    .split(/[^a-z0-9]+/)
    .filter((each) => each.length > 1 && each !== 'generic' && each !== 'sheets');
}

function fixesFor(scalars: readonly Scalar[], names: readonly string[]): Fix[] {
  const text = scalars[0]?.text ?? '';
  const same = scalars.filter((scalar) => scalar.text === text);
  const spots = same.map((scalar) => spanWithin(scalar, 0, scalar.text.length));
  return names.flatMap((name) => renameAll(spots, text, name) ?? []);
}
