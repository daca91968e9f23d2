import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import { wireColours } from '../../../model/conventions.ts';
import type { Link } from '../../../model/wiring.ts';
import { fact } from '../../../reuse/fact.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { readColour } from '../../../units/colours.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import { partsBetween } from '../../power/half-feeds.ts';
import { strayMains } from '../../power/stray-mains.ts';
import type { Found, Rule } from '../../rule.ts';
import { openEndsOf } from '../../wiring/open-ends.ts';
import { isKnown, roleOf } from '../conductor-roles.ts';
import type { ConductorRole } from '../standings.ts';
import { colourAt } from '../wire-colour.ts';
import { capital, showLink } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/colour',
  severity: 'warning',
  title: later`A wire has a colour that the convention keeps for something else`,
  find: findColours,
  say: (data) =>
    say`${capital(word(data, 'wire'))} is ${word(data, 'colour')}; by ${word(data, 'standard')} ${word(data, 'role')} is ${joinWords(wordList(data, 'right'))}. Whoever opens the cabinet reads a wire by its colour. Use the right one, or change \`wire-colours\` if the machine follows another convention.`,
};

type Colours = Readonly<Record<ConductorRole, readonly string[]>>;

/** IEC 60204-1 13.2 and IEC 60445; the first of each is offered. Orange is for circuits that stay live (5.3.5). */
const IEC: Colours = {
  earth: ['GNYE'],
  live: ['BK', 'BN', 'GY', 'RD', 'OG'],
  neutral: ['BU'],
  'dc-power': ['BK', 'OG'],
  'dc-control': ['BU', 'OG'],
  'dc-mixed': ['BU', 'BK', 'OG'],
};

/** NFPA 79 chapter 13, as quoted on public pages; white with blue is for direct current that is earthed. */
const NFPA: Colours = {
  earth: ['GNYE', 'GN'],
  live: ['BK', 'RD', 'OG', 'YE'],
  neutral: ['WH', 'GY'],
  'dc-power': ['BK', 'WHBU', 'OG', 'YE'],
  'dc-control': ['BU', 'WHBU', 'OG', 'YE', 'WHOG'],
  'dc-mixed': ['BU', 'BK', 'WHBU', 'OG', 'YE', 'WHOG'],
};

const ROLES: Readonly<Record<ConductorRole, string>> = {
  earth: later`protective earth`,
  live: later`mains power`,
  neutral: later`neutral`,
  'dc-power': later`direct-current power`,
  'dc-control': later`direct-current control`,
  'dc-mixed': later`direct current for power and control`,
};

function findColours(analysis: Analysis): Found[] {
  if (analysis.kind !== 'machine') return [];
  // A wire that was put on the mains by mistake is not of the wrong colour.
  const stray = new Set(strayMains(analysis).map(({ link }) => link));
  return coloured(analysis).flatMap(({ link, found }) => (stray.has(link) ? [] : [found]));
}

/** A link whose wire has a colour that is not for it. */
interface Coloured {
  readonly link: Link;
  readonly found: Found;
}

const coloured = fact('analysis', (analysis: MachineAnalysis): readonly Coloured[] =>
  colouredAt(analysis).filter((each) => each !== undefined),
);

/** At the places of the links; undefined for those that have the right one. */
const colouredAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (analysis: MachineAnalysis, link): Coloured | undefined => {
    const found = judge(analysis, link);
    return found && { link, found };
  },
);

const lacksCommons = fact(
  'analysis',
  (analysis: MachineAnalysis) => openEndsOf(analysis).noReturns.length > 0 || partsBetween(analysis).size > 0,
);

const isOnePole = fact('analysis', (analysis: MachineAnalysis) =>
  openEndsOf(analysis).unconnected.some(({ why }) => why === 'pole'),
);

/** Cores of cables follow the cable, except for protective earth, which has its colour everywhere. */
function judge(analysis: MachineAnalysis, link: Link): Found | undefined {
  const convention = wireColours(analysis.machine);
  if (convention?.value !== 'IEC' && convention?.value !== 'NFPA') return undefined;
  const found = colourAt(link);
  const role = found && isKnown(analysis, link) ? roleOf(analysis, link) : undefined;
  if (!found || !role || (link.cable !== undefined && role !== 'earth')) return undefined;
  // While supplies lack a common, what a rail is there for cannot be told.
  if (role.startsWith('dc-') && lacksCommons(analysis)) return undefined;
  // While both sides of a load come to one pole, its wire is in the wrong place and not of the wrong colour.
  if ((role === 'live' || role === 'neutral') && isOnePole(analysis)) return undefined;
  const right = (convention.value === 'IEC' ? IEC : NFPA)[role];
  // Green-yellow on anything but earth is an error of its own.
  if (right.includes(found.colour.code) || (found.colour.code === 'GNYE' && role !== 'earth'))
    return undefined;
  const [first = ''] = right;
  const edit = found.replaceBy(first);
  return {
    at: found.at,
    data: {
      wire: showLink(link),
      colour: `${found.colour.name} (${found.text})`,
      standard: convention.value === 'IEC' ? 'IEC 60204-1' : 'NFPA 79',
      role: said(ROLES[role]),
      right: right.map((code) => `${readColour(code).value?.name ?? code} (${code})`),
    },
    related: [
      { file: convention.file, at: convention.at, note: say`the convention that the machine follows` },
    ],
    fixes: edit ? [{ title: say`Change ${found.text} to ${first}`, edits: [edit], safe: false }] : [],
  };
}
