import { say } from '../../server/core/language/say.ts';
import { h } from '../../server/core/summary/view.ts';
import { buildElement } from './dom.ts';

/** The frame of the page: title, notices, contents, and the empty page. */
export interface Shell {
  readonly main: HTMLElement;
  readonly showTitle: (title: string) => void;
  /** Says something about the picture as a whole, or nothing any more. */
  readonly showNotice: (text: string) => void;
  readonly showContents: (sections: readonly { readonly section: string; readonly title: string }[]) => void;
  /** Shows the empty page instead of the summary, or the summary again. */
  readonly showEmpty: (closed: { readonly uri: string; readonly name: string } | null | undefined) => void;
}

/** What the person can ask for on the empty page. */
export interface ShellActions {
  readonly open: (uri: string) => void;
  readonly pick: () => void;
  readonly exportAs: (format: 'html' | 'md') => void;
}

/** Builds the frame of the page. */
export function createShell(actions: ShellActions): Shell {
  const header = buildElement(
    h(
      'header',
      { class: 'bar' },
      h('p', { class: 'bar-title' }, say`Wiring summary`),
      h('div', { class: 'contents', role: 'navigation', 'aria-label': say`Sections` }),
      h(
        'div',
        { class: 'exports', role: 'group', 'aria-label': say`Export` },
        h(
          'button',
          { class: 'tool export-html', title: say`Save this page as one file, for printing and giving away` },
          say`Save page`,
        ),
        h('button', { class: 'tool export-md', title: say`Save this page as Markdown` }, 'Markdown'),
      ),
      h('p', { class: 'notice', role: 'status' }),
    ),
  );
  const main = document.createElement('main');
  const empty = document.createElement('section');
  empty.className = 'empty';
  empty.hidden = true;
  document.body.append(header, main, empty);
  const inside = (selector: string): HTMLElement => header.querySelector(selector) as HTMLElement;

  keepHeadingsClear(header);
  inside('.export-html').onclick = () => actions.exportAs('html');
  inside('.export-md').onclick = () => actions.exportAs('md');

  return {
    main,
    showTitle: (title) => {
      setText(inside('.bar-title'), title);
    },
    showNotice: (text) => {
      setText(inside('.notice'), text);
    },
    showContents: (sections) => {
      const key = sections.map(({ section }) => section).join(' ');
      const contents = inside('.contents');
      if (contents.dataset.key === key) return;
      contents.dataset.key = key;
      contents.replaceChildren(...sections.map(({ section, title }) => contentsEntry(section, title)));
    },
    showEmpty: (closed) => {
      const isEmpty = closed !== undefined;
      empty.hidden = !isEmpty;
      main.hidden = isEmpty;
      (header as HTMLElement).hidden = isEmpty;
      if (isEmpty) fillEmpty(empty, closed, actions);
    },
  };
}

/** What is jumped to comes to stand below the bar, which is as high as its words and the width of the page make it. */
function keepHeadingsClear(bar: Element): void {
  const watcher = new ResizeObserver(() => {
    document.documentElement.style.scrollPaddingTop = `${bar.getBoundingClientRect().height + 10}px`;
  });
  watcher.observe(bar);
}

/** Sets a text only where it differs, so that nothing is read out twice. */
function setText(element: HTMLElement, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

function contentsEntry(section: string, title: string): HTMLElement {
  const entry = buildElement(h('button', { class: 'contents-entry' }, title)) as HTMLElement;
  entry.onclick = () => {
    const element = document.getElementById(`section-${section}`);
    element?.scrollIntoView({ block: 'start' });
    element?.focus({ preventScroll: true });
  };
  return entry;
}

function fillEmpty(
  empty: HTMLElement,
  closed: { readonly uri: string; readonly name: string } | null,
  actions: ShellActions,
): void {
  const text = closed
    ? say`${closed.name} is not open. The wiring summary follows a machine while its text is open in an editor.`
    : say`The wiring summary shows a machine while its text is open in an editor. Machines are files whose names end in .machine.yaml.`;
  const button = closed ? say`Open ${closed.name}` : say`Find a machine`;
  empty.replaceChildren(
    buildElement(h('h1', {}, closed ? say`This machine is not open` : say`No machine is open`)),
    buildElement(h('p', {}, text)),
    buildElement(h('button', { class: 'main-action' }, button)),
  );
  (empty.querySelector('button') as HTMLElement).onclick = () => {
    if (closed) actions.open(closed.uri);
    else actions.pick();
  };
}
