/** What a reader's own sheet is about: topics that are brought in when they are chosen, as scripts, since a folder has no server to ask. */
import { ownParts } from './own-parts.ts';

type Topics = Record<string, string>;
const known = (): Topics => (globalThis as { switchleafTopics?: Topics }).switchleafTopics ?? {};

/** Two aircraft that are compared, on a day. */
export interface Pair {
  readonly serials: readonly [string, string];
  readonly day: string;
}

/**
 * Fills `text` with the topics, in their order, and with what differs between a pair, as long as that is still wanted when it is
 * there; whether all of it could be loaded.
 */
export async function bringTopics(
  text: HTMLElement,
  topics: readonly string[],
  pair: Pair | undefined,
  isWanted: () => boolean,
): Promise<boolean> {
  const missing = topics.filter((topic) => known()[topic] === undefined);
  await Promise.all(missing.map(load));
  const differs = pair && (await (await ownParts())?.pair(pair.serials, pair.day));
  const all = [...topics.map((topic) => known()[topic]), ...(pair ? [differs] : [])];
  const chosen = [...topics, ...(pair ? [...pair.serials, String(differs !== undefined)] : [])].join(',');
  if (isWanted() && text.dataset['topics'] !== chosen) {
    text.dataset['topics'] = chosen;
    text.replaceChildren(document.createRange().createContextualFragment(all.join('')));
    const [about] = pair ? text.querySelectorAll<HTMLElement>('[data-topic="pair"]') : [];
    if (about) about.dataset['of'] = pair?.serials.join(' ') ?? '';
  }
  return !all.includes(undefined);
}

function load(topic: string): Promise<void> {
  return new Promise((done) => {
    const script = document.createElement('script');
    script.src = `topics/${topic}.js`;
    script.addEventListener('load', () => done());
    script.addEventListener('error', () => done());
    document.head.append(script);
  });
}
