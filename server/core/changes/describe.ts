import { titleOf } from '../features/markdown.ts';
import type { Finding } from '../findings/rule.ts';
import { sayGravity } from '../findings/severity.ts';
import { say } from '../language/say.ts';
import type { Changed } from './changed.ts';
import type { Changes } from './changes.ts';
import type { LinkFacts, PartFacts } from './things.ts';
import { type Cause, type ChangedValue, isHeadline, showValue } from './values.ts';

/** One line of a comparison, in plain words. */
export interface ChangeLine {
  readonly kind: 'added' | 'removed' | 'changed';
  readonly text: string;
  /** Why, or what to do; empty where there is nothing more to say. */
  readonly detail: string;
}

/** What a comparison says about one kind of thing. */
export interface ChangeSection {
  readonly title: string;
  readonly lines: readonly ChangeLine[];
}

/** Settings have a list of their own, and shares of drops say no more than the drops. */
const IN_OTHER_WORDS = /^settings\.|\.drop-share$/;

/** A comparison as people read it, whatever it is printed as. Values that are only steps on the way are left out. */
export function describeChanges(changes: Changes): ChangeSection[] {
  const { parts, links, settings, values, appeared, gone, steps } = changes;
  const headlines = values.filter(({ id }) => isHeadline(id) && !IN_OTHER_WORDS.test(id));
  const sections: ChangeSection[] = [
    { title: say`Parts`, lines: parts.map(partLine) },
    { title: say`Links`, lines: links.map(linkLine) },
    {
      title: say`Settings to key in again`,
      lines: settings.map((each) => line(each, each.id, (value) => value, '')),
    },
    { title: say`What follows`, lines: headlines.map(valueLine) },
    {
      title: say`Findings`,
      lines: [
        ...appeared.map((finding) => findingLine('added', finding)),
        ...gone.map((finding) => findingLine('removed', finding)),
      ],
    },
    {
      title: say`Commissioning steps to do again`,
      lines: steps.flatMap(({ id, after }): ChangeLine[] =>
        after ? [{ kind: 'changed', text: `${after.title} (${id})`, detail: '' }] : [],
      ),
    },
  ];
  return sections.filter(({ lines }) => lines.length > 0);
}

function line<T>(
  { before, after }: Changed<T>,
  name: string,
  show: (thing: T) => string,
  detail: string,
): ChangeLine {
  if (before === undefined)
    return { kind: 'added', text: `${name}: ${after === undefined ? '' : show(after)}`, detail };
  if (after === undefined) return { kind: 'removed', text: say`${name}: was ${show(before)}`, detail };
  return { kind: 'changed', text: `${name}: ${show(before)} → ${show(after)}`, detail };
}

function partLine(part: Changed<PartFacts>): ChangeLine {
  const show = ({ sheet, place }: PartFacts) => (place === '' ? sheet : say`${sheet}, at ${place}`);
  const isSameName = part.before && part.after && show(part.before) === show(part.after);
  if (isSameName)
    return { kind: 'changed', text: say`${part.id}: other facts in ${part.after?.sheet ?? ''}`, detail: '' };
  return line(part, part.id, show, '');
}

function linkLine(link: Changed<LinkFacts>): ChangeLine {
  const show = ({ wire, length, label }: LinkFacts) =>
    [wire, length, label].filter((word) => word !== '').join(', ') || say`nothing said of the wire`;
  return line(link, link.id, show, '');
}

function valueLine(value: ChangedValue): ChangeLine {
  const { id, after, causes } = value;
  const reasons = new Set(causes.map(sayCause).filter((text) => text !== ''));
  const why = reasons.size > 0 ? say`because of ${[...reasons].join(', ')}` : '';
  const working = after && after.working !== after.shown ? after.working : '';
  return line(value, titleOf(id), showValue, [why, working].filter((text) => text !== '').join('; '));
}

/** A figure that only one of the versions has came or went with the wiring. */
function sayCause({ name, before, after }: Cause): string {
  if (name === 'needs') return after === undefined ? '' : say`what is missing: ${after}`;
  return before === undefined || after === undefined ? say`the wiring` : `${name} ${before} → ${after}`;
}

function findingLine(kind: 'added' | 'removed', { severity, message, code }: Finding): ChangeLine {
  return { kind, text: `${sayGravity(severity)}: ${message} [${code}]`, detail: '' };
}
