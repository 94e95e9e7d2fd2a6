/** The files of the book that scripts lead to or bring in. */

/** The book's root: where this script lies. */
export const ROOT = new URL('.', (document.currentScript as HTMLScriptElement).src).href;

/** Runs a file of the root, which sets what it holds: where there is no server, a page can read nothing else. */
export function bring(file: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const script = document.createElement('script');
    script.src = new URL(file, ROOT).href;
    script.addEventListener('load', () => resolve());
    script.addEventListener('error', () => reject(new Error(`${file} is not there`)));
    document.head.append(script);
  });
}
