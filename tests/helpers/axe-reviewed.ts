/**
 * What axe-core leaves undecided on the pages of the book, and how it is decided here: every entry looks at the very elements
 * and gives back those that it does not clear. The functions run in the page, so each stands by itself.
 */

interface Review {
  /** Why axe-core cannot tell, and what is looked at instead. */
  readonly because: string;
  readonly faults: (elements: Element[]) => string[];
}

export const REVIEWED: Readonly<Record<string, Review>> = {
  'color-contrast': {
    because:
      'It does not look beneath drawn text, one letter or what has been scrolled away: here each is brought into view, and its colour is held to that of its halo or of all that is painted beneath it, 7:1 (WCAG 2.2, 1.4.6).',
    faults: contrastFaults,
  },
  'identical-links-same-purpose': {
    because: 'It compares addresses only: links of one name may lead to the page of a thing and to the parts about it.',
    faults: sameNameFaults,
  },
  'link-in-text-block': {
    because: 'A name that leads on, and beside it in quieter words what it is: an entry of a list, not a running text.',
    faults: inTextFaults,
  },
  'th-has-data-cells': {
    because: 'It finds no cells beside the heading of several rows: they stand below it.',
    faults: headingFaults,
  },
};

function contrastFaults(elements: Element[]): string[] {
  type Colour = readonly [red: number, green: number, blue: number, alpha: number];
  const pen = document
    .createElement('canvas')
    .getContext('2d', { willReadFrequently: true }) as CanvasRenderingContext2D;
  const known = new Map<string, Colour>();
  const colourOf = (css: string): Colour => {
    const before = known.get(css);
    if (before) return before;
    pen.clearRect(0, 0, 1, 1);
    pen.fillStyle = css;
    pen.fillRect(0, 0, 1, 1);
    const [red = 0, green = 0, blue = 0, alpha = 0] = pen.getImageData(0, 0, 1, 1).data;
    const found = css === 'none' ? ([0, 0, 0, 0] as const) : ([red, green, blue, alpha / 255] as const);
    known.set(css, found);
    return found;
  };
  // WCAG 2.2, "relative luminance" and "contrast ratio".
  const luminance = (colour: Colour): number => {
    const [red = 0, green = 0, blue = 0] = colour.slice(0, 3).map((channel) => {
      const part = channel / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const contrast = (one: Colour, other: Colour): number => {
    const [darker = 0, lighter = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (lighter + 0.05) / (darker + 0.05);
  };
  const isWhole = (element: Element | null): boolean =>
    element === null || (getComputedStyle(element).opacity === '1' && isWhole(element.parentElement));
  /** The ground of what is written on an element; none where it is a picture, or where something shines through. */
  const paper = (element: Element | null): Colour | undefined => {
    if (element === null) return undefined;
    const { backgroundImage, backgroundColor } = getComputedStyle(element);
    const ground = colourOf(backgroundColor);
    if (backgroundImage !== 'none' || (ground[3] > 0 && ground[3] < 1)) return undefined;
    return ground[3] === 1 ? ground : paper(element.parentElement);
  };
  /** Five times three points of a box. */
  const pointsOf = ({ left, top, width, height }: DOMRect): DOMPoint[] =>
    [0.1, 0.3, 0.5, 0.7, 0.9].flatMap((x) =>
      [0.2, 0.5, 0.8].map((y) => new DOMPoint(left + x * width, top + y * height)),
    );
  /** What is painted beneath text of a drawing, at points of its box: of the shapes before it the last one there. */
  const beneath = (text: Element, drawing: SVGSVGElement): (Colour | undefined)[] => {
    const box = text.getBoundingClientRect();
    const shapes = [
      ...drawing.querySelectorAll<SVGGeometryElement>('rect, circle, ellipse, path, polygon, polyline, line'),
    ]
      .filter((shape) => shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)
      .filter((shape) => shape.closest('defs, symbol, clipPath, mask, pattern, marker') === null)
      .map((shape) => ({ shape, style: getComputedStyle(shape), place: shape.getBoundingClientRect() }))
      .filter(({ style, place }) => {
        const edge = Number.parseFloat(style.strokeWidth) * 2;
        return (
          style.visibility === 'visible' &&
          place.right + edge >= box.left &&
          place.left - edge <= box.right &&
          place.bottom + edge >= box.top &&
          place.top - edge <= box.bottom
        );
      })
      .reverse();
    return pointsOf(box).map((point) => {
      for (const { shape, style } of shapes) {
        const at = point.matrixTransform(shape.getScreenCTM()?.inverse());
        const painted = [
          ...(shape.isPointInStroke(at) ? [style.stroke] : []),
          ...(shape.isPointInFill(at) ? [style.fill] : []),
        ];
        for (const css of painted) {
          if (css.startsWith('url')) return undefined;
          const colour = colourOf(css);
          if (colour[3] === 1) return colour;
          if (colour[3] > 0) return undefined;
        }
      }
      return paper(drawing);
    });
  };
  const faults: string[] = [];
  for (const element of elements) {
    const drawing = element instanceof SVGElement ? element.ownerSVGElement : null;
    const style = getComputedStyle(element);
    const ink = colourOf(drawing ? style.fill : style.color);
    let grounds: (Colour | undefined)[];
    if (drawing) {
      const halo = colourOf(style.stroke);
      const haloed =
        style.paintOrder.startsWith('stroke') && halo[3] === 1 && Number.parseFloat(style.strokeWidth) >= 2;
      grounds = haloed ? [halo] : beneath(element, drawing);
    } else {
      element.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
      const { left, top, width, height } = element.getBoundingClientRect();
      const front = document.elementFromPoint(left + width / 2, top + height / 2);
      // What lies before it hides it.
      grounds = [front && (element.contains(front) || front.contains(element)) ? paper(element) : undefined];
    }
    const ratios = grounds.map((ground) => (ground ? contrast(ink, ground) : 0));
    const least = isWhole(element) && ink[3] === 1 ? Math.min(...ratios) : 0;
    if (least < 7)
      faults.push(
        `${least.toFixed(1)}: ${element.textContent?.trim().slice(0, 40)} in ${element.outerHTML.slice(0, 80)}`,
      );
  }
  scrollTo(0, 0);
  return faults;
}

function sameNameFaults(elements: Element[]): string[] {
  const nameOf = (link: Element): string =>
    (link.getAttribute('aria-label') ?? link.textContent ?? '').replace(/\s+/g, ' ').trim();
  /** The ids in an address: its page's where that is about one thing, its anchor's without what kind of part it is and for which aircraft. */
  const idsOf = (link: HTMLAnchorElement): string[] => {
    const page = /([^/]+)\.html$/.exec(link.pathname)?.[1] ?? '';
    const anchor = decodeURIComponent(link.hash.slice(1))
      .replace(/^(message|legend|option|panel|place|stop|differs|only|with|sequence|term)-/, '')
      .replace(/-\d+$/, '');
    return [
      ...(link.pathname === location.pathname && anchor !== '' ? [] : [page]),
      ...(anchor === '' ? [] : [anchor]),
    ];
  };
  const isPartOf = (one: string, other: string): boolean => one === other || one.startsWith(`${other}-`);
  const all = [...document.querySelectorAll<HTMLAnchorElement>('a[href]')].map((link) => ({
    link,
    name: nameOf(link),
    ids: idsOf(link),
  }));
  return elements
    .filter((element) => {
      const [own] = all.filter(({ link }) => link === element);
      const others = all.filter(({ link, name }) => name === own?.name && link.href !== own.link.href);
      return !others.every(({ ids }) =>
        ids.some((one) => own?.ids.some((other) => isPartOf(one, other) || isPartOf(other, one))),
      );
    })
    .map((element) => `${nameOf(element)}: ${element.getAttribute('href')}`);
}

function inTextFaults(elements: Element[]): string[] {
  const left = (link: Element): string => {
    const entry = link.closest('li, h3')?.cloneNode(true) as Element | undefined;
    for (const part of entry?.querySelectorAll('a, .detail, .note, .state, .mark, .verdict, ul') ?? []) part.remove();
    return entry ? (entry.textContent ?? '').trim() : 'no entry of a list';
  };
  return elements.filter((link) => left(link) !== '').map((link) => `${link.outerHTML.slice(0, 120)} in ${left(link)}`);
}

function headingFaults(elements: Element[]): string[] {
  return elements
    .filter((table) => {
      const headings = [...table.querySelectorAll('th')];
      return !headings.every((heading) => {
        const row = heading.closest('tr') as HTMLTableRowElement;
        if (heading.scope === 'rowgroup')
          return (row.parentElement as HTMLElement).querySelector('tr:not(:first-child) td');
        if (heading.scope === 'row') return row.querySelector('td');
        return (
          heading.scope === 'col' &&
          [...table.querySelectorAll('tbody tr:not(.kind)')].every((other) => other.children[heading.cellIndex])
        );
      });
    })
    .map((table) => `a heading without cells in ${table.id}`);
}
