/** What a reader's own sheet can be about, each topic as a script: where there is no server, a page can read nothing else. */
import { book } from 'virtual:switchleaf/book';
import type { SheetTopicView } from '../../book/index.ts';
import { topicMarkup } from '../../components/sheet-markup.ts';

export function getStaticPaths() {
  return [...book.topics.values()].map((topic) => ({ params: { topic: topic.id }, props: { topic } }));
}

export const GET = ({ props: { topic } }: { props: { topic: SheetTopicView } }) =>
  new Response(
    `(globalThis.switchleafTopics??={})[${JSON.stringify(topic.id)}]=${JSON.stringify(topicMarkup(topic, 'own-sheet.html'))};\n`,
    { headers: { 'Content-Type': 'text/javascript' } },
  );
