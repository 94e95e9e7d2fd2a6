/** A case of the explorer as markup: what the last step changed, what goes on by itself, what shows, and everything by panel. */
import { type CaseView, type ChangedView, EXPLORER, type Listed, type ShownView } from '../book/index.ts';
import { escaped, linkHtml, stateHtml, tells, wordsHtml } from './html.ts';

/** What a step is answered with, and how everything is then. */
export function caseHtml(view: CaseView): { readonly now: string; readonly rest: string } {
  return {
    now: [lastHtml(view), waitsHtml(view), openHtml(view)].join(''),
    rest: [showsHtml(view), setHtml(view), allHtml(view)].join(''),
  };
}

function lastHtml({ last, moved, changed, sounds, registration }: CaseView): string {
  if (last === undefined) {
    return `<section class="last"><h2 tabindex="-1">${escaped(registration)}: a normal case</h2><p>Conditions are normal, controls stand where they stay by themselves. Move one of them.</p></section>`;
  }
  const own =
    moved.length === 0 ? `<p>${escaped(last)}</p>` : `<ul class="moved">${moved.map(changedHtml).join('')}</ul>`;
  const found =
    changed.length === 0
      ? '<p>Nothing that this book shows changes with it.</p>'
      : `<ul class="changes"${tells()}>${changed.map(changedHtml).join('')}</ul>`;
  const heard = sounds.map(
    ({ what, words, certain }) =>
      `<li>${nameHtml(what)}<span>${certain ? 'heard' : 'may be heard'}: ${escaped(words)}</span></li>`,
  );
  const sounding = heard.length === 0 ? '' : `<ul class="sounding">${heard.join('')}</ul>`;
  return `<section class="last"><h2 tabindex="-1">What changed last</h2>${own}${sounding}${found}</section>`;
}

function changedHtml({ what, before, after }: ChangedView): string {
  return `<li>${nameHtml(what)}<span class="from-to">${stateHtml(before, EXPLORER)} <span class="arrow"><span class="unseen">to</span></span> ${stateHtml(after, EXPLORER)}</span></li>`;
}

function waitsHtml({ waits }: CaseView): string {
  if (waits.length === 0) return '';
  const rows = waits.map(
    ({ step, words, sequence, modes, delay, perhaps }) =>
      `<li>${nameHtml(sequence)}<span>${escaped(modes)}${delay === '' ? '' : `, ${escaped(delay)}`}${perhaps ? ', if what is open has it so' : ''}</span> ${stepHtml(step, 'Wait for it', `Wait for it: ${words}`)}</li>`,
  );
  return `<section class="waits"><h2>What time brings</h2><ul>${rows.join('')}</ul></section>`;
}

function openHtml({ open }: CaseView): string {
  if (open.length === 0) return '';
  const rows = open.map(
    ({ what, words, answers }) =>
      `<li>${nameHtml(what)}<span>${escaped(words)}</span> <span class="answers">${answers.map((answer) => stepHtml(answer.step, `Suppose ${answer.words}`, `Suppose ${answer.words}: ${what.title}`)).join(' ')}</span></li>`,
  );
  return `<section class="open"><h2>What is open</h2><ul>${rows.join('')}</ul></section>`;
}

function showsHtml({ shows }: CaseView): string {
  const list =
    shows.length === 0
      ? '<p>Everything is dark or as it normally is.</p>'
      : `<ul class="shown"${tells()}>${shows.map(shownHtml).join('')}</ul>`;
  return `<section class="shows"><h2>What shows now</h2>${list}</section>`;
}

function setHtml({ set }: CaseView): string {
  if (set.length === 0) return '';
  const rows = set.map(({ what, words }) => `<li>${nameHtml(what)}<span>${wordsHtml(words, EXPLORER)}</span></li>`);
  return `<section class="set"><h2>Set otherwise than at the start</h2><ul>${rows.join('')}</ul></section>`;
}

function allHtml({ panels, sequences }: CaseView): string {
  const parts = panels.map(
    ({ panel, items }) =>
      `<section><h3>${linkHtml(EXPLORER, panel.to, panel.title)}</h3><ul class="shown"${tells()}>${items.map(shownHtml).join('')}</ul></section>`,
  );
  const modes = sequences.map(({ what, mode }) => `<li>${nameHtml(what)}<span>${escaped(mode)}</span></li>`);
  const running =
    modes.length === 0 ? '' : `<section><h3>Sequences</h3><ul class="shown">${modes.join('')}</ul></section>`;
  return `<details class="everything"><summary><h2>Everything, panel by panel</h2></summary>${parts.join('')}${running}</details>`;
}

function shownHtml({ what, state }: ShownView): string {
  return `<li>${nameHtml(what)}${stateHtml(state, EXPLORER)}</li>`;
}

function nameHtml({ to, title }: Listed): string {
  return `<span class="name">${linkHtml(EXPLORER, to, title)}</span>`;
}

function stepHtml(step: string, words: string, name: string): string {
  return `<button type="button" data-step="${escaped(step)}" aria-label="${escaped(name)}">${escaped(words)}</button>`;
}
