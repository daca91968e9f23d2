import { say } from '../../language/say.ts';
import { itemView } from '../item-view.ts';
import {
  hasHeading,
  SECTIONS,
  type Section,
  type Summary,
  type SummaryItem,
  sectionTitle,
} from '../summary.ts';
import { escapeHtml, printHtml, type ViewElement, withoutTools } from '../view.ts';
import { printDocument } from './print-document.ts';

/** A drawing that has been laid out. */
export interface Figure {
  /** Names it among the figures of its drawing, the same in every language. */
  readonly id: string;
  readonly title: string;
  readonly svg: ViewElement;
  /** Where it is shown: a screen scrolls, and paper is read at the size at which it is printed. */
  readonly medium: 'screen' | 'paper';
  /** What is said below it. */
  readonly note?: string;
}

/** What a printed page needs besides the summary. */
export interface PageSetup {
  /** The style sheet, which stands inside the page. */
  readonly styles: string;
  /** As it is to be read on the page; the core knows no clock. */
  readonly date?: string;
  /** The drawings by the ids of their items, laid out. Those that are not there are left out. */
  readonly drawings: ReadonlyMap<string, readonly Figure[]>;
  /** All sections unless told. */
  readonly sections?: readonly Section[];
  readonly leaveOut?: (id: string) => boolean;
}

/** Prints the summary as one page that needs nothing else: no script, no network, its styles inside. */
export function printPage(summary: Summary, setup: PageSetup): string {
  const { styles, date, sections = SECTIONS, leaveOut = () => false } = setup;
  const filled = sections.flatMap((section) => {
    const items = summary.items.filter((item) => item.section === section && !leaveOut(item.id));
    return items.length > 0 ? [{ section, items }] : [];
  });
  const name = summary.title || say`Machine`;
  const facts = [
    name,
    summary.revision === undefined ? '' : say`revision ${summary.revision}`,
    date ?? '',
  ].filter((fact) => fact !== '');
  return printDocument(
    say`${name}: wiring summary`,
    `${styles}\n${printMargins(facts)}`,
    `<header class="sheet-head">
<p>${escapeHtml(say`Wiring summary`)}</p>
<p>${facts.map((fact) => `<span>${escapeHtml(fact)}</span>`).join(' ')}</p>
</header>
<nav class="contents" aria-label="${escapeHtml(say`Sections`)}">
${filled
  .filter(({ section }) => hasHeading(section))
  .map(({ section }) => `<a href="#section-${section}">${escapeHtml(sectionTitle(section))}</a>`)
  .join('\n')}
</nav>
<main>
${filled.map(({ section, items }) => printSection(section, items, setup.drawings)).join('\n')}
</main>`,
  );
}

/** The same structure as in the page beside the text, so that one style sheet serves both. */
function printSection(
  section: Section,
  items: readonly SummaryItem[],
  drawings: PageSetup['drawings'],
): string {
  const title = escapeHtml(sectionTitle(section));
  return `<section class="summary-section" id="section-${section}" data-section="${section}" aria-label="${title}">
${hasHeading(section) ? `<h2>${title}</h2>` : ''}
<div class="items">
${items.map((item) => printItem(item, drawings)).join('\n')}
</div>
</section>`;
}

function printItem(item: SummaryItem, drawings: PageSetup['drawings']): string {
  if (item.kind === 'drawing') {
    const figures = drawings.get(item.id) ?? [];
    if (item.drawing.parts.length === 0)
      return `<p class="item muted">${escapeHtml(say`No part yet: add one under parts.`)}</p>`;
    return figures.map(printFigure).join('\n');
  }
  const view = itemView(item);
  const shown = view && withoutTools(view);
  return shown === undefined
    ? ''
    : `<div class="item" data-item="${escapeHtml(item.id)}">${printHtml(shown)}</div>`;
}

/** The size of the picture is told to the style sheet, which knows the paper. */
function printFigure({ title, svg, medium, note }: Figure): string {
  const [width, height] = [svg.attributes.width, svg.attributes.height].map((size) => Number(size) || 1);
  return `<figure class="item drawing on-${medium}" tabindex="0" aria-label="${escapeHtml(say`Wiring drawing: ${title}`)}" style="--units: ${width}; --rows: ${height}">
<h3>${escapeHtml(title)}</h3>
${printHtml(svg)}
${note === undefined ? '' : `<figcaption>${escapeHtml(note)}</figcaption>`}
</figure>`;
}

/** What stands round every printed sheet; where it stands is a matter of the style sheet. */
function printMargins(facts: readonly string[]): string {
  const page = say`Page ${PAGE} of ${PAGES}`
    .split(/([{]pages?[}])/)
    .map((piece) =>
      piece === PAGE || piece === PAGES ? `counter(${piece.slice(1, -1)})` : cssString(piece),
    );
  const caution = say`Local codes, the makers’ manuals and a licensed electrician have the last word.`;
  return `@page {
  @top-left { content: ${cssString(facts.join(', '))}; }
  @bottom-left { content: ${cssString(caution)}; }
  @bottom-right { content: ${page.join(' ')}; }
}`;
}

/** Stand for the counters of the browser. */
const [PAGE, PAGES] = ['{page}', '{pages}'];

/** A text as a string of CSS: whatever is not a plain letter or figure is written by its number. */
function cssString(text: string): string {
  const safe = Array.from(text.slice(0, 200), (char) =>
    /[A-Za-z0-9 ,.]/.test(char) ? char : `\\${(char.codePointAt(0) ?? 0).toString(16)} `,
  );
  return `"${safe.join('')}"`;
}
