/** SL601-: the command line and the build. */
import { define } from '../define.ts';
import { didYouMean } from '../nearest.ts';

export const commandCodes = {
  SL601: define({
    severity: 'error',
    title: 'No content folder',
    message: (facts: { folder: string }) => `There is no folder "${facts.folder}" to read the content from.`,
    hint: () => 'Check the name, or run the command from the folder that holds it.',
    explanation:
      'Every command reads the definitions and notes of one content folder; it is "content" unless --content names another one.',
  }),
  SL602: define({
    severity: 'error',
    title: 'A fault in Switchleaf',
    message: (facts: { detail: string }) => `Switchleaf itself failed: ${facts.detail}. The content is not to blame.`,
    hint: () =>
      'Run the command again with --debug, and report what it prints as a bug, with the command and, if you may pass it on, the content.',
    explanation:
      'Mistakes in the content are reported under codes of their own; this one stands for a mistake in the program or a failure of the machine that it runs on. The last good book is untouched.',
  }),
  SL603: define({
    severity: 'error',
    title: 'Not a folder',
    message: (facts: { folder: string }) =>
      `The content is to be read from the folder "${facts.folder}", but that is a file.`,
    hint: () => 'Name the folder that holds book.yaml.',
    explanation:
      'Content is a folder of several files. A single file of it cannot be judged alone, since its names are defined in the others.',
  }),
  SL604: define({
    severity: 'error',
    title: 'A file that cannot be read',
    message: (facts: { path: string; reason: string }) => `The file ${facts.path} cannot be read: ${facts.reason}.`,
    hint: () =>
      'See to it that the file exists where its name points and that you may read it, or remove it from the content folder.',
    explanation:
      'Every YAML, CSV and Markdown file of the content folder is read. Leaving one out silently could change what the book says.',
  }),
  SL605: define({
    severity: 'error',
    title: 'A file that is not UTF-8',
    message: (facts: { path: string }) =>
      `The file ${facts.path} is not text in UTF-8: from here on it cannot be read reliably.`,
    hint: () => 'Save it again with the encoding UTF-8. A table program may call it "CSV UTF-8".',
    explanation:
      'In another encoding the same bytes mean other letters, so a degree sign or an accent would come out wrong without anybody noticing.',
  }),
  SL606: define({
    severity: 'error',
    title: 'No place for the book',
    message: (facts: { out: string }) => `The book is to go into the folder "${facts.out}", but that is a file.`,
    hint: () => 'Name another folder with --out; it need not exist.',
    explanation: 'A build makes a folder of pages.',
  }),
  SL607: define({
    severity: 'error',
    title: 'A folder with other files in it',
    message: (facts: { out: string }) =>
      `The folder "${facts.out}" holds files and was not made by Switchleaf. A build replaces its folder as a whole, so they would be lost.`,
    hint: () => 'Name a new or an empty folder with --out.',
    explanation:
      'A build puts the whole new book in place of the whole old one. It recognises its own folders by the file made-by-switchleaf.txt and touches no other.',
  }),
  SL608: define({
    severity: 'error',
    title: 'Book and content in one place',
    message: (facts: { out: string; content: string; how: 'inside content' | 'around content' }) =>
      facts.how === 'inside content'
        ? `The book is to go to "${facts.out}", which is inside the content folder "${facts.content}" or the same folder.`
        : `The book is to go to "${facts.out}", and the content folder "${facts.content}" lies inside of it.`,
    hint: () => 'Name a folder beside the content with --out.',
    explanation:
      'A build replaces the folder of the book as a whole. The content must not be in it, and the pages must not be read as content.',
  }),
  SL609: define({
    severity: 'error',
    title: 'A folder that cannot be written',
    message: (facts: { out: string; reason: string }) => `Nothing can be written to "${facts.out}": ${facts.reason}.`,
    hint: () => 'Free the space or get the right to write there, or name another folder with --out.',
    explanation:
      'The new book is written beside the last one and then put in its place, so the folder above it must be writable too. The last book is untouched.',
  }),
  SL610: define({
    severity: 'error',
    title: 'No browser to print with',
    message: ({ named }: { named: string }) =>
      named === ''
        ? 'Printing needs Chromium or Chrome, and none was found on this machine.'
        : `Printing needs Chromium or Chrome, and CHROMIUM_PATH names "${named}", which is none that can be run.`,
    hint: () =>
      'Install Chromium or Chrome, or set CHROMIUM_PATH to its executable. Any page of the built book can be printed from a browser too.',
    explanation:
      'The PDFs are made by a browser of the machine, since it draws the pages as readers see them. Nothing is downloaded.',
  }),
  SL611: define({
    severity: 'error',
    title: 'Nothing to print of that name',
    message: (facts: { word: string; nearest?: string }) =>
      `The book has nothing to print that is called "${facts.word}".`,
    hint: ({ nearest }) =>
      `${didYouMean(nearest)}Name book, aircraft, sheets, notices, practice, changes, a registration, or one sheet or notice as its address does: sheets/NAME.`,
    explanation: 'Whole kinds are printed by their name, single pages by their address in the book.',
  }),
  SL612: define({
    severity: 'error',
    title: 'An aircraft that is not in the book',
    message: (facts: { name: string; nearest?: string }) => `The book has no aircraft called "${facts.name}".`,
    hint: ({ nearest }) =>
      `${didYouMean(nearest)}Give the registration or the serial of one in service on the date of the book.`,
    explanation: 'A reference or a sheet is printed for one aircraft of the book.',
  }),
  SL613: define({
    severity: 'error',
    title: 'A sheet that cannot be composed',
    message: (facts: { name: string; message: string }) => `${facts.name}: ${facts.message}`,
    hint: () => 'Change "sheets", "type", "columns" or the paper of the sheet in sheets.yaml.',
    explanation:
      'A sheet fills the stated number of sheets within the stated limits of type, without cutting a row. All others were printed.',
  }),
  SL614: define({
    severity: 'error',
    title: 'The revision is released already',
    message: (facts: { revision: string; path: string }) => `Revision ${facts.revision} is released as ${facts.path}.`,
    hint: (facts) =>
      `Give the book a new revision and date in book.yaml. If nobody has revision ${facts.revision} yet, delete ${facts.path} first.`,
    explanation:
      'A release is what readers have in their hands. It is never written over, so that the next revision can tell them what has changed.',
  }),
  SL615: define({
    severity: 'error',
    title: 'The release cannot be written',
    message: (facts: { path: string; reason: string }) => `${facts.path} cannot be written: ${facts.reason}.`,
    hint: () => 'See to it that the content folder can be written to.',
    explanation: 'A release is kept in the folder releases/ of the content, beside what it was made from.',
  }),
};
