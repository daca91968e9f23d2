import { LINEAR_AXES } from '../../../schemas/index.ts';
import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { later, said, say } from '../language/say.ts';
import type { Completion } from './completion-item.ts';
import type { Cursor } from './cursor.ts';

/**
 * Whole entries with places to fill in, written as ‹what stands there at first›. Lines are indented from the column in
 * which the entry begins; every one reads without errors as it stands, but for the names of parts that are not there yet.
 */
export function completeSnippets(analysis: Analysis, cursor: Cursor, column: number): Completion[] {
  if (cursor.wants !== 'key' || cursor.inFlow) return [];
  return templatesAt(analysis, cursor)
    .map((each) => withFreeName(each, cursor.siblings))
    .map(({ label, about, lines }) => ({
      label: said(label),
      kind: 'snippet',
      detail: said(about),
      documentation: `\`\`\`yaml\n${plainOf(lines.join('\n'))}\n\`\`\``,
      insert: lines.join(`\n${' '.repeat(column)}`),
      from: cursor.from,
      // In an empty text a whole one comes first; elsewhere the keys that are lacking do.
      rank: cursor.path.length === 0 ? -1 : 500,
    }));
}

/** A snippet's text for editors that know no snippets: what stands in its places at first. */
export function plainOf(snippet: string): string {
  return snippet.replaceAll(/[‹›]/g, '');
}

/** The name that stands first in an entry must not be there already. */
function withFreeName(template: Template, taken: readonly string[]): Template {
  const [first = '', ...others] = template.lines;
  const name = /^‹([^›]*)›:/.exec(first)?.[1];
  if (name === undefined || !taken.includes(name)) return template;
  let number = 2;
  while (taken.includes(`${name}-${number}`)) number++;
  return { ...template, lines: [first.replace(`‹${name}›`, `‹${name}-${number}›`), ...others] };
}

interface Template {
  readonly label: string;
  readonly about: string;
  readonly lines: readonly string[];
}

function templatesAt(analysis: Analysis, { path, siblings }: Cursor): Template[] {
  const [section, ...rest] = path;
  if (section === undefined) return siblings.length === 0 ? [wholeFile(analysis)] : [];
  if (rest.length > 0) return [];
  if (analysis.kind === 'machine' && section === 'parts') return [PART];
  if (analysis.kind === 'machine' && section === 'axes') return axes(analysis, siblings);
  if (analysis.kind === 'part' && section === 'circuits') return [...CIRCUITS];
  if (analysis.kind === 'part' && section === 'settings') return [SETTING];
  return [];
}

const PART: Template = {
  label: later`part with a sheet`,
  about: later`a part, its sheet and its place`,
  lines: ['‹psu›: { sheet: ‹generic/supply-24v›, at: ‹cabinet› }'],
};

const SETTING: Template = {
  label: later`setting with choices`,
  about: later`something that can be set on the part`,
  lines: ['‹S1›: { about: ‹what the datasheet says›, choices: [‹off›, ‹on›], default: ‹off› }'],
};

const CIRCUITS: readonly Template[] = [
  {
    label: later`power input`,
    about: later`what the part is fed by`,
    lines: ['‹supply›: { power-in: [‹V+›, ‹V-›], voltage: ‹18..32 V›, current: ‹0.5 A› }'],
  },
  {
    label: later`switch contact`,
    about: later`a contact between two terminals`,
    lines: ['‹contact›: { contact: [‹C1›, ‹C2›], rest: ‹open›, voltage: ‹30 V›, current: ‹1 A› }'],
  },
  {
    label: later`pulled-down input`,
    about: later`an input that a switch or sensor brings to plus`,
    lines: [
      '‹input›: { pulled-down-in: [‹I1›, ‹S0›], does: ‹probe›, resistance: ‹4.7 kohm›, on-above: ‹15 V›, off-below: ‹5 V› }',
    ],
  },
];

/** One linear axis with a screw, by the first letter that is free, and one rotary axis with a worm. */
function axes({ machine }: MachineAnalysis, siblings: readonly string[]): Template[] {
  const drives = namesOf(machine, 'drive');
  const motors = namesOf(machine, 'motor');
  const start = [`  drive: ‹${drives ?? 'drive-x'}›`, `  motor: ‹${motors ?? 'motor-x'}›`];
  const isFree = (letter: string) => !siblings.includes(letter);
  const linear = LINEAR_AXES.find(isFree);
  const rotary = ['A', 'B', 'C'].find(isFree);
  return [
    ...(linear
      ? [
          {
            label: say`${linear} with a screw`,
            about: later`a linear axis`,
            lines: [
              `${linear}:`,
              ...start,
              '  travel: ‹300 mm›',
              '  screw: { lead: ‹5 mm› }',
              '  feed: ‹2000 mm/min›',
              '  acceleration: ‹300 mm/s2›',
            ],
          },
        ]
      : []),
    ...(rotary
      ? [
          {
            label: say`${rotary} with a worm`,
            about: later`a rotary axis`,
            lines: [
              `${rotary}:`,
              ...start,
              '  travel: ‹360 deg›',
              '  worm: ‹72:1›',
              '  feed: ‹6 rpm›',
              '  acceleration: ‹90 deg/s2›',
            ],
          },
        ]
      : []),
  ];
}

/** The first part of a class that no axis uses yet. */
function namesOf(machine: MachineAnalysis['machine'], partClass: string): string | undefined {
  const used = new Set(
    [...machine.axes.values()].flatMap(({ drives, motors }) =>
      [...drives, ...motors].map(({ text }) => text),
    ),
  );
  return [...machine.parts.values()].find(
    ({ name, sheet }) => sheet?.partClass === partClass && !used.has(name),
  )?.name;
}

function wholeFile({ kind }: Analysis): Template {
  switch (kind) {
    case 'machine':
      return {
        label: say`new machine`,
        about: later`a machine to go on from`,
        lines: [
          'machine: ‹My machine›',
          'revision: 1',
          'mains: ‹230 V 50 Hz›',
          'conventions: { wire-colours: ‹IEC› }',
          '',
          'parts:',
          '  ‹logic-psu›: { sheet: ‹generic/supply-24v›, at: ‹cabinet› }',
          '',
        ],
      };
    case 'part':
      return {
        label: say`new part sheet`,
        about: later`the facts of a part to go on from`,
        lines: [
          'part: ‹What it is›',
          'class: ‹load›',
          'source: ‹datasheet, revision, page›',
          '',
          'terminals:',
          '  ‹power›: [‹V+, V-›]',
          '',
        ],
      };
    case 'project':
      return {
        label: say`new project`,
        about: later`what holds for this folder`,
        lines: ['conventions: { wire-colours: ‹IEC› }', ''],
      };
  }
}
