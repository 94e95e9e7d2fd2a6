/** What this device keeps for a reader. Storage may be closed to pages, or hold what another release wrote. */

/** Undefined where nothing is kept, or nothing that can be read. */
export function kept(key: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(key) ?? 'null') ?? undefined;
  } catch {
    return undefined;
  }
}

/** Undefined removes it. Where storage is closed nothing is kept. */
export function keep(key: string, value: unknown): void {
  try {
    if (value === undefined) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // What the page knows holds until it is left.
  }
}
