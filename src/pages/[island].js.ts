/** The scripts of the pages; see src/cli/islands.ts. */
import { islands } from 'virtual:switchleaf/islands';

export function getStaticPaths() {
  return Object.keys(islands).map((island) => ({ params: { island } }));
}

export const GET = ({ params }: { params: { island: string } }) =>
  new Response(islands[params.island], { headers: { 'Content-Type': 'text/javascript' } });
