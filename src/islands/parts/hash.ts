/** What stands behind "#" in the address, read as it was meant. */

/** As it stands where it is damaged: addresses are passed on by hand too. */
export function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function hashText(): string {
  return decoded(location.hash.slice(1));
}
