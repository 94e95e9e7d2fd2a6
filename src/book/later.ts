/** What is made when it is first asked for: the preview shows one page at a time, and `check` none. */
import type { Address, Page } from './book.ts';

/** The value of `make`, which is called once, when it is first asked for. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/**
 * A page of which the kind and the address are known. Reading anything else of it makes it, and so does spreading it.
 * Throws when what was made is another page.
 */
export function later<P extends Page>(kind: P['kind'], address: Address, make: () => P): P {
  const page = once(() => {
    const made = make();
    if (made.kind !== kind || made.address !== address) {
      throw new Error(`${made.kind} ${made.address} was made in the place of ${kind} ${address}`);
    }
    return made;
  });
  const head = { kind, address };
  return new Proxy(head as P, {
    get: (_, key) => Reflect.get(Object.hasOwn(head, key) ? head : page(), key),
    has: (_, key) => Reflect.has(page(), key),
    ownKeys: () => Reflect.ownKeys(page()),
    getOwnPropertyDescriptor: (_, key) => Reflect.getOwnPropertyDescriptor(page(), key),
  });
}

/** Pages that are made together, each of which reads as by itself. `heads` name them in their order. */
export function laterAll<P extends Page>(
  heads: readonly (readonly [kind: P['kind'], address: Address])[],
  make: () => readonly P[],
): P[] {
  const all = once(() => {
    const pages = make();
    if (pages.length !== heads.length) throw new Error(`${pages.length} pages were made where ${heads.length} belong`);
    return pages;
  });
  return heads.map(([kind, address], at) => later(kind, address, () => all()[at] as P));
}
