import { type DefaultTreeAdapterTypes, parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import type { AttributeView, QuoteView } from '../../src/book/index.ts';
import { type Resolve, renderProse } from '../../src/prose/index.ts';
import { note } from '../site/sample-book.ts';

const view = (id: string): AttributeView => ({ id, title: id, to: `lights/${id}.html`, groups: [] });
const ordered: QuoteView = { kind: 'changes', document: [], asOf: '2026-10-01', changes: [] };
const quotes = new Map([['changes|QA-1', ordered]]);
const resolve: Resolve = {
  href: (id) => (id === 'logo' ? '../controls/logo.html' : undefined),
  title: (id) => (id === 'logo' ? 'Logo switch' : undefined),
  table: (of, on) => [view(on === undefined ? of : `${of} on ${on}`)],
  quote: (key) => quotes.get(key),
};
const render = (markdown: string) => renderProse(note('a-note', 'A note', [], markdown), resolve);
const html = (markdown: string) =>
  render(markdown)
    .map((block) => {
      if (block.kind === 'html') return block.html;
      return block.kind === 'quote' ? `[${block.quote.kind}]` : `[table ${block.views.map((one) => one.title).join()}]`;
    })
    .join('\n');

type Node = DefaultTreeAdapterTypes.Node;
const textOf = (node: Node): string =>
  'value' in node ? node.value : 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';
const visible = (markdown: string) =>
  textOf(parseFragment(html(markdown)))
    .replace(/\s+/g, ' ')
    .trim();

describe('a note', () => {
  it('links a reference to its page, and takes the title where the words are missing', () => {
    expect(html('The [switch](ref:logo), [](ref:logo).')).toBe(
      '<p>The <a href="../controls/logo.html">switch</a>, <a href="../controls/logo.html">Logo switch</a>.</p>',
    );
  });

  it('leaves the words of an unknown reference standing, without a link', () => {
    expect(html('See [the moon](ref:moon) and [](ref:moon).')).toBe('<p>See the moon and moon.</p>');
  });

  it('marks a checked sentence and keeps its words and their markup', () => {
    expect(html(':checked[With [](ref:logo) at *off* all is dark.]{holds="logo is OFF"} So.')).toBe(
      '<p><span class="checked" title="Checked against the rules">With <a href="../controls/logo.html">Logo switch</a> at <em>off</em> all is <span class="checked-end">dark.</span></span> So.</p>',
    );
  });

  it('gives a computed table as a block of its own, in its place', () => {
    const blocks = render('Before.\n\n::table{of="logo-lights" on="QQ-OAC"}\n\nAfter.');
    expect(blocks.map((block) => block.kind)).toEqual(['html', 'table', 'html']);
    expect(html('Before.\n\n::table{of="logo-lights" on="QQ-OAC"}\n\nAfter.')).toBe(
      '<p>Before.</p>\n[table logo-lights on QQ-OAC]\n<p>After.</p>',
    );
    expect(html('::table{of="logo-lights"}')).toBe('[table logo-lights]');
  });

  it('gives what else was asked for in its place, and leaves what the book does not have as it was written', () => {
    expect(html('Before.\n\n::changes{by="QA-1"}\n\nAfter.')).toBe('<p>Before.</p>\n[changes]\n<p>After.</p>');
    expect(visible('::changes{by="QA-2"}')).toBe('::changes');
  });

  it('puts a computed table within a list right after the list', () => {
    expect(html('- one\n\n  ::table{of="x"}\n\n- two\n\nEnd.').replace(/\n/g, '')).toMatch(
      /^<ul>.*one.*two.*<\/ul>\[table x\]<p>End.<\/p>$/,
    );
  });

  it('starts its headings below its title, whatever level the author began with', () => {
    expect(html('# One\n\n## Two')).toBe('<h4>One</h4>\n<h5>Two</h5>');
    expect(html('## One\n\n#### Three')).toBe('<h4>One</h4>\n<h6>Three</h6>');
  });

  it('lets no raw HTML, no image and no script address through, but shows their words', () => {
    const out = html(
      '<b onclick="x()">bold</b> ![a plan](https://example.org/x.png) [here](javascript:x) [there](https://example.org)',
    );
    expect(out).not.toMatch(/<b|<img|javascript:|<script/);
    expect(out).toContain('&#x3C;b onclick="x()">bold');
    expect(out).toContain('a plan here');
    expect(out).toContain('<a href="https://example.org" rel="external">there</a>');
    expect(html('<script>x</script>')).not.toContain('<script');
  });

  it('keeps the time of day and other stray colons as they were written', () => {
    expect(visible('At 12:30, mode:auto and 06:40:15.')).toBe('At 12:30, mode:auto and 06:40:15.');
    expect(visible('Ratio 3:two[words]{a=b} stays.')).toContain('two');
  });

  it('brings every word of its source to the page', () => {
    const words =
      'alpha bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo sierra tango'.split(
        ' ',
      );
    const [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t] = words;
    const source = `# ${a}

${b} *${c}* **${d}** \`${e}\` ~~${f}~~ [${g}](ref:logo) [${h}](ref:none) [${i}](https://example.org) <${j}>

> ${k}

1. ${l}
   - ${m}

| ${n} | ${o} |
| --- | --- |
| ${p} | ${q} |

\`\`\`
${r}
\`\`\`

:checked[${s}]{holds="x"}[^1]

[^1]: ${t}
`;
    const shown = visible(source);
    for (const word of words) expect(shown, word).toContain(word);
  });
});
