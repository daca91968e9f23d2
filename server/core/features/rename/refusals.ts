import { AXES, ROTARY_AXES } from '../../../../schemas/index.ts';
import { say } from '../../language/say.ts';
import { MAINS } from '../../model/resolve.ts';
import type { Mention, NameKind, Source } from '../../names/mention.ts';
import { type Found, mentionsOf, type Name } from '../../names/name.ts';
import { rangeOf } from '../../syntax/tree.ts';
import { isSheetFile } from '../../world.ts';

/** What a name is of, in a sentence. */
const CALLED: Readonly<Record<NameKind, string>> = {
  part: 'part',
  terminal: 'terminal',
  circuit: 'circuit',
  setting: 'setting',
  cable: 'cable',
  label: 'label',
  axis: 'axis',
  sheet: 'sheet',
  anchor: 'anchor',
  title: 'title',
};

/** Why a name cannot be changed at all; undefined when it can. */
export function whyFixed(
  source: Source,
  mention: Mention,
  name: Name,
  places: readonly Found[],
): string | undefined {
  const { kind, text, home } = name;
  if (mention.kind === 'title')
    return say`A title is free text that nothing refers to: write another over it. Machines name a sheet by its file.`;
  if (kind === 'sheet')
    return say`A sheet is called by its file. Rename or move the file, and the machines that name it follow.`;
  if (kind === 'part' && text === MAINS)
    return say`mains is the supply network, which every machine calls so.`;
  if (name.inside === MAINS)
    return say`The terminals of the supply network are called L, N and PE everywhere.`;
  const sheet = shippedSheet(source, home);
  if (sheet !== undefined)
    return say`${text} is a ${CALLED[kind]} of ${sheet}, which ships with the tool and is the same for every machine. Copy the sheet beside your machine, name the copy under sheet:, and change it there.`;
  if (kind === 'axis' && isSheetFile(source.world.nameOf(home)))
    return say`An axis letter in a sheet says what stands on the part. Choose another where it is written.`;
  if (!places.some((place) => place.mention.access === 'definition')) return whyUndefined(mention, kind);
  const escaped = places.find(({ mention: { at } }) => at.block.text.slice(at.from, at.to) !== text);
  return (
    escaped &&
    say`${text} is written with escapes or in a block ${whereOf(escaped)}. Write it plainly there first.`
  );
}

function whyUndefined({ text, owner }: Mention, kind: NameKind): string {
  const among = owner === undefined ? say`in this file` : say`in the sheet of ${owner}`;
  return say`No ${CALLED[kind]} is called ${text} ${among}, so there is nothing to rename. Define it there, or correct the spelling here.`;
}

/** The library's name of a sheet that ships; undefined for all other files. */
function shippedSheet({ world, file }: Source, sheet: string): string | undefined {
  return world.library.find((name) => world.resolve(file, name) === sheet);
}

function whereOf({ source, mention }: Found): string {
  const { tree, world, file } = source;
  const from = rangeOf(tree, mention.at)?.from ?? 0;
  const line = tree.text.slice(0, from).split(/\r\n|\r|\n/).length;
  return say`in line ${line} of ${world.nameOf(file)}`;
}

/** Blanks and commas part the ends of a link; quotes, brackets and marks mean something to YAML. */
const PLAIN = /^(?![-?:](?:\s|$))[^\s,[\]{}#&*!|>'"%@`?:][^,[\]{}#:'"`\n\r\t]*$/;
/** What YAML takes for nothing, and for a merge. */
const NOTHING = /^(?:~|null|Null|NULL|<<)$/;
const letters: readonly string[] = AXES;
const rotary: readonly string[] = ROTARY_AXES;

/** Why a word cannot be a name of this kind; undefined when it can. */
export function whyBadName({ kind, text }: Name, wanted: string): string | undefined {
  if (wanted.trim() === '') return say`A ${CALLED[kind]} needs a name of at least one letter or digit.`;
  if (kind === 'axis') return whyBadLetter(text, wanted);
  if (wanted !== wanted.trim()) return say`A name neither begins nor ends with a blank.`;
  const isLinked = kind === 'part' || kind === 'terminal' || kind === 'circuit' || kind === 'anchor';
  if (isLinked && /\s/.test(wanted))
    return say`The name of a ${CALLED[kind]} has no blanks, because a blank ends it. How about ${wanted.replace(/\s+/g, '-')}?`;
  if ((kind === 'part' || kind === 'circuit') && wanted.includes('.'))
    return say`The name of a ${CALLED[kind]} has no dots, because a dot parts it from its terminal. How about ${wanted.replace(/\.+/g, '-')}?`;
  if (kind === 'part' && wanted === MAINS)
    return say`mains is the supply network, which every machine has; call the part otherwise.`;
  if (!PLAIN.test(wanted) || NOTHING.test(wanted) || wanted.includes('->'))
    return say`${wanted} would have to be quoted: brackets, quotes, commas, colons and marks such as # mean something in these files. Letters, digits and - + _ / are always safe.`;
  return undefined;
}

function whyBadLetter(text: string, wanted: string): string | undefined {
  if (!letters.includes(wanted)) return say`An axis is called by a letter of ISO 841: ${letters.join(' ')}.`;
  if (rotary.includes(text) !== rotary.includes(wanted)) {
    const [a, b] = rotary.includes(text)
      ? ['turns', say`move along a line`]
      : [say`moves along a line`, 'turn'];
    return say`Axis ${text} ${a} and axis ${wanted} would ${b}, so their figures have other units. Write a new axis instead.`;
  }
  return undefined;
}

/** Why a name is not free; undefined when it is. */
export function whyTaken(name: Name, wanted: string, sources: readonly Source[]): string | undefined {
  const others = mentionsOf({ ...name, text: wanted }, sources).filter(
    ({ source }) => name.kind !== 'axis' || source.file === name.home,
  );
  const other = others.find(({ mention }) => mention.access === 'definition') ?? others[0];
  if (!other) return undefined;
  return other.mention.access === 'definition'
    ? say`${wanted} is already a ${CALLED[name.kind]} ${whereOf(other)}, and two of the same name could not be told apart.`
    : say`${wanted} is already written ${whereOf(other)} for a ${CALLED[name.kind]} that nothing defines. Correct that first, or the two would become one.`;
}
