/** SL101-: the files themselves, the syntax of YAML and CSV, and the shape of what they hold. */
import { define } from '../define.ts';
import { list } from '../list.ts';
import { didYouMean } from '../nearest.ts';

type Nothing = Record<never, never>;

export const readingCodes = {
  SL101: define({
    severity: 'error',
    title: 'A file is missing',
    message: (facts: { path: string }) =>
      `The content folder has no file ${facts.path}, and the book cannot be made without it.`,
    hint: (facts) => `Add ${facts.path}. The guide in the content folder shows what it holds.`,
    explanation: 'A few files are needed for every book, because all the others refer to them.',
  }),
  SL102: define({
    severity: 'error',
    title: 'There is no panel',
    message: (_facts: Nothing) => 'The content folder has no file in panels/, so that the book would describe nothing.',
    hint: () => 'Add a file such as panels/exterior-lights.yaml with the controls and lights of one panel.',
    explanation: 'Controls, lights, signs, annunciators and messages are defined panel by panel.',
  }),
  SL103: define({
    severity: 'error',
    title: 'A file that has no place',
    message: (facts: { path: string; nearest?: string | undefined }) => `Nothing reads a file called ${facts.path}.`,
    hint: (facts) =>
      facts.nearest === undefined
        ? 'Rename it, or take it out of the content folder.'
        : `Rename it to ${facts.nearest} if that is what it is.`,
    explanation: 'A file that nothing reads would leave its author believing that the book says what it says.',
  }),
  SL104: define({
    severity: 'error',
    title: 'The file is empty',
    message: (_facts: Nothing) => 'There is nothing in this file.',
    hint: () => 'Fill it in, or delete it if the book does not need it.',
    explanation: 'An empty file is mostly one that was not saved.',
  }),
  SL105: define({
    severity: 'error',
    title: 'Several documents in one file',
    message: (_facts: Nothing) =>
      'A line of three dashes begins a second document in this file, which would not be read.',
    hint: () => 'Take the line out, or move what follows into a file of its own.',
    explanation: 'Each file holds one YAML document.',
  }),
  SL106: define({
    severity: 'error',
    title: 'A tab at the start of a line',
    message: (_facts: Nothing) => 'This line is indented with a tab, which YAML does not allow.',
    hint: () => 'Indent with spaces, two for each level.',
    explanation: 'Editors show tabs with different widths, so YAML takes the level of a line from spaces only.',
  }),
  SL107: define({
    severity: 'error',
    title: 'A quotation mark is not closed',
    message: (facts: { quote: string }) => `The text opens with a ${facts.quote} quotation mark and never closes it.`,
    hint: () => 'Close it at the end of the text, or take the opening one out.',
    explanation: 'Everything up to the next quotation mark is taken as text, so that the lines below are swallowed.',
  }),
  SL108: define({
    severity: 'error',
    title: 'Wrong indentation',
    message: (_facts: Nothing) => 'This line does not line up with those around it.',
    hint: () => 'Indent it like the other keys of the same level, with spaces.',
    explanation: 'In YAML the indentation says what belongs to what.',
  }),
  SL109: define({
    severity: 'error',
    title: 'A colon inside a text',
    message: (_facts: Nothing) => 'A colon followed by a space begins a new key, but this stands inside a text.',
    hint: () => 'Put the whole text in quotation marks.',
    explanation: 'YAML takes "word: " as a key, wherever it stands.',
  }),
  SL110: define({
    severity: 'error',
    title: 'A key is given twice',
    message: (facts: { key: string }) =>
      `"${facts.key}" is given twice at the same level, and only one of the two could count.`,
    hint: () => 'Take one of them out, or give it another name.',
    explanation: 'The tool never picks one of two values by itself.',
  }),
  SL111: define({
    severity: 'error',
    title: 'Something of YAML that is not used here',
    message: (facts: { feature: string }) => `This is ${facts.feature}, which content files do not use.`,
    hint: () => 'Write the value out where it is needed.',
    explanation:
      'Anchors, aliases, merge keys, tags and directives make files hard to read aloud and hide where a fact stands.',
  }),
  SL112: define({
    severity: 'error',
    title: 'A text begins with a special character',
    message: (facts: { character: string }) => `A text cannot begin with "${facts.character}" unless it is quoted.`,
    hint: () => 'Put the text in quotation marks.',
    explanation: 'Some characters have a meaning of their own at the start of a YAML value.',
  }),
  SL113: define({
    severity: 'error',
    title: 'A bracket is not closed',
    message: (facts: { open: string; close: string }) => `This "${facts.open}" is never closed by "${facts.close}".`,
    hint: (facts) => `Put "${facts.close}" where it should end.`,
    explanation: 'Short lists and short groups of keys stand in brackets, which must be closed.',
  }),
  SL114: define({
    severity: 'error',
    title: 'A backslash that means nothing',
    message: (facts: { escape: string }) => `"${facts.escape}" has no meaning in a text in double quotation marks.`,
    hint: () => 'Write two backslashes for one, or use single quotation marks.',
    explanation: 'In double quotation marks a backslash begins a special character.',
  }),
  SL115: define({
    severity: 'error',
    title: 'YAML that cannot be read',
    message: (_facts: Nothing) => 'The file cannot be read from here on.',
    hint: () => 'Compare this line and the one above with the examples in the guide of the content folder.',
    explanation: 'The line breaks a rule of YAML for which there is no message of its own.',
  }),
  SL116: define({
    severity: 'error',
    title: 'A key that is no text',
    message: (_facts: Nothing) => 'A key must be a word, not a list or a group of keys.',
    hint: () => 'Write a plain word before the colon.',
    explanation: 'Keys name things, so they are plain words.',
  }),
  SL117: define({
    severity: 'error',
    title: 'A colon is missing',
    message: (_facts: Nothing) => 'This line should give a key and its value, but has no colon.',
    hint: () => 'Write "key: value", with a space after the colon.',
    explanation: 'Between other keys of the same level, each line must be a key with a value.',
  }),
  SL120: define({
    severity: 'error',
    title: 'An unknown key',
    message: (facts: { key: string; known: readonly string[]; nearest?: string | undefined }) =>
      `"${facts.key}" means nothing here. ${facts.known.length > 0 ? `What can stand here: ${list([...facts.known], 'and')}.` : ''}`.trim(),
    // The comma of "logo in (AUTO, ON)" ends the value inside braces, and "ON)" is left over as a key.
    hint: (facts) =>
      facts.key.endsWith(')')
        ? 'A comma ends a value inside braces: put the whole expression in quotation marks.'
        : `${didYouMean(facts.nearest)}Correct the key, or take it out.`,
    explanation: 'A key that nothing reads would be left out of the book without a word.',
  }),
  SL121: define({
    severity: 'error',
    title: 'A key is missing',
    message: (facts: { key: string; owner?: string | undefined }) =>
      facts.owner === undefined ? `"${facts.key}" is missing.` : `"${facts.owner}" has no "${facts.key}".`,
    hint: (facts) => `Add "${facts.key}:" with its value.`,
    explanation: 'The guide in the content folder says which keys may be left out.',
  }),
  SL122: define({
    severity: 'error',
    title: 'Another kind of value is wanted',
    message: (facts: { key: string; wanted: string; found: string }) =>
      `"${facts.key}" must be ${facts.wanted}, and here stands ${facts.found}.`,
    hint: (facts) => `Write ${facts.wanted}.`,
    explanation: 'Each key takes one kind of value; the guide in the content folder has an example of each.',
  }),
  SL123: define({
    severity: 'error',
    title: 'A text must be quoted',
    message: (facts: { key: string; text: string }) =>
      `"${facts.key}" is a text, but YAML reads ${facts.text} as a number or as true or false.`,
    hint: (facts) => `Write "${facts.text}" with the quotation marks.`,
    explanation: 'Unquoted, some words and all numbers lose how they were written: 1.10 would become 1.1.',
  }),
  SL124: define({
    severity: 'error',
    title: 'A value is missing',
    message: (facts: { key: string }) => `"${facts.key}" has no value.`,
    hint: () => 'Fill it in, or take the key out.',
    explanation: 'A key without a value says nothing.',
  }),
  SL125: define({
    severity: 'error',
    title: 'Written in another way than wanted',
    message: (facts: { text: string; form: string }) => `"${facts.text}" is not as it must be: ${facts.form}.`,
    hint: () => 'Correct how it is written.',
    explanation: 'Ids and tags have a fixed way of writing, so that addresses and references stay readable.',
  }),
  SL126: define({
    severity: 'error',
    title: 'Not a date',
    message: (facts: { text: string }) => `"${facts.text}" is not a date of the calendar.`,
    hint: () => 'Write year, month and day: 2026-10-01.',
    explanation: 'Dates are written as in ISO 8601, so that no reader takes the month for the day.',
  }),
  SL128: define({
    severity: 'error',
    title: 'Not one of the choices',
    message: (facts: { key: string; value: string; known: readonly string[]; nearest?: string | undefined }) =>
      `"${facts.key}" cannot be "${facts.value}". It can be ${list([...facts.known])}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of the choices.`,
    explanation: 'Some keys take one of a few words.',
  }),
  SL140: define({
    severity: 'error',
    title: 'CSV that cannot be read',
    message: (_facts: { quote: string }) => 'A quotation mark stands in the middle of a cell.',
    hint: () => 'Put the whole cell in quotation marks and double those inside it, or take them out.',
    explanation: 'In a CSV file (RFC 4180) a cell is quoted as a whole or not at all.',
  }),
  SL141: define({
    severity: 'error',
    title: 'Cells are not set apart by commas',
    message: (facts: { separator: string }) => `The cells of this file are set apart by ${facts.separator}.`,
    hint: () => 'Save the file as CSV with commas.',
    explanation: 'Some spreadsheets save CSV files with other separators, depending on the language of the machine.',
  }),
  SL142: define({
    severity: 'error',
    title: 'A column is given twice',
    message: (facts: { column: string }) => `There are two columns called "${facts.column}".`,
    hint: () => 'Take one of them out, or correct its name.',
    explanation: 'Only one of two columns could count, and the tool never picks one by itself.',
  }),
  SL143: define({
    severity: 'error',
    title: 'A line has too many or too few cells',
    message: (facts: { found: number; expected: number }) =>
      `This line has ${facts.found} cells; the first line has ${facts.expected} columns.`,
    hint: () => 'Add the missing commas, or quote a cell that has a comma in it.',
    explanation: 'Each line has one cell for each column, even where a cell is empty.',
  }),
  SL144: define({
    severity: 'error',
    title: 'A release that cannot be read',
    message: (facts: { reason: string }) => `This is no release of a book: ${facts.reason}.`,
    hint: () => 'Take the file back from where its earlier versions are kept, or delete it.',
    explanation:
      'The files in releases/ are written by "switchleaf release", one for each revision of the book, and are never edited. The book says what has changed since.',
  }),
  SL145: define({
    severity: 'error',
    title: 'A release of a newer Switchleaf',
    message: (facts: { format: number; known: number }) =>
      `This release is written in format ${facts.format}; this Switchleaf reads format ${facts.known} and older ones.`,
    hint: () => 'Use the Switchleaf that wrote it, or a newer one.',
    explanation: 'A release stays readable for all later versions of the tool, but not for earlier ones.',
  }),
  SL146: define({
    severity: 'error',
    title: 'A release that was changed',
    message: (_facts: Nothing) =>
      'What this file holds is not what "switchleaf release" wrote: its checksum is another.',
    hint: () => 'Take the file back from where its earlier versions are kept, or delete it.',
    explanation:
      'A release is compared with the book as it is. Had it been changed by hand, or cut short, the book would tell of changes that nobody made, and leave others out.',
  }),
  SL147: define({
    severity: 'error',
    title: 'Two releases of one revision',
    message: (facts: { revision: string; path: string }) =>
      `Revision ${facts.revision} is released by ${facts.path} already.`,
    hint: () => 'Delete the one that readers never had.',
    explanation: 'A revision is what readers have in their hands; there is one of each.',
  }),
  SL148: define({
    severity: 'error',
    title: 'A release that is later than the book',
    message: (facts: { revision: string; date: string; book: string }) =>
      `Revision ${facts.revision} was released as of ${facts.date}, but the book is as of ${facts.book}.`,
    hint: () => 'Set "date" in book.yaml to the date of the revision that is being made.',
    explanation: 'The book tells what has changed since its earlier revisions, so none of these can be later.',
  }),
  SL149: define({
    severity: 'warning',
    title: 'The revision has been released',
    message: (facts: { revision: string; path: string }) =>
      `The content has changed since ${facts.path} was written, but it is still called revision ${facts.revision}.`,
    hint: (facts) =>
      `Give the book a new revision and date in book.yaml. If nobody has revision ${facts.revision} yet, delete ${facts.path} and release it again.`,
    explanation:
      'Two books that say different things must not have one name: a reader could not tell which of them is in hand.',
  }),
};
