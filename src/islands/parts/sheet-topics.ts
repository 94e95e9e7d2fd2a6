/** What a reader's own sheet is about: topics that are brought in when they are chosen, as scripts, since a folder has no server to ask. */

type Topics = Record<string, string>;
const known = (): Topics => (globalThis as { switchleafTopics?: Topics }).switchleafTopics ?? {};

/** Fills `text` with the topics, in their order; what cannot be loaded is left out. */
export async function bringTopics(text: HTMLElement, topics: readonly string[]): Promise<void> {
  const missing = topics.filter((topic) => known()[topic] === undefined);
  await Promise.all(missing.map(load));
  const markup = topics.map((topic) => known()[topic] ?? '').join('');
  if (text.dataset['topics'] === topics.join(',')) return;
  text.dataset['topics'] = topics.join(',');
  text.replaceChildren(document.createRange().createContextualFragment(markup));
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
