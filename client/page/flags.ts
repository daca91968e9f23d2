import { later, said } from '../../server/core/language/say.ts';

/**
 * Findings at the things that they are about: rows and parts get the sign of the gravest one, and what it says is told
 * where the pointer rests on it. The list of findings is the only source; this follows it after every change.
 */
export function showFlags(root: Element): void {
  for (const old of root.querySelectorAll('[data-flag]')) {
    old.removeAttribute('data-flag');
    old.removeAttribute('data-flag-says');
  }
  for (const old of root.querySelectorAll('text.flag')) old.remove();
  for (const [id, { severity, says }] of readFindings(root)) {
    for (const element of root.querySelectorAll(`[data-id="${CSS.escape(id)}"]`)) {
      if (element.closest('.findings')) continue;
      element.setAttribute('data-flag', severity);
      element.setAttribute('data-flag-says', says.join('\n'));
      if (element.matches('g.part')) element.append(drawFlag(severity));
    }
  }
}

const GRAVITY: readonly string[] = [later`hint`, later`warning`, later`error`];

/** Gives the style sheet what the signs of rows and headings say to those who do not see them. */
export function nameFlags(): void {
  for (const severity of GRAVITY)
    document.documentElement.style.setProperty(`--says-${severity}`, JSON.stringify(` (${said(severity)})`));
}

function readFindings(root: Element): Map<string, { severity: string; says: string[] }> {
  const found = new Map<string, { severity: string; says: string[] }>();
  for (const { dataset, children } of root.querySelectorAll<HTMLElement>('.finding[data-about]')) {
    const { about = '', severity = 'hint' } = dataset;
    const says = [...children].find((child) => child.matches('.says'))?.textContent ?? '';
    const there = found.get(about);
    if (!there) found.set(about, { severity, says: [says] });
    else {
      there.says.push(says);
      if (GRAVITY.indexOf(severity) > GRAVITY.indexOf(there.severity)) there.severity = severity;
    }
  }
  return found;
}

const SIGNS: Readonly<Record<string, string>> = { error: '\u2716', warning: '\u25b2', hint: '\u25cb' };

function drawFlag(severity: string): SVGTextElement {
  const sign = document.createElementNS('http://www.w3.org/2000/svg', 'text');
  sign.setAttribute('class', `flag ${severity}`);
  sign.setAttribute('x', '-4');
  sign.setAttribute('y', '4');
  sign.setAttribute('text-anchor', 'middle');
  sign.setAttribute('aria-hidden', 'true');
  sign.textContent = SIGNS[severity] ?? SIGNS.hint ?? '';
  return sign;
}
