/** Pages of the preview that don't come from the book: no good book yet, or no such page in it. */

/** A page that says `title` and `words`, and turns into the book's page when there is one. */
export function plainPage(title: string, words: string, script: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeHtml(title)}</title>
<style>body{max-width:60ch;margin:4rem auto;padding:0 1rem;font:17px/1.5 system-ui,sans-serif}</style>
<script type="module" src="/@vite/client"></script>
<script type="module" src="${escapeHtml(script)}"></script>
</head>
<body>
<main>
<h1>${escapeHtml(title)}</h1>
<p>${escapeHtml(words)}</p>
<p><a href="/">Start page</a></p>
</main>
</body>
</html>
`;
}

function escapeHtml(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
