/**
 * Holds the pages of procedures to the authors' files: every stage with what it says and wants, and what is lit in it, on each
 * aircraft, as the oracle works it out.
 */
import { attribute, byClass, byTag, type Element, textOf } from '../../helpers/dom.ts';
import { readEffectivity } from '../../helpers/effectivity-words.ts';
import { type Fit, type Oracle, Stages, type StageWorlds } from '../../oracle/index.ts';
import type { Pages } from './pages.ts';
import { attempt } from './tables.ts';

export function judgeProcedures(pages: Pages, oracle: Oracle): string[] {
  const stages = new Stages(oracle.meaning);
  return [...oracle.content.procedures.values()].flatMap((procedure) => {
    const address = `procedures/${procedure.id}.html`;
    return attempt(address, () => {
      const sections = byClass(pages.page(address), 'stage');
      if (sections.length !== procedure.stages.length) return [`${sections.length} stages`];
      return oracle.aircraft.flatMap(({ registration, fit }) => {
        const worlds = stages.on(fit, procedure);
        return sections.flatMap((section, at) => {
          const here = worlds[at] as StageWorlds;
          const title = `${at + 1} ${here.stage.title}`;
          const shown = textOf(byTag(section, 'h2')[0] as Element);
          return [
            ...(shown === title ? [] : [`"${shown}" instead of "${title}"`]),
            ...judgeWanted(section, oracle, registration, fit, here),
            ...judgeLit(section, oracle, stages, registration, fit, here),
            ...judgeDrawn(section, pages, oracle, stages, registration, fit, here),
          ].map((fault) => `${here.stage.id} on ${registration}: ${fault}`);
        });
      });
    });
  });
}

/** The lines of a list that hold for an aircraft: what they say without the aircraft. */
function linesFor(list: Element, oracle: Oracle, registration: string): string[] {
  return byTag(list, 'li').flatMap((line) => {
    const details = byClass(line, 'detail').map(textOf);
    const on = details.find((words) => /^ ?on /.test(words));
    const holds = on === undefined || namesOf(oracle, on.trim().replace(/^on /, '')).includes(registration);
    return holds
      ? [
          textOf(line)
            .replace(on ?? '', '')
            .replace(' where fitted', '')
            .replace(/\s+/g, ' ')
            .trim(),
        ]
      : [];
  });
}

function namesOf(oracle: Oracle, words: string): string[] {
  return readEffectivity(oracle, words).map((each) => each.registration);
}

function judgeWanted(
  section: Element,
  oracle: Oracle,
  registration: string,
  fit: Fit,
  { stage }: StageWorlds,
): string[] {
  const lines = byClass(section, 'stands').flatMap((list) => linesFor(list, oracle, registration));
  return [...stage.positions].flatMap(([id, wanted]) => {
    const first = wanted.find(({ when }) => oracle.meaning.truths(when, oracle.meaning.at(fit, {})).has(true));
    const title = oracle.content.controls.get(id)?.title ?? '';
    const line = lines.find((each) => each.includes(title));
    if (!first) return [];
    const [legend = ''] = oracle.legendsOn(fit, id, first.position);
    return line?.startsWith(legend) ? [] : [`${id} is wanted at ${legend}, and the page says "${line}"`];
  });
}

/** What is lit on the page, of lights without single lamps, signs, annunciators and messages. */
function judgeLit(
  section: Element,
  oracle: Oracle,
  stages: Stages,
  registration: string,
  fit: Fit,
  here: StageWorlds,
): string[] {
  const lists = byClass(section, 'lit').filter((list) => !textOf(list).includes('until now '));
  const lines = lists.flatMap((list) => linesFor(list, oracle, registration));
  return [...oracle.content.items.values()].flatMap((item) => {
    const [attribute, ...others] = item.attributes.values();
    if (!attribute || others.length > 0 || item.kind === 'supply' || !oracle.isFitted(fit, item.id)) return [];
    const seen = [...stages.outcomes(fit, here, item.id, attribute.id).values()];
    const states = new Set(seen.flatMap(({ outcomes }) => [...outcomes]));
    const lit = [...states].filter((state) => state !== 'dark' && state !== 'not-shown');
    const found = lines.filter((line) => line.startsWith(`${item.title} `));
    const words = found.join(' / ');
    if (lit.length === 0) return found.length === 0 ? [] : [`${item.id} is dark, and the page says "${words}"`];
    const titles = lit.map((state) => attribute.states.get(state)?.title ?? state);
    const named = found.length > 0 && titles.every((title) => words.includes(title));
    const always = states.size === lit.length && lit.length === 1;
    const plain = found.some((line) => titles.some((title) => line.endsWith(title)));
    const fits = named && (always ? plain : !plain);
    return fits ? [] : [`${item.id} is ${[...states].join(' or ')}, and the page says "${words}"`];
  });
}

/** The lights that are marked on the drawing for an aircraft: those that are lit, and half filled where they may be dark too. */
function judgeDrawn(
  section: Element,
  pages: Pages,
  oracle: Oracle,
  stages: Stages,
  registration: string,
  fit: Fit,
  here: StageWorlds,
): string[] {
  const drawn = byTag(section, 'figure').filter((figure) => {
    const line = byClass(figure, 'holds')[0] as Element;
    return namesOf(oracle, textOf(byTag(line, 'summary')[0] ?? line)).includes(registration);
  });
  if (drawn.length > 1) return ['is drawn twice'];
  const marks = drawn.flatMap((figure) => byClass(figure, 'mark'));
  return [...oracle.content.items.values()].flatMap((item) => {
    const address = `lights/${item.id}.html`;
    if (item.kind !== 'light' || byClass(pages.page(address), 'aircraft-drawing').length === 0) return [];
    const lamps = [...item.attributes.values()].filter(({ id }) => id === 'lamp');
    const states = new Set(
      oracle.isFitted(fit, item.id)
        ? lamps.flatMap(({ id }) =>
            [...stages.outcomes(fit, here, item.id, id).values()].flatMap(({ outcomes }) => [...outcomes]),
          )
        : [],
    );
    const lit = [...states].some((state) => state !== 'dark');
    const own = marks.filter((mark) => attribute(mark, 'data-unit')?.startsWith(`${item.id}-`));
    const halves = own.filter((mark) => byClass(mark, 'half').length > 0);
    if (!lit) return own.length === 0 ? [] : [`${item.id} is dark, and is drawn`];
    if (own.length === 0) return [`${item.id} is lit, and is not drawn`];
    const isRight = states.has('dark') ? halves.length === own.length : halves.length === 0;
    return isRight ? [] : [`${item.id} is ${[...states].join(' or ')}, and is not drawn so`];
  });
}
